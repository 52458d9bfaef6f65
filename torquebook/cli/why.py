"""``torquebook why``: a rule's page, or the list of rules."""

from __future__ import annotations

import click

from torquebook.cli.command import book_option, open_book
from torquebook.cli.command import command as make
from torquebook.cli.program import HELPS
from torquebook.render import listing, terminal
from torquebook.render import why as render
from torquebook.rules.examples import said_of
from torquebook.rules.registry import RULES, rule_named

HELP = f"""{HELPS["why"]}

Without RULE every rule is listed with its question. The examples on a page are judged
as it is printed, so what it shows is what the rule says."""


@make(help=HELP, examples=("why", "why over-proof"))
@click.argument("rule", default="")
@book_option
def command(rule: str, folders: tuple[str, ...], *, as_json: bool, plain: bool) -> None:
    """Parse, judge the example, render."""
    if not rule:
        terminal.answer(tuple(RULES.values()), listing, as_json=as_json, plain=plain)
        return
    found = rule_named(rule)
    said = said_of(found, found.fires, open_book(folders))
    terminal.answer(render.Page(found, said), render, as_json=as_json, plain=plain)
