"""``torquebook torque``: the torque for a share of proof, or the preload of a torque."""

from __future__ import annotations

import click

from torquebook.answers.fastening import fastening
from torquebook.answers.torques import (
    TO_YIELD,
    USUAL_METHOD,
    read_share,
    read_torque,
    torques,
)
from torquebook.catalogue.defaults import METHODS
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
        'torque M10 10.9 --tighten "40 N.m + 90 deg" --curve m10.svg',
    ),
)
@click.argument("thread")
@click.argument("strength_class", metavar="CLASS")
@click.option(
    "--utilisation", "shares", multiple=True, metavar="SHARE", help="Of the proof load; 75%."
)
@click.option("--torque", "given", multiple=True, metavar="QUANTITY", help='Its preload; "60 N.m".')
@click.option(
    "--tighten", default="", metavar="STAGES", help='Torque, then angle; "40 N.m + 90 deg".'
)
@click.option(
    "--clamp-length", default="", metavar="LENGTH", help="Of the joint; 40, 38-42, 1.5 in."
)
@click.option(
    "--curve", default="", metavar="FILE", help="Draws torque and preload over the angle, as SVG."
)
@click.option(
    "--friction", default="", metavar="NAME|MU", help="oiled, dry, ..., 0.12 or 0.10-0.14."
)
@click.option("--head", default="", metavar="NAME", help="hexagon, socket, flange, ...")
@click.option(
    "--method",
    type=click.Choice(tuple(METHODS)),
    default=USUAL_METHOD,
    show_default=True,
    help="What it is tightened with.",
)
@click.option("--wrench", default="", metavar="NAME", help="The wrench whose deviation counts.")
@book_option
def command(
    thread: str,
    strength_class: str,
    shares: tuple[str, ...],
    given: tuple[str, ...],
    tighten: str,
    clamp_length: str,
    curve: str,
    friction: str,
    head: str,
    method: str,
    wrench: str,
    folders: tuple[str, ...],
    *,
    as_json: bool,
    plain: bool,
) -> None:
    """Parse, work out, render."""
    book = open_book(folders)
    what = fastening(book, thread, strength_class, friction, head, wrench)
    for option, given_with in (("--clamp-length", clamp_length), ("--curve", curve)):
        if given_with and not tighten:
            raise click.UsageError(f"{option} goes with --tighten")
    if method == TO_YIELD and (given or shares):
        raise click.UsageError("a tool that stops at yield aims at no torque and at no share")
    wanted = [read_share(s) for s in shares], [read_torque(t) for t in given]
    answer = torques(book, what, *wanted, method)
    if tighten:
        from torquebook.answers.turned import turn  # noqa: PLC0415 - only an angle needs it
        from torquebook.render.turn import drawing  # noqa: PLC0415 - as above

        answer = answer._replace(turn=turn(what, tighten, clamp_length))
        if curve and answer.turn:
            terminal.save(curve, drawing(answer.turn, what), plain=plain)
    terminal.answer(answer, render, as_json=as_json, plain=plain)
