"""``torquebook look``: find records, and show one."""

from __future__ import annotations

import click

from torquebook.answers.cards import looked, open_layers
from torquebook.catalogue.finding import KINDS
from torquebook.catalogue.lookup import near
from torquebook.cli.command import book_option, every_folder, my_bench, say
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.errors import NotUnderstood
from torquebook.render import look as render
from torquebook.render import terminal

HELP = f"""{HELPS["look"]}

WORDS are an id, a name, or any words of a record: beginnings will do, other words of the
trade are tried (prop shaft, propeller shaft), and so are slips of the finger where nothing
is found. One record is shown as a card, several as a list."""


@make(
    help=HELP,
    examples=(
        "look flywheel",
        "look prop shaft M10",
        "look --kind wrench click",
        "look joints/brigade/flywheel",
    ),
)
@click.argument("words", nargs=-1, required=True, metavar="WORDS...")
@click.option("--kind", default="", metavar="KIND", help=f"Only this kind: {', '.join(KINDS)}.")
@book_option
def command(
    words: tuple[str, ...], kind: str, folders: tuple[str, ...], *, as_json: bool, plain: bool
) -> None:
    """Parse, look up, render."""
    if kind not in {"", *KINDS}:
        raise NotUnderstood(kind, "no kind of record", near(kind, KINDS, KINDS))
    layers = open_layers(every_folder(folders), say())
    bench = my_bench()
    answer = looked(layers, " ".join(words), kind, bench.cards if bench else ())
    terminal.answer(answer, render, as_json=as_json, plain=plain)
