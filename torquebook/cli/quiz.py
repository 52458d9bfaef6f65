"""``torquebook quiz``: question sheets for a class, with keys and the ways to them."""

from __future__ import annotations

import os.path
from datetime import date as day
from typing import TYPE_CHECKING, Any, Final

import click
from click.core import ParameterSource

from torquebook.cli.command import book_option, my_bench, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS, Group
from torquebook.errors import NotUnderstood
from torquebook.quiz.making import listed, make_quiz
from torquebook.quiz.standing import beside, refuse_held
from torquebook.render import families as list_render
from torquebook.render import terminal
from torquebook.render.papersizes import PAPERS
from torquebook.render.quizdata.papers import (
    KEY_FILE,
    MARK_LIST,
    json_papers,
    markdown_papers,
    marking_files,
    qti_papers,
)
from torquebook.render.quizsheet.papers import QUESTIONS, html_papers, pdf_papers

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Protocol

    from torquebook.catalogue.book import Book
    from torquebook.quiz.model import Quiz
    from torquebook.render.papersizes import Paper

    class Setter(Protocol):
        """Makes the documents of a quiz, by what stands behind the file's name."""

        def __call__(
            self, quiz: Quiz, paper: Paper, *, plain: bool
        ) -> Mapping[str, str] | Mapping[str, bytes]:
            """Return them; that of the name alone is the questions, without any key."""


FORMATS: Final[dict[str, Setter]] = {
    "html": html_papers,
    "pdf": pdf_papers,
    "markdown": markdown_papers,
    "json": json_papers,
    "qti": qti_papers,
}
ENDINGS: Final = {"htm": "html", "md": "markdown", "zip": "qti"}
BINARY: Final = {"pdf": "a PDF is no text for a terminal", "qti": "a package is a file"}
QUIZ_HELPS: Final = {"mark": "Mark a class: points, and which mistakes were made."}

HELP = f"""{HELPS["quiz"]}

Every sheet is another, and each key is worked out from the book. About ten questions fill a
page; a long sheet may take two. Beside the questions, in FILE, lie FILE-key and FILE-solutions;
the questions' file holds neither key nor seed. Without FILE a terminal shows the questions alone,
as Markdown, and a pipe gets them as HTML, unless --format tells otherwise. A QTI package,
for courses' platforms, holds the answers by its nature: it is FILE-key alone. To mark a class,
fill in FILE-answers.csv and name FILE-key.json; a list that is filled in is never written over,
and its key only by the same quiz's. The same seed, with the same options, makes the same sheets
again, keys and all; keep it to yourself."""


@make(
    help=HELP,
    examples=(
        'quiz --level 1 --sheets 30 --class "1A" --out quiz.html',
        "quiz --level 2 --unit lbf.ft --paper Letter --out quiz.pdf",
        "quiz --families convert,adapter-set --count 6 --out six.html",
        "quiz --list",
    ),
    cls=Group,
    helps=QUIZ_HELPS,
    modules="torquebook.cli.quiz_",
    invoke_without_command=True,
    subcommand_metavar="[COMMAND ...]",
)
@click.option("--families", default="", metavar="NAME,...", help="Only these; --list names all.")
@click.option("--level", type=int, default=1, show_default=True, help="Of training, 1 to 3.")
@click.option("--count", type=int, default=10, show_default=True, help="Questions on a sheet.")
@click.option("--sheets", type=int, default=1, show_default=True, help="One for each apprentice.")
@click.option("--seed", default="", metavar="TEXT", help="Else date and class name make one.")
@click.option("--unit", default="", metavar="UNIT", help="The country's, for torques; N.m.")
@click.option("--class", "class_name", default="", metavar="NAME", help="Printed on each sheet.")
@click.option("--date", default="", metavar="DATE", help="As 2026-05-31; today.")
@click.option(
    "--format", "form", type=click.Choice(list(FORMATS)), help="Else by the ending of FILE."
)
@click.option("--paper", type=click.Choice(PAPERS), default=PAPERS[0], show_default=True)
@click.option("--out", default="", metavar="FILE", help="Into files, not the terminal.")
@click.option("--list", "lists", is_flag=True, help="What can be asked, and from which level on.")
@book_option
@click.pass_context
def command(
    ctx: click.Context,
    /,
    form: str | None,
    paper: Paper,
    out: str,
    folders: Sequence[str],
    *,
    lists: bool,
    as_json: bool,
    plain: bool,
    **wanted: Any,
) -> None:
    """Parse, make, render."""
    if ctx.invoked_subcommand:
        _refuse_options(ctx)
        return
    book = open_book(folders)
    check_out(out)
    if lists:
        refuse_held(out)
        terminal.answer(listed(book), list_render, as_json=as_json, plain=plain, out=out)
        return
    form = _form(form, out, as_json=as_json)
    quiz = _made(book, **wanted)
    if as_json:
        from torquebook.quiz.keyfile import key_data  # noqa: PLC0415 - only for programs
        from torquebook.render.data import json_text  # noqa: PLC0415 - as above

        stem = out.removesuffix(KEY_FILE)
        found = beside(quiz, out, f"{stem}{MARK_LIST}") if out else None
        terminal.deliver(json_text(key_data(quiz)), out, plain=plain)
        for note in found.notes if found else ():
            terminal.complain(note, plain=plain)
    else:
        documents = FORMATS[form](quiz, paper, plain=plain)
        if out:
            _deliver(quiz, documents, out, plain=plain)
        else:
            _show(documents[QUESTIONS], form, plain=plain)
    if not wanted["seed"]:
        from shlex import quote  # noqa: PLC0415 - only here

        again = f"--date {quiz.date} --seed {quote(quiz.seed)}"
        what = (
            "date and class, which the sheets show, are the seed; for a test name one of your own"
        )
        terminal.complain(f"the same sheets again: {again} ({what})", plain=plain)


def _refuse_options(ctx: click.Context) -> None:
    """Complain of options of the sheets where a command is named that makes none."""
    for param in ctx.command.params:
        told = ctx.get_parameter_source(param.name or "")
        if told is ParameterSource.COMMANDLINE:
            raise click.UsageError(
                f"{param.opts[0]} belongs to the sheets; write it behind {ctx.invoked_subcommand}"
            )


def _form(form: str | None, out: str, *, as_json: bool) -> str:
    """Return the name of the format; by the file's ending where none is told."""
    ending = os.path.splitext(out)[1][1:].casefold()  # noqa: PTH122 - pathlib costs the start
    found = form or ENDINGS.get(ending, ending)
    if not found:
        found = "markdown" if not out and terminal.is_screen() else "html"
    if as_json:
        return "html"
    if found not in FORMATS:
        endings = {form: ending for ending, form in ENDINGS.items() if form != "html"}
        names = " or ".join(f"FILE.{endings.get(name, name)}" for name in FORMATS)
        raise click.UsageError(f'"{out}": there are no sheets of this kind; write {names}')
    if ending == "json" != found:
        raise click.UsageError(f'"{out}": FILE{KEY_FILE} is what marks; end FILE otherwise')
    right = "zip" if found == "qti" else found
    if found in BINARY and not out:
        raise click.UsageError(f"{BINARY[found]}; name --out FILE.{right}")
    if found == "qti" and ending != right:
        raise click.UsageError(f'"{out}": a package is a ZIP archive; name --out FILE.{right}')
    return found


def _made(
    book: Book, *, families: str, seed: str, unit: str, class_name: str, date: str, **counts: int
) -> Quiz:
    """Return the quiz; what is not told is today's date, and the unit of the bench."""
    bench = my_bench()
    on = _date(date)
    return make_quiz(
        book,
        [name.strip() for name in families.split(",") if name.strip()],
        seed=seed or f"{on} {class_name}".strip(),
        unit=unit or (bench.unit if bench else "") or "N.m",
        class_name=class_name.strip(),
        date=on,
        **counts,
    )


def _date(text: str) -> str:
    """Return a date as it is printed; today's if none is told."""
    if not text:
        return day.today().isoformat()  # noqa: DTZ011 - the date in the trainer's own country
    try:
        return day.fromisoformat(text).isoformat()
    except ValueError:
        raise NotUnderstood(text, "no date; write year, month and day like 2026-05-31") from None


def check_out(out: str) -> None:
    """Refuse what is a file's name nowhere else."""
    if out == "-":
        raise click.UsageError(
            '"-" is no file; leave --out out, and the answer goes to standard output'
        )


def _show(questions: str | bytes, form: str, *, plain: bool) -> None:
    """Write the questions to standard output, in lines that a terminal has room for."""
    if form == "markdown" and isinstance(questions, str) and terminal.is_screen():
        from torquebook.render.quizdata.markdown import folded  # noqa: PLC0415 - only here

        questions = folded(questions)
    terminal.show(questions)
    terminal.complain("pages to print, keys and solutions come with --out FILE", plain=plain)


def _deliver(
    quiz: Quiz, documents: Mapping[str, str] | Mapping[str, bytes], out: str, *, plain: bool
) -> None:
    """Write all files of a quiz beside one another."""
    refuse_held(out)
    stem, ending = os.path.splitext(out)  # noqa: PTH122 - pathlib costs the start
    files = {f"{stem}{part}{ending}": document for part, document in documents.items()}
    marking = {f"{stem}{end}": document for end, document in marking_files(quiz).items()}
    key, marks = marking
    found = beside(quiz, key, marks, marking[marks])
    if found.keeps_list:
        del marking[marks]
    for path, made in (files | marking).items():
        terminal.save(path, made, plain=plain)
    for note in found.notes:
        terminal.complain(note, plain=plain)
