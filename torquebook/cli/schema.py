"""``torquebook schema``: the JSON Schema of a kind of record."""

from __future__ import annotations

import click

from torquebook.answers.schemas import kinds, schema
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.render import schema as render
from torquebook.render import terminal

HELP = f"""{HELPS["schema"]}

Without KIND the kinds are listed. A schema is JSON with or without --json."""


@make(help=HELP, examples=("schema", "schema wrench"))
@click.argument("kind", default="")
def command(kind: str, *, as_json: bool, plain: bool) -> None:
    """Parse, find, show."""
    if kind:
        terminal.show(schema(kind))
    else:
        terminal.answer(kinds(), render, as_json=as_json, plain=plain)
