"""Mend what is purely mechanical in a record's text, and nothing else.

Numbers that stand where text belongs get quotes; keys, and lists that are sorted, get their
order. Comments and layout are kept. What comes of it is read again and compared: a text that
would say something else is not given back.
"""

from __future__ import annotations

import json
import os
import shutil
from codecs import BOM_UTF8
from collections import Counter
from contextlib import suppress
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.catalogue.contributed import contributed_text
from torquebook.catalogue.faults import UNQUOTED, written_at
from torquebook.catalogue.moving import moved
from torquebook.catalogue.plaintext import read_bytes
from torquebook.catalogue.reading import reading
from torquebook.catalogue.store.cache import put_in_place
from torquebook.catalogue.strict import KEY, load
from torquebook.catalogue.tidy import SOURCE_ORDER, first_astray, key_order, sorted_list
from torquebook.errors import Unreadable
from torquebook.findings import Place
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.reading import Reading

BY_HAND: Final = "that would change what the record says; do it by hand"


class Change(NamedTuple):
    """One thing that was mended, or that was not.

    Parameters
    ----------
    place : Place
        In the text as it was.
    what : str
    """

    place: Place
    what: str


class Mended(NamedTuple):
    """A text, and what was mended in it.

    Parameters
    ----------
    text : str
    changes : tuple of Change
        What was mended, in the order of the file; empty where the text is as it was.
    left : tuple of Change
        What is not in order, but stands so that it cannot be mended safely.
    """

    text: str
    changes: tuple[Change, ...] = ()
    left: tuple[Change, ...] = ()


class _Task(NamedTuple):
    """A mapping or a list that is to stand in another order."""

    key: str | None
    order: Sequence[Any]
    place: Place
    what: str


def mended(text: str, name: str) -> Mended:
    """Mend a record's text.

    Parameters
    ----------
    text : str
        With any line endings.
    name : str
        The file's name, as it stands in the places of changes.

    Returns
    -------
    Mended
        Mending its text once more changes nothing. A text that cannot be read is given back as
        it is.
    """
    body = text.removeprefix("\ufeff")
    mark = text[: len(text) - len(body)]
    changes: list[Change] = []
    left: list[Change] = []
    try:
        body = _quoted(body, name, changes, left)
        for find in (_list_astray, _source_astray, _top_astray):
            read = reading(body, name)
            task = find(read, name)
            if task is None:
                continue
            after = moved(body, read.positions, task.key, task.order)
            if after is not None and _says_the_same(read.data, body, after, name):
                body = after
                changes.append(Change(task.place, task.what))
            else:
                left.append(Change(task.place, f"not {task.what}: {BY_HAND}"))
    except Unreadable:
        return Mended(text)
    return Mended(mark + body, tuple(sorted(changes)), tuple(sorted(left)))


def mend_file(path: str) -> Mended:
    """Mend a record in its file, which is replaced whole or not at all; links stay links.

    Raises
    ------
    Unreadable
        If the file cannot be read as text, or not be written.
    """
    found = mended(contributed_text(path), path)
    if not found.changes:
        return found
    target = os.path.realpath(path)
    mark = BOM_UTF8 if read_bytes(path).startswith(BOM_UTF8) else b""
    beside = f"{target}.{os.getpid()}.new"
    try:
        with open(beside, "wb") as file:  # noqa: PTH123 - a path is text here
            file.write(mark + found.text.encode())
        shutil.copymode(target, beside)
        put_in_place(beside, target)
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise Unreadable(path, what, "look who may write it") from fault
    finally:
        with suppress(OSError):  # it is there only where it could not take the file's place
            os.unlink(beside)  # noqa: PTH108 - as above
    return found


def quoted(text: str, name: str) -> str:
    """Return a text with quotes around the numbers in it that stand for text, as ``mended``.

    Raises
    ------
    Unreadable
        If it cannot be read.
    """
    return _quoted(text, name, [], [])


def _quoted(text: str, name: str, changes: list[Change], left: list[Change]) -> str:
    """Return a text with quotes around numbers and truth values that stand for text."""
    keys: list[tuple[int, int]] = []
    before, were = load(text, name, keys)
    after, done = _with_quotes(text, keys)
    said = dict(zip(sorted(keys), done, strict=True))
    read = reading(after, name)
    spots = [(at.place.line, at.place.column) for at in read.faults if at.rule == UNQUOTED]
    after, done = _with_quotes(after, spots)
    path_at = {spot: path for path, spot in read.positions.items()}
    said |= {were[path_at[spot]]: was for spot, was in zip(sorted(spots), done, strict=True)}
    every = [Change(Place(name, *spot), f"{was} put in quotes") for spot, was in said.items()]
    if _alike(before, load(after, name)[0]):
        changes += every
        return after
    left += [change._replace(what=f"not {change.what}: {BY_HAND}") for change in every]
    return text


def _with_quotes(text: str, spots: Sequence[tuple[int, int]]) -> tuple[str, list[str]]:
    """Return a text with quotes at some places, and what was written there, in the text's order."""
    lines = text.splitlines(keepends=True)
    done = []
    for number, column in sorted(spots, reverse=True):
        line = lines[number - 1]
        written = written_at(line, column)
        end = column - 1 + len(written)
        lines[number - 1] = f'{line[: column - 1]}"{written}"{line[end:]}'
        done.append(written)
    return "".join(lines), done[::-1]


def _alike(before: Any, after: Any) -> bool:
    """Whether two values are the same but for numbers that became their own text."""
    if isinstance(before, dict) and isinstance(after, dict):
        return list(before) == list(after) and all(_alike(before[key], after[key]) for key in after)
    if isinstance(before, list) and isinstance(after, list):
        return len(before) == len(after) and all(map(_alike, before, after))
    if isinstance(before, (int, float)) and isinstance(after, str):
        after, _ = load(after, "")
    return type(before) is type(after) and bool(before == after)


def _kind(read: Reading) -> str:
    """Return the kind of a record, sound or not; empty if it has none that is known."""
    kind = read.data.get("kind") if isinstance(read.data, dict) else None
    return kind if isinstance(kind, str) and kind in KINDS else ""


def _list_astray(read: Reading, name: str) -> _Task | None:
    if read.record is None:
        return None
    key, order = sorted_list(read.record.kind, read.data)
    first = next((index for place, index in enumerate(order) if place != index), None)
    if first is None:
        return None
    place = Place(name, *read.positions[key, first])
    return _Task(key, order, place, f"{key} put in the order of their diameters")


def _source_astray(read: Reading, name: str) -> _Task | None:
    source = read.data.get("source") if _kind(read) else None
    return _keys_astray(read, "source", source, SOURCE_ORDER, name)


def _top_astray(read: Reading, name: str) -> _Task | None:
    kind = _kind(read)
    return _keys_astray(read, None, read.data, key_order(kind), name) if kind else None


def _keys_astray(
    read: Reading, key: str | None, held: Any, order: Sequence[str], name: str
) -> _Task | None:
    """Return the keys of a mapping in their order; None if they are, or one of them is unknown."""
    if not isinstance(held, dict) or not set(held) <= set(order):
        return None
    astray = first_astray(held, order)
    if astray is None:
        return None
    path = (astray[0], KEY) if key is None else (key, astray[0], KEY)
    what = f"keys of {key or 'the record'} put in order ({astray[0]} before {astray[1]})"
    right = sorted(held, key=order.index)
    return _Task(key, right, Place(name, *read.positions[path]), what)


def _says_the_same(data: Any, before: str, after: str, name: str) -> bool:
    """Whether a text with other places for its parts still holds all of it, and nothing else."""
    try:
        return Counter(before) == Counter(after) and _bare(data) == _bare(load(after, name)[0])
    except Unreadable:
        return False


def _bare(data: dict[str, Any]) -> str:
    """Return what a record holds, whatever the order of its keys and of its sorted list."""
    key = sorted_list(data["kind"], {})[0]
    entries = data.get(key)
    if isinstance(entries, list):
        data = data | {key: sorted(entries, key=_written)}
    return _written(data)


def _written(value: Any) -> str:
    return json.dumps(value, sort_keys=True)
