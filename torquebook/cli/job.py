"""``torquebook job``: provisional group."""

from __future__ import annotations

from importlib import import_module
from typing import Final

import click

from torquebook.cli.command import CONTEXT, help_option

SUBCOMMANDS: Final = {
    "run": "A job step by step at the bench, and its record.",
    "record": "The record of a job: shown, verified, exported, signed.",
}


class Job(click.Group):
    def list_commands(self, ctx):
        return list(SUBCOMMANDS)

    def get_command(self, ctx, cmd_name):
        if cmd_name not in SUBCOMMANDS:
            return None
        return import_module(f"torquebook.cli.job_{cmd_name}").command


command = Job(
    "job", help="Jobs.", context_settings=CONTEXT, add_help_option=False, params=[help_option()]
)
