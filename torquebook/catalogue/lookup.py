"""Find a record by the words that a person uses for it, or say what comes near."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol, TypeVar

from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from torquebook.catalogue.designation import Designation
    from torquebook.catalogue.shelves import StrengthClass, Thread

NEAR_COUNT = 4
#: Diameters and pitches that differ by less are one size [mm].
SAME_MM = 0.005
_UNIFIED = {"coarse": "UNC", "fine": "UNF"}


class Named(Protocol):
    """A record with a name and other names."""

    @property
    def name(self) -> str:
        """The name that the book uses."""

    @property
    def aliases(self) -> tuple[str, ...]:
        """Other names in use."""


def plain(text: str) -> str:
    """Return a name without the differences that mean nothing."""
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


N = TypeVar("N", bound=Named)


def named(records: Sequence[N], text: str, kind: str) -> N:
    """Return the record of a name.

    Parameters
    ----------
    records : sequence
        Records with ``name`` and ``aliases``.
    text : str
        A name or alias; case, hyphens and white space do not matter.
    kind : str
        What the records are, for the message.

    Raises
    ------
    NotUnderstood
        If there is no such name; its readings are the names that come near.
    """
    by_name: dict[str, N] = {}
    for record in records:
        for name in (record.name, *record.aliases):
            by_name.setdefault(plain(name), record)
    found = by_name.get(plain(text))
    if found is None:
        names = tuple(record.name for record in records)
        raise NotUnderstood(text, f"no {kind} of that name", near(text, by_name, names))
    return found


def near(text: str, names: Iterable[str], otherwise: Iterable[str] = ()) -> tuple[str, ...]:
    """Return the few names that come near a text, or all others where none does."""
    words, every = plain(text), list(dict.fromkeys(names))
    held = [name for name in every if words and (words in name or f" {name} " in f" {words} ")]
    found = tuple(dict.fromkeys([*held, *close(words, every)]))[:NEAR_COUNT]
    return found or tuple(dict.fromkeys(otherwise))


def close(text: str, names: list[str]) -> list[str]:
    """Return the names that are spelt almost like a text, the likest first."""
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    return get_close_matches(text, names, NEAR_COUNT, 0.6)


def matching(threads: Iterable[Thread], said: Designation) -> tuple[Thread, ...]:
    """Return the threads that a designation may mean, the coarser first."""
    series = _UNIFIED.get(said.series or "", said.series) if said.family == "inch" else said.series
    found = []
    for thread in threads:
        if thread.family != said.family or abs(thread.d_mm - said.d_mm) > SAME_MM:
            continue
        if series and thread.series != series:
            continue
        if said.pitch_mm is not None:
            if abs(thread.pitch_mm - said.pitch_mm) > SAME_MM:
                continue
        elif not series and thread.series not in {"coarse", "UNC", "UNF"}:
            continue
        found.append(thread)
    return tuple(sorted(found, key=lambda thread: -thread.pitch_mm))


def unlisted(threads: Iterable[Thread], said: Designation) -> NotUnderstood:
    """Return the message for a designation that no listed thread fits."""
    family = [thread for thread in threads if thread.family == said.family]
    same = [thread for thread in family if abs(thread.d_mm - said.d_mm) <= SAME_MM]
    if not same:
        family.sort(key=lambda thread: (abs(thread.d_mm - said.d_mm), -thread.pitch_mm))
        readings = tuple(thread.size for thread in family[:NEAR_COUNT])
        return NotUnderstood(said.text, "no listed diameter", readings)
    if said.pitch_mm is None:
        return NotUnderstood(said.text, f"no listed {said.series} thread", _sizes(same))
    pitch = said.pitch_mm
    if not any(abs(thread.pitch_mm - pitch) <= SAME_MM for thread in same):
        same.sort(key=lambda thread: abs(thread.pitch_mm - pitch))
        return NotUnderstood(said.text, "no listed pitch of this diameter", _sizes(same))
    same = [thread for thread in same if abs(thread.pitch_mm - pitch) <= SAME_MM]
    readings = tuple(f"{thread.size} {thread.series}" for thread in same)
    return NotUnderstood(said.text, "pitch and series do not belong together", readings)


def _sizes(threads: list[Thread]) -> tuple[str, ...]:
    return tuple(thread.size for thread in threads[:NEAR_COUNT])


def unlisted_class(classes: Iterable[StrengthClass], text: str, name: str) -> NotUnderstood:
    """Return the message for a well-formed class that is not listed."""
    names = list(dict.fromkeys(entry.name for entry in classes))
    alike = [other for other in names if _system(other) == _system(name)]
    wanted = _number(name)
    alike.sort(key=lambda other: abs(_number(other) - wanted))
    inch = [f"SAE {name}"] if f"SAE {name}" in names else []
    return NotUnderstood(text, "no listed class", tuple((inch + alike)[:NEAR_COUNT]))


def nearest_class(classes: Iterable[StrengthClass], like: StrengthClass) -> tuple[str, ...]:
    """Return the names of the two classes nearest in tensile strength."""
    ranked = sorted(classes, key=lambda entry: abs(entry.tensile_mpa - like.tensile_mpa))
    return tuple(dict.fromkeys(entry.name for entry in ranked))[:2]


def _system(name: str) -> str:
    """Return what stands before a class's number: nothing, ``SAE``, or ``A`` for a steel."""
    return "A" if "-" in name else name.rpartition(" ")[0]


def _number(name: str) -> float:
    return float(name.rpartition("-")[2].rpartition(" ")[2])
