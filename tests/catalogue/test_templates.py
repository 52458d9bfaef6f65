"""Checks of the templates: each names its blanks, and passes once they are filled in."""

from __future__ import annotations

import json
import re
from typing import Any, Final, get_args

import pytest

from torquebook.catalogue.faults import DISAGREE, MISSHAPEN, OUTSIDE, QUOTED, UNLISTED
from torquebook.catalogue.mending import mended
from torquebook.catalogue.places import specs_root
from torquebook.catalogue.reading import reading
from torquebook.catalogue.strict import load
from torquebook.catalogue.template_words import ONE_EACH, SHOWN, SOURCES, WORDS
from torquebook.catalogue.templates import template
from torquebook.catalogue.tidy import BLANK, SHELVES, SOURCE_ORDER, key_order
from torquebook.findings import Severity
from torquebook.records import KINDS
from torquebook.records.base import SourceKind
from torquebook.rules.admitting import Desk, Vetting
from torquebook.rules.sourcing import ASKED, GATING

# Facts to fill the blanks with, in the order in which they stand: all invented.
FACTS: Final[dict[str, list[str | float | bool]]] = {
    "metric threads": ["M801", 801, 7, "coarse"],
    "inch threads": ["3-5/8-4", 3.625, 4, "UNC"],
    "strength classes": [
        *("Invented 1", "not stated", "metric", "MPa", "mm"),
        *("97.7", 9700, 6800, 6500, 3, 100),
    ],
    "nut classes": ["Invented 2", "not stated", "97", "1", 970, 3, 100],
    "heads": ["hexagon", "Invented 3", "M10", 17],
    "holes": [801, 802, 803, 804],
    "tapping drills": ["M30x1.5", 970],
    "friction": ["invented oil", 0.1, 0.12, 0.14, 0.1, 0.12, 0.14, True],
    "material": ["invented metal", 1.5, "invented"],
    "wrench": ["invented click", 10, 90, "N.m", 0.04, "1/2 in"],
    "printed table": ["dry", "N.m", "Nm", "M10", "8.8", 45],
    "reuse rule": ["invented rule", "circlip", "renew", 9, "invented"],
    "prevailing torques": ["invented drag", "N.m", "invented nuts", "M10", 1.5],
    "preference": ["invented choice", "US Army TB 43-0218"],
    "pattern": ["invented order of 2", "rows", 1, 2],
    "joint": ["invented", "M8", "8.8", 4, "steel", "dry", "20 N.m"],
    "job": ["invented", "joints/brigade/clutch-cover"],
}
SOURCE: Final = ["invented", "invented example", "not stated", "not stated", "invented"]
BLANKS: Final = re.compile(f'"{BLANK}"|{BLANK}')
# The slugs by which a blank is refused where text is not enough.
REFUSED: Final = {QUOTED, UNLISTED, MISSHAPEN, "blank-unfilled"}
DESK: Final = Desk(str(specs_root()))


def path_of(kind: str) -> str:
    return f"{SHELVES.get(kind, 'preferences')}/example/invented.yaml"


def filled(text: str, facts: list[Any]) -> str:
    """Return a template with its blanks filled in, one after another; comments are left."""
    left = iter(facts)
    lines = [
        line
        if line.lstrip().startswith("#")
        else BLANKS.sub(lambda _: json.dumps(next(left)), line)
        for line in text.splitlines(keepends=True)
    ]
    assert list(left) == []
    return "".join(lines)


def in_force(text: str) -> str:
    """Return a template with every key that may be left out in force."""
    before = ""
    while text != before:
        before, text = text, re.sub(r"^( *)#(?! \S|$)", r"\1", text, flags=re.MULTILINE)
    return text


@pytest.mark.parametrize("kind", KINDS)
def test_filled_in_it_passes(kind: str) -> None:
    """A template whose blanks hold facts draws no stop and no question."""
    text = filled(template(kind, 3), [f"Invented, {kind}", *FACTS[kind], *SOURCE])
    found = Vetting().look_at(text, path_of(kind), DESK)
    assert [f"{f.place}: {f.rule}: {f.message}" for f in found if f.severity <= Severity.ASK] == []
    record = reading(text, "x.yaml").record
    assert record is not None
    assert record.kind == kind


@pytest.mark.parametrize("kind", KINDS)
def test_every_blank_is_refused_at_its_place(kind: str) -> None:
    """As it is, a template is stopped once at every blank, and only there."""
    text = template(kind)
    blanks = [
        (number, found.start() + 1)
        for number, line in enumerate(text.splitlines(), 1)
        if not line.lstrip().startswith("#")
        for found in BLANKS.finditer(line)
    ]
    found = Vetting().look_at(text, path_of(kind), DESK)
    assert [(f.place.line, f.place.column) for f in found] == blanks
    assert {f.severity for f in found} == {Severity.STOP}
    assert {f.rule for f in found} <= REFUSED


@pytest.mark.parametrize("kind", KINDS)
def test_keys_in_force(kind: str) -> None:
    """With every # taken away the keys are known and in order, and only blanks are wrong."""
    text = in_force(template(kind))
    data, _ = load(text, "x.yaml")
    assert list(data) == key_order(kind)
    assert tuple(data["source"]) == SOURCE_ORDER
    assert {fault.rule for fault in reading(text, "x.yaml").faults} <= REFUSED | {DISAGREE, OUTSIDE}
    assert mended(text, "x.yaml") == (text, (), ())


@pytest.mark.parametrize("kind", KINDS)
def test_each_key_is_explained(kind: str) -> None:
    """Above every key at the top stands a comment, and no line but the first is too wide."""
    first, *lines = template(kind, 3).splitlines()
    assert first.startswith("# yaml-language-server: $schema=../../../schema/")
    assert max(map(len, lines)) <= 80
    for key in key_order(kind)[1:]:
        place = next(number for number, line in enumerate(lines) if re.match(f"#?{key}:", line))
        assert lines[place - 1].startswith("# ")


def test_the_words_are_all_used() -> None:
    """Every word explains a key of some model, and names of parts and keys are those of models."""
    parts: dict[str, Any] = {}
    for model in KINDS.values():
        schema = model.model_json_schema()
        parts |= {schema["title"]: schema, **schema.get("$defs", {})}
    keys = {(name, key) for name, part in parts.items() for key in part.get("properties", ())}
    full = {f"{name}.{key}" for name, key in keys}
    short = {key for name, key in keys if f"{name}.{key}" not in WORDS}
    assert set(WORDS) <= full | short
    assert full >= SHOWN
    assert set(parts) >= ONE_EACH


def test_kinds_of_sources() -> None:
    """Each kind of source is explained, with what the rules ask of it and stop."""
    assert tuple(sorted(SOURCES)) == tuple(sorted(get_args(SourceKind)))
    for kind, words in SOURCES.items():
        for key in ASKED.get(kind, {}):
            assert key in words
    free = {"threads": "metric threads", "heads": "heads", "holes": "holes", "wrenches": "wrench"}
    free |= {"drills": "tapping drills", "patterns": "pattern", "preferences": "preference"}
    assert all(word in SOURCES["memory"] for word in free)
    assert {*free.values(), "inch threads"} == set(KINDS) - GATING
