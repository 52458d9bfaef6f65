"""Make the index, the cards and the JSON Schemas from specs/ and the models.

Run ``python -m torquebook.catalogue.build`` after every change there; a test compares.
Where records have faults it writes nothing, names each fault, and ends with exit code 2.
"""

from __future__ import annotations

import json
import sys
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.index import INDEX, KEYS, MADE_BY
from torquebook.catalogue.layers import vetted
from torquebook.catalogue.places import schema_root, specs_root
from torquebook.catalogue.store import stamp
from torquebook.catalogue.store.own import CARDS
from torquebook.catalogue.tidy import schema_file
from torquebook.errors import Unreadable
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.catalogue.index import Rows
    from torquebook.catalogue.store.writing import Card

SCHEMA_COMMENT = "made from torquebook/records/ by: python -m torquebook.catalogue.build"
DIALECT = "https://json-schema.org/draft/2020-12/schema"


UNUSABLE = 2
COMMAND = "python -m torquebook.catalogue.build"
STAMP = Path(str(stamp.__file__))
#: What decides, with the models, what an index holds of a record.
_MAKE = (
    "cards.py",
    "faults.py",
    "layers.py",
    "plaintext.py",
    "reading.py",
    "rows.py",
    "strict.py",
    "store/layout.py",
    "store/making.py",
    "store/words.py",
    "store/writing.py",
)


def index_text(rows: Rows) -> str:
    """Return the index of rows of records: JSON, one record a line."""
    parts = [f'"//": {json.dumps(MADE_BY)}']
    for shelf in KEYS:
        lines = ",\n".join(
            json.dumps(row, ensure_ascii=False, separators=(",", ":")) for row in rows[shelf]
        )
        parts.append(f'"{shelf}": [\n{lines}\n]')
    return "{\n" + ",\n".join(parts) + "\n}\n"


def cards_text(cards: Iterable[Card]) -> str:
    """Return the cards of records: JSON, one a line."""
    lines = [json.dumps({"//": MADE_BY})]
    lines += [json.dumps(card, ensure_ascii=False, separators=(",", ":")) for card in cards]
    return "\n".join(lines) + "\n"


def stamp_text() -> str:
    """Return the module that says what an index is made with: it changes with the sources."""
    package = Path(__file__).parent.parent
    sources = [*package.glob("records/*.py"), *(package / "catalogue" / name for name in _MAKE)]
    whole = sha256()
    for path in sorted(sources):
        whole.update(path.read_text(encoding="utf-8").encode())
    about = f"What an index was made with; made by: {COMMAND}."
    return f'"""{about}"""\n\nSTAMP = "{whole.hexdigest()[:16]}"\n'


def schema_texts() -> Iterator[tuple[str, str]]:
    """Yield the file name and text of each kind's JSON Schema."""
    for kind, model in KINDS.items():
        made = _shared(model.model_json_schema())
        schema = {"$comment": SCHEMA_COMMENT, "$schema": DIALECT, **made}
        yield schema_file(kind), json.dumps(schema, indent=1) + "\n"


def _shared(node: Any) -> Any:
    """Return a schema in the keywords that draft-07 and 2020-12 share, without nulls."""
    if isinstance(node, list):
        return [_shared(item) for item in node]
    if not isinstance(node, dict):
        return node
    choices = node.get("anyOf", [])
    if {"type": "null"} in choices:
        (held,) = (choice for choice in choices if choice != {"type": "null"})
        node = {**held, **{key: node[key] for key in node if key not in {"anyOf", "default"}}}
    if "patternProperties" in node:
        ((pattern, held),) = node["patternProperties"].items()
        node = {key: node[key] for key in node if key != "patternProperties"}
        names = {**node.get("propertyNames", {}), "pattern": pattern}
        node |= {"propertyNames": names, "additionalProperties": held}
    if "pattern" in node:  # Python's $ stands before a last line end, too
        node = {**node, "pattern": node["pattern"].removesuffix("$") + r"$(?!\n)"}
    return {
        key: _properties(value) if key in {"properties", "$defs"} else _shared(value)
        for key, value in node.items()
        if key not in {"title", "default"}
    }


def _properties(named: dict[str, Any]) -> dict[str, Any]:
    """Return the schemas under names, which may be called like keywords."""
    return {name: _shared(schema) for name, schema in named.items()}


def build() -> int:
    """Write what is made from the records and the models; return the exit code."""
    try:
        layer = vetted(specs_root())
        faults = layer.faults()
    except Unreadable as fault:
        faults = (fault,)
    if faults:
        sys.stderr.write("".join(f"{fault}\n" for fault in faults))
        return UNUSABLE
    rows = {shelf: layer.rows(shelf) for shelf in KEYS}
    Path(INDEX).write_text(index_text(rows), encoding="utf-8")
    Path(CARDS).write_text(cards_text(layer.cards()), encoding="utf-8")
    STAMP.write_text(stamp_text(), encoding="utf-8")
    folder = schema_root()
    for name, text in schema_texts():
        (folder / name).write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(build())
