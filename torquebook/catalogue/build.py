"""Make the index and the JSON Schemas from specs/ and the models.

Run ``python -m torquebook.catalogue.build`` after every change there; a test compares.
Where records have faults it writes nothing, names each fault, and ends with exit code 2.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from torquebook.catalogue.index import INDEX, KEYS, MADE_BY
from torquebook.catalogue.layers import vet_folder
from torquebook.catalogue.places import schema_root, specs_root
from torquebook.errors import Unreadable
from torquebook.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.catalogue.index import Rows

SCHEMA_COMMENT = "made from torquebook/records/ by: python -m torquebook.catalogue.build"
DIALECT = "https://json-schema.org/draft/2020-12/schema"


UNUSABLE = 2


def index_text(rows: Rows) -> str:
    """Return the index of rows of records: JSON, one record a line."""
    parts = [f'"//": {json.dumps(MADE_BY)}']
    for shelf in KEYS:
        lines = ",\n".join(
            json.dumps(row, ensure_ascii=False, separators=(",", ":")) for row in rows[shelf]
        )
        parts.append(f'"{shelf}": [\n{lines}\n]')
    return "{\n" + ",\n".join(parts) + "\n}\n"


def schema_texts() -> Iterator[tuple[str, str]]:
    """Yield the file name and text of each kind's JSON Schema."""
    for kind, model in KINDS.items():
        made = _shared(model.model_json_schema())
        schema = {"$comment": SCHEMA_COMMENT, "$schema": DIALECT, **made}
        yield f"{kind.replace(' ', '-')}.json", json.dumps(schema, indent=1) + "\n"


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
    return {
        key: _properties(value) if key in {"properties", "$defs"} else _shared(value)
        for key, value in node.items()
        if key not in {"title", "default"}
    }


def _properties(named: dict[str, Any]) -> dict[str, Any]:
    """Return the schemas under names, which may be called like keywords."""
    return {name: _shared(schema) for name, schema in named.items()}


def build() -> int:
    """Write the index and the schemas; return the exit code."""
    try:
        rows, faults = vet_folder(specs_root())
    except Unreadable as fault:
        rows, faults = {}, (fault,)
    if faults:
        sys.stderr.write("".join(f"{fault}\n" for fault in faults))
        return UNUSABLE
    Path(INDEX).write_text(index_text(rows), encoding="utf-8")
    folder = schema_root()
    for name, text in schema_texts():
        (folder / name).write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(build())
