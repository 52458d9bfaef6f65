"""The screen of a step: one a step, its number large; or a short paragraph of it."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.render.digits import large
from torquebook.render.paper import WIDTH
from torquebook.units import with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from torquebook.jobs.running import State
    from torquebook.jobs.steps import RunStep
    from torquebook.render.paper import Paper

CLEAR: Final = "\x1b[2J\x1b[H"
PROMPT: Final = "> "
HELP: Final = (
    ("Enter", "done, yes, or next"),
    ("a number", "the reading that is due; without a unit, in the one that is shown"),
    ("y, n", "the answer to a question"),
    ("b", "back: opens the step before again"),
    ("s", "skip; asks why, and keeps the reason"),
    ("p or q", "pause; the same command goes on at this step"),
    ("?", "this list"),
)


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
    state: State, step: RunStep, said: Sequence[str], head: str, screen: Screen, paper: Paper
) -> None:
    """Write a step.

    Parameters
    ----------
    state : State
    step : RunStep
        The one to show.
    said : sequence of str
        What the line before came to.
    head : str
        The job, and the vehicle.
    screen : Screen
    paper : Paper
    """
    if not screen.large:
        _paragraph(state, step, said, paper)
        return
    done, every = len(state.steps) - len(state.open), len(state.steps)
    paper.text(f"{head}: part {step.number}, step {done + 1} of {every}")
    for line in said:
        paper.text(line)
    paper.heading(_name(step))
    if step.spot:
        paper.text(step.spot)
    paper.gap()
    _number(step, screen, paper)
    for line in (*step.hint, *step.says):
        paper.text(line, 2)
    for line in _due(state, step):
        paper.text(line, 2)
    paper.gap()
    paper.text(keys(step))


def _number(step: RunStep, screen: Screen, paper: Paper) -> None:
    """Write the number large, its unit at its foot; in words where it has letters."""
    if not step.big:
        return
    number = step.big.replace(" to ", "–")
    unit = paper.said(with_unit("", step.unit).strip()) if step.unit else ""
    rows = large(paper.said(number), WIDTH - 4 - len(unit), screen.ink)
    if not rows:
        paper.heading(f"  {step.big} {unit}".rstrip())
        paper.gap()
        return
    for row in rows[:-1]:
        paper.lines.append(f"  {row}".rstrip())
    paper.lines.append(f"  {rows[-1]}  {unit}".rstrip())
    paper.gap()


def _paragraph(state: State, step: RunStep, said: Sequence[str], paper: Paper) -> None:
    """Write a step as one short paragraph: what was done, what is next, what is due."""
    for line in said:
        paper.text(line)
    amount = f"{step.big} {with_unit('', step.unit).strip() if step.unit else ''}".strip()
    parts = [
        f"{step.number}. {step.title}",
        *([amount] if amount and step.kind != "finish" else []),
        *step.hint,
        *step.says,
        *_due(state, step),
        keys(step),
    ]
    paper.gap()
    paper.text(". ".join(part.rstrip(".") for part in parts) + ".")


def _name(step: RunStep) -> str:
    return "sign it off" if step.kind == "sign" else step.name


def _due(state: State, step: RunStep) -> list[str]:
    """Return what is due at a step, and what stands against it."""
    lines = []
    if step.kind == "sign":
        skipped, due = len(state.skipped), len(state.trail.due)
        lines.append(f"all steps are closed, {skipped} of them skipped with a reason")
        lines.append(f"{due} to be looked at again later: torquebook job record lists them")
    if step.limits and step.must:
        lines.append(f"type the reading: {step.limits.span} {step.limits.unit}")
    elif step.limits:
        lines.append(f"type what the wrench shows, if it shows it: {step.limits.span} "
                     f"{step.limits.unit}")  # fmt: skip
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
    enter = "Enter yes   n no" if step.kind == "gate" and not step.must else "Enter done"
    if step.must:
        enter = "type the reading"
    skip = "" if step.blocks else "   s skip"
    return f"{enter}   b back{skip}   p pause   ? help"


def help_text(paper: Paper) -> None:
    """Write what each key does."""
    paper.columns(HELP)
