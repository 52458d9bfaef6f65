"""The lines of a plan as a table: what each one does to its bolt."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook import notation
from torquebook.render.figures import kilonewtons, percent, span
from torquebook.render.paper import WIDTH
from torquebook.render.plain import width

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.render.paper import Paper
    from torquebook.rules.judge import LineAnswer

_HEADS: Final = ("line", "joint", "thread", "class", "tighten", "preload kN", "% of proof")
_MOST: Final = {0: 6, 2: 10, 3: 7, 5: 11, 6: 14}  # widest that a column gets; the rest share
_NAME, _TIGHTEN = 1, 4
_GAPS: Final = 2 * (len(_HEADS) - 1)
_INDENT: Final = 2
_SNUG: Final = "snug"
_END: Final = "end"
_MOST_RUNS: Final = 20


def lines_table(answers: Sequence[LineAnswer], paper: Paper) -> None:
    """Write a row a line, and what ``snug`` and ``end`` mean where they stand."""
    rows = [[paper.said(cell) for cell in _row(answer)] for answer in answers]
    widths = _widths(rows)
    kept = [index for index in range(len(_HEADS)) if any(row[index] for row in rows)]
    paper.grid(
        [[row[index] for index in kept] for row in rows],
        [_HEADS[index] for index in kept],
        [widths[index] for index in kept],
        right={0},
        indent=_INDENT,
    )
    if any(answer.by_angle and answer.preload_n and not answer.turned for answer in answers):
        paper.text(f"{_SNUG}: at the torque before the angle; the angle adds to it", _INDENT)
    if any(answer.turned for answer in answers):
        paper.text(f"{_END}: at the end of the angle", _INDENT)


def _row(answer: LineAnswer) -> tuple[str, ...]:
    line = answer.line
    preload, share = answer.preload_n, answer.utilisation
    mark = f" {_SNUG}" if answer.by_angle else ""
    if answer.turned:
        preload, share, mark = answer.turned.preload_n, answer.turned.proof_share, f" {_END}"
    forces = span(kilonewtons(preload.low), kilonewtons(preload.high)) if preload else ""
    shares = ""
    if share:
        shares = f"{percent(share.nominal)} ({span(percent(share.low), percent(share.high))})"
    return (
        str(line.number),
        line.text("joint"),
        line.text("thread"),
        line.text("class"),
        notation.write(line.stages) or line.text("tighten"),
        f"{forces}{mark}" if forces else "",
        shares,
    )


def _widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """Return a width for each column; what is tightened, and the name, share what is left."""
    natural = [max(width(cell) for cell in column) for column in zip(_HEADS, *rows, strict=True)]
    widths = [min(full, _MOST.get(index, full)) for index, full in enumerate(natural)]
    free = WIDTH - _INDENT - _GAPS - sum(widths[index] for index in _MOST)
    widths[_TIGHTEN] = min(natural[_TIGHTEN], max(free // 2, free - natural[_NAME]))
    widths[_NAME] = min(natural[_NAME], free - widths[_TIGHTEN])
    return widths


def numbers(lines: Iterable[int]) -> str:
    """Return line numbers with runs drawn together, cut short where nobody would read on.

    Examples
    --------
    >>> numbers([2, 3, 4, 7, 9, 10])
    '2–4, 7, 9, 10'
    """
    runs: list[list[int]] = []
    for number in sorted(set(lines)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    shown = [
        f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run))  # noqa: PLR2004 - two are no run
        for run in runs[:_MOST_RUNS]
    ]
    left = sum(len(run) for run in runs[_MOST_RUNS:])
    return ", ".join(shown) + (f" and {left} more (--json has all)" if left else "")
