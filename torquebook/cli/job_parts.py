"""``torquebook job parts``."""

from __future__ import annotations

from typing import Final

from torquebook.cli.job import list_command
from torquebook.jobs.parts import parts
from torquebook.render import parts as render

command: Final = list_command("parts", lambda job, _: parts(job), render)
