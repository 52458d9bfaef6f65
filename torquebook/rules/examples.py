"""The examples of a rule, judged: a rule's page shows what the rule says of them now."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

from torquebook.plans.reading import read_line, read_plan
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding
    from torquebook.rules.engine import Rule

#: What the example of a rule about records leaves unsaid, by kind and key.
_LEFT_OUT: Final = {
    "joint": {
        "name": 'name: "example"',
        "fastener": 'fastener: {thread: "M8", strength_class: "8.8"}',
        "count": "count: 4",
        "tighten": 'tighten: "10 N.m, 20 N.m"',
    },
    "job": {
        "name": 'name: "example"',
        "steps": "steps: [{joint: joints/brigade/clutch-cover}]",
    },
}
_SOURCE: Final = "source: {kind: invented, title: example, provenance: invented}"
_NAMED: Final = re.compile(r"# (\S+/\S+\.ya?ml)")


def said_of(rule: Rule, example: str, book: Book) -> tuple[Finding, ...]:
    """Return what a rule says of an example, worst first.

    Parameters
    ----------
    rule : Rule
    example : str
        Its ``fires`` or ``passes``: one line, a CSV, or keys of a record, above which the
        file's name may stand as a comment.
    book : Book
    """
    found = all_said_of(rule, example, book)
    return tuple(finding for finding in found if finding.rule == rule.slug)


def all_said_of(rule: Rule, example: str, book: Book) -> tuple[Finding, ...]:
    """Return what all rules say of an example; the arguments are those of :func:`said_of`."""
    if "line" in rule.about:
        return tuple(_plan(example, book))
    about = rule.about[0]
    text, path = _record(example, about if about in _LEFT_OUT else "joint")
    return _contributed(text, path) if about in {"file", "record"} else _judged(text, path, book)


def _plan(example: str, book: Book) -> list[Finding]:
    stream = BytesIO(example.encode())
    plan = read_plan("-", stdin=stream) if "\n" in example else read_line(example)
    return judge(plan, book).findings


def _record(example: str, kind: str) -> tuple[str, str]:
    """Return the text of a record that an example gives a part of, and the path of its file."""
    from torquebook.catalogue.tidy import SHELVES, editor_line, key_order  # noqa: PLC0415 - brings the models

    lines = example.splitlines()
    named = _NAMED.fullmatch(lines[0])
    body = lines[1:] if named else lines
    comments = [line for line in body if line.startswith("#")]
    parts = re.split(r"^(?=\w)", "\n".join(body[len(comments) :]), flags=re.MULTILINE)
    stated = {part.partition(":")[0]: part.rstrip("\n") for part in parts if part}
    kind = stated.get("kind", kind).removeprefix("kind: ")
    order = key_order(kind if kind in SHELVES else "joint")
    stated = {"kind": f"kind: {kind}", "title": 'title: "An example"', "source": _SOURCE} | stated
    stated = _LEFT_OUT.get(kind, {}) | stated
    keys = sorted(stated, key=lambda key: order.index(key) if key in order else len(order) - 2)
    path = named[1] if named else f"{SHELVES.get(kind, 'joints')}/brigade/example.yaml"
    head = comments or [editor_line(kind, path.count("/") + 1)]
    return "\n".join([*head, *(stated[key] for key in keys), ""]), path


def _judged(text: str, path: str, book: Book) -> tuple[Finding, ...]:
    from torquebook.catalogue.library import Library, taken  # noqa: PLC0415 - as above
    from torquebook.records.job import JobRecord  # noqa: PLC0415 - as above
    from torquebook.records.joint import JointRecord  # noqa: PLC0415 - as above
    from torquebook.rules.judge_records import judged  # noqa: PLC0415 - as above

    file, library = Path(path), Library(book.folders)
    if "kind: job\n" in text:
        return tuple(judged(taken(text, file, JobRecord, "example"), book, library).findings)
    return tuple(judged(taken(text, file, JointRecord, "example"), book, library).findings)


def _contributed(text: str, path: str) -> tuple[Finding, ...]:
    from torquebook.catalogue.places import specs_root  # noqa: PLC0415 - as above
    from torquebook.rules.admitting import Desk, Vetting  # noqa: PLC0415 - as above

    return Vetting().look_at(text, path, Desk(str(specs_root())))
