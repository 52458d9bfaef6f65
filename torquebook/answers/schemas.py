"""The JSON Schemas of the kinds of record."""

from __future__ import annotations

from difflib import get_close_matches

from torquebook.catalogue.places import schema_root
from torquebook.errors import NotUnderstood, Unreadable


def kinds() -> tuple[str, ...]:
    """Return the kinds of record that have a schema, in order of the alphabet."""
    return tuple(sorted(path.stem for path in schema_root().glob("*.json")))


def schema(kind: str) -> str:
    """Return the schema of a kind of record, as its file has it.

    Raises
    ------
    NotUnderstood
        If there is no such kind; offers those that look alike.
    Unreadable
        If the file cannot be read.
    """
    known = kinds()
    wanted = "-".join(kind.casefold().replace("_", " ").replace("-", " ").split())
    if wanted not in known:
        near = tuple(get_close_matches(wanted, known, 3)) or known
        raise NotUnderstood(kind, "no kind of record that has a schema", near)
    path = schema_root() / f"{wanted}.json"
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, ValueError) as fault:
        raise Unreadable(
            str(path), "the schema cannot be read", "install torquebook again"
        ) from fault
