"""A run of a job: where it stands by its journal, and what an answer at a step does."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from torquebook import units
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from torquebook.jobs.journal import Entry
    from torquebook.jobs.steps import Reading, RunStep

#: What makes a step done, and what opens it again.
DONE: Final = frozenset({"done", "reading", "skip"})
BACK: Final = "back"
#: A reading so many times beyond its limit is no reading.
ABSURD: Final = 50.0
_KINDS: Final = {"mm": "length", "N.m": "torque", "deg": "angle", "lbf.ft": "torque"}
_KINDS_MORE: Final = {"lbf.in": "torque", "kgf.m": "torque", "N": "force"}
FAR_LESS: Final = (
    "far less than it should be: the thread strips or the bolt necks; take it out and look"
)
FAR_MORE: Final = "far more than it should be: dry threads, or a bolt that bottoms; take it out"
_YES: Final = frozenset({"y", "yes"})
_NO: Final = frozenset({"n", "no"})


@dataclass(frozen=True)
class Outcome:
    """What an answer does.

    Parameters
    ----------
    facts : mapping of str to Any, or None
        What goes into the journal; None where nothing does.
    said : str
        What the person is told; empty where all is well.
    pauses : bool
        Whether the run ends here for now.
    """

    facts: Mapping[str, Any] | None = None
    said: str = ""
    pauses: bool = False


@dataclass(frozen=True)
class State:
    """Where a run stands.

    Parameters
    ----------
    step : RunStep or None
        The one that is next; None where all are done.
    done : int
        How many are.
    of : int
    failed : str
        What was found wrong at this step, empty where nothing was.
    before : RunStep or None
        The one that was done last.
    """

    step: RunStep | None
    done: int
    of: int
    failed: str = ""
    before: RunStep | None = None


def state_of(steps: Sequence[RunStep], entries: Iterable[Entry]) -> State:
    """Return where a run stands by its journal.

    Parameters
    ----------
    steps : sequence of RunStep
    entries : iterable of Entry
    """
    by_id = {step.id: step for step in steps}
    done: dict[str, None] = {}
    failed: dict[str, str] = {}
    for entry in entries:
        what, name = entry.facts.get("what"), str(entry.facts.get("step", ""))
        if what in DONE:
            done.pop(name, None)
            done[name] = None
            failed.pop(name, None)
        elif what == BACK:
            done.pop(name, None)
        elif what == "failed":
            failed[name] = str(entry.facts.get("said", ""))
    kept = [name for name in done if name in by_id]
    step = next((step for step in steps if step.id not in done), None)
    last = by_id[kept[-1]] if kept else None
    return State(step, len(kept), len(steps), failed.get(step.id, "") if step else "", last)


def answered(state: State, text: str) -> Outcome:
    """Return what an answer at the step of a state does.

    Parameters
    ----------
    state : State
        With a step.
    text : str
        As typed: empty is done; a reading; ``y`` or ``n``; ``b``, ``s REASON``, ``p``.

    Raises
    ------
    NotUnderstood
        If it cannot be taken; says what is wanted.
    """
    step = state.step
    if step is None:
        raise LookupError("a run that is done has no step to answer")
    word, _, rest = text.strip().partition(" ")
    if word.casefold() in {"p", "q"} and not rest:
        return Outcome(_facts("pause", step), "paused; the same command goes on here", pauses=True)
    if word.casefold() == "b" and not rest:
        return _back(state)
    if word.casefold() == "s":
        return _skipped(state, step, rest.strip())
    if step.asks:
        return _decided(step, word.casefold())
    if step.reading is not None:
        return _read(step, step.reading, text.strip())
    if text.strip():
        raise NotUnderstood(text.strip(), "nothing is typed at this step but Enter, b, s, p or ?")
    return Outcome(_facts("done", step))


def _facts(what: str, step: RunStep, **more: Any) -> dict[str, Any]:
    return {"what": what, "step": step.id, "title": step.title, "big": step.big, **more}


def _back(state: State) -> Outcome:
    if state.before is None:
        return Outcome(None, "this is the first step")
    return Outcome(_facts(BACK, state.before), f"back to {state.before.title}")


def _skipped(state: State, step: RunStep, reason: str) -> Outcome:
    if state.failed and step.blocks:
        return Outcome(None, f"this gate blocks: {state.failed}; mend it and read again, or pause")
    if not reason:
        raise NotUnderstood("s", "a step is left out only with a reason", ("s no gauge at hand",))
    return Outcome(_facts("skip", step, why=reason), "left out, with your reason")


def _decided(step: RunStep, word: str) -> Outcome:
    if word in _YES:
        return Outcome(_facts("done", step, value="yes"))
    if word not in _NO:
        raise NotUnderstood(word, "this gate is answered by yes or no", ("y", "n"))
    said = "no"
    if step.blocks:
        return Outcome(_facts("failed", step, said=said), "the work does not go on until it is yes")
    return Outcome(_facts("failed", step, said=said), "leave it out with a reason: s REASON")


def _read(step: RunStep, reading: Reading, text: str) -> Outcome:
    value = read_value(reading, text)
    shown = f"{value:g} {reading.unit}"
    low, high = reading.low, reading.high
    less, more = low is not None and value < low, high is not None and value > high
    if not (less or more):
        return Outcome(_facts("reading", step, value=value, unit=reading.unit))
    if step.kind == "finish":
        said = f"{shown}: {FAR_LESS if less else FAR_MORE}"
        return Outcome(_facts("reading", step, value=value, unit=reading.unit, said=said), said)
    limit = f"at least {low:g}" if less else f"at most {high:g}"
    said = f"{shown}, and it has to be {limit} {reading.unit}"
    facts = _facts("failed", step, value=value, unit=reading.unit, said=said)
    mend = "the work stops here" if step.blocks else "leave it out with a reason: s REASON"
    return Outcome(facts, f"{said}; {mend}")


def read_value(reading: Reading, text: str) -> float:
    """Return a reading in its unit; a bare number is in that unit.

    Raises
    ------
    NotUnderstood
        If it is no number, of another kind, or cannot be a reading at all.
    """
    if not text:
        what = f"type the reading, in {reading.unit}"
        raise NotUnderstood("", what, ())
    try:
        value = float(text.replace(",", ".") if text.count(",") == 1 else text)
    except ValueError:
        value = _with_unit(reading, text)
    if not abs(value) < float("inf"):
        raise NotUnderstood(text, "no number", ())
    limits = [abs(end) for end in (reading.low, reading.high) if end]
    if limits and abs(value) > ABSURD * max(limits):
        raise NotUnderstood(text, f"that cannot be a reading in {reading.unit}; read again", ())
    return value


def _with_unit(reading: Reading, text: str) -> float:
    kind = _KINDS.get(reading.unit) or _KINDS_MORE.get(reading.unit)
    if kind is None:
        number = text.removesuffix(reading.unit).strip()
        try:
            return float(number.replace(",", "."))
        except ValueError:
            raise NotUnderstood(text, f"a number in {reading.unit} belongs here", ()) from None
    given = units.read(text, kind)  # type: ignore[arg-type]
    return units.convert(given, reading.unit).value
