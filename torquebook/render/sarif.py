"""Findings as SARIF 2.1.0 (OASIS, errata 01), which code hosts show beside the lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook import __version__
from torquebook.findings import Severity
from torquebook.render.found import from_root, json_items, json_piece, sentence, uri
from torquebook.render.plain import inert
from torquebook.rules.registry import RULES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.findings import Finding
    from torquebook.rules.admission import Admission

SCHEMA: Final = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
LEVELS: Final = {Severity.STOP: "error", Severity.ASK: "warning", Severity.NOTE: "note"}
_BASE: Final = "SRCROOT"


def pieces(answer: Admission) -> Iterator[str]:
    """Yield the log piece by piece, so that many findings take little room."""
    slugs = {slug: n for n, slug in enumerate(dict.fromkeys(f.rule for f in answer.findings))}
    names = dict.fromkeys(uri(from_root(name, answer.root)) for name in answer.files)
    driver = {"name": "torquebook", "version": __version__, "rules": [_rule(s) for s in slugs]}
    base = {_BASE: {"description": {"text": "the top of the repository, or where admit was run"}}}
    yield f'{{\n"$schema": {json_piece(SCHEMA)},\n"version": "2.1.0",\n"runs": [{{\n'
    yield f'"tool": {json_piece({"driver": driver})},\n'
    yield f'"originalUriBaseIds": {json_piece(base)},\n"columnKind": "unicodeCodePoints",\n'
    yield '"artifacts": [\n'
    yield from json_items({"location": _location(name)} for name in names)
    yield '],\n"results": [\n'
    yield from json_items(_result(f, slugs[f.rule], answer.root) for f in answer.findings)
    yield "]\n}]\n}\n"


def _rule(slug: str) -> dict[str, Any]:
    """Return a rule's page; of a slug that has none, the slug for all of it."""
    rule = RULES.get(slug)
    asks = rule.question if rule else slug
    return {
        "id": inert(slug),
        "shortDescription": _message(asks),
        "fullDescription": _message((rule and rule.section("Why")) or asks),
        "help": _message((rule and rule.section("Mend")) or asks),
    }


def _result(finding: Finding, index: int, root: str) -> dict[str, Any]:
    place = finding.place
    where = {
        "artifactLocation": _location(uri(from_root(place.file, root))),
        "region": {"startLine": place.line, "startColumn": place.column},
    }
    return {
        "ruleId": inert(finding.rule),
        "ruleIndex": index,
        "level": LEVELS[finding.severity],
        "message": _message(sentence(finding)),
        "locations": [{"physicalLocation": where}],
    }


def _location(name: str) -> dict[str, str]:
    """Return where a file lies; a whole path (SARIF 3.4.4) has no base."""
    return {"uri": name} if name.startswith("file:") else {"uri": name, "uriBaseId": _BASE}


def _message(text: str) -> dict[str, str]:
    """Return a plain text message: braces doubled (SARIF 3.11.5), no link in it (3.11.6)."""
    paragraphs = (" ".join(paragraph.split()) for paragraph in text.split("\n\n"))
    text = "\n\n".join(paragraphs).replace("](", "] (")
    return {"text": text.replace("{", "{{").replace("}", "}}")}
