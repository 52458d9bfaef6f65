"""Valid records of every kind, built from the published schemas, for property tests.

A schema cannot say all that holds between two values: what it leaves open, ``SETTLED`` settles.
"""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, Any, Final

from hypothesis import strategies as st

from torquebook.catalogue.places import schema_root
from torquebook.catalogue.tidy import schema_file

if TYPE_CHECKING:
    from collections.abc import Callable

Values = dict[str, Any]
#: What the reader takes as text: no control characters, halves of characters, unseen signs.
SEEN: Final = st.characters(codec="utf-8", exclude_categories=["C", "Zl", "Zp"])
_LONGEST: Final = 3  # entries of a list, above the least that there must be


@cache
def schema_of(kind: str) -> Values:
    """Return the published schema of a kind."""
    schema: Values = json.loads((schema_root() / schema_file(kind)).read_text(encoding="utf-8"))
    return schema


@cache
def records(kind: str) -> st.SearchStrategy[Values]:
    """Return valid records of a kind, as plain values."""
    schema = schema_of(kind)
    whole: st.SearchStrategy[Values] = _built(schema, schema.get("$defs", {}), kind)
    return whole


def _built(schema: Values, parts: Values, name: str = "") -> st.SearchStrategy[Any]:
    """Return the values that a schema allows."""
    if "$ref" in schema:
        part = schema["$ref"].rpartition("/")[2]
        return _built(parts[part], parts, part)
    if "const" in schema or "enum" in schema:
        return st.sampled_from(schema.get("enum") or [schema["const"]])
    makers: dict[str, Callable[[], st.SearchStrategy[Any]]] = {
        "object": lambda: _mapping(schema, parts, name),
        "array": lambda: _list(schema, parts),
        "string": lambda: _text(schema),
        "boolean": st.booleans,
        "integer": lambda: st.integers(schema.get("minimum"), schema.get("maximum")),
        "number": lambda: _number(schema),
    }
    return makers[schema["type"]]()


def _text(schema: Values) -> st.SearchStrategy[str]:
    longest = schema["maxLength"]
    if "pattern" not in schema:
        return st.text(SEEN, min_size=schema["minLength"], max_size=12) | st.just("x" * longest)
    fit = st.from_regex(schema["pattern"], fullmatch=True, alphabet=SEEN)
    return fit.filter(lambda text: len(text) <= longest) | st.just("x" * longest)


def _number(schema: Values) -> st.SearchStrategy[float]:
    """Return whole numbers and decimals between the limits, the limits among them."""
    low = schema.get("minimum", schema.get("exclusiveMinimum", -(10.0**9)))
    high = schema.get("maximum", schema.get("exclusiveMaximum", 10.0**9))
    decimals = st.floats(
        low,
        high,
        exclude_min="exclusiveMinimum" in schema,
        exclude_max="exclusiveMaximum" in schema,
        allow_subnormal=False,
    )
    least = int(low) + ("exclusiveMinimum" in schema)
    most = int(high) - ("exclusiveMaximum" in schema)
    return decimals | st.integers(least, most) if least <= most else decimals


def _list(schema: Values, parts: Values) -> st.SearchStrategy[list[Any]]:
    least = schema.get("minItems", 0)
    most = min(schema.get("maxItems", least + _LONGEST), least + _LONGEST)
    return st.lists(_built(schema["items"], parts), min_size=least, max_size=most)


def _mapping(schema: Values, parts: Values, name: str) -> st.SearchStrategy[Values]:
    if "properties" not in schema:
        keys = _text({**schema["propertyNames"], "type": "string"})
        return st.dictionaries(keys, _built(schema["additionalProperties"], parts), max_size=2)
    fields = {key: _built(part, parts) for key, part in schema["properties"].items()}
    must = {key: fields.pop(key) for key in schema.get("required", ())}
    chosen = [choice["required"][0] for choice in schema.get("oneOf", schema.get("anyOf", ()))]
    if not chosen:
        whole = st.fixed_dictionaries(must, optional=fields)
    else:
        beside = set(fields) - set(chosen) if "oneOf" in schema else set(fields)
        whole = st.one_of(
            st.fixed_dictionaries(
                {**must, key: fields[key]},
                optional={other: fields[other] for other in sorted(beside - {key})},
            )
            for key in chosen
        )
    settle = SETTLED.get(name)
    return whole.map(settle).filter(bool) if settle else whole


def _rising(*keys: str, apart: bool = False) -> Callable[[Values], Values]:
    """Return what sorts the values of some keys; empty where two are alike that must not be."""

    def settle(values: Values) -> Values:
        there = [key for key in keys if key in values]
        numbers = sorted(values[key] for key in there)
        same = len(set(numbers)) < len(numbers)
        return {} if apart and same else values | dict(zip(there, numbers, strict=True))

    return settle


def _both(*settlers: Callable[[Values], Values]) -> Callable[[Values], Values]:
    def settle(values: Values) -> Values:
        for settler in settlers:
            values = values and settler(values)
        return values

    return settle


def _metric_size(values: Values) -> Values:
    d_mm = max(values["d_mm"], 0.1)
    pitch_mm = min(max(values["pitch_mm"], d_mm / 100), d_mm / 2)
    values = values | {"d_mm": d_mm, "pitch_mm": pitch_mm}
    pitch = "" if values["series"] == "coarse" else f"x{values['pitch_mm']:g}"
    return values | {"size": f"M{values['d_mm']:g}{pitch}"}


def _inch_size(values: Values) -> Values:
    tpi = 4 + int(values["tpi"]) % 77  # up to the finest that there is, 80
    d_in = max(values["d_in"], 0.5)
    return values | {"size": f"{d_in:g}-{tpi}", "d_in": d_in, "tpi": tpi}


def _each_once(values: Values) -> Values:
    order = values["order"]
    ranks = sorted(range(len(order)), key=lambda index: (order[index], index))
    return values | {"order": [ranks.index(index) + 1 for index in range(len(order))]}


def _bands(values: Values) -> Values:
    """Let the bands of a material be those of its grades."""
    grades = values.get("grades")
    for key in ("tensile_mpa", "pressure_mpa") if grades else ():
        every = sorted(grade[key] for grade in grades)
        values = values | {key: {"low": every[0], "nominal": every[0], "high": every[-1]}}
    return values


def _measures(values: Values) -> Values:
    """Let a rule apply to something, and measure something where it says so."""
    check = {"what": "its length", "quantity": "length"}
    if values["verdict"] == "measure" and not values.get("checks"):
        values = values | {"checks": [check]}
    asked = any(values.get(key) for key in ("features", "histories", "classes", "given"))
    return values if asked else values | {"histories": ["corroded"]}


def _coefficients(values: Values) -> Values:
    """Let coefficients of friction lie above 0 and not above 1."""
    bands = {}
    for key in ("mu_thread", "mu_head"):
        largest = max(values[key].values())
        scale = 1 / max(largest, 1)
        bands[key] = {name: max(scale * value, 1e-3) for name, value in values[key].items()}
        bands[key] = {name: min(value, 1) for name, value in bands[key].items()}
    return values | bands


#: By part or kind, how the values of a mapping come to agree; an empty one is left out.
SETTLED: Final[dict[str, Callable[[Values], Values]]] = {
    "Range": _rising("low", "nominal", "high"),
    "ClassEntry": _both(_rising("proof", "yield", "tensile"), _rising("over", "to", apart=True)),
    "NutEntry": _rising("over_mm", "to_mm", apart=True),
    "HoleEntry": _rising("d_mm", "fine_mm", "medium_mm", "coarse_mm", apart=True),
    "TableRow": _rising("low", "high", "most"),
    "Measure": _rising("low", "high"),
    "Limits": _rising("length_new_mm", "length_limit_mm", apart=True),
    "MetricThread": _metric_size,
    "InchThread": _inch_size,
    "wrench": _rising("low", "high", apart=True),
    "pattern": _each_once,
    "material": _bands,
    "reuse rule": _measures,
    "friction": _coefficients,
}
