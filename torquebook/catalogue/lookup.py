"""Find a record by the words that a person uses for it, or say what comes near."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import TYPE_CHECKING

from torquebook.errors import NotUnderstood

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from typing import Protocol, TypeVar

    from torquebook.catalogue.designation import Designation
    from torquebook.catalogue.shelves import Material, StrengthClass, Thread

    class Named(Protocol):
        """A record with a name and other names."""

        @property
        def name(self) -> str:
            """The name that the book uses."""

        @property
        def aliases(self) -> tuple[str, ...]:
            """Other names in use."""

        @property
        def doubtful(self) -> tuple[str, ...]:
            """Words that may mean this record or another one."""

    N = TypeVar("N", bound=Named)

NEAR_COUNT = 4
NO_PITCH = "no listed pitch of this diameter"
#: How alike two spellings of one word are: "plaited" and "plated" are, "phosphated" is not.
ONE_WORD = 0.8
#: Words that say something: shorter ones are signs, as in "M10 x 1.3".
_WORD = r"(?!and\b|with\b|the\b)[^\W\d_]{3,}"
#: Diameters and pitches that differ by less are one size [mm].
SAME_MM = 0.005
_UNIFIED = {"coarse": "UNC", "fine": "UNF"}
_INCH_MM = 25.4
_QUARTER_INCH_MM = _INCH_MM / 4  # the numbered sizes lie below
_STAINLESS = "A"


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """Return a name without the differences that mean nothing."""
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


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
        If there is no such name, its readings being the records that come near; or the word
        may mean several records, which are its readings.
    """
    by_name: dict[str, N] = {}
    for record in records:
        for name in (record.name, *record.aliases):
            by_name.setdefault(plain(name), record)
    wanted = plain(text)
    if wanted in by_name:
        return by_name[wanted]
    meant = [record for record in records if wanted in map(plain, record.doubtful)]
    if meant:
        what = f"may be more than one {kind}"
        raise NotUnderstood(text, what, tuple(record.name for record in meant))
    likely = [by_name[name] for name in near(text, by_name)] or records
    names = dict.fromkeys(record.name for record in likely)
    raise NotUnderstood(text, f"no {kind} of that name", tuple(names))


def graded(materials: Sequence[Material], text: str) -> Material | None:
    """Return the material of a printed grade, with that grade's strength; None for no grade.

    A grade answers to its whole name and to either of two, as in ``AlMgSi1 F31 (AW-6082)``.
    A grade on two shelves is taken from the one that holds fewer.
    """
    from torquebook.bands import Band  # noqa: PLC0415 - costs the start, and few ask for a grade

    wanted = plain(text).replace(" ", "")
    for material in sorted(materials, key=lambda one: len(one.grades)):
        for grade in material.grades:
            first, _, second = grade.name.rstrip(")").partition(" (")
            names = {plain(name).replace(" ", "") for name in (grade.name, first, second)}
            if wanted in names - {""}:
                tensile, pressure = Band.exact(grade.tensile_mpa), Band.exact(grade.pressure_mpa)
                return material._replace(tensile_mpa=tensile, pressure_mpa=pressure)
    return None


def near(text: str, names: Iterable[str], otherwise: Iterable[str] = ()) -> tuple[str, ...]:
    """Return the few names that come near a text, as written, or all others where none does.

    Names that stand in the text as words come first, in its order; a name that is only spelt
    like the text must then keep all its words: who typed zinc plated means no other coating.
    """
    written: dict[str, str] = {}
    for name in names:
        written.setdefault(plain(name), name)
    words, every = plain(text), list(written)
    standing = _standing(words, every)
    alike = [name for name in every if words and words in name]
    alike += [
        name
        for name in close(words, every)
        if not standing or (all(_stands(s, name) for s in standing) and says_all(name, words))
    ]
    found = tuple(dict.fromkeys([*standing, *alike]))[:NEAR_COUNT]
    return tuple(written[name] for name in found) or tuple(dict.fromkeys(otherwise))


def says_all(name: str, text: str) -> bool:
    """Return whether every word of a text stands in a name, give or take its spelling."""
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    said = re.findall(_WORD, plain(name))
    return all(
        get_close_matches(word, said, 1, ONE_WORD) for word in re.findall(_WORD, plain(text))
    )


def _stands(name: str, text: str) -> bool:
    """Return whether a name stands in a text as whole words."""
    return bool(name) and f" {name} " in f" {text} "


def _standing(text: str, names: list[str]) -> list[str]:
    """Return the names that stand in a text and in no longer one of them, in its order."""
    found = [name for name in names if _stands(name, text)]
    whole = [one for one in found if not any(_stands(one, o) for o in found if o != one)]
    return sorted(whole, key=f" {text} ".index)


def close(text: str, names: list[str]) -> list[str]:
    """Return the names that are spelt almost like a text, the likest first."""
    from difflib import get_close_matches  # noqa: PLC0415 - only where something is wrong

    return get_close_matches(text, names, NEAR_COUNT, 0.7)


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
        return _no_diameter(family, said)
    if said.pitch_mm is None:
        series = said.series or "coarse"
        return NotUnderstood(said.text, f"no listed {series} thread", _sizes(same))
    pitch = said.pitch_mm
    if not any(abs(thread.pitch_mm - pitch) <= SAME_MM for thread in same):
        same.sort(key=lambda thread: abs(thread.pitch_mm - pitch))
        return NotUnderstood(said.text, NO_PITCH, _sizes(same))
    same = [thread for thread in same if abs(thread.pitch_mm - pitch) <= SAME_MM]
    readings = tuple(f"{thread.size} {thread.series}" for thread in same)
    return NotUnderstood(said.text, "pitch and series do not belong together", readings)


def _no_diameter(family: list[Thread], said: Designation) -> NotUnderstood:
    """Return the message for a diameter that the book does not have."""
    family.sort(key=lambda thread: thread.d_mm)
    if said.d_mm > family[-1].d_mm:
        return NotUnderstood(said.text, f"the book ends at {_diameter(family[-1])}")
    if said.d_mm < family[0].d_mm:
        return NotUnderstood(said.text, f"the book begins at {_diameter(family[0])}")
    family.sort(key=lambda thread: (abs(thread.d_mm - said.d_mm), -thread.pitch_mm))
    return NotUnderstood(said.text, "no listed diameter", _sizes(family))


def _diameter(thread: Thread) -> str:
    """Return a thread's diameter as its family writes it: ``M39``, ``1-3/4 in``, ``#8``."""
    if thread.family == "metric":
        return f"M{thread.d_mm:g}"
    diameter = thread.size.rpartition("-")[0]
    numbered = thread.d_mm < _QUARTER_INCH_MM
    return f"#{diameter}" if numbered else f"{diameter} in"


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
    """Return the names of the two classes nearest in proof stress.

    Steel stands in for steel and stainless for stainless, where there is any: they are
    bought for different reasons.
    """
    every, kind = list(classes), _system(like.name) == _STAINLESS
    same = [entry for entry in every if (_system(entry.name) == _STAINLESS) == kind] or every
    same.sort(key=lambda e: (abs(e.proof_mpa - like.proof_mpa), e.name[:2] != like.name[:2]))
    return tuple(dict.fromkeys(entry.name for entry in same))[:2]


def outside(entries: Sequence[StrengthClass], threads: Iterable[Thread], d_mm: float) -> str:
    """Return what is wrong with a diameter that a class is not listed for.

    Parameters
    ----------
    entries : sequence of StrengthClass
        The class over all its ranges of diameter.
    threads : iterable of Thread
        Those of the book: a range that begins "above" ends at the first of them.
    d_mm : float
        The diameter [mm].
    """
    family = entries[0].family
    over, to = min(e.d_over_mm for e in entries), max(e.d_to_mm for e in entries)
    wanted = _length(d_mm, family)
    if d_mm > to:
        return f"listed up to {_length(to, family)} diameter, not for {wanted}"
    if d_mm > over + SAME_MM:
        return f"not listed for {wanted} diameter"
    above = (thread.d_mm for thread in threads if thread.family == family)
    first = min((d for d in above if d > over + SAME_MM), default=over)
    return f"listed from {_length(first, family)} diameter, not for {wanted}"


def _length(length_mm: float, family: str) -> str:
    """Return a length in millimetres, or in inches for inch threads: ``1-1/2 in``."""
    if family == "metric":
        return f"{length_mm:g} mm"
    inches = length_mm / _INCH_MM
    for parts in (1, 2, 4, 8, 16):
        whole, above = divmod(round(inches * parts), parts)
        if abs(whole + above / parts - inches) < SAME_MM / _INCH_MM:
            fraction = f"{above}/{parts}" if above else ""
            return "-".join(filter(None, (f"{whole}" if whole else "", fraction))) + " in"
    return f"{inches:.4g} in"


def _system(name: str) -> str:
    """Return what stands before a class's number: nothing, ``SAE``, or ``A`` for a steel."""
    return _STAINLESS if "-" in name else name.rpartition(" ")[0]


def _number(name: str) -> float:
    """Return the number that a class ends in; a user's own may end in none, and comes last."""
    number = re.search(r"\d+(?:\.\d+)?$", name, re.ASCII)
    return float(number.group()) if number else math.inf
