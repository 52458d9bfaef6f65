"""``torquebook job tools``."""

from __future__ import annotations

from typing import Final

from torquebook.cli.job import list_command
from torquebook.jobs.tools import tools
from torquebook.render import tools as render

command: Final = list_command("tools", tools, render)
