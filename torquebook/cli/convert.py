"""``torquebook convert``: a quantity in other units."""

from __future__ import annotations

import click

from torquebook.answers.conversions import conversion
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.render import convert as render
from torquebook.render import terminal

HELP = f"""{HELPS["convert"]}

QUANTITY is a number with its unit, in quotes. Without UNIT all usual units are shown.
What a unit may mean two ways ("60 lb") is asked back."""


@make(
    help=HELP,
    examples=('convert "5.5 kgf.m" N.m', 'convert "59 lbf.ft"', 'convert "3/4 in" mm'),
)
@click.argument("words", nargs=-1, required=True, metavar="QUANTITY [UNIT]")
def command(words: tuple[str, ...], *, as_json: bool, plain: bool) -> None:
    """Parse, convert, render."""
    terminal.answer(conversion(words), render, as_json=as_json, plain=plain)
