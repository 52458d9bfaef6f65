"""The program: its commands by name, each imported only when it is run."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Final

import click

import torquebook
from torquebook.cli.command import CONTEXT, help_option, write_exits

if TYPE_CHECKING:
    from collections.abc import Sequence

HELPS: Final = {
    "size": "A thread: dimensions, spanner and key, holes, loads by class.",
    "torque": "The torque for a share of proof, or the preload of a torque.",
    "convert": "A torque, force, length or angle in other units.",
    "wrench": "What to set, with an adapter, and on which wrench.",
    "judge": "Look through a plan of tightenings for what is wrong or unsaid.",
    "reuse": "What may go back in: renew, measure, clean, or reuse.",
    "job": "Jobs.",
    "why": "A rule's page: what it asks, why, and what would be right.",
    "schema": "The JSON Schema of a kind of record.",
}
"""Commands in the order of the help, with the first line of each one's own help."""


class Program(click.Group):
    """A group that knows its commands' names without importing them."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the commands in the order of the help."""
        return list(HELPS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Import a command's module and return the command, or None if there is none."""
        if cmd_name not in HELPS:
            return None
        command: click.Command = import_module(f"torquebook.cli.{cmd_name}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the first word names, or offer those that look alike."""
        if args and args[0] not in HELPS and not args[0].startswith("-"):
            ctx.fail(_no_command(args[0]))
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the commands' one-line helps."""
        with formatter.section("Commands"):
            formatter.write_dl(list(HELPS.items()))

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the exit codes."""
        write_exits(formatter)


def _no_command(word: str) -> str:
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    near: Sequence[str] = get_close_matches(word.casefold(), HELPS, 3) or tuple(HELPS)
    return f'there is no command "{word}"; write {" or ".join(near)}'


def _show_version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted and not ctx.resilient_parsing:
        click.echo(f"torquebook {torquebook.__version__}")
        ctx.exit()


program: Final = Program(
    "torquebook",
    help="A torque-spec and fastener-reuse rulebook with a validator.",
    context_settings=CONTEXT,
    add_help_option=False,
    params=[
        click.Option(
            ["--version"],
            is_flag=True,
            is_eager=True,
            expose_value=False,
            callback=_show_version,
            help="Show the version and exit.",
        ),
        help_option(),
    ],
)
