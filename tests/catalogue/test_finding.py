"""Checks of finding cards by words, over several layers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from torquebook.catalogue import finding
from torquebook.catalogue.finding import MOST_SHOWN, Finder
from torquebook.catalogue.layers import vetted
from torquebook.catalogue.store.folder import FolderLayer
from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.catalogue.store.layer import Layer

JOINT = """\
kind: joint
title: "{title}"
name: "{name}"
fastener: {{thread: "{thread}", strength_class: "8.8"}}
count: 4
tighten: "40 N.m"
note: "{note}"
source: {{kind: invented, title: "test", provenance: "invented"}}
"""
RECORDS = {
    "sump": ("Sump, pump 1", "sump to block", "M6", "new gasket"),
    "spare": ("Spare parts of the sump", "cover plate", "M6", "none"),
    "block": ("Block", "engine block", "M10x1.25", "above the sump"),
    "shaft": ("Shaft", "propeller shaft flange", "M10", "mark both flanges"),
    "eye": ("Eye", "drawbar eye", "3/8-16", "spigot bearing behind it"),
    "hub": ("Hub", "hub", "M12", "see hub nut"),
    "hub-nut": ("Nut", "hub nut", "M20", "see hub"),
}
WRENCH = """\
kind: wrench
title: "Mine"
name: "hub"
aliases: ["long arm"]
low: 20
high: 100
unit: N.m
deviation: 0.04
drive: "1/2 in"
source: {kind: measured, title: "test", provenance: "read"}
"""


def fill(folder: Path) -> Path:
    """Write the records into a folder."""
    for name, (title, called, thread, note) in RECORDS.items():
        path = folder / "joints" / f"{name}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(JOINT.format(title=title, name=called, thread=thread, note=note))
    (folder / "wrench.yaml").write_text(WRENCH)
    return folder


@pytest.fixture(scope="module")
def layer(tmp_path_factory: pytest.TempPathFactory) -> Layer:
    """Return the records as a layer."""
    return vetted(fill(tmp_path_factory.mktemp("book")))


def ids(layers: list[Layer], text: str, kind: str = "") -> list[str]:
    """Return the ids that a text finds, in their order."""
    found = Finder(layers, kind).find(text)
    return [card["id"].removeprefix("joints/") for card in found.cards]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sump", ["sump", "spare", "block"]),  # name, title, text
        ("sum gasket", ["sump"]),
        ("oil pan", ["sump", "spare", "block"]),
        ("OIL PANS", ["sump", "spare", "block"]),
        ("prop shaft", ["shaft"]),
        ("cardan shaft m10", ["shaft"]),
        ("pilot bearing", ["eye"]),
        ("M10", ["shaft", "block"]),  # the whole size before the one that goes on
        ("3/8", ["eye"]),
        ("hub nut", ["hub-nut", "hub"]),
        ("joint flange", ["shaft"]),
        ("joints/eye", ["eye"]),
        ("long-arm", ["wrench"]),
        ("wrench", ["wrench"]),
    ],
)
def test_found(text: str, expected: list[str], layer: Layer) -> None:
    """Names come before titles before all else, whole words before beginnings."""
    assert ids([layer], text) == expected


def test_named(layer: Layer) -> None:
    """A name of its own, or an id, is the one that was meant; two of one name are not."""
    assert Finder([layer]).find("drawbar EYE").named
    assert Finder([layer]).find("joints/hub").total == 1
    assert Finder([layer]).find("hub-nut").total > 1  # rather words than an id without its folder
    both = Finder([layer]).find("hub")
    assert not both.named
    assert [card["kind"] for card in both.cards[:2]] == ["joint", "wrench"]
    assert Finder([layer], "wrench").find("hub").named
    assert ids([layer], "hub", "wrench") == ["wrench"]
    assert ids([layer], "M10", "joint") == ["shaft", "block"]
    assert not Finder([layer]).find("sump").named


@pytest.mark.parametrize(
    ("text", "expected", "instead"),
    [
        ("gaskte", ["sump"], {"gaskte": ("gasket",)}),
        ("drawbr ee", ["eye"], None),
        ("flnage", ["shaft"], {"flnage": ("flange",)}),
        ("propeler shaft", ["shaft"], {"propeler": ("propeller",)}),
    ],
)
def test_slips(
    text: str, expected: list[str], instead: dict[str, tuple[str, ...]] | None, layer: Layer
) -> None:
    """Where nothing is found a slip is put right, and that is said; short words are not."""
    if instead is None:
        with pytest.raises(NotUnderstood, match="no record holds this"):
            Finder([layer]).find(text)
        return
    found = Finder([layer]).find(text)
    assert [card["id"].removeprefix("joints/") for card in found.cards] == expected
    assert found.instead == instead


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("sump M99", "write sump"),
        ("sump drawbar", "write drawbar or sump"),
        ("M11", None),
        ("zzzzzzzz", None),
        ("gaskte M99", "write gasket"),
    ],
)
def test_nothing(text: str, right: str | None, layer: Layer) -> None:
    """Where nothing holds all words, those that would find something are offered; no number is."""
    with pytest.raises(NotUnderstood) as caught:
        Finder([layer]).find(text)
    said = f'"{text}": no record holds this'
    assert str(caught.value) == (f"{said}; {right}" if right else said)


@pytest.mark.parametrize("text", ["", '"', "*", "-", "():^{}", "\0", "\udc80"])
def test_no_words(text: str, layer: Layer) -> None:
    """What holds no word is said to hold none."""
    with pytest.raises(NotUnderstood, match="no word to look for"):
        Finder([layer]).find(text)


@pytest.mark.parametrize(
    "text", ['sump"', "NEAR(sump)", "sump*", "-sump", "{name}:sump", "sump'; drop table cards;--",
             "sump AND block", "sump OR hub", "NOT sump", "^sump", "sump + sump"],
)  # fmt: skip
def test_operators_are_words(text: str, layer: Layer) -> None:
    """What is an operator to the database is looked for as a word, and does nothing else."""
    try:
        found = [card["id"] for card in Finder([layer]).find(text).cards]
    except NotUnderstood:
        found = []
    assert ("joints/sump" in found) == (text in {'sump"', "sump*", "-sump", "^sump", "sump + sump"})
    assert ids([layer], "sump") == ["sump", "spare", "block"]


@given(st.text(max_size=30))
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_text(layer: Layer, text: str) -> None:
    """Whatever is typed finds something or says that there is nothing."""
    finder = Finder([layer])
    try:
        found = finder.find(text)
    except NotUnderstood:
        found = None
    assert found is None or found.cards


def test_too_many_words(layer: Layer) -> None:
    """A whole page is not looked for."""
    with pytest.raises(NotUnderstood, match="more than 16 words"):
        Finder([layer]).find("sump " * 17)


def test_layers(layer: Layer, tmp_path: Path) -> None:
    """An upper folder's records come first, and cover those of the same id or kind and name."""
    mine = tmp_path / "joints"
    mine.mkdir()
    for name, called in (("sump", "my sump"), ("other", "Hub"), ("extra", "oil pan baffle")):
        text = JOINT.format(title="Mine", name=called, thread="M8", note="mine")
        (mine / f"{name}.yaml").write_text(text)
    upper = vetted(tmp_path)
    found = Finder([upper, layer]).find("sump")
    assert [card["title"] for card in found.cards][:2] == ["Mine", "Mine"]
    assert [card["id"] for card in found.cards].count("joints/sump") == 1
    assert ids([upper, layer], "hub", "joint") == ["other", "hub-nut"]
    assert ids([layer, upper], "hub", "joint") == ["hub", "hub-nut"]
    assert Finder([upper, layer]).one("wrench", "Long Arm") == layer.card(layer.called("wrench")[0])
    assert Finder([upper, layer]).one("wrench", "hub") == layer.card(layer.called("wrench")[0])
    assert Finder([upper, layer]).one("wrench", "sump") is None
    slip = Finder([upper, layer]).find("bafle")
    assert slip.instead == {"bafle": ("baffle",)}


def test_many(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A list is cut, and beyond a number nobody counts."""
    monkeypatch.setattr(finding, "MOST_FOUND", 30)
    for number in range(40):
        text = JOINT.format(title="t", name=f"bracket {number}", thread="M8", note="n")
        (tmp_path / f"{number:02}.yaml").write_text(text)
    found = Finder([vetted(tmp_path)]).find("brack")
    assert (len(found.cards), found.total) == (MOST_SHOWN, 30)


def test_found_anew_where_files_changed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A card whose file was written over in a large folder is looked for again before it shows."""
    monkeypatch.setattr("torquebook.catalogue.store.folder.MOST_COMPARED", 1)
    fill(tmp_path)
    said: list[str] = []
    FolderLayer(str(tmp_path), said.append)
    path = tmp_path / "joints" / "sump.yaml"
    path.write_text(path.read_text().replace("40 N.m", "44 N.m"))
    found = Finder([FolderLayer(str(tmp_path), said.append)]).find("sump block")
    assert found.cards[0]["facts"]["tighten"] == "44 N.m"
    assert len(said) == 1
