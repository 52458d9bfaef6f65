"""Where a run is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from torquebook.jobs.journal import Entry
from torquebook.jobs.running import State, closes, trail
from torquebook.jobs.steps import SIGN, RunStep, steps_of

if TYPE_CHECKING:
    from torquebook.jobs.model import WorkedJob


def journal(*facts: dict[str, Any]) -> list[Entry]:
    """Return entries of some facts."""
    return [Entry(at, one, "", "") for at, one in enumerate(facts, 1)]


def done(step: RunStep, **facts: Any) -> dict[str, Any]:
    """Return the facts that close a step."""
    return {"what": "done", "step": step.id, "asks": step.asks, **facts}


@pytest.mark.parametrize(
    ("facts", "whether"),
    [
        ({"what": "bolt"}, True),
        ({"what": "skip", "reason": "x"}, True),
        ({"what": "gate", "ok": True}, True),
        ({"what": "gate", "ok": False}, False),
        ({"what": "reading", "ok": False, "reason": "seen"}, True),
        ({"what": "reading"}, False),
        ({"what": "pause"}, False),
        ({}, False),
    ],
)
def test_what_closes_a_step(facts: dict[str, Any], whether: bool) -> None:
    """What was done does, and what passed or was gone on with."""
    assert closes(facts) is whether


def test_the_first_open_step_is_the_current_one(stretch: WorkedJob) -> None:
    """Whatever else is closed, the work goes on at the first step that is not."""
    steps = steps_of(stretch)
    assert State(steps, []).current == steps[0]
    assert State(steps, []).before is None
    state = State(steps, journal(done(steps[0]), done(steps[2])))
    assert state.current == steps[1]
    assert state.before == steps[0]
    every = State(steps, journal(*map(done, steps)))
    assert every.current is None
    assert every.before == steps[-1]
    assert every.failed is None
    assert every.blocking == ()


def test_what_no_longer_fits_is_open_again(stretch: WorkedJob) -> None:
    """A step that asks for something else now, and one that is gone, are named."""
    steps = steps_of(stretch)
    other = {**done(steps[1]), "asks": "18 N.m"}
    gone = {"what": "bolt", "step": "joints/old", "asks": "1 N.m"}
    state = State(steps, journal(done(steps[0]), other, gone))
    assert state.current == steps[1]
    assert [entry.facts["asks"] for entry in state.unfit] == ["18 N.m", "1 N.m"]


def test_a_signature_holds_for_what_it_was_put_under(stretch: WorkedJob) -> None:
    """Where a step changed since, it is open, and the signature too."""
    steps = steps_of(stretch)
    facts = [done(step) for step in steps[:-1]]
    sign = {"what": "sign", "step": SIGN}
    assert State(steps, journal(*facts, sign)).current is None
    facts[2]["asks"] = "other"
    state = State(steps, journal(*facts, sign))
    assert [step.id for step in state.open] == [steps[2].id, SIGN]


def test_a_reading_out_of_limits_takes_the_signature_back() -> None:
    """A later failure counts."""
    found = trail(journal({"what": "sign", "step": SIGN}, {"what": "gate", "step": "g"}))
    assert found.signed is None
    assert set(found.failed) == {"g"}


def test_rechecks_are_due_until_ticked() -> None:
    """Ticked they are gone; opened again with their step they are due once more."""
    one = {"id": "a: retorque", "name": "a", "what": "retorque", "after": "50 km"}
    closed = {"what": "bolt", "step": "a", "opens": [one, "no mapping"]}
    ticked = {"what": "recheck", "step": "a: retorque"}
    back = {"what": "back", "step": "a"}
    assert [due.id for due in trail(journal(closed)).due] == ["a: retorque"]
    assert trail(journal(closed, ticked)).due == ()
    assert [due.id for due in trail(journal(closed, ticked, back, closed)).due] == ["a: retorque"]
    assert trail(journal(back, {"what": "bolt", "step": "b", "opens": None})).due == ()


def test_bolts_of_another_joint_do_not_count_as_read(stretch: WorkedJob) -> None:
    """Only the bolts of the last angle just before are looked at."""
    steps = steps_of(stretch)
    finish = next(step for step in steps if step.kind == "finish")
    bolts = [step for step in steps if step.kind == "bolt" and step.limits]
    facts = [done(step, value=70.0) for step in bolts]
    assert len(State(steps, journal(*facts)).read_at_bolts(finish)) == 2
    assert State(steps, journal(facts[0])).read_at_bolts(finish) == ()
    assert State([finish], []).read_at_bolts(finish) == ()
