"""One step of a run on a terminal: the number large, everything else below it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from torquebook.jobs.running import State
    from torquebook.jobs.steps import RunStep
    from torquebook.render.paper import Paper

_ROWS: Final = 5
#: Five rows of a digit, each row three columns of a bit, the left one highest.
_DIGITS: Final = {
    "0": "75557", "1": "26227", "2": "71747", "3": "71717", "4": "55711", "5": "74717",
    "6": "74757", "7": "71122", "8": "75757", "9": "75717", ".": "00002", "-": "00700",
    "+": "02720",
}  # fmt: skip
_WIDTH: Final = 3
_CELL: Final = "##"
CLEAR: Final = "\x1b[2J\x1b[H"
HELP: Final = (
    "Enter: done    b: back    s REASON: leave out    p: pause    ?: this",
    "A reading is typed with or without its unit; y or n answers a question.",
)


def show(state: State, step: RunStep, paper: Paper, *, large: bool) -> None:
    """Write the screen of a step.

    Parameters
    ----------
    state : State
    step : RunStep
        The one that the state stands at.
    paper : Paper
    large : bool
        Whether numbers may be drawn in rows of characters; else they stand in the text.
    """
    gate = "gate: " if step.kind == "gate" else ""
    paper.text(f"{state.done + 1} of {state.of}   {step.number}  {gate}{step.title}", 0, 4)
    paper.gap()
    if step.big:
        number, _, unit = step.big.partition(" ")
        if large and number and set(number) <= set(_DIGITS):
            for row in big(number):
                paper.text(row, 2)
            paper.text(unit, 2)
        else:
            paper.text(step.big, 2)
        paper.gap()
    for line in step.lines:
        paper.text(line, 2, 4)
    if state.failed:
        paper.text(f"so far: {state.failed}", 2, 4)
    paper.gap()
    paper.text(_prompt(step))


def _prompt(step: RunStep) -> str:
    if step.asks:
        return "y or n   (b back, s REASON, p pause, ? help)"
    if step.reading is not None:
        return f"reading in {step.reading.unit}   (b back, s REASON, p pause, ? help)"
    return "Enter when it is done   (b back, s REASON, p pause, ? help)"


def big(number: str) -> list[str]:
    """Return a number in five rows of characters."""
    rows = []
    for row in range(_ROWS):
        bits = [int(_DIGITS[character][row]) for character in number]
        cells = (
            "".join(_CELL if bit & 1 << at else "  " for at in range(_WIDTH - 1, -1, -1))
            for bit in bits
        )
        rows.append("  ".join(cells).rstrip())
    return rows
