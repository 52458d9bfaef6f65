"""Checks of our own book's index."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.store import own
from torquebook.catalogue.store.kept import BROKEN
from torquebook.catalogue.store.own import CARDS, OwnLayer, ship
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import Shop


def test_shipped(shop: Shop, tmp_path: Path) -> None:
    """The wheel's index is used as it is, is the same each time it is made, and needs no cache."""
    first, second = tmp_path / "a.sqlite", tmp_path / "b.sqlite"
    ship(str(first))
    ship(str(second))
    assert first.read_bytes() == second.read_bytes()
    layer = OwnLayer(shop.said.append, shipped=str(first))
    with open(CARDS, encoding="utf-8") as lines:  # noqa: PTH123 - a name, as the product has it
        assert layer.cards() == [json.loads(line) for line in list(lines)[1:]]
    assert not list(shop.cache.glob("torquebook/*"))
    assert shop.said == []


@pytest.mark.parametrize("broken", [None, b"", b"garbage" * 999])
def test_not_shipped(broken: bytes | None, shop: Shop, tmp_path: Path) -> None:
    """Where the wheel's index is missing or broken, one is made from the cards, once."""
    shipped = tmp_path / "shipped.sqlite"
    if broken is not None:
        shipped.write_bytes(broken)
    for _ in range(2):
        (hit,) = OwnLayer(shop.said.append, shipped=str(shipped)).called("M10")
        assert hit.id == "threads/iso-262-selected:M10"
    before = shop.index().read_bytes()
    OwnLayer(shop.said.append, shipped=str(shipped))
    assert shop.index().read_bytes() == before
    assert shop.said == []


def test_other_cards(shop: Shop, tmp_path: Path) -> None:
    """An index of other cards, as after a change in a checkout, is made anew."""
    cards = tmp_path / "cards.jsonl"
    with open(CARDS, encoding="utf-8") as lines:  # noqa: PTH123 - as above
        some = list(lines)
    cards.write_text("".join(some[:3]), encoding="utf-8")
    absent = str(tmp_path / "absent")
    assert len(OwnLayer(shop.said.append, str(cards), absent).cards()) == 2
    cards.write_text("".join(some[:9]), encoding="utf-8")
    assert len(OwnLayer(shop.said.append, str(cards), absent).cards()) == 8
    assert shop.said == [BROKEN.format(cards)]


@pytest.mark.parametrize("text", [None, "", "{}\n[", "{}\n{}\n"])
def test_damaged_installation(text: str | None, shop: Shop, tmp_path: Path) -> None:
    """Without sound cards there is one message that says what to do, and no index is kept."""
    cards = tmp_path / "cards.jsonl"
    if text is not None:
        cards.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable, match=r"cards\.jsonl: .*install torquebook again"):
        OwnLayer(shop.said.append, str(cards), str(tmp_path / "absent"))
    assert not list(shop.cache.glob("torquebook/*"))


def test_where_it_ships() -> None:
    """The build of the wheel puts the index where it is looked for."""
    assert own.SHIPPED.replace("\\", "/").endswith("torquebook/catalogue/book.sqlite")
