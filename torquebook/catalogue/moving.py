"""Put the keys of a mapping, or the entries of a list, into another order in a record's text.

Where they stand on lines of their own, whole lines move: each key or entry with the comment
lines directly above it, or directly below it where a blank line keeps them from the next. What
else stands between two of them, blank lines and comments by themselves, stays where it is.
"""

from __future__ import annotations

from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Any

import yaml

from torquebook.catalogue.strict import KEY, LOADER

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.strict import Positions

    #: Line and column, counted from 1.
    Spot = tuple[int, int]


def moved(text: str, positions: Positions, key: str | None, order: Sequence[Any]) -> str | None:
    """Return a text with the keys or entries of one of its values in another order.

    Parameters
    ----------
    text : str
        Without a byte order mark.
    positions : mapping
        The places of its values and keys.
    key : str or None
        The key at the top whose value it is; None for the top itself.
    order : sequence
        The mapping's keys, or the list's indexes, as they are to stand.

    Returns
    -------
    str or None
        None where they stand in a way that cannot be moved: a key that is not the first of its
        line, an entry that does not begin on the line of its hyphen.
    """
    path = () if key is None else (key,)
    behind = (KEY,) if isinstance(order[0], str) else ()
    spots = [positions[(*path, item, *behind)] for item in order]
    begins = sorted(spots)
    numbers = [begins.index(spot) for spot in spots]
    lines = text.splitlines(keepends=True)
    line, column = positions[path]
    if lines[line - 1][column - 1] in "{[":
        return _in_brackets(text, (line, column), begins, numbers)
    lead = "" if behind else "-"
    if any(lines[row - 1][: column - 1].strip() != lead for row, column in begins):
        return None
    rows = [row - 1 for row, _ in begins]
    return _in_lines(lines, rows, numbers, *_room(lines, positions, key, rows))


def _in_brackets(text: str, opening: Spot, begins: Sequence[Spot], numbers: Sequence[int]) -> str:
    """Move items between brackets; commas and what surrounds them stay."""
    before = [0, *accumulate(len(line) for line in text.splitlines(keepends=True))]
    offsets = [before[line - 1] + column - 1 for line, column in (*begins, _end(text, opening))]
    chunks = [text[begin:end] for begin, end in pairwise(offsets)]
    items = [chunk.rstrip().removesuffix(",").rstrip() for chunk in chunks]
    gaps = [chunk[len(item) :] for chunk, item in zip(chunks, items, strict=True)]
    between = "".join(items[number] + gap for number, gap in zip(numbers, gaps, strict=True))
    return text[: offsets[0]] + between + text[offsets[-1] :]


def _end(text: str, opening: Spot) -> Spot:
    """Return the place of the bracket that closes the one at ``opening``."""
    begun: list[Spot] = []
    end = opening
    for event in yaml.parse(text, Loader=LOADER):
        mark: Any = event.start_mark
        spot = mark.line + 1, mark.column + 1
        if isinstance(event, yaml.CollectionStartEvent):
            begun.append(spot)
        elif isinstance(event, yaml.CollectionEndEvent) and begun.pop() == opening:
            end = spot
    return end


def _room(
    lines: Sequence[str], positions: Positions, key: str | None, rows: Sequence[int]
) -> tuple[int, int]:
    """Return the first and the last line that may move, the latter counted from 1.

    What stands above the first key of a record is about the record, and stays.
    """
    if key is None:
        return rows[0], len(lines)
    line, column = positions[key, KEY]
    others = [spot[0] - 1 for path, spot in positions.items() if path[1:] == (KEY,)]
    end = min((row for row in others if row > rows[-1]), default=len(lines))
    return line, _shrunk(lines, rows[-1] + 1, end, column - 1)


def _in_lines(
    lines: list[str], rows: Sequence[int], numbers: Sequence[int], first: int, last: int
) -> str:
    """Move the blocks of lines whose first keys or entries stand in ``rows``."""
    unfinished = not lines[-1].endswith(("\n", "\r"))
    if unfinished:
        lines[-1] += lines[0][len(lines[0].rstrip("\r\n")) :]
    begins = []
    for row, floor in zip(rows, (first, *(row + 1 for row in rows)), strict=False):
        begin = row
        while begin > floor and _comments(lines[begin - 1], _indent(lines[row])):
            begin -= 1
        begins.append(begin)
    limits = [*begins[1:], last]
    blocks, gaps = [], []
    for begin, row, limit in zip(begins, rows, limits, strict=True):
        end = _shrunk(lines, row + 1, limit, _indent(lines[row]))
        while end < limit and lines[end].strip():
            end += 1
        blocks.append(lines[begin:end])
        gaps.append(lines[end:limit])
    parts = lines[: begins[0]]
    for number, gap in zip(numbers, gaps, strict=True):
        parts += blocks[number] + gap
    text = "".join(parts + lines[last:])
    return text.removesuffix("\n").removesuffix("\r") if unfinished else text


def _shrunk(lines: Sequence[str], first: int, end: int, indent: int) -> int:
    """Return where lines end without blank ones and comments up to an indent behind them."""
    while end > first and (not lines[end - 1].strip() or _comments(lines[end - 1], indent)):
        end -= 1
    return end


def _comments(line: str, indent: int) -> bool:
    return line.lstrip().startswith("#") and _indent(line) <= indent


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))
