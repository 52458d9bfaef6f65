"""Plans in YAML or JSON: a list of mappings, with or without a title; every value has a place."""

from __future__ import annotations

import difflib
import json
import re
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.strict import KEY
from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.plans.cells import FREE, plan_line
from torquebook.plans.model import COLUMNS, Cell, Plan, Problem
from torquebook.plans.table import Flaw, column_name, no_tighten

if TYPE_CHECKING:
    from collections.abc import Mapping

    from torquebook.catalogue.strict import Positions, ValuePath
    from torquebook.plans.model import PlanLine

#: Columns in which a number without quotes is what it looks like.
_NUMBERS: Final = FREE | {"tighten", "count", "friction", "engagement", "clamp_length", "length"}
_TOP: Final = ("plan", "provenance", "lines")
_RIGHT: Final = 'write "lines:" and below it an entry for each joint, such as "- tighten: 60 N.m"'
_TOKEN: Final = re.compile(r"[^\s,\]}]+")
_BETWEEN: Final = {"tighten": ", ", "order": "-"}


def tree_plan(text: str, name: str, loaded: tuple[Any, Positions], notes: list[str]) -> Plan:
    """Return the plan that a YAML or JSON document holds.

    Parameters
    ----------
    text : str
        The document; a number's cell keeps it as it is typed here.
    name : str
        The file's name, as it stands in places.
    loaded : tuple
        The document's value and the line and column of every value in it.
    notes : list of str
        Takes in which keys at the top are left unread.

    Returns
    -------
    Plan

    Raises
    ------
    Unreadable
        If it is neither a list of mappings nor a mapping that holds one under ``lines``, or
        if no entry says how to tighten.
    """
    tree = _Tree(text, name, *loaded)
    data: Any = tree.data
    path: ValuePath = ()
    if isinstance(data, dict):
        notes += tree.unread_keys()
        data, path = data["lines"], ("lines",)
    if not isinstance(data, list):
        raise tree.refusal(path, "no list of a plan's lines", _RIGHT)
    lines = [tree.line((*path, index), entry) for index, entry in enumerate(data) if entry]
    if not any("tighten" in line.cells for line in lines):
        keys = dict.fromkeys(key for entry in data if isinstance(entry, dict) for key in entry)
        raise no_tighten(tree.where(path), keys)
    return Plan(
        name=name,
        lines=tuple(lines),
        unknown_columns=tuple(dict.fromkeys(key for line in lines for key in line.extra)),
        notes=tuple(notes),
        title=tree.said("plan"),
        provenance=tree.said("provenance"),
    )


class _Tree:
    """A document with the places of its values."""

    def __init__(self, text: str, name: str, data: Any, positions: Positions) -> None:
        self.source = text.split("\n")
        self.name = name
        self.data = data
        self.positions = positions

    def where(self, path: ValuePath) -> str:
        """Return ``name:line:column`` of a value, or of the file's start if it has none."""
        line, column = self.positions.get(path, (1, 1))
        return f"{self.name}:{line}:{column}"

    def refusal(self, path: ValuePath, what: str, right: str) -> Unreadable:
        """Return the refusal of the value at a path."""
        return Unreadable(self.where(path), what, right)

    def typed(self, path: ValuePath) -> str:
        """Return a number or a word as it is typed in the document."""
        line, column = self.positions[path]
        match = _TOKEN.match(self.source[line - 1], column - 1)
        return match[0] if match else ""

    def unread_keys(self) -> list[str]:
        """Return a note for each key at the top that a plan does not have."""
        others = [key for key in self.data if key not in _TOP]
        if "lines" not in self.data:
            near = difflib.get_close_matches("lines", others, 1)
            right = f'rename "{near[0]}" to "lines"' if near else _RIGHT
            raise self.refusal((), 'the plan has no "lines"', right)
        return [f'line {self.positions[key, KEY][0]}: "{key}" is left unread' for key in others]

    def said(self, key: str) -> str:
        """Return what a plan says of itself under a key at the top."""
        value = self.data.get(key) if isinstance(self.data, dict) else None
        if isinstance(value, dict | list | bool):
            raise self.refusal((key,), f'"{key}" is no text', "write a line of text")
        return (
            value.strip() if isinstance(value, str) else "" if value is None else self.typed((key,))
        )

    def line(self, path: ValuePath, entry: Any) -> PlanLine:
        """Return the line of one entry."""
        if not isinstance(entry, dict):
            raise self.refusal(path, "no mapping", 'write an entry as "tighten: 60 N.m"')
        cells: dict[str, Cell] = {}
        extra: dict[str, Cell] = {}
        problems: list[Problem] = []
        for key, column in self._columns(path, entry).items():
            cell, flaw = self._cell((*path, key), column, entry[key])
            if cell.text:
                (cells if column in COLUMNS else extra)[column] = cell
            if flaw:
                problems.append(Problem(column, cell.place, cell.text, *flaw))
        return plan_line(Place(self.name, *self.positions[path]), cells, extra, problems)

    def _columns(self, path: ValuePath, entry: Mapping[str, Any]) -> dict[str, str]:
        """Return each key's column; two keys for one column are refused."""
        columns: dict[str, str] = {}
        for key in entry:
            column = column_name(key) or '""'
            if column in columns.values():
                what = f'a second key for the column "{column}"'
                raise self.refusal((*path, key, KEY), what, "keep one of them")
            columns[key] = column
        return columns

    def _cell(self, path: ValuePath, column: str, value: Any) -> tuple[Cell, Flaw | None]:
        """Return a value's cell, and what is wrong with its type."""
        place = Place(self.name, *self.positions[path])
        if value is None or isinstance(value, str):
            return Cell((value or "").strip(), place), None
        if isinstance(value, dict | list):
            cell = Cell(json.dumps(value, ensure_ascii=False), place)
            return cell, _nested(column, value) if column in COLUMNS else None
        text = self.typed(path)
        flaw = None
        if column in COLUMNS and (isinstance(value, bool) or column not in _NUMBERS):
            kind = "yes or no" if isinstance(value, bool) else f"the number {value}"
            flaw = Flaw(f"{text} is read as {kind}", (f'"{text}" in quotes',))
        return Cell(text, place), flaw


def _nested(column: str, value: Any) -> Flaw:
    """Return what to say of a list or mapping where text belongs."""
    if isinstance(value, list) and column in _BETWEEN:
        joined = _BETWEEN[column].join(str(part) for part in value)
        return Flaw("a list stands where text belongs", (f'"{joined}"',) if joined else ())
    kind = "list" if isinstance(value, list) else "mapping"
    return Flaw(f"a {kind} stands where text belongs")
