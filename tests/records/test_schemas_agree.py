"""Checks that the models and the published schemas take and refuse the same records.

A record goes the way of a contributed one, from text through the strict reader to its model.
Where the two differ, it is for a reason that stands in ``EXCUSED``, and none other. Schemas are
read by two validators that have nothing in common: by the one that ``admit`` asks too, and by
another in both drafts.
"""

from __future__ import annotations

import inspect
import json
import re
from collections import Counter
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final, NamedTuple, Protocol

import jsonschema_rs
import pytest
from built_records import records, schema_of
from first_faults import load_file, record_files
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st
from jsonschema import Draft7Validator, Draft202012Validator
from pydantic import BaseModel, ValidationError
from slips import SLIPS, changed, places

from torquebook.catalogue.places import record_id, specs_root
from torquebook.catalogue.reading import reading
from torquebook.records import (
    KINDS,
    base,
    classes,
    friction,
    heads,
    holes,
    job,
    joint,
    material,
    nuts,
    pattern,
    reuse,
    table,
    threads,
    wrench,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pydantic_core import ErrorDetails

    from torquebook.catalogue.strict import ValuePath

SPECS: Final = {record_id(path, specs_root()): path for path in record_files(specs_root())}
MODULES: Final = (
    *(base, classes, friction, heads, holes, job, joint, material, nuts, pattern, reuse, table),
    *(threads, wrench),
)


@dataclass(frozen=True)
class Excuse:
    """A reason for which a model refuses what its schema takes.

    Parameters
    ----------
    explains : callable
        Whether a complaint of the model is of this reason.
    record, path, value
        A record of ours and the change by which it shows.
    """

    explains: Callable[[ErrorDetails], bool]
    record: str
    path: ValuePath
    value: Any


def _decimal(details: ErrorDetails) -> bool:
    value = details["input"]
    return details["type"] == "int_type" and isinstance(value, float) and value.is_integer()


def _between(message: str, key: str = "") -> Callable[[ErrorDetails], bool]:
    """Return what knows a model's rule between values by how its message begins, and a key."""

    def explains(details: ErrorDetails) -> bool:
        said = str(details.get("ctx", {}).get("error"))
        begins = details["type"] == "value_error" and re.match(message, said, re.DOTALL)
        return bool(begins) and (not key or key in details["input"])

    return explains


#: JSON Schema has no keyword that compares two values, and takes 1.0 for a whole number (JSON
#: Schema Validation, draft 2020-12 and draft-07, section 6.1.1: "any number with a zero fractional
#: part"). The names are those of the models' rules.
EXCUSED: Final = {
    "1.0 for a whole number": Excuse(_decimal, "joints/brigade/flywheel", ("count",), 8.0),
    "Range._in_order": Excuse(
        _between("not in order; write low, nominal"), "friction/dry", ("mu_thread", "low"), 0.99
    ),
    "ClassEntry._in_order": Excuse(
        _between("not in order; proof|over is not below"),
        "classes/sae-j429",
        ("classes", 0, "over"),
        100,
    ),
    "NutEntry._in_order": Excuse(
        _between("over_mm is not below"), "nuts/iso-898-2-1992", ("classes", 0, "over_mm"), 100
    ),
    "HoleEntry._in_order": Excuse(
        _between("not in order; d, fine"), "holes/iso-273", ("holes", 0, "d_mm"), 100
    ),
    "TableRow._in_order": Excuse(
        _between("not in order; low, high and most"),
        "tables/army-tm-9-2320-362-f-1",
        ("rows", 0),
        {"thread": "M8", "low": 2, "high": 1},
    ),
    "WrenchRecord._in_order": Excuse(
        _between("low is not below high"), "wrenches/brigade/dial-1-10", ("low",), 100
    ),
    "Measure._some_limit_in_order": Excuse(
        _between("low is above high"),
        "jobs/brigade-overhaul",
        ("steps", 0, "gate"),
        {
            "name": "a gate",
            "measure": {"what": "its depth", "unit": "mm", "low": 2, "high": 1},
            "why": "so that it holds",
        },
    ),
    "Limits._longer_than_new": Excuse(
        _between("the limit is not above"),
        "joints/brigade/flywheel",
        ("reuse",),
        {"length_new_mm": 32.3, "length_limit_mm": 32, "source": "an example"},
    ),
    "MetricThread._size_says_the_same": Excuse(
        _between('size is "|too coarse a thread'),
        "threads/iso-262-selected",
        ("threads", 0, "size"),
        "M99",
    ),
    "InchThread._size_says_the_pitch": Excuse(
        _between('size ".*" ends in another|too coarse a thread', "tpi"),
        "threads/asme-b1.1-large",
        ("threads", 0, "size"),
        "1-99",
    ),
    "MaterialRecord._bands_hold_the_grades": Excuse(
        _between("(tensile|pressure)_mpa is not that of the grades"),
        "materials/cast-iron",
        ("grades", 0, "tensile_mpa"),
        1_000,
    ),
    "PatternRecord._every_position_once": Excuse(
        _between("not every position once"), "patterns/circle-04", ("order",), [1, 1, 2, 3]
    ),
}
#: Slips that most kinds have no limit for: a decimal for a number of which there are parts, lists
#: of any length.
RARELY_WRONG: Final = {"decimal for a whole number", "long list", "empty list"}
#: What a joint cannot be without.
SHORT: Final = ("kind", "title", "name", "fastener", "count", "tighten", "source")
#: Rules between values that the schemas say too.
SAID: Final = {
    "FrictionRecord._possible",
    "Gate._one_of_two",
    "Step._one_of_two",
    "Layout._one_of_three",
    "ReuseRule._measures_something",
    "ReuseRule._applies_to_something",
    "DragRow._limits_something",
}


class Seen(NamedTuple):
    """Whether a record is taken by its model, by its schema, and by that read as draft-07."""

    model: bool
    schema: bool
    draft_07: bool
    excuses: tuple[str, ...]


class Validator(Protocol):
    """What both validators can do."""

    def is_valid(self, instance: Any) -> bool:
        """Return whether a record fits."""


@cache
def validators(kind: str) -> tuple[Validator, Validator, Validator]:
    """Return the published schema of a kind as both validators read it, then as draft-07."""
    schema = schema_of(kind)
    first = jsonschema_rs.Draft202012Validator(schema)
    return first, Draft202012Validator(schema), Draft7Validator(schema)


def seen(kind: str, record: Any) -> Seen:
    """Read a record as a contributed one is read, and hold it to the schema of a kind."""
    read = reading(json.dumps(record, ensure_ascii=False), "x.yaml")
    assert json.dumps(read.data) == json.dumps(record)  # so that 1, 1.0 and true are told apart
    new, second, old = (validator.is_valid(record) for validator in validators(kind))
    assert new == second, record
    taken = read.record is not None
    return Seen(taken, new, old, () if taken == new else excuses(kind, record))


def excuses(kind: str, record: Any) -> tuple[str, ...]:
    """Return why a model refuses what the schema takes; nothing where there is no good reason."""
    try:
        KINDS[kind].model_validate(record)
    except ValidationError as error:
        every = [
            [name for name, excuse in EXCUSED.items() if excuse.explains(details)]
            for details in error.errors()
        ]
        return tuple(name for names in every for name in names) if all(every) else ()
    return ()


def hold(kind: str, record: Any) -> Seen:
    """Assert that model and schema agree about a record, or differ for a good reason."""
    found = seen(kind, record)
    assert found.schema == found.draft_07, record
    if found.model != found.schema:
        assert found.schema, f"the schema refuses what the model takes: {record}"
        assert found.excuses, f"the model refuses what the schema takes: {record}"
    return found


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_valid_records_are_taken(kind: str, data: st.DataObject) -> None:
    """Model and schema take every valid record of every kind."""
    assert seen(kind, data.draw(records(kind))) == Seen(
        model=True, schema=True, draft_07=True, excuses=()
    )


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_slips_are_seen_alike(kind: str, data: st.DataObject) -> None:
    """Model and schema agree about a record with one or two slips in it."""
    record = data.draw(records(kind))
    for _ in range(data.draw(st.integers(1, 2))):
        path = data.draw(st.sampled_from(list(places(record))))
        name = data.draw(st.sampled_from(list(SLIPS)))
        made = list(SLIPS[name](record, path))
        record = data.draw(st.sampled_from(made)) if made else record
    found = hold(kind, record)
    event(f"model {found.model}, schema {found.schema}, {' + '.join(found.excuses) or 'alike'}")


def shapes(record: Any) -> list[ValuePath]:
    """Return the places of a record; of each list, the first entry stands for all."""
    first = (int, 0)
    return [
        path
        for path in places(record)
        if all((type(key), key) == first or isinstance(key, str) for key in path)
    ]


def bases(kind: str) -> Iterator[Any]:
    """Yield records of a kind that hold much: ours, or made up where we have none."""
    source = {"kind": "invented", "title": "an example", "provenance": "invented"}
    made_up = {"kind": kind, "title": "x", "name": "x", "prefer": ["a", "b"], "source": source}
    every = [load_file(path)[0] for path in SPECS.values()]
    ours = [data for data in every if data["kind"] == kind]
    fullest = max(ours, key=lambda data: (len(shapes(data)), -len(str(data))), default=made_up)
    yield fullest
    if kind == "joint":
        rows = {"lengths": [4, 4], "along_mm": 50, "between_mm": 40}
        yield {**{key: fullest[key] for key in SHORT}, "layout": {"rows": rows}}
        yield {**{key: fullest[key] for key in SHORT}, "layout": {"points": [[0, 0], [90, 0.5]]}}


@pytest.fixture(scope="module")
def every_slip() -> dict[str, list[tuple[str, Seen]]]:
    """Return by kind what becomes of records with each slip in every place of them."""
    found: dict[str, list[tuple[str, Seen]]] = {kind: [] for kind in KINDS}
    for kind in KINDS:
        for whole in bases(kind):
            assert hold(kind, whole).model
            for path in shapes(whole):
                for name, slip in SLIPS.items():
                    found[kind] += [(name, hold(kind, made)) for made in slip(whole, path)]
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_every_slip_in_every_place(
    every_slip: dict[str, list[tuple[str, Seen]]], kind: str
) -> None:
    """Both refuse each slip somewhere in each kind that has a place for it, and take some."""
    tally = Counter((name, seen.model, seen.schema) for name, seen in every_slip[kind])
    for name in {name for name, _, _ in tally} - RARELY_WRONG:
        assert tally[name, False, False], name
    assert any(model and schema for _, model, schema in tally)


@pytest.mark.parametrize("name", SLIPS)
def test_each_slip_is_refused(every_slip: dict[str, list[tuple[str, Seen]]], name: str) -> None:
    """Each slip is refused by model and schema alike in some kind."""
    every = [seen for made in every_slip.values() for slip, seen in made if slip == name]
    assert any((seen.model, seen.schema) == (False, False) for seen in every)


@pytest.mark.parametrize("name", EXCUSED)
def test_excuses_are_true(name: str) -> None:
    """Model and schema do differ for each reason that is listed, and for it alone."""
    excuse = EXCUSED[name]
    record, _ = load_file(SPECS[excuse.record])
    kind = record["kind"]
    assert hold(kind, record).model
    assert hold(kind, changed(record, excuse.path, excuse.value)) == Seen(
        model=False, schema=True, draft_07=True, excuses=(name,)
    )


def test_no_rule_between_values_is_forgotten() -> None:
    """Every rule of a model between values is said by the schema, or is listed with its reason."""
    models = {
        model
        for module in MODULES
        for _, model in inspect.getmembers(module, inspect.isclass)
        if issubclass(model, BaseModel)
    }
    rules = {
        f"{model.__name__}.{rule}"
        for model in models
        for rule in model.__pydantic_decorators__.model_validators
    }
    assert rules == SAID | EXCUSED.keys() - {"1.0 for a whole number"}


@pytest.mark.parametrize("name", SPECS)
def test_specs_fit_in_draft_07(name: str) -> None:
    """Our records fit their schemas as draft-07, too, and a key too many does not."""
    record, _ = load_file(SPECS[name])
    assert hold(record["kind"], record) == Seen(model=True, schema=True, draft_07=True, excuses=())
    assert not hold(record["kind"], record | {"unknown": 1}).draft_07
