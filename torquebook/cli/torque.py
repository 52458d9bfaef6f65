"""``torquebook torque``: the torque for a share of proof, or the preload of a torque."""

from __future__ import annotations

import click

from torquebook.answers.fastening import fastening
from torquebook.answers.torques import read_share, read_torque, torques
from torquebook.cli.command import book_option, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.render import terminal
from torquebook.render import torque as render

HELP = f"""{HELPS["torque"]}

Without an option: the torques for 75 and 90 % of the proof load. Every preload is a band,
over the friction and over what the wrench is good for; printed tables stand beside."""


@make(
    help=HELP,
    examples=(
        "torque M10 8.8",
        "torque M10x1.25 10.9 --friction oiled --utilisation 70%",
        'torque 3/8-16 "SAE 8" --torque "44 lbf.ft" --friction dry',
    ),
)
@click.argument("thread")
@click.argument("strength_class", metavar="CLASS")
@click.option(
    "--utilisation", "shares", multiple=True, metavar="SHARE", help="Of the proof load; 75%."
)
@click.option("--torque", "given", multiple=True, metavar="QUANTITY", help='Its preload; "60 N.m".')
@click.option(
    "--friction", default="", metavar="NAME|MU", help="oiled, dry, ..., 0.12 or 0.10-0.14."
)
@click.option("--head", default="", metavar="NAME", help="hexagon, socket, flange, ...")
@click.option("--wrench", default="", metavar="NAME", help="The wrench whose deviation counts.")
@book_option
def command(
    thread: str,
    strength_class: str,
    shares: tuple[str, ...],
    given: tuple[str, ...],
    friction: str,
    head: str,
    wrench: str,
    folders: tuple[str, ...],
    *,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, work out, render."""
    book = open_book(folders)
    what = fastening(book, thread, strength_class, friction, head, wrench)
    answer = torques(book, what, [read_share(s) for s in shares], [read_torque(t) for t in given])
    terminal.answer(answer, render, as_json=as_json, plain=plain)
