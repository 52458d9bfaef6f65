"""Checks of the order of keys and lists, and of where kinds of records lie."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.library import Library
from torquebook.catalogue.places import schema_root, specs_root
from torquebook.catalogue.strict import load
from torquebook.catalogue.tidy import (
    SHELVES,
    SOURCE_ORDER,
    editor_line,
    first_astray,
    key_order,
    schema_file,
    sorted_list,
)
from torquebook.records import KINDS
from torquebook.records.joint import JointRecord

if TYPE_CHECKING:
    from pathlib import Path

OWN = sorted(path for path in specs_root().rglob("*.yaml") if "plans" not in path.parts)


def test_every_kind_has_a_schema_and_a_folder() -> None:
    """Only a preference may lie anywhere."""
    assert {schema_file(kind) for kind in KINDS} == {path.name for path in schema_root().iterdir()}
    assert set(KINDS) - set(SHELVES) == {"preference"}


@pytest.mark.parametrize("path", OWN, ids=lambda path: path.stem)
def test_our_own_records_are_in_order(path: Path) -> None:
    """Keys, lists, folders and first lines of our own book are what the rules ask for."""
    text = path.read_text(encoding="utf-8")
    data, _ = load(text, str(path))
    kind = data["kind"]
    folder = path.relative_to(specs_root()).parts
    assert first_astray(data, key_order(kind)) is None
    assert first_astray(data["source"], SOURCE_ORDER) is None
    key, right = sorted_list(kind, data)
    assert right == list(range(len(data.get(key, ()))))
    assert SHELVES[kind] == folder[0]
    assert text.split("\n")[0] == editor_line(kind, len(folder))


def test_keys_astray() -> None:
    """Named is the first key that stands too late, and the earliest key that it belongs before."""
    assert first_astray(["kind", "name", "title", "source"], key_order("joint")) == (
        "title",
        "name",
    )
    assert first_astray(["kind", "source", "count", "title"], key_order("joint")) == (
        "count",
        "source",
    )
    assert first_astray([], key_order("joint")) is None


@pytest.mark.parametrize(
    ("kind", "entries", "right"),
    [
        ("holes", [{"d_mm": 8}, {"d_mm": 6}], [1, 0]),
        ("tapping drills", [{"size": "M8x1"}, {"size": "M8"}, {"size": "M6"}], [2, 1, 0]),
        ("metric threads", [{"d_mm": 8, "pitch_mm": 1}, {"d_mm": 8, "pitch_mm": 1.25}], [1, 0]),
        ("inch threads", [{"d_in": 0.25, "tpi": 28}, {"d_in": 0.25, "tpi": 20}], [1, 0]),
    ],
)
def test_lists_by_diameter(kind: str, entries: list[dict[str, object]], right: list[int]) -> None:
    """Small diameters come first, and of one diameter the coarser pitch."""
    lists = {"holes": "holes", "tapping drills": "drills"}
    key = lists.get(kind, "threads")
    assert sorted_list(kind, {key: entries}) == (key, right)


def test_other_lists_stand_as_printed() -> None:
    """A printed table is not sorted."""
    assert sorted_list("printed table", {"rows": [{"thread": "M8"}, {"thread": "M6"}]}) == ("", [])


def test_key_order_begins_and_ends_alike() -> None:
    """Kind, title, the facts in the order of the model, source."""
    order = key_order("joint")
    assert order[:3] == ["kind", "title", "name"]
    assert order[-1] == "source"
    held = Library().one("joints", JointRecord, "brigade/flywheel")
    assert set(held.record.model_fields_set) <= set(order)
    assert "yield" not in key_order("strength classes")


def test_a_list_with_a_size_that_is_none() -> None:
    """Where a size is no designation the list stays as it stands."""
    sizes = [{"size": "M8"}, {"size": "five"}, {"size": "M5"}]
    assert sorted_list("heads", {"sizes": sizes}) == ("sizes", [0, 1, 2])
