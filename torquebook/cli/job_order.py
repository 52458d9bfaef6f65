"""``torquebook job order``: an order of tightening by itself."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from torquebook.catalogue.library import Library
from torquebook.cli.command import book_option, every_folder, open_book
from torquebook.cli.command import command as make
from torquebook.cli.exits import Exit
from torquebook.cli.job import JOB_HELPS
from torquebook.findings import Severity
from torquebook.jobs.ordering import of_joint, over_circle, over_rows
from torquebook.render import order as render
from torquebook.render import terminal

if TYPE_CHECKING:
    from collections.abc import Sequence

HELP = f"""{JOB_HELPS["order"]}

COUNT positions lie on a circle; --rows and --joint say where else. Without --order one is
made: crosswise over a circle, from the centre outward over rows, a joint's own as its record
has it. With --order yours is checked: every position once in each pass, and the first pass
even. Exit code 1: a pass leaves a position out."""
MOST = 200  # positions, as in a record


def _lengths(ctx: click.Context, param: click.Parameter, text: str) -> tuple[int, ...]:
    """Return the lengths of rows; none if no rows are named."""
    if text and not re.fullmatch(r"[0-9]{1,3}([, ]+[0-9]{1,3})*", text.strip()):
        what = f'"{text}": write how many positions each row has, such as 5,5'
        raise click.BadParameter(what, ctx, param)
    lengths = tuple(map(int, re.findall("[0-9]+", text)))
    if 0 in lengths or sum(lengths) > MOST:
        what = f"{text}: a row has 1 position or more, all together up to {MOST}"
        raise click.BadParameter(what, ctx, param)
    return lengths


@make(
    help=HELP,
    examples=(
        "job order 8 --svg order.svg",
        "job order --rows 5,5",
        'job order 6 --order "1-4-2-5-3-6 / round"',
        "job order --joint brigade/flywheel --svg flywheel.svg",
    ),
)
@click.argument("count", required=False, metavar="[COUNT]", type=click.IntRange(1, MOST))
@click.option("--rows", default="", callback=_lengths, metavar="N,N", help="Positions in each row.")
@click.option("--joint", default="", metavar="ID|FILE", help="The positions of a joint's record.")
@click.option(
    "--order", "written", default="", metavar="ORDER", help="Check it: 1-3-2-4, cross / round, ..."
)
@click.option("--svg", default="", metavar="FILE", help="Draw the first pass into a file.")
@click.option("--out", default="", metavar="FILE", help="Into a file, not the terminal.")
@book_option
def command(
    count: int | None,
    rows: tuple[int, ...],
    joint: str,
    written: str,
    svg: str,
    out: str,
    folders: Sequence[str],
    *,
    as_json: bool,
    plain: bool,
) -> Exit:
    """Parse, make or check, render."""
    if sum(map(bool, (count, rows, joint))) != 1:
        raise click.UsageError("name one of: a number of positions, --rows, --joint")
    book = open_book(folders)
    if count:
        answer = over_circle(count, written, book)
    elif rows:
        answer = over_rows(rows, written, book)
    else:
        library = Library([Path(folder) for folder in every_folder(folders)])
        answer = of_joint(library, book, joint, written)
    if svg:
        terminal.save(svg, render.picture(answer), plain=plain)
    terminal.answer(answer, render, as_json=as_json, plain=plain, out=out)
    stopped = any(severity is Severity.STOP for severity, _ in answer.remarks)
    return Exit.FINDINGS if stopped else Exit.CLEAN
