"""The screen of a step: one a step, its number large; or a short paragraph of it."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.jobs.report import listed
from torquebook.render.digits import large
from torquebook.render.paper import WIDTH
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from torquebook.jobs.running import State
    from torquebook.jobs.session import Session
    from torquebook.jobs.steps import RunStep
    from torquebook.render.paper import Paper

CLEAR: Final = "\x1b[2J\x1b[H"
PROMPT: Final = "> "
HELP: Final = (
    ("Enter", "done or next; yes only to a check that may be put off"),
    ("a number", "the reading that is due; without a unit, in the one that is shown"),
    ("y, n", "the answer to a question; one that must pass wants it typed"),
    ("b", "back: opens the step before again"),
    ("s", "skip; asks why, and keeps the reason"),
    ("p or q", "pause; the same command goes on at this step"),
    ("?", "this list"),
)


REASON: Final = "type the reason   b not skipped   p pause   ? help"
_ENDS: Final = ("at most ", "at least ")


class Screen(NamedTuple):
    """What a step is shown on.

    Parameters
    ----------
    large : bool
        Whether a step has the screen to itself, its number drawn large; else it is a paragraph.
    ink : str
        What they are drawn with.
    echoes : bool
        Whether what is typed must be written by us, since no terminal does.
    """

    large: bool
    ink: str
    echoes: bool


def screen_of(environ: Mapping[str, str], *, plain: bool, ascii_only: bool) -> Screen:
    """Return what standard input and output can do.

    Parameters
    ----------
    environ : mapping of str to str
    plain : bool
        Whether a paragraph a step is asked for.
    ascii_only : bool
        Whether to keep to ASCII.
    """
    typed = sys.stdin.isatty()
    able = environ.get("TERM", "dumb") not in {"", "dumb"} or "WT_SESSION" in environ
    moves = typed and sys.stdout.isatty() and able and not plain
    ink = "#" if ascii_only or not _writes("█") else "█"
    return Screen(large=moves, ink=ink, echoes=not typed)


def _writes(text: str) -> bool:
    """Return whether standard output can show a text."""
    try:
        text.encode(sys.stdout.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def step_text(
    session: Session, said: Sequence[str], screen: Screen, paper: Paper, *, helps: bool = False
) -> None:
    """Write the step that a run is at.

    Parameters
    ----------
    session : Session
    said : sequence of str
        What the line before came to.
    screen : Screen
    paper : Paper
    helps : bool
        Whether the keys are to be explained.
    """
    state = session.state
    step = state.current
    if step is None:
        raise LookupError("no step is open")
    if helps:
        paper.gap()
        paper.columns(HELP)
        paper.gap()
    if not screen.large and session.asking.skip:
        for line in said:
            paper.text(line)
    elif not screen.large:
        _paragraph(state, step, said, paper)
    elif helps:
        paper.text(f"next: {step.title}")
    else:
        _whole(session, state, step, said, paper, screen)


def _whole(
    session: Session,
    state: State,
    step: RunStep,
    said: Sequence[str],
    paper: Paper,
    screen: Screen,
) -> None:
    """Write a step that has the screen to itself."""
    done, every = len(state.steps) - len(state.open), len(state.steps)
    paper.text(f"{_head(session)}: part {step.number}, step {done + 1} of {every}")
    for line in said:
        paper.text(line)
    paper.heading(_name(step))
    if step.spot:
        paper.text(step.spot)
    paper.gap()
    _number(step, screen, paper)
    due = _due(state, step)
    for line in (*step.hint, *step.says, *(due[1:] if step.must else due)):
        paper.text(line, 2)
    paper.gap()
    paper.text(REASON if session.asking.skip else keys(step))


def left(session: Session, command: str, paper: Paper) -> None:
    """Write how a run was left: where it goes on and by which command, or what is due."""
    state = session.state
    step = state.current
    if step:
        paper.text(f"paused before: {step.title if step.kind != 'sign' else _name(step)}")
        paper.text(f"go on: {command}", 0, 2)
        return
    paper.text(f"signed off; the record: {session.path}")
    for line in listed(state.trail.due):
        paper.text(f"still due: {line}")


def _head(session: Session) -> str:
    name = session.job.held.record.name
    return f"{name}, for {session.vehicle}" if session.vehicle else name


def _number(step: RunStep, screen: Screen, paper: Paper) -> None:
    """Write the number large, its unit at its foot; in words where it has letters."""
    if not step.big:
        return
    number, foot = step.big, paper.said(with_unit("", step.unit).strip()) if step.unit else ""
    for word in _ENDS:
        if number.startswith(word):
            number, foot = number.removeprefix(word), f"{foot} {word.strip()}"
    rows = large(paper.said(number.replace(" to ", "–")), WIDTH - 4 - len(foot), screen.ink)
    if not rows:
        paper.heading(f"  {step.big} {foot}".rstrip())
        paper.gap()
        return
    paper.lines += [f"  {row}".rstrip() for row in rows[:-1]]
    paper.lines.append(f"  {rows[-1]}  {foot}".rstrip())
    paper.gap()


def _paragraph(state: State, step: RunStep, said: Sequence[str], paper: Paper) -> None:
    """Write a step as one short paragraph: what was done, what is next, what is due."""
    for line in said:
        paper.text(line)
    amount = f"{step.big} {with_unit('', step.unit).strip() if step.unit else ''}".strip()
    parts = [
        f"{step.number}. {_name(step)}",
        *([step.spot] if step.spot else []),
        *([amount] if amount and not step.must else []),
        *step.hint,
        *step.says,
        *_due(state, step),
    ]
    if not step.must and step.kind != "sign":
        yes = "y" if step.blocks else "Enter or y"
        parts.append(f"{yes} for yes, n for no" if step.kind == "gate" else "Enter when done")
    paper.gap()
    paper.text(" ".join(_sentence(part) for part in parts))


def _sentence(text: str) -> str:
    """Return a text as a sentence, for who hears it read."""
    ended = text if text.endswith((".", "?", "!")) else f"{text}."
    return f"{ended[:1].upper()}{ended[1:]}"


def _name(step: RunStep) -> str:
    return "sign it off" if step.kind == "sign" else step.name


def _due(state: State, step: RunStep) -> list[str]:
    """Return what is due at a step, and what stands against it."""
    lines = []
    if step.kind == "sign":
        skipped, due = len(state.skipped), len(state.trail.due)
        lines.append(f"all steps are closed, {skipped} of them skipped with a reason")
        lines.append(f"{due} to be looked at again later: torquebook job record lists them")
    if step.limits:
        what = "the reading" if step.must else "what the wrench shows, if it shows it"
        lines.append(f"type {what}: {step.limits.shown}")
    if state.failed:
        typed = state.failed.facts.get("typed", "no")
        lines.append(f"did not pass: {typed}")
    if step.kind == "finish" and (read := state.read_at_bolts(step)):
        lines.append(f"read at {len(read)} bolts: Enter takes these readings")
    return lines


def keys(step: RunStep) -> str:
    """Return the keys of a step in one line."""
    if step.kind == "sign":
        return "type your name to sign   b back   p pause   ? help"
    enter = "Enter done"
    if step.kind == "gate":
        enter = "y yes   n no" if step.blocks else "Enter yes   n no"
    if step.must:
        enter = "type the reading"
    skip = "" if step.blocks else "   s skip"
    return f"{enter}   b back{skip}   p pause   ? help"
