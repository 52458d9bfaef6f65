"""Put our own book's index into the wheel: made from its committed cards, which are text."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

INDEX = "torquebook/catalogue/book.sqlite"


class BookHook(BuildHookInterface):
    """Makes the index with the standard library alone; a checkout makes its own when it runs."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Write the index beside the wheel, to be taken in."""
        if version == "editable":
            return
        sys.path.insert(0, self.root)
        from torquebook.catalogue.store.own import ship  # noqa: PLC0415 - found by the line above

        made = Path(self.directory, "book.sqlite")
        made.parent.mkdir(parents=True, exist_ok=True)
        made.unlink(missing_ok=True)
        ship(str(made))
        build_data["force_include"][str(made)] = INDEX

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:  # noqa: ARG002 - hatchling's signature
        """Take the index away from beside the wheel."""
        Path(self.directory, "book.sqlite").unlink(missing_ok=True)
