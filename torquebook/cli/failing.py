"""What the commands share that look for what is wrong: ``--fail-on``, and much to go through."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING, Any, Final

import click

from torquebook.findings import Severity

if TYPE_CHECKING:
    from collections import Counter
    from collections.abc import Callable

NEVER: Final = "never"
_COLLECTED: Final = 20_000  # objects between two looks: a line makes hundreds and keeps few


def fail_on_option(default: Severity) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Return the option ``--fail-on``."""
    return click.option(
        "--fail-on",
        type=click.Choice([*(severity.word for severity in Severity), NEVER]),
        default=default.word,
        show_default=True,
        help="The least severity that ends in exit code 1.",
    )


def reaches(counts: Counter[Severity], fail_on: str) -> bool:
    """Return whether any finding is at or above the severity that fails."""
    if fail_on == NEVER:
        return False
    return any(counts[severity] for severity in Severity if severity <= Severity[fail_on.upper()])


def collect_garbage() -> None:
    """Look for garbage now and then; a short command never does."""
    gc.freeze()  # what was imported is no garbage
    gc.set_threshold(_COLLECTED)
    gc.enable()
