"""What stands under every answer that somebody may tighten by."""

from typing import Final

CAUTION: Final = (
    "The maker's data for the exact vehicle come first; computed and handbook values are only "
    "a cross-check. Local codes and licensed practice decide."
)
