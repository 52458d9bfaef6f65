"""What a typed line does at a step: done, a reading, back, skip, pause, or asked back."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import NotUnderstood
from torquebook.jobs.readings import doubt, read_reading, verdict
from torquebook.numerals import number_text

if TYPE_CHECKING:
    from torquebook.jobs.journal import Entry
    from torquebook.jobs.readings import Reading
    from torquebook.jobs.running import State
    from torquebook.jobs.steps import Limits, RunStep

KEYS: Final = {
    "b": "back", "back": "back",
    "s": "skip", "skip": "skip",
    "p": "pause", "pause": "pause",
    "q": "pause", "quit": "pause",
    "?": "help", "h": "help", "help": "help",
}  # fmt: skip
"""What is typed instead of a reading, and what it means."""
FAR_LESS: Final = "a thread strips or a bolt necks: take it out and look at both"
FAR_MORE: Final = "it is dry, or it has bottomed in its hole: take it out and look"
"""What a finishing torque far below or above its window means."""
LONGEST: Final = 500
"""The longest reason that is taken [characters]."""
_WORD: Final = re.compile(r"[^\W\d_]{2}")
_NUMBER: Final = re.compile(r"[-+−–.,]?\s*\d")
_DONE: Final = {"bolt": "bolt", "gate": "gate", "finish": "reading", "sign": "sign"}
"""What the entry of a kind of step is; the others are ``done``."""


@dataclass(frozen=True)
class Asking:
    """What the line before left open.

    Parameters
    ----------
    skip : bool
        Whether the reason for skipping is due.
    doubt : str
        A reading that was asked back; typed once more it is believed.
    """

    skip: bool = False
    doubt: str = ""


@dataclass(frozen=True)
class Reply:
    """What a line comes to.

    Parameters
    ----------
    facts : dict or None
        What to put in the journal; None if nothing was done.
    says : str
        What to tell.
    asking : Asking
        What the next line is asked for.
    over : bool
        Whether the run is left.
    help : bool
        Whether the keys are to be explained.
    """

    facts: dict[str, Any] | None = None
    says: str = ""
    asking: Asking = field(default_factory=Asking)
    over: bool = False
    help: bool = False


def respond(state: State, line: str, asking: Asking) -> Reply:
    """Return what a line does at the current step.

    Parameters
    ----------
    state : State
        With a step that is open.
    line : str
    asking : Asking
        What the reply before left open.
    """
    step = state.current
    if step is None:
        raise LookupError("no step is open")
    text = line.strip()
    key = KEYS.get(text.casefold(), "")
    if key == "pause":
        return Reply(passing(step, "pause"), over=True)
    if key == "help":
        return Reply(asking=asking, help=True)
    if asking.skip:
        return _skip(step, text)
    if key == "back":
        return _back(state)
    word, _, reason = text.partition(" ")
    if KEYS.get(word.casefold()) == "skip" and step.kind != "sign":
        return _skip(step, reason.strip())
    return _answer(state, step, text, asking)


def _answer(state: State, step: RunStep, text: str, asking: Asking) -> Reply:
    """Return what a line does that is no key."""
    if step.kind == "sign":
        return _sign(step, text)
    if state.failed and not step.blocks and _is_reason(text) and not _NUMBER.match(text):
        return _gone_on(step, state.failed, text)
    if not text:
        return _enter(state, step)
    if step.limits:
        return _reading(step, step.limits, text, asking)
    if step.kind == "gate":
        return _question(step, text)
    return Reply(says=f'"{_short(text)}": no reading is due here; Enter when it is done')


def _gone_on(step: RunStep, failed: Entry, reason: str) -> Reply:
    """Return what a reason does where a check did not pass that does not block."""
    if len(reason) > LONGEST:
        return Reply(says=_too_long(reason))
    kept = {
        key: failed.facts[key] for key in ("value", "unit", "typed", "ok") if key in failed.facts
    }
    return Reply(_closing(step, **kept, reason=reason), f"gone on: {reason}")


def _enter(state: State, step: RunStep) -> Reply:
    """Return what an empty line does: done, where no reading is due."""
    if state.failed and not step.must:
        what = "measure again" if step.limits else "answer y once it is right"
        go = "" if step.blocks else ", or type a reason to go on"
        return Reply(says=f"the last answer stands against it: {what}{go}")
    if step.must and step.limits:
        if step.kind == "finish" and (read := state.read_at_bolts(step)):
            said = f"as read at {len(read)} {'bolt' if len(read) == 1 else 'bolts'}"
            return Reply(_closing(step, ok=True, read=said), said)
        says = f"a reading is due: {step.limits.shown}"
        return Reply(says=says)
    if step.kind == "gate" and step.blocks:
        # One Enter too many behind a row of bolts is no answer.
        return Reply(says="this check must pass: y if it does, n if it does not")
    return Reply(_closing(step, ok=True) if step.kind == "gate" else _closing(step))


def _question(step: RunStep, text: str) -> Reply:
    """Return what an answer to a question does."""
    word = text.casefold()
    if word in {"y", "yes"}:
        return Reply(_closing(step, ok=True))
    if word in {"n", "no"}:
        facts = _facts(step, "gate", ok=False)
        return Reply(facts, _stopped(step, "the answer is no"))
    yes = "y" if step.blocks else "Enter or y"
    return Reply(says=f'"{_short(text)}": {yes} for yes, n for no')


def _reading(step: RunStep, limits: Limits, text: str, asking: Asking) -> Reply:
    """Return what a reading does: asked back, taken, or held against the step."""
    try:
        reading = read_reading(text, limits)
    except NotUnderstood as trouble:
        return Reply(says=str(trouble))
    strange = doubt(reading, limits)
    if strange and asking.doubt != reading.typed:
        says = f"{strange}; type it once more if it is so"
        return Reply(says=says, asking=Asking(doubt=reading.typed))
    values = {"value": reading.value, "unit": reading.unit, "typed": reading.typed}
    out = verdict(reading, limits)
    if not out:
        return Reply(_closing(step, ok=True, **values), f"{reading.shown} is within its limits")
    facts = _facts(step, "gate" if step.kind == "gate" else "reading", ok=False, **values)
    return Reply(facts, _stopped(step, out, _meaning(step, reading)))


def _meaning(step: RunStep, reading: Reading) -> str:
    """Return what a finishing torque out of its window means."""
    if step.kind == "gate":
        return ""
    if reading.side < 0:
        return FAR_LESS
    return FAR_MORE


def _stopped(step: RunStep, trouble: str, meaning: str = "") -> str:
    """Return what is said where a check did not pass."""
    right = "the work stops here; put it right and measure again"
    if not step.limits:
        right = "the work stops here; put it right, then y"
    if not step.blocks:
        right = "measure again, or type a reason to go on"
    return "; ".join(part for part in (trouble, meaning, right) if part)


def _skip(step: RunStep, reason: str) -> Reply:
    """Return what skipping does: nothing without a reason, nor at a check that blocks."""
    if step.blocks:
        return Reply(says="this check must pass and cannot be skipped; p pauses")
    if not reason:
        return Reply(says="why is it skipped? b goes back to it", asking=Asking(skip=True))
    if KEYS.get(reason.casefold()) == "back":
        return Reply(says="not skipped")
    if not _is_reason(reason):
        says = f'"{_short(reason)}" is no reason; write a few words, b goes back to it'
        return Reply(says=says, asking=Asking(skip=True))
    if len(reason) > LONGEST:
        return Reply(says=_too_long(reason), asking=Asking(skip=True))
    return Reply({**_facts(step, "skip", reason=reason), **_opens(step)}, f"skipped: {reason}")


def _back(state: State) -> Reply:
    before = state.before
    if before is None:
        return Reply(says="this is the first step")
    return Reply(passing(before, "back"), f"open again: {before.title}")


def _sign(step: RunStep, text: str) -> Reply:
    """Return what a name does at the end."""
    if not _is_reason(text) or len(text) > LONGEST:
        return Reply(says="your name signs it off; p leaves it unsigned")
    return Reply(signature(step, text), f"signed by {text}")


def signature(step: RunStep, name: str) -> dict[str, Any]:
    """Return the facts of a signature."""
    return {**_facts(step, "sign"), "name": name}


def passing(step: RunStep, what: str) -> dict[str, Any]:
    """Return the facts of an entry that neither closes a step nor judges it."""
    return {"what": what, "step": step.id, "of": step.name, "spot": step.spot}


def _closing(step: RunStep, **values: Any) -> dict[str, Any]:
    """Return the facts that close a step."""
    return {**_facts(step, _what(step), **values), **_opens(step)}


def _what(step: RunStep) -> str:
    return _DONE.get(step.kind, "done")


def _facts(step: RunStep, what: str, **values: Any) -> dict[str, Any]:
    """Return the facts of an entry about a step."""
    facts = {"what": what, "step": step.id, "of": step.name, "spot": step.spot, "asks": step.asks}
    if step.setting and what == "bolt":
        wrench, setting = step.setting
        facts |= {"wrench": wrench, "setting": f"{number_text(setting.value)} {setting.unit}"}
    return facts | values


def _opens(step: RunStep) -> dict[str, Any]:
    return {"opens": [one._asdict() for one in step.opens]} if step.opens else {}


def _is_reason(text: str) -> bool:
    """Return whether a line is words, and no key."""
    return _WORD.search(text) is not None and KEYS.get(text.casefold()) is None


def _too_long(text: str) -> str:
    return f"{len(text)} characters; a reason has at most {LONGEST}"


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:40]}..."  # noqa: PLR2004 - half a line
