"""What stands under every answer that somebody may tighten by."""

from typing import Final

CAUTION: Final = (
    "The maker's data for the exact vehicle come first; computed and handbook values are only "
    "a cross-check. Local codes and licensed practice decide."
)


def demo_wrenches(which: str, count: int) -> str:
    """Return what to know of so many wrenches of the demo book."""
    are = "are" if count > 1 else "is"
    return f"{which} {are} of the demo book, invented; name your own with torquebook bench."
