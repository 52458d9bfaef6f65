"""Make a commented template of a record of any kind from its model.

Text that is to be written stands as a blank in quotes, numbers and truth values as one without.
A key that may be left out stands behind ``#``, without a space, so that it comes into force by
taking that one character away; explanations stand behind ``#`` and a space.
"""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Any, Final

from torquebook.catalogue.template_words import ONE_EACH, SHOWN, SOURCES, WORDS
from torquebook.catalogue.tidy import BLANK, SOURCE_ORDER, editor_line, key_order
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

WIDTH: Final = 80
_DEEPEST: Final = 12  # columns that indents and the signs of commented parts take at most
_HEAD: Final = (
    "A template of kind {kind}. Write the facts over every {blank}: inside the quotes where it "
    "stands in some, without any where it does not. A key behind # may be left out; take the # "
    "away to use it. Comments may go or stay. Then: torquebook admit FILE"
)
#: The units that names of keys end in.
_UNITS: Final = {"mm": "mm", "in": "in", "mpa": "MPa", "deg": "degrees", "pct": "per cent"}


def template(kind: str, folders_up: int = 2) -> str:
    """Return a record of a kind with blanks, each key explained.

    Parameters
    ----------
    kind : str
        One of ``KINDS``.
    folders_up : int
        How many folders the file will lie below the one that holds ``schema/``.

    Returns
    -------
    str
        At most 80 columns wide, but for the first line.
    """
    schema = KINDS[kind].model_json_schema()
    maker = _Maker(schema.get("$defs", {}))
    lines = [editor_line(kind, folders_up), *_prose(_HEAD.format(kind=kind, blank=BLANK))]
    for key in key_order(kind):
        lines += maker.lines(schema, key)
        if key != "kind":
            lines.append("")
    return "\n".join(lines)


class _Maker:
    """Turns the schema of a model into lines of YAML."""

    def __init__(self, parts: Mapping[str, Any]) -> None:
        self.parts = parts

    def lines(self, part: Mapping[str, Any], key: str) -> list[str]:
        """Return the lines of one key of a part, its explanation above them."""
        said = part["properties"][key]
        held = self.resolved(said)
        if "const" in held:
            return [f"{key}: {held['const']}"]
        lines = list(self.held(f"{key}:", held))
        if not _stands(part, key):
            lines = [f"#{line}" for line in lines]
        return [*self.explained(part, key), *lines]

    def resolved(self, schema: Mapping[str, Any]) -> Mapping[str, Any]:
        """Return what a key holds where it is there."""
        first = schema.get("anyOf", [schema])[0]
        name = first.get("$ref", "").rpartition("/")[2]
        found: Mapping[str, Any] = self.parts[name] if name else first
        return found

    def held(self, lead: str, held: Mapping[str, Any]) -> Iterator[str]:
        """Yield the lines of a value behind its key."""
        if held.get("properties") and not self.is_short(held):
            yield lead
            order = SOURCE_ORDER if held["title"] == "Source" else held["properties"]
            yield from _deeper(line for key in order for line in self.lines(held, key))
        elif held["type"] == "array" and self.resolved(held["items"]).get("properties"):
            yield lead
            yield from _deeper(self.entries(self.resolved(held["items"])))
        else:
            yield from self.short(f"{lead} ", held)

    def entries(self, part: Mapping[str, Any]) -> Iterator[str]:
        """Yield an entry of a list of parts."""
        if part["title"] not in ONE_EACH:
            yield from self.short("- ", part)
            return
        for key in part["properties"]:
            first, *more = self.held(f"- {key}:", self.resolved(part["properties"][key]))
            sign = "" if _stands(part, key) else "#"
            yield from self.explained(part, key)
            yield from (f"{sign}{line}" for line in (first, *_deeper(more)))

    def is_short(self, part: Mapping[str, Any]) -> bool:
        """Whether a part is written in one line: all its keys must be there, and are simple."""
        inside = [self.resolved(said) for said in part["properties"].values()]
        all_needed = len(part.get("required", ())) == len(inside)
        return all_needed and not any("properties" in one for one in inside)

    def short(self, lead: str, held: Mapping[str, Any]) -> Iterator[str]:
        """Yield a value in brackets or as one blank, in as many lines as it takes."""
        if "properties" not in held:
            yield lead + self.blank(held)
            return
        line = f"{lead}{{"
        keys = [key for key in held["properties"] if _stands(held, key)]
        for key in keys:
            item = f"{key}: {self.blank(self.resolved(held['properties'][key]))}"
            item += "}" if key == keys[-1] else ","
            if len(line) + len(item) > WIDTH - _DEEPEST:
                yield line.rstrip()
                line = " " * (len(lead) + 1)
            line += f"{item} "
        yield line.rstrip()

    def blank(self, held: Mapping[str, Any]) -> str:
        """Return the blank for a value that holds no parts."""
        if held["type"] == "array":
            return f"[{', '.join([self.blank(held['items'])] * held.get('minItems', 1))}]"
        if held["type"] == "object":
            return f'{{"{BLANK}": {BLANK}}}'
        return f'"{BLANK}"' if held["type"] == "string" else BLANK

    def explained(self, part: Mapping[str, Any], key: str) -> list[str]:
        """Return the comment above a key; where its value is one line, with all that is in it."""
        lines = _prose(self.meaning(part, key))
        if part["title"] == "Source" and key == "kind":
            return lines + [
                line for kind, use in SOURCES.items() for line in _prose(f"- {kind}: {use}")
            ]
        held = self.resolved(part["properties"][key])
        inner = self.resolved(held["items"]) if held["type"] == "array" else held
        if inner.get("properties") and self.is_one_line(inner, in_list=inner is not held):
            for name in inner["properties"]:
                lines += _prose(f"- {name}: {self.meaning(inner, name)}")
        return lines

    def is_one_line(self, part: Mapping[str, Any], *, in_list: bool) -> bool:
        """Whether a part is written in one line, so that its keys are explained above it."""
        return part["title"] not in ONE_EACH if in_list else self.is_short(part)

    def meaning(self, part: Mapping[str, Any], key: str) -> str:
        """Return what a key means, what may be written, and whether it may be left out."""
        held = self.resolved(part["properties"][key])
        words = WORDS.get(f"{part['title']}.{key}") or WORDS[key]
        return " ".join(filter(None, (words, _form(key, held), _left_out(part, key))))


def _stands(part: Mapping[str, Any], key: str) -> bool:
    """Whether a key stands as a blank, and not behind a #."""
    return key in part.get("required", ()) or f"{part['title']}.{key}" in SHOWN


def _form(key: str, held: Mapping[str, Any]) -> str:
    """Return in words what form a value has."""
    if "enum" in held:
        # The kinds of sources are explained one by one.
        return "" if "common practice" in held["enum"] else f"One of: {', '.join(held['enum'])}."
    form = held.get("type")
    if form == "array":
        said = _form(key, held["items"]).replace("One of", "Any of")
        return said.replace("A number", "Numbers").replace("A whole number", "Whole numbers")
    if form == "number":
        unit = _UNITS.get(key.rpartition("_")[2]) if "_" in key else None
        return f"A number, in {unit}." if unit else "A number."
    return {"integer": "A whole number.", "boolean": "Either true or false."}.get(f"{form}", "")


def _left_out(part: Mapping[str, Any], key: str) -> str:
    """Return whether a key may be left out, and what is taken then."""
    if _stands(part, key):
        return ""
    default = part["properties"][key].get("default")
    if isinstance(default, (str, float)) and not isinstance(default, bool):
        return f"Left out, it is {default}."
    return "May be left out."


def _prose(text: str) -> list[str]:
    return [f"# {line}" for line in wrap(text, WIDTH - _DEEPEST, break_on_hyphens=False)]


def _deeper(lines: Iterable[str]) -> Iterator[str]:
    return (f"  {line}" for line in lines)
