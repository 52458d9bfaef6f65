"""What all commands share: their help, and the options that each of them has."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, Final

import click

from torquebook.cli.exits import Exit

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from torquebook.catalogue.bench import Bench
    from torquebook.catalogue.book import Book

CONTEXT: Final[dict[str, Any]] = {"max_content_width": 80}
BOOK_PATH: Final = "TORQUEBOOK_PATH"
BENCH_PATH: Final = "TORQUEBOOK_BENCH"


def write_exits(formatter: click.HelpFormatter) -> None:
    """Write what the exit codes mean, for a help."""
    with formatter.section("Exit codes"):
        formatter.write_dl([(str(code.value), code.meaning) for code in Exit])


def write_examples(formatter: click.HelpFormatter, examples: Sequence[str]) -> None:
    """Write command lines that work, unwrapped, for a help."""
    with formatter.section("Examples"):
        for example in examples:
            formatter.write(f"{'':{formatter.current_indent}}torquebook {example}\n")


def _show_help(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        click.echo(ctx.get_help())
        ctx.exit()


def help_option() -> click.Option:
    """Return ``--help``; click's own asks for a translation of its text at every start."""
    return click.Option(
        ["-h", "--help"],
        is_flag=True,
        is_eager=True,
        expose_value=False,
        callback=_show_help,
        help="Show this message and exit.",
    )


class Command(click.Command):
    """A command whose help ends in examples and exit codes.

    Parameters
    ----------
    examples : sequence of str
        Command lines that work, without the program's name.
    """

    def __init__(self, *args: Any, examples: Sequence[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.add_help_option = False
        self.context_settings = CONTEXT
        self.params.append(help_option())
        self.examples = tuple(examples)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Parse; an option without its value is a complaint that points to this help too."""
        try:
            return super().parse_args(ctx, args)
        except click.UsageError as trouble:
            trouble.ctx = trouble.ctx or ctx
            raise

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - click's signature
        """Write the examples and the exit codes."""
        write_examples(formatter, self.examples)
        write_exits(formatter)


def command(
    *,
    examples: Sequence[str],
    help: str,  # noqa: A002 - click's word
    programs: bool = True,
    cls: type[click.Command] = Command,
    **settings: Any,
) -> Callable[[Callable[..., Any]], click.Command]:
    """Make a command of a function, with ``--json`` and ``--ascii``.

    Parameters
    ----------
    examples : sequence of str
        Command lines that work, without the program's name.
    help : str
    programs : bool
        Whether it answers programs; else ``--json`` is taken, to be refused with a word, but
        not offered.
    cls : type
        What is made.
    **settings : object
        What else it is made with.
    """

    def make(function: Callable[..., Any]) -> click.Command:
        json = click.option(
            "--json",
            "as_json",
            is_flag=True,
            hidden=not programs,
            help="One JSON document, for programs.",
        )
        for option in (_ASCII, json):
            function = option(function)
        return click.command(cls=cls, examples=examples, help=help, **settings)(function)

    return make


_ASCII = click.option("--ascii", "plain", is_flag=True, help="Plain ASCII: N.m, +/-, deg.")

book_option = click.option(
    "--book",
    "folders",
    multiple=True,
    metavar="DIR",
    help=f"A folder of your own records, laid over ours; repeatable. Also: {BOOK_PATH}.",
)
"""``--book DIR``, for commands that look something up."""


def my_bench() -> Bench | None:
    """Return the user's bench, None where none is kept yet."""
    if not os.path.exists(bench_path()):  # noqa: PTH110 - pathlib costs milliseconds
        return None
    from torquebook.catalogue.bench import read_bench  # noqa: PLC0415 - most have none yet

    return read_bench(bench_path())


def bench_path() -> str:
    """Return the file that the user's bench is kept in."""
    told = os.environ.get(BENCH_PATH)
    return told or os.path.join(click.get_app_dir("torquebook"), "bench.json")  # noqa: PTH118 - as above


def every_folder(folders: Sequence[str]) -> list[str]:
    """Return the folders of the command line, then those of the environment, then the bench's."""
    told = [folder for folder in os.environ.get(BOOK_PATH, "").split(os.pathsep) if folder]
    bench = my_bench()
    return [*folders, *told, *(bench.books if bench else ())]


def say() -> Callable[[str], None]:
    """Return what takes a word on the index of a folder: it goes to standard error."""
    from functools import partial  # noqa: PLC0415 - only where there is a folder

    from torquebook.render.terminal import complain  # noqa: PLC0415 - as above

    context = click.get_current_context(silent=True)
    return partial(complain, plain=bool(context and context.params.get("plain")))


def open_book(folders: Sequence[str]) -> Book:
    """Open the book with the folders of the command line, the environment, and the bench."""
    from torquebook.catalogue.book import Book  # noqa: PLC0415 - not before it is needed

    every, bench = every_folder(folders), my_bench()
    own = bench.rows if bench and bench.wrenches else None
    return Book.open(every, say(), own) if every else Book.open(own=own)
