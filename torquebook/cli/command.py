"""What all commands share: their help, and the options that each of them has."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, Final

import click

from torquebook.cli.exits import Exit

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from torquebook.catalogue.book import Book

CONTEXT: Final[dict[str, Any]] = {"max_content_width": 80}
BOOK_PATH: Final = "TORQUEBOOK_PATH"


def write_exits(formatter: click.HelpFormatter) -> None:
    """Write what the exit codes mean, for a help."""
    with formatter.section("Exit codes"):
        formatter.write_dl([(str(code.value), code.meaning) for code in Exit])


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

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - click's signature
        """Write the examples, unwrapped, and the exit codes."""
        with formatter.section("Examples"):
            for example in self.examples:
                formatter.write(f"{'':{formatter.current_indent}}torquebook {example}\n")
        write_exits(formatter)


def command(
    *,
    examples: Sequence[str],
    help: str,  # noqa: A002 - click's word
) -> Callable[[Callable[..., Any]], click.Command]:
    """Make a command of a function, with ``--json`` and ``--ascii``."""

    def make(function: Callable[..., Any]) -> click.Command:
        for option in (_ASCII, _JSON):
            function = option(function)
        return click.command(cls=Command, examples=examples, help=help)(function)

    return make


_JSON = click.option("--json", "as_json", is_flag=True, help="One JSON document, for programs.")
_ASCII = click.option("--ascii", "plain", is_flag=True, help="Plain ASCII: N.m, +/-, deg.")

book_option = click.option(
    "--book",
    "folders",
    multiple=True,
    metavar="DIR",
    help=f"A folder of your own records, laid over ours; repeatable. Also: {BOOK_PATH}.",
)
"""``--book DIR``, for commands that look something up."""


def every_folder(folders: Sequence[str]) -> list[str]:
    """Return the folders of the command line, then those of the environment."""
    told = os.environ.get(BOOK_PATH, "").split(os.pathsep)
    return [*folders, *(folder for folder in told if folder)]


def open_book(folders: Sequence[str]) -> Book:
    """Open the book with the folders of the command line, then those of the environment."""
    from torquebook.catalogue.book import Book  # noqa: PLC0415 - not before it is needed

    every = every_folder(folders)
    if not every:
        return Book.open()
    from pathlib import Path  # noqa: PLC0415 - costs milliseconds, and most have no folder

    return Book.open([Path(folder) for folder in every])
