"""Find contributed files by folder, and say where each lies in its folder of records."""

from __future__ import annotations

import os
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.catalogue.plaintext import UNREADABLE, decoded, read_bytes
from torquebook.catalogue.store.scanning import OTHER_FOLDERS
from torquebook.catalogue.tidy import SHELVES
from torquebook.errors import Unreadable

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

ENDINGS: Final = (".yaml", ".yml")
_SHELVES: Final = frozenset(SHELVES.values())


class Shelved(NamedTuple):
    """Where a record lies.

    Parameters
    ----------
    root : str
        The folder of records; empty where the file lies in none.
    shelf : str
        The folder in it that the record lies in, such as ``joints``; empty at its top.
    id : str
        The file's path in the folder of records, without its ending.
    """

    root: str
    shelf: str
    id: str


def contributed(paths: Iterable[str]) -> Iterator[str]:
    """Yield every file that some paths name: files themselves, and records below folders.

    Parameters
    ----------
    paths : iterable of str
        Files and folders, in any order; what is named twice, in whatever way, comes once.

    Raises
    ------
    Unreadable
        If there is no such file or folder, or a folder cannot be read.
    """
    seen: set[str] = set()
    for path in map(os.path.normpath, paths):
        for name in _below(path) if os.path.isdir(path) else [_existing(path)]:  # noqa: PTH112 - a hundred thousand are named in a row
            if name not in seen:
                seen.add(name)
                yield name


def _existing(path: str) -> str:
    if not os.path.lexists(path):
        raise Unreadable(path, "no such file or folder", "name a file or folder of records")
    return path


def _below(folder: str) -> list[str]:
    """Return the records below a folder, sorted; what is linked is not followed."""
    found: list[str] = []
    waiting = [folder]
    while waiting:
        here = waiting.pop()
        try:
            with os.scandir(here) as entries:
                names = {entry.name: entry.is_dir(follow_symlinks=False) for entry in entries}
        except OSError as fault:
            what = f"cannot be read ({fault.strerror})"
            raise Unreadable(here, what, "name a folder that can") from fault
        for name, is_folder in names.items():
            path = name if here == "." else f"{here.rstrip('/')}/{name}"
            if is_folder and _looked_into(path):
                waiting.append(path)
            elif not is_folder and (name.endswith(ENDINGS) or _is_linked_folder(path)):
                found.append(path)
    return sorted(found)


def _looked_into(folder: str) -> bool:
    """Whether records are looked for in a folder that lies below one that is named."""
    above, name = os.path.split(folder)
    if name in OTHER_FOLDERS:
        return not _holds_shelves(above or ".")
    return not name.startswith(".")


def found_below(folder: str, name: str) -> bool:
    """Whether :func:`contributed` finds a file below a folder, by its path from there.

    Parameters
    ----------
    folder, name : str
        The file need not be there any more.
    """
    here = folder
    for part in name.split("/")[:-1]:
        here = f"{here}/{part}"
        if not _looked_into(here) or os.path.islink(here):  # noqa: PTH114 - as above
            return False
    return name.endswith(ENDINGS) or _is_linked_folder(f"{folder}/{name}")


def _is_linked_folder(path: str) -> bool:
    return os.path.islink(path) and os.path.isdir(path)  # noqa: PTH112, PTH114 - as above


def roots_of(paths: Iterable[str]) -> tuple[str, ...]:
    """Return the folders of records that some folders are, or lie in.

    Parameters
    ----------
    paths : iterable of str
        What is to be looked at. A folder in which shelves lie is a folder of records; else the
        nearest shelf that it is, or lies in, says where one is.
    """
    folders = (path for path in map(os.path.normpath, paths) if os.path.isdir(path))  # noqa: PTH112 - as above
    roots = (
        folder if _holds_shelves(folder) else shelved(f"{folder}/x").root for folder in folders
    )
    return tuple(dict.fromkeys(root for root in roots if root))


def _holds_shelves(folder: str) -> bool:
    return any(os.path.isdir(f"{folder}/{shelf}") for shelf in _SHELVES)  # noqa: PTH112 - as above


def shelved(path: str, kind: str = "", roots: Iterable[str] = ()) -> Shelved:
    """Return where a file lies.

    Parameters
    ----------
    path : str
    kind : str
        The kind of the record, where it is known.
    roots : iterable of str
        Folders of records that are looked at: what lies in one lies in no other, whatever the
        folders in it are called. Without one the nearest shelf of the kind decides, or any.
    """
    path = os.path.normpath(path)
    stem = path.removesuffix(".yaml").removesuffix(".yml")
    for root in roots:
        if root == "." and not stem.startswith(("/", "..")):
            return Shelved(root, stem.partition("/")[0] if "/" in stem else "", stem)
        if stem.startswith(f"{root}/"):
            inside = stem[len(root) + 1 :]
            return Shelved(root, inside.rpartition("/")[0].partition("/")[0], inside)
    folder, _, name = stem.rpartition("/")
    folder = folder or ("/" if stem.startswith("/") else "")
    root, inside = _shelf_of(folder, kind, os.getcwd())  # noqa: PTH109 - as above
    return Shelved(root, inside.partition("/")[0], f"{inside}/{name}" if inside else name)


@lru_cache(maxsize=1024)
def _shelf_of(folder: str, kind: str, here: str) -> tuple[str, str]:
    """Return the folder of records that a folder lies in, and the way from there to it."""
    whole = Path(os.path.normpath(os.path.join(here, folder)))  # noqa: PTH118 - links stay
    above = [one for one in (whole, *whole.parents) if one.name in _SHELVES]
    own = [one for one in above if one.name == SHELVES.get(kind)]
    for shelf in own or above:
        return os.path.relpath(shelf.parent, here), whole.relative_to(shelf.parent).as_posix()
    return "", ""


def contributed_text(path: str) -> str:
    """Return the text of a contributed file.

    Raises
    ------
    Unreadable
        If it is a link that leads out of its folder of records, a device or a pipe, or no text.
    """
    if os.path.islink(path):  # noqa: PTH114 - as above
        _refuse_way_out(path)
    return decoded(read_bytes(path), path)


def _refuse_way_out(path: str) -> None:
    """Refuse a link that leads out of the folder of records, or out of its own folder."""
    root = os.path.realpath(shelved(path).root or os.path.dirname(os.path.abspath(path)))  # noqa: PTH100, PTH120 - as above
    if os.path.commonpath((root, os.path.realpath(path))) != root:
        right = "put the file itself in its place"
        raise Unreadable(path, "a link out of its folder of records", right, UNREADABLE)
