"""Look at contributed files: their shape, the published schema, then every rule on the record."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from jsonschema_rs import Draft202012Validator

from torquebook.catalogue.book import Book
from torquebook.catalogue.contributed import contributed_text, shelved
from torquebook.catalogue.faults import DISAGREE, UNQUOTED, Fault
from torquebook.catalogue.index import read_index
from torquebook.catalogue.library import Held, Library
from torquebook.catalogue.places import schema_root
from torquebook.catalogue.reading import reading
from torquebook.catalogue.register import Register
from torquebook.catalogue.tidy import schema_file
from torquebook.errors import TorquebookError, Unreadable
from torquebook.findings import Place
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.rules.basis.contributed import ContributedCase, FileCase
from torquebook.rules.basis.fastener import Fitter
from torquebook.rules.engine import said
from torquebook.rules.judge_records import added, judged
from torquebook.rules.registry import rules_about

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from torquebook.catalogue.reading import Reading
    from torquebook.findings import Finding


class SchemaFault(Exception):
    """A published schema refuses what the model takes; names the file."""


class Desk:
    """What contributed files of one folder of records are looked at with.

    Parameters
    ----------
    root : str
        The folder of records, which is laid over our own; empty for none.
    among : collection of str, optional
        The only records that can share a name with those that are looked at; all if not given.
    """

    def __init__(self, root: str, among: Collection[str] | None = None) -> None:
        self.register = Register(root, among)
        folders = (Path(root),) if root else ()
        rows = self.register.rows
        self.book = Book([rows.__getitem__, read_index().__getitem__], folders)
        self.library = Library(folders, lenient=True)
        self.fitter = Fitter(self.book)


class Vetting:
    """Looks at contributed files, one after another; keeps a desk for each folder of records.

    Parameters
    ----------
    roots : sequence of str
        The folders of records that are looked at.
    among : collection of str, optional
        As for :class:`Desk`.
    """

    def __init__(self, roots: Sequence[str] = (), among: Collection[str] | None = None) -> None:
        self._roots = tuple(roots)
        self._desk = cache(partial(Desk, among=among))

    def prepare(self, files: Iterable[str]) -> None:
        """Set up the desks for some files, before other processes work at them too."""
        for root in dict.fromkeys(shelved(file, roots=self._roots).root for file in files):
            self._desk(root).register.files  # noqa: B018 - read now, by one process

    def look(self, path: str) -> tuple[Finding, ...]:
        """Return all that is found in one file, in the order of the file.

        Parameters
        ----------
        path : str
            A file; what is wrong with it, whatever it is, is a finding.

        Raises
        ------
        RuleFault
            If a rule fails.
        SchemaFault
            If the published schema refuses what the model takes.
        """
        try:
            text = contributed_text(path)
        except Unreadable as fault:
            return _found(FileCase(path, [_as_fault(fault, path)]))
        return self.look_at(text, path)

    def look_at(self, text: str, path: str, desk: Desk | None = None) -> tuple[Finding, ...]:
        """Return all that is found in the text of a file, as ``look``.

        Parameters
        ----------
        text, path : str
        desk : Desk, optional
            Where not that of the folder that the file lies in.
        """
        try:
            read = reading(text, path)
        except Unreadable as fault:
            return _found(FileCase(path, [_as_fault(fault, path)]))
        if read.record is None:
            found = _found(FileCase(path, read.faults, read.data, read.positions))
            return _sorted([*found, *self._as_if_quoted(text, path, read, desk)])
        return self._of_record(text, path, read, desk)

    def _as_if_quoted(
        self, text: str, path: str, read: Reading, desk: Desk | None
    ) -> Iterator[Finding]:
        """Yield what else is found where nothing is wrong with the shape but missing quotes."""
        if any(fault.rule != UNQUOTED for fault in read.faults):
            return
        from torquebook.catalogue.mending import quoted  # noqa: PLC0415 - only where it mends

        meant = quoted(text, path)
        again = reading(meant, path)
        before, after = text.split("\n"), meant.split("\n")
        for finding in self._of_record(meant, path, again, desk):
            place = finding.place
            if place.file == path:
                line = place.line - 1
                column = _without_quotes(before[line], after[line], place.column)
                place = replace(place, column=column)
            yield replace(finding, place=place)

    def _of_record(
        self, text: str, path: str, read: Reading, desk: Desk | None
    ) -> tuple[Finding, ...]:
        """Return what is found in a record that its model takes; nothing in any other."""
        record = read.record
        if record is None:
            return ()
        _hold_to_schema(record.kind, read.data, path)
        lies = shelved(path, record.kind, self._roots)
        desk = desk or self._desk(lies.root)
        held: Held[Any] = Held(lies.id, Path(path), record, text, read.positions)
        case = ContributedCase(held, desk.book, desk.library, lies, read.data, desk.register)
        place = case.at()
        findings = [f for rule in rules_about("record") for f in said(rule, case, place)]
        return _sorted([*findings, *_judged(held, desk, place)])


def _without_quotes(before: str, after: str, column: int) -> int:
    """Return the column that a place had before quotes were put into its line."""
    old = 0
    for new in after[: column - 1]:
        old += old < len(before) and before[old] == new
    return old + 1


def _judged(held: Held[Any], desk: Desk, place: Place) -> Iterable[Finding]:
    """Return what the rules on joints say; that no rule can reckon with a record is a finding."""
    try:
        if isinstance(held.record, JointRecord):
            return judged(held, desk.book, desk.library, desk.fitter).findings
        if isinstance(held.record, JobRecord):
            return added(held, desk.book, desk.library)
    except TorquebookError as trouble:
        fault = Fault(place, f"cannot be judged: {trouble}", "values that can be", DISAGREE)
        return _found(FileCase(place.file, [fault]))
    return ()


def _found(case: FileCase) -> tuple[Finding, ...]:
    findings = [f for rule in rules_about("file") for f in said(rule, case, case.place_of(""))]
    return _sorted(findings)


def _sorted(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings by place, each once: a job's joints are looked at for themselves too."""
    by_place = {(f.place, f.severity, f.rule, f.message): f for f in findings}
    return tuple(by_place[key] for key in sorted(by_place))


def _as_fault(trouble: Unreadable, path: str) -> Fault:
    """Return why a file cannot be read as one of its faults, with its place."""
    spot = trouble.where.removeprefix(path) or ":1:1"
    _, line, column = spot.split(":")
    return Fault(Place(path, int(line), int(column)), trouble.what, trouble.right, trouble.rule)


@cache
def _schema(kind: str) -> Draft202012Validator:
    text = (schema_root() / schema_file(kind)).read_text(encoding="utf-8")
    return Draft202012Validator(json.loads(text))


def _hold_to_schema(kind: str, data: Any, path: str) -> None:
    """Hold what the model takes against the published schema; that they differ is our fault."""
    schema = _schema(kind)
    if not schema.is_valid(data):
        first = next(schema.iter_errors(data))
        where = "/".join(map(str, first.instance_path))
        raise SchemaFault(f"{path}: schema/{schema_file(kind)} refuses {where}: {first.message}")
