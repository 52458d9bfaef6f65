"""Where the catalogue's folders lie, in an installed package or a checkout, and records in them."""

from __future__ import annotations

from pathlib import Path

from torquebook.errors import Unreadable

_PACKAGE = Path(__file__).resolve().parent.parent


def specs_root() -> Path:
    """Return the folder of the spec files.

    Raises
    ------
    Unreadable
        If the installation lacks it.
    """
    return _find("specs")


def schema_root() -> Path:
    """Return the folder of the JSON Schemas.

    Raises
    ------
    Unreadable
        If the installation lacks it.
    """
    return _find("schema")


def record_id(path: Path, folder: Path) -> str:
    """Return a record's id: its path in the folder, without the ending."""
    return path.relative_to(folder).with_suffix("").as_posix()


def _find(name: str) -> Path:
    """Return the folder beside the package's own data, or at the checkout's top."""
    for folder in (_PACKAGE / "_data" / name, _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise Unreadable(str(_PACKAGE), f"the folder {name}/ is missing", "install torquebook again")
