"""The examples of a rule, judged: a rule's page shows what the rule says of them now."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.plans.reading import read_line, read_plan
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding
    from torquebook.rules.engine import Rule
    from torquebook.rules.judge import Verdict

#: What the example of a rule about records leaves unsaid, by kind and key.
_LEFT_OUT = {
    "joint": {
        "title": 'title: "An example of a joint"',
        "name": 'name: "example"',
        "fastener": 'fastener: {thread: "M8", strength_class: "8.8"}',
        "count": "count: 4",
        "tighten": 'tighten: "10 N.m, 20 N.m"',
    },
    "job": {
        "title": 'title: "An example of a job"',
        "name": 'name: "example"',
        "steps": "steps: [{joint: joints/brigade/clutch-cover}]",
    },
}
_SOURCE = "source: {kind: invented, title: example, provenance: invented}"
_FILE = "# "


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
    verdict = judged_example(rule, example, book)
    return tuple(finding for finding in verdict.findings if finding.rule == rule.slug)


def judged_example(rule: Rule, example: str, book: Book) -> Verdict:
    """Judge an example of a rule by all rules; the arguments are those of :func:`said_of`."""
    return _plan(example, book) if "line" in rule.about else _record(rule, example, book)


def _plan(example: str, book: Book) -> Verdict:
    stream = BytesIO(example.encode())
    return judge(read_plan("-", stdin=stream) if "\n" in example else read_line(example), book)


def _record(rule: Rule, example: str, book: Book) -> Verdict:
    from torquebook.catalogue.library import Library, taken  # noqa: PLC0415 - brings the models
    from torquebook.records.job import JobRecord  # noqa: PLC0415
    from torquebook.records.joint import JointRecord  # noqa: PLC0415
    from torquebook.rules.judge_records import judged  # noqa: PLC0415

    kind = rule.about[0]
    named, _, rest = example.partition("\n")
    path, keys = (named[len(_FILE) :], rest) if named.startswith(_FILE) else ("", example)
    stated = {line.partition(":")[0] for line in keys.splitlines()}
    more = {**_LEFT_OUT[kind], "source": _SOURCE}
    unsaid = "\n".join(line for key, line in more.items() if key not in stated)
    text = f"{keys}\nkind: {kind}\n{unsaid}\n"
    file, library = Path(path or "example.yaml"), Library(book.folders)
    if kind == "joint":
        return judged(taken(text, file, JointRecord, "example"), book, library)
    return judged(taken(text, file, JobRecord, "example"), book, library)
