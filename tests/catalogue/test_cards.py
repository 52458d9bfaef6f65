"""Checks of what a card holds of a record."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from first_faults import read_record, record_files

from torquebook.catalogue.cards import cards_of
from torquebook.catalogue.finding import KINDS as CARD_KINDS
from torquebook.catalogue.places import record_id, specs_root
from torquebook.catalogue.reading import vet_text
from torquebook.records import KINDS

if TYPE_CHECKING:
    from pathlib import Path

JOINT = """\
kind: joint
title: "A joint"
name: "drawbar eye"
fastener: {thread: "M12", strength_class: "10.9"}
count: 4
tighten: "TIGHTEN"
source: {kind: invented, title: "test", provenance: "invented"}
"""
MEMBERS = {
    "metric threads": "thread", "inch threads": "thread", "strength classes": "class",
    "nut classes": "nut class",
}  # fmt: skip


@pytest.mark.parametrize("path", list(record_files(specs_root())), ids=lambda path: path.stem)
def test_every_record_has_a_card(path: Path) -> None:
    """Each record has one card under its id, or one for each size or class that it lists."""
    record, own = read_record(path), record_id(path, specs_root())
    cards = cards_of(record, own)
    assert {card["kind"] for card in cards} == {MEMBERS.get(record.kind, record.kind)}
    assert len({card["id"] for card in cards}) == len(cards) > 0
    if record.kind in MEMBERS:
        assert all(card["id"] == f"{own}:{card['name']}" for card in cards)
    else:
        assert [card["id"] for card in cards] == [own]
    assert {card["source"] for card in cards} == {record.source.line}


def test_kinds_of_card() -> None:
    """Every kind of record has its kind of card, and there is no other."""
    assert {MEMBERS.get(kind, kind) for kind in KINDS} == set(CARD_KINDS)
    assert len(CARD_KINDS) == len(set(CARD_KINDS))


@pytest.mark.parametrize(
    ("tighten", "stages"),
    [
        ("40 lbf.ft", [("40 lbf·ft", 40, "lbf.ft")]),
        ("30 N.m, +90 deg", [("30 N·m", 30, "N.m"), ("+90°", None, None)]),
        ("60-70 N.m", [("60–70 N·m", 65, "N.m")]),
        ("hand tight", []),
    ],
)
def test_stages(tighten: str, stages: list[tuple[str, float | None, str | None]]) -> None:
    """A joint's stages stand on its card, a torque with what to set; what is no stage is not."""
    record, _ = vet_text(JOINT.replace("TIGHTEN", tighten), "x")
    assert record is not None
    (card,) = cards_of(record, "joints/x")
    found = card["facts"]["stages"]
    assert [(one["said"], one["value"], one["unit"]) for one in found] == stages
    if tighten == "40 lbf.ft":
        assert found[0]["nm"] == pytest.approx(40 * 1.3558179483314004)  # NIST SP 811
    assert card["facts"]["tighten"] == tighten


def test_ranges_of_a_class() -> None:
    """A class with several ranges of size has them all on one card."""
    cards = cards_of(read_record(specs_root() / "classes" / "iso-898-1.yaml"), "c")
    (card,) = (card for card in cards if card["name"] == "8.8")
    assert [(one["tensile"], one["to"]) for one in card["facts"]["ranges"]] == [
        (800, 16),
        (830, 39),
    ]
    (card,) = (card for card in cards if card["name"] == "10.9")
    assert card["facts"]["tensile"] == 1040
