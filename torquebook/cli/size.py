"""``torquebook size``: a thread's page."""

from __future__ import annotations

import click

from torquebook.answers.sizes import sizes
from torquebook.cli.command import book_option, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.render import size as render
from torquebook.render import terminal

HELP = f"""{HELPS["size"]}

THREAD is M10, M10x1.25, 3/8-16 or "3/8-24 UNF"; where the pitch is left open ("3/8") every
thread that it may be is shown. With CLASS the loads are those of that class alone."""


@make(help=HELP, examples=("size M10", "size M10x1.25 10.9", 'size 3/8-16 "SAE 8"'))
@click.argument("thread")
@click.argument("strength_class", metavar="[CLASS]", default="")
@book_option
def command(
    thread: str, strength_class: str, folders: tuple[str, ...], *, as_json: bool, plain: bool
) -> None:
    """Parse, look up, render."""
    answer = sizes(open_book(folders), thread, strength_class)
    terminal.answer(answer, render, as_json=as_json, plain=plain)
