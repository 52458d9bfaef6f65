"""What a line does at a step."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from torquebook.jobs.answering import Asking, Reply, respond, signature
from torquebook.jobs.journal import Entry, entry_after
from torquebook.jobs.running import State
from torquebook.jobs.steps import RunStep, steps_of

if TYPE_CHECKING:
    from torquebook.jobs.model import WorkedJob


class Desk:
    """Steps, and a journal in memory."""

    def __init__(self, job: WorkedJob) -> None:
        self.steps = steps_of(job)
        self.entries: list[Entry] = []
        self.asking = Asking()

    @property
    def state(self) -> State:
        """Where it is."""
        return State(self.steps, self.entries)

    @property
    def step(self) -> RunStep:
        """The open step."""
        assert self.state.current is not None
        return self.state.current

    def type(self, *lines: str) -> Reply:
        """Type lines, and return what the last one came to."""
        for line in lines:
            reply = respond(self.state, line, self.asking)
            self.asking = reply.asking
            if reply.facts is not None:
                last = self.entries[-1] if self.entries else None
                self.entries.append(entry_after(last, reply.facts))
        return reply

    def at(self, kind: str, nth: int = 1) -> RunStep:
        """Go on to a step of a kind."""
        wanted = [step for step in self.steps if step.kind == kind][nth - 1]
        good = {"finish": "100", "runout": "0.05", "gap": "0.7"}
        while self.step != wanted:
            enter = "y" if self.step.blocks else ""
            self.type(good.get(self.step.kind) or good.get(self.step.name, enter))
        return wanted


@pytest.fixture
def desk(stretch: WorkedJob) -> Desk:
    """Return a run that has just begun."""
    return Desk(stretch)


@pytest.mark.parametrize("line", ["", "  ", "\n"])
def test_enter_is_done(desk: Desk, line: str) -> None:
    """An empty line closes a step that needs no reading."""
    first = desk.step
    facts = desk.type(line).facts
    assert facts is not None
    assert (facts["what"], facts["step"], facts["asks"]) == ("done", first.id, first.asks)
    assert desk.step.kind == "bolt"
    bolt = desk.type(line).facts
    assert bolt is not None
    assert (bolt["what"], bolt["wrench"], bolt["setting"]) == ("bolt", "click 5-25", "20 N.m")


@pytest.mark.parametrize("key", ["p", "q", "P", "quit", "pause"])
def test_pause_leaves_the_run(desk: Desk, key: str) -> None:
    """It is an entry, and closes nothing."""
    reply = desk.type(key)
    assert reply.over
    assert reply.facts is not None
    assert reply.facts["what"] == "pause"
    assert desk.step == desk.steps[0]


@pytest.mark.parametrize("key", ["?", "h", "HELP"])
def test_help_changes_nothing(desk: Desk, key: str) -> None:
    """The keys are shown, and what was asked is still asked."""
    desk.type("s")
    reply = desk.type(key)
    assert (reply.help, reply.facts, reply.asking) == (True, None, Asking(skip=True))


def test_back_opens_the_step_before_by_an_entry(desk: Desk) -> None:
    """Nothing is deleted; at the first step there is nothing before it."""
    assert desk.type("b").says == "this is the first step"
    desk.type("", "")
    reply = desk.type("b")
    assert reply.facts == {
        "what": "back", "step": desk.steps[1].id, "of": "pump cover", "spot": desk.steps[1].spot,
    }  # fmt: skip
    assert desk.step == desk.steps[1]
    desk.type("back")
    assert desk.step == desk.steps[0]
    assert len(desk.entries) == 4


def test_skip_only_with_a_reason(desk: Desk) -> None:
    """Without words it is asked, b goes back, and the reason is kept."""
    desk.type("")
    assert desk.type("s").asking.skip
    assert "why" in desk.type("").says
    assert "no reason" in desk.type("x").says
    assert "no reason" in desk.type("7").says
    assert "at most 500" in desk.type("a" * 501).says
    assert desk.type("b") == Reply(says="not skipped")
    reply = desk.type("s", "no socket fits")
    assert reply.facts is not None
    assert (reply.facts["what"], reply.facts["reason"]) == ("skip", "no socket fits")
    assert desk.step == desk.steps[2]
    assert [e.facts["step"] for e in desk.state.skipped] == [desk.steps[1].id]


def test_skip_with_its_reason_in_one_line(desk: Desk) -> None:
    """``s`` and words behind it."""
    facts = desk.type("s the thread is torn").facts
    assert facts is not None
    assert facts["reason"] == "the thread is torn"


def test_a_reading_where_none_is_due_is_asked_back(desk: Desk) -> None:
    """It is not taken for done."""
    reply = desk.type("x" * 60)
    assert reply.facts is None
    assert f'"{"x" * 40}...": no reading is due here' in reply.says


@pytest.mark.parametrize("yes", ["y", "YES"])
def test_a_question_is_answered(desk: Desk, yes: str) -> None:
    """Yes closes one that must pass; anything else is asked back, and so is Enter alone."""
    desk.at("gate")
    assert "y for yes" in desk.type("maybe").says
    assert desk.type("").facts is None
    facts = desk.type(yes).facts
    assert facts is not None
    assert (facts["what"], facts["ok"]) == ("gate", True)
    assert desk.step.name == "runout"


def test_a_no_blocks_until_it_is_a_yes(desk: Desk) -> None:
    """After a no, Enter is not enough, it cannot be skipped, and no reason helps."""
    gate = desk.at("gate")
    reply = desk.type("n")
    assert "the work stops here" in reply.says
    assert desk.state.failed is not None
    assert "answer y" in desk.type("").says
    assert "cannot be skipped" in desk.type("s").says
    assert "cannot be skipped" in desk.type("s it is fine").says
    assert "y for yes" in desk.type("it is fine").says
    assert desk.step == gate
    desk.type("y")
    assert desk.step.name == "runout"


def test_a_gate_out_of_its_limit_blocks(desk: Desk) -> None:
    """The reading is an entry, and the work does not go on before another one passes."""
    gate = desk.at("gate", 2)
    assert "a reading is due: at most 0.1 mm" in desk.type("").says
    reply = desk.type("0,2 mm")
    assert reply.facts is not None
    assert (reply.facts["ok"], reply.facts["value"], reply.facts["unit"]) == (False, 0.2, "mm")
    assert "0.2 mm is above the limit" in reply.says
    assert "the work stops here" in reply.says
    assert "a reading is due" in desk.type("").says
    assert desk.type("but it is fine").facts is None
    assert desk.step == gate
    assert desk.type("0.08").says == "0.08 mm is within its limits"
    assert desk.step.name == "gap"


def test_a_gate_that_does_not_block_goes_on_with_a_reason(desk: Desk) -> None:
    """Measured again, or gone on with words; both stay in the journal."""
    desk.at("gate", 3)
    assert "type a reason to go on" in desk.type("0.3").says
    assert desk.type("0.4 mm").facts is not None
    assert "at most 500" in desk.type("a" * 501).says
    reply = desk.type("set after the first run")
    assert reply.facts is not None
    assert reply.facts["reason"] == "set after the first run"
    assert (reply.facts["value"], reply.facts["ok"]) == (0.4, False)
    assert desk.step.kind == "sign"


def test_nonsense_is_believed_only_when_typed_again(desk: Desk) -> None:
    """A runout of 10 mm is asked back; another reading between starts afresh."""
    desk.at("gate", 2)
    assert "100 times the limit; type it once more" in desk.type("10").says
    assert desk.type("11").facts is None
    assert desk.type("abc").facts is None
    assert desk.type("10").facts is None
    facts = desk.type("10").facts
    assert facts is not None
    assert (facts["value"], facts["ok"]) == (10, False)


@pytest.mark.parametrize(
    ("reading", "meaning"),
    [("30", "a thread strips or a bolt necks: take it out"), ("300", "dry, or it has bottomed")],
)
def test_a_finishing_torque_out_of_its_window_says_what_it_means(
    desk: Desk, reading: str, meaning: str
) -> None:
    """Far less and far more mean different things; a reason or another reading goes on."""
    desk.at("finish")
    reply = desk.type(reading)
    assert meaning in reply.says
    assert reply.facts is not None
    assert (reply.facts["what"], reply.facts["ok"]) == ("reading", False)
    assert desk.step.kind == "finish"
    desk.type("looked at, threads are whole")
    assert desk.step.kind == "mark"


def test_readings_at_all_bolts_stand_for_the_joint(desk: Desk) -> None:
    """Where each bolt of the angle was read, Enter takes these readings."""
    desk.at("bolt", 3)
    desk.type("30")
    assert "measure again, or type a reason" in desk.type("").says
    desk.type("100", "105 N.m")
    assert desk.step.kind == "finish"
    facts = desk.type("").facts
    assert facts is not None
    assert (facts["what"], facts["ok"], facts["read"]) == ("reading", True, "as read at 2 bolts")


def test_a_bolt_left_unread_makes_the_reading_due(desk: Desk) -> None:
    """With one bolt missing, Enter is not enough."""
    desk.at("bolt", 3)
    desk.type("100", "")
    assert "a reading is due" in desk.type("").says


def test_the_last_step_of_a_joint_opens_its_rechecks(desk: Desk) -> None:
    """They are due once it is closed, skipped or not, and go when it is opened again."""
    desk.at("mark")
    assert desk.state.trail.due == ()
    desk.type("s", "no paint here")
    assert [one.what for one in desk.state.trail.due] == ["retorque", "paint mark"]
    desk.type("b")
    assert desk.state.trail.due == ()


def test_a_name_signs_it_off(desk: Desk) -> None:
    """Only words do, and then no step is open."""
    desk.at("sign")
    for line in ("", "7", "s", "n" * 501):
        assert "your name signs it off" in desk.type(line).says
    assert desk.type("?").help
    reply = desk.type("A. Miller")
    assert reply.facts == {**signature(desk.steps[-1], "A. Miller")}
    assert desk.state.current is None
    with pytest.raises(LookupError):
        desk.type("")


def test_back_from_the_end_takes_the_signature_along(desk: Desk) -> None:
    """What is opened again after signing is no longer signed."""
    desk.at("sign")
    desk.type("A. Miller")
    facts: dict[str, Any] = {"what": "back", "step": desk.steps[0].id}
    desk.entries.append(entry_after(desk.entries[-1], facts))
    assert desk.state.trail.signed is None
    assert desk.step == desk.steps[0]
