"""``torquebook reuse``: what of the things that were taken out may go back in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from torquebook.catalogue.library import Library
from torquebook.cli.command import book_option, every_folder, my_bench, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.records.joint import JointRecord
from torquebook.render import reuse as render
from torquebook.render import terminal
from torquebook.reuse.asking import (
    JOINTS,
    Answered,
    Asked,
    Tightened,
    of_job,
    of_joint,
    used_in_words,
)
from torquebook.reuse.judging import ruled
from torquebook.reuse.model import Measured
from torquebook.reuse.preferring import preferred
from torquebook.reuse.reading import read_drag, read_history, read_length, read_times

HELP = f"""{HELPS["reuse"]}

FASTENER is what came out, in words: thread, class, and what is special on it (stretch, nylon
patch, nylon-insert nut, copper washer, flywheel bolt ...) or happened to it. Every rule that
applies is shown. What the maker allows counts first, then the source that you prefer, then the
strictest; a limit that is kept lets a fastener go back in, one that is exceeded renews it."""


@make(
    help=HELP,
    examples=(
        'reuse "M10 10.9 stretch" --length 168.9mm --new 168mm --limit 171mm',
        'reuse "7/16-20 nylon-insert nut" --drag "10 lbf.in" --prefer FAA',
        'reuse "M10 10.9" --tighten "30 N.m + 90 deg" --clamp-length 40',
        "reuse --job brigade-overhaul",
    ),
)
@click.argument("fastener", nargs=-1)
@click.option("--joint", default="", metavar="ID|FILE", help="The fasteners of a joint's record.")
@click.option("--job", default="", metavar="ID|FILE", help="All joints of a job.")
@click.option("--length", default="", metavar="LENGTH", help="As measured now.")
@click.option("--new", default="", metavar="LENGTH", help="Of a new one.")
@click.option("--limit", default="", metavar="LENGTH", help="The longest that its maker allows.")
@click.option("--stretched", default="", metavar="LENGTH", help="The length that stretches.")
@click.option(
    "--diameter", nargs=2, default=("", ""), metavar="LENGTH LENGTH", help="Whole, and thinnest."
)
@click.option("--thinnest", default="", metavar="LENGTH", help="The least that its maker allows.")
@click.option("--apart", default="", metavar="LENGTH", help="The most that diameters may differ.")
@click.option("--drag", default="", metavar="QUANTITY", help='Turning it, unseated; "2 N.m".')
@click.option("--uses", default="", metavar="N", help="How often it was tightened so far.")
@click.option("--allowed", default="", metavar="N", help="How often its maker allows.")
@click.option(
    "--history", multiple=True, metavar="WORDS", help="found loose, corroded, ...; repeatable."
)
@click.option(
    "--tighten", default="", metavar="STAGES", help='How it was; "30 N.m + 90 deg": past yield?'
)
@click.option("--clamp-length", default="", metavar="LENGTH", help="Of the joint; with --tighten.")
@click.option("--friction", default="", metavar="NAME|MU", help="oiled, ...; with --tighten.")
@click.option("--table", default="", metavar="NAME", help="Of drags: ISO 2320, FAA coarse, ...")
@click.option("--prefer", multiple=True, metavar="SOURCE", help="Where sources disagree.")
@book_option
def command(
    fastener: tuple[str, ...],
    joint: str,
    job: str,
    history: tuple[str, ...],
    tighten: str,
    clamp_length: str,
    friction: str,
    prefer: tuple[str, ...],
    folders: tuple[str, ...],
    *,
    as_json: bool,
    plain: bool,
    **measures: Any,
) -> None:
    """Parse, look up, render."""
    if sum(map(bool, (fastener, joint, job))) != 1:
        raise click.UsageError("name one of: a fastener in words, --joint, --job")
    for option, given in (("--clamp-length", clamp_length), ("--friction", friction)):
        if given and not tighten:
            raise click.UsageError(f"{option} goes with --tighten")
    if tighten and not fastener:
        raise click.UsageError("--tighten goes with a fastener in words; a joint says its own")
    measured, told = _measured(**measures), read_history(history)
    if job and (measured != Measured() or told):
        raise click.UsageError("what was measured belongs to one joint; name it with --joint")
    book = open_book(folders)
    library = Library([Path(folder) for folder in every_folder(folders)])
    bench = my_bench()
    liked = preferred(library, book, (*prefer, *(bench.prefer if bench else ())))
    if job:
        answer = of_job(job, library, book, liked)
    elif joint:
        held = library.one(JOINTS, JointRecord, joint)
        answer = Answered("", (of_joint(held, library, book, liked, measured, told),))
    else:
        text, how = " ".join(fastener), Tightened(tighten, clamp_length, friction)
        used = used_in_words(text, told, measured, how, book)
        answer = Answered("", (Asked(text, 1, ruled(used, library, liked)),))
    terminal.answer(answer, render, as_json=as_json, plain=plain)


def _measured(
    *,
    length: str,
    new: str,
    limit: str,
    stretched: str,
    diameter: tuple[str, str],
    thinnest: str,
    apart: str,
    drag: str,
    uses: str,
    allowed: str,
    table: str,
) -> Measured:
    """Return what the options say was measured, and what the maker allows."""
    whole, least = map(read_length, diameter)
    return Measured(
        length_mm=read_length(length),
        new_length_mm=read_length(new),
        limit_length_mm=read_length(limit),
        stretched_mm=read_length(stretched),
        diameters_mm=(whole, least) if whole and least else None,
        least_diameter_mm=read_length(thinnest),
        most_difference_mm=read_length(apart),
        drag_nm=read_drag(drag),
        uses=read_times(uses, 0),
        uses_allowed=read_times(allowed, 1),
        table=table,
    )
