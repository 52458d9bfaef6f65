"""``torquebook wrench``: what to set, with an adapter, and on which wrench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from torquebook.answers.settings import read_adapter, settings
from torquebook.cli.command import bench_path, book_option, my_bench, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.errors import NotUnderstood
from torquebook.render import terminal
from torquebook.render import wrench as render

if TYPE_CHECKING:
    from torquebook.catalogue.bench import Bench

HELP = f"""{HELPS["wrench"]}

QUANTITY is the torque wanted at the bolt, with its unit, in quotes. An adapter that
sticks out beyond the square drive (a crow's foot) turns more torque into the bolt than
the wrench shows; give both lengths from the square drive, to the middle of the grip and
to the bolt."""


@make(
    help=HELP,
    examples=(
        'wrench "110 N.m"',
        'wrench "40 lbf.ft" --length 12in --extension 4in',
        'wrench "60 N.m" --length 400mm --extension 50mm --angle 45',
    ),
)
@click.argument("quantity")
@click.option("--length", default="", metavar="LENGTH", help="Square drive to middle of grip.")
@click.option("--extension", default="", metavar="LENGTH", help="Square drive to bolt.")
@click.option("--adapter", "fitted", default="", metavar="NAME", help="One of my bench.")
@click.option("--angle", default="", metavar="DEG", help="Adapter to wrench; 0 is straight on.")
@click.option("--wrench", "names", multiple=True, metavar="NAME", help="This one; repeatable.")
@book_option
def command(
    quantity: str,
    length: str,
    extension: str,
    fitted: str,
    angle: str,
    names: tuple[str, ...],
    folders: tuple[str, ...],
    *,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, look up, render."""
    bench = my_bench()
    if fitted:
        extension = _extension(fitted, bench)
    adapter = read_adapter(length, extension, angle)
    answer = settings(open_book(folders), quantity, adapter, names)
    terminal.answer(answer, render, as_json=as_json, plain=plain)
    if bench:
        from torquebook.answers.benches import reminder  # noqa: PLC0415 - most have no bench yet

        if overdue := reminder(bench, bench_path()):
            terminal.complain(overdue, plain=plain)


def _extension(name: str, bench: Bench | None) -> str:
    """Return the length of an adapter of the bench."""
    if bench is None:
        raise NotUnderstood(name, "no bench is kept yet", ("torquebook bench",))
    return f"{bench.adapter(name).extension_mm} mm"
