"""The program: its commands by name, each imported only when it is run."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

import click

import torquebook
from torquebook.cli.command import CONTEXT, help_option, write_examples, write_exits

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

HELPS: Final = {
    "size": "A thread: dimensions, spanner and key, holes, loads by class.",
    "torque": "The torque for a share of proof, or the preload of a torque.",
    "convert": "A torque, force, length or angle in other units.",
    "wrench": "What to set, with an adapter, and on which wrench.",
    "look": "Find records by words, and show one as a card.",
    "judge": "Look through a plan of tightenings for what is wrong or unsaid.",
    "reuse": "What may go back in: renew, measure, clean, or reuse.",
    "admit": "Vet contributed records, for their authors, maintainers and CI.",
    "job": "A piece of work: what to order, what to work with, the sheet.",
    "quiz": "Question sheets for a class, with keys and the ways to them.",
    "bench": "My wrenches, adapters, unit and book folders: asked for once, then known.",
    "why": "A rule's page: what it asks, why, and what would be right.",
    "schema": "The JSON Schema of a kind of record.",
}
"""Commands in the order of the help, with the first line of each one's own help."""


class Group(click.Group):
    """A group that knows its commands' names without importing them.

    Parameters
    ----------
    helps : mapping of str to str
        Its commands in the order of the help, with the first line of each one's own help.
    modules : str
        What stands before a command's name in the name of its module.
    examples : sequence of str
        Command lines that work, without the program's name.
    """

    def __init__(
        self,
        *args: Any,
        helps: Mapping[str, str],
        modules: str,
        examples: Sequence[str] = (),
        **settings: Any,
    ) -> None:
        super().__init__(*args, context_settings=CONTEXT, add_help_option=False, **settings)
        self.params.append(help_option())
        self.helps = helps
        self.modules = modules
        self.examples = examples

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Show the help where no command is named; that is no mistake."""
        return super().parse_args(ctx, args or ["--help"])

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the commands in the order of the help."""
        return list(self.helps)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - click's signature
        """Import a command's module and return the command, or None if there is none."""
        if cmd_name not in self.helps:
            return None
        command: click.Command = import_module(f"{self.modules}{cmd_name}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the first word names, or offer those that look alike."""
        if args and args[0] not in self.helps and not args[0].startswith("-"):
            ctx.fail(_no_command(args[0], self.helps))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - click's signature
        """Write the commands' one-line helps."""
        if not self.helps:
            return
        with formatter.section("Commands"):
            formatter.write_dl(list(self.helps.items()))

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - click's signature
        """Write the examples, if there are any, and the exit codes."""
        if self.examples:
            write_examples(formatter, self.examples)
        write_exits(formatter)


def _no_command(word: str, known: Mapping[str, str]) -> str:
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    near: Sequence[str] = get_close_matches(word.casefold(), known, 3) or tuple(known)
    right = f"; write {' or '.join(near)}" if near else ""
    return f'there is no command "{word}"{right}'


def _show_version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        click.echo(f"torquebook {torquebook.__version__}")
        ctx.exit()


program: Final = Group(
    "torquebook",
    helps=HELPS,
    modules="torquebook.cli.",
    help="A torque-spec and fastener-reuse rulebook with a validator.",
    params=[
        click.Option(
            ["--version"],
            is_flag=True,
            is_eager=True,
            expose_value=False,
            callback=_show_version,
            help="Show the version and exit.",
        ),
    ],
)
