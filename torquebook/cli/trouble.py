"""Run the program so that whatever goes wrong ends in one message and an exit code."""

from __future__ import annotations

import os

import click

from torquebook.cli.exits import Exit
from torquebook.cli.program import program
from torquebook.errors import TorquebookError
from torquebook.render import terminal

INTERRUPTED = 130  # as a shell reports a program that Ctrl-C has ended


def guarded(arguments: list[str]) -> int:
    """Run one command.

    Parameters
    ----------
    arguments : list of str
        The words behind the program's name.

    Returns
    -------
    int
        The exit code.
    """
    # Complaints about a command line are written before it is understood.
    plain = "--ascii" in arguments
    try:
        code = program.main(arguments or ["--help"], "torquebook", standalone_mode=False)
    except click.UsageError as trouble:
        path = trouble.ctx.command_path if trouble.ctx else "torquebook"
        message = trouble.format_message().rstrip(".")
        return _complain(f"{message}; see {path} --help", plain=plain)
    except TorquebookError as trouble:
        return _complain(str(trouble), plain=plain)
    except (KeyboardInterrupt, click.Abort):
        return INTERRUPTED
    except Exception as fault:
        if os.environ.get("TORQUEBOOK_DEBUG"):
            raise
        terminal.complain(
            f"our own fault: {type(fault).__name__}: {fault}; please report this line and the "
            "command that you typed (TORQUEBOOK_DEBUG=1 shows where it happened)",
            plain=plain,
        )
        return Exit.FAULT
    return Exit.CLEAN if code is None else int(code)


def _complain(message: str, *, plain: bool) -> Exit:
    terminal.complain(message, plain=plain)
    return Exit.UNUSABLE
