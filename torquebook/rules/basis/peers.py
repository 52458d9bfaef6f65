"""The list as a whole: the printed table that it follows, the level that it keeps to.

One value that is wrong by a third may still be a value that some bolt could bear; beside
its neighbours in the same list it stands out.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from math import exp, log
from statistics import median
from typing import TYPE_CHECKING

from torquebook.rules.basis.tables import same

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.bands import Band
    from torquebook.rules.basis.case import Case

# A list follows a table if so many of the lines that the table covers agree with it.
FOLLOWED_SHARE, FOLLOWED_LINES = 0.8, 5
# A line stands out if it is this far from the level of at least so many others: inference,
# tuned on the printed tables in tests/published so that their own rows keep quiet.
LEVEL_LINES, LEVEL_LEAST, LEVEL_SPREADS = 5, log(1.13), 4.0
_MAD_TO_SIGMA = 1.4826  # of a normal distribution
# In a group this large one line no longer moves the level, so all lines share it.
_LARGE_GROUP = 100


@dataclass(frozen=True)
class Level:
    """The level of tightening that a line's peers keep to.

    ``ratio`` is the line's own level over theirs; ``limit`` is how far a line may be from
    it, as a ratio above 1; ``lines`` is how many peers there are.
    """

    ratio: float
    limit: float
    lines: int

    @property
    def stands_out(self) -> bool:
        """Whether the line is further from its peers than they are from each other."""
        return not 1 / self.limit <= self.ratio <= self.limit


class Peers:
    """What a list's lines say of each other."""

    def __init__(self, cases: Sequence[Case]) -> None:
        self.cases = tuple(cases)
        self._large: dict[tuple[str, ...], tuple[float, float]] = {}

    # -- columns ----------------------------------------------------------------------------

    @cached_property
    def unknown_columns(self) -> list[str]:
        """The headers that are none of the known columns, in the order they are met."""
        return list(dict.fromkeys(name for case in self.cases for name in case.line.extra))

    def uses(self, column: str) -> bool:
        """Return whether any line fills a known column."""
        return any(column in case.line.cells for case in self.cases)

    # -- printed tables -------------------------------------------------------------------

    def followed(self, case: Case) -> frozenset[str]:
        """Return the ids of the printed tables that a line's source, or else the list, follows.

        A list may be copied from several documents, so the lines that name one source are
        looked at by themselves first.
        """
        return self._followed.get(_source(case)) or self._followed.get("", frozenset())

    @cached_property
    def _followed(self) -> dict[str, frozenset[str]]:
        """The tables that are followed, by the source that lines name; "" is the whole list."""
        applies: dict[str, Counter[str]] = {}
        agrees: dict[str, Counter[str]] = {}
        for case in self.cases:
            if case.torque is None or case.angle_deg is not None:
                continue
            rows, band = case.table_rows, case.torque.band
            for source in {"", _source(case)} if rows else ():
                applies.setdefault(source, Counter()).update({row.table.id for row in rows})
                agreeing = {row.table.id for row in rows if row.prints(band)}
                agrees.setdefault(source, Counter()).update(agreeing)
        return {source: _kept_to(agrees[source], counted) for source, counted in applies.items()}

    # -- the same joint, or the same value, twice -------------------------------------------

    @cached_property
    def _by_name(self) -> dict[tuple[str, ...], list[Case]]:
        """The lines of each joint, without those that repeat an earlier line's torque."""
        groups: dict[tuple[str, ...], list[Case]] = {}
        for case in self.cases:
            if case.torque is not None and case.line.text("joint"):
                group = groups.setdefault(_name(case), [])
                if all(_contradict(case, other) for other in group):
                    group.append(case)
        return groups

    def contradicted(self, case: Case) -> Case | None:
        """Return an earlier line of the same joint and fastener with another torque."""
        for other in self._by_name.get(_name(case), ()):
            if other.line.number < case.line.number and _contradict(case, other):
                return other
        return None

    @cached_property
    def _by_value(self) -> dict[tuple[tuple[float, ...], str], dict[tuple[object, ...], Case]]:
        """The first line of each fastener that is tightened to a value by torque alone."""
        values: dict[tuple[tuple[float, ...], str], dict[tuple[object, ...], Case]] = {}
        for case in self.cases:
            if case.torque is not None and case.angle_deg is None and case.thread is not None:
                fasteners = values.setdefault((case.torque.printed, case.torque.unit), {})
                fasteners.setdefault((case.thread, case.strength), case)
        return values

    def of_same_value(self, case: Case) -> list[Case]:
        """Return a line each of the other fasteners that are given the very same value."""
        if case.torque is None:
            return []
        fasteners = self._by_value.get((case.torque.printed, case.torque.unit), {})
        own = (case.thread, case.strength)
        return [other for key, other in fasteners.items() if key != own]

    # -- the list's own level ----------------------------------------------------------------

    @cached_property
    def _groups(self) -> dict[tuple[str, ...], list[float]]:
        """The levels of each group; a fastener that is tightened alike counts once."""
        groups: dict[tuple[str, ...], dict[object, float]] = {}
        for case in self.cases:
            stress, torque = _level_mpa(case), case.torque
            if stress is not None and torque is not None:
                group = groups.setdefault(_group(case), {})
                group[case.thread, torque.printed, torque.unit] = log(stress)
        return {key: list(group.values()) for key, group in groups.items()}

    def level(self, case: Case) -> Level | None:
        """Return how a line stands to the others of its class and friction in the list."""
        stress = _level_mpa(case)
        if stress is None:
            return None
        key = _group(case)
        group = self._groups[key]
        if len(group) <= LEVEL_LINES:
            return None
        if len(group) < _LARGE_GROUP:
            others = list(group)
            others.remove(log(stress))
            middle, spread = _middle_and_spread(others)
        else:
            if key not in self._large:
                self._large[key] = _middle_and_spread(group)
            middle, spread = self._large[key]
        limit = max(LEVEL_LEAST, LEVEL_SPREADS * spread)
        return Level(exp(log(stress) - middle), exp(limit), len(group) - 1)


def _kept_to(agrees: Counter[str], applies: Counter[str]) -> frozenset[str]:
    """Return the tables that lines keep to; none if they do not keep to the likeliest one."""
    kept = frozenset(
        table
        for table, lines in agrees.items()
        if lines >= FOLLOWED_LINES and lines >= FOLLOWED_SHARE * applies[table]
    )
    likeliest = frozenset(table for table, _ in agrees.most_common(1))
    return kept if likeliest <= kept else frozenset()


def _middle_and_spread(values: list[float]) -> tuple[float, float]:
    middle = median(values)
    return middle, _MAD_TO_SIGMA * median(abs(value - middle) for value in values)


def _contradict(case: Case, other: Case) -> bool:
    if case.torque is None or other.torque is None:
        return False
    ends: list[Band] = [case.torque.band, other.torque.band]
    alike = same(*((band.low, band.high) for band in ends))
    return not alike or case.angle_deg != other.angle_deg


def _name(case: Case) -> tuple[str, ...]:
    columns = ("joint", "thread", "class", "kind", "friction")
    return tuple(" ".join(case.line.text(column).casefold().split()) for column in columns)


def _source(case: Case) -> str:
    return " ".join(case.line.text("source").casefold().split())


def _group(case: Case) -> tuple[str, ...]:
    family = case.thread.family if case.thread else ""
    words = (case.line.text(column).casefold() for column in ("class", "friction", "nut"))
    return (family, *words)


def _level_mpa(case: Case) -> float | None:
    """Return the nominal clamp stress of a line that is tightened by torque alone."""
    if case.preload_n is None or case.thread is None:
        return None
    if case.angle_deg is not None or case.hinted_kind:
        return None
    return case.preload_n.nominal / case.thread.stress_area_mm2 or None
