"""``torquebook admit``: vets contributed records."""

from __future__ import annotations

import os.path
import sys
from collections import Counter
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click
from click.core import ParameterSource

from torquebook.catalogue.changes import Changes, changes_since
from torquebook.catalogue.contributed import contributed, roots_of, shelved
from torquebook.catalogue.lookup import near
from torquebook.cli.command import command as make
from torquebook.cli.exits import Exit
from torquebook.cli.failing import collect_garbage, fail_on_option, reaches
from torquebook.cli.program import HELPS
from torquebook.errors import NotUnderstood, Unreadable
from torquebook.findings import Severity
from torquebook.records import KINDS
from torquebook.render import terminal
from torquebook.render.admit_formats import FORMATS
from torquebook.render.paper import Paper
from torquebook.rules.admission import look_through
from torquebook.rules.admitting import Vetting

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from torquebook.rules.admission import Findings, Watch

HELP = f"""{HELPS["admit"]}

PATH is a file, or a folder of records such as specs/: every .yaml and .yml in it is read
strictly, held against the model and the published schema of its kind, and asked what its
kind is asked: its place, its source, its names and numbers; a joint also all that judge
asks. All findings of all files come in one run, with what would be right."""

FIX = (
    "First mend quotes and the order of keys and lists; with --changed-since, only in what changed."
)

LONG = 2000  # files that take longer than a person waits without a word


@make(
    help=HELP,
    examples=(
        "admit specs",
        "admit --fix specs/joints/pump/cover.yaml",
        "admit --changed-since origin/main --format github specs",
        "admit --new joint --out specs/joints/pump/cover.yaml",
    ),
)
@click.argument("paths", nargs=-1, metavar="PATH...")
@click.option(
    "--format",
    "form",
    type=click.Choice(list(FORMATS)),
    help="What the findings are written as, text if not said; --json is --format json.",
)
@click.option("--out", metavar="FILE", default="", help="Write into FILE.")
@fail_on_option(Severity.ASK)
@click.option(
    "--changed-since",
    "revision",
    metavar="REV",
    help="Look only at what changed since a branch, tag or commit, and what depends on it.",
)
@click.option("--fix", is_flag=True, help=FIX)
@click.option("--new", "kind", metavar="KIND", help="Write a template of a record.")
def command(
    paths: tuple[str, ...],
    form: str | None,
    out: str,
    fail_on: str,
    revision: str | None,
    kind: str | None,
    *,
    fix: bool,
    as_json: bool,
    plain: bool,
) -> Exit:
    """Parse, mend if asked to, look, render."""
    if kind is not None:
        return _new(kind, paths, out, plain=plain)
    if not (paths and all(paths)):
        raise click.UsageError("no PATH: name a file or folder of records")
    if as_json and form not in {None, "json"}:
        raise click.UsageError(f"--json is --format json; leave it or --format {form} out")
    if revision is not None:
        paths = tuple(map(os.path.relpath, paths))
    wanted = _wanted(paths, revision, plain=plain)
    all_mended = not fix or _mend(wanted.changed, plain=plain)
    collect_garbage()
    with _progress(len(wanted.files)) as watch:
        found = look_through(wanted.files, Vetting(roots_of(paths), wanted.alike), watch)
    paper = Paper(plain=plain) if out else terminal.paper(plain=plain)
    render = FORMATS["json" if as_json else form or "text"]
    terminal.pour(render(found, paper), out, plain=plain)
    if not all_mended:
        return Exit.UNUSABLE
    counts = Counter(finding.severity for finding in found.findings)
    return Exit.FINDINGS if reaches(counts, fail_on) else Exit.CLEAN


def _wanted(paths: Sequence[str], revision: str | None, *, plain: bool) -> Changes:
    """Return what is to be looked at; without a revision all of it counts as changed."""
    if revision is not None:
        changes = changes_since(revision, paths)
        if not changes.begun:
            terminal.complain(f"nothing differs from {revision}", plain=plain)
        return changes
    files = tuple(contributed(paths))
    if not files:
        right = "records end in .yaml and lie in folders such as joints/"
        raise Unreadable(", ".join(paths), "no records there", right)
    return Changes(files, (), None)


def _new(kind: str, paths: tuple[str, ...], out: str, *, plain: bool) -> Exit:
    """Write the template of a record, never over one that is there."""
    if paths:
        raise click.UsageError("--new takes no PATH; name the file by --out")
    if others := _given() - {"--new", "--out", "--ascii"}:
        raise click.UsageError(f"--new takes no {' and no '.join(sorted(others))}")
    from torquebook.catalogue.templates import template  # noqa: PLC0415 - only for this option

    if kind not in KINDS:
        raise NotUnderstood(kind, "no kind of record", near(kind, KINDS, KINDS))
    if out and os.path.lexists(out):
        raise Unreadable(out, "is there already", "name a new file")
    folders_up = shelved(out, kind).id.count("/") + 1 if out else 2
    if out:
        _make_folder(os.path.dirname(out) or ".")  # noqa: PTH120 - a path is text here
    terminal.deliver(template(kind, folders_up), out, plain=plain)
    return Exit.CLEAN


def _given() -> set[str]:
    """Return the options that stand on the command line."""
    context = click.get_current_context()
    every = (one for one in context.command.params if isinstance(one, click.Option))
    typed = ParameterSource.COMMANDLINE
    return {one.opts[0] for one in every if context.get_parameter_source(one.name or "") is typed}


def _make_folder(folder: str) -> None:
    try:
        os.makedirs(folder, exist_ok=True)  # noqa: PTH103 - as above
    except OSError as fault:
        what = f"cannot be made ({fault.strerror})"
        raise Unreadable(folder, what, "name a folder that can") from fault


def _mend(files: Sequence[str], *, plain: bool) -> bool:
    """Mend what is mechanical, and say what; return whether all that was mended is written.

    A file that cannot be read is found later.
    """
    from torquebook.catalogue.mending import mend_file  # noqa: PLC0415 - only for this option

    written = True
    for file in files:
        try:
            _, changes, left = mend_file(file)
        except Unreadable as trouble:
            if not trouble.rule:
                terminal.complain(str(trouble), plain=plain)
                written = False
            continue
        for change in (*changes, *left):
            terminal.complain(f"{change.place}: {change.what}", plain=plain)
    return written


@contextmanager
def _progress(many: int) -> Iterator[Watch]:
    """Show on a terminal how far a long look has come."""
    if many < LONG or not sys.stderr.isatty():
        yield iter
        return
    with click.progressbar(length=many, label="looked at", file=sys.stderr) as bar:

        def watch(every: Iterable[Findings]) -> Iterator[Findings]:
            for findings in every:
                yield findings
                bar.update(1)

        yield watch
