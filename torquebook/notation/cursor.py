"""Cursor: one value after another in a text, a number in some form and its unit."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NamedTuple, NoReturn

from torquebook.errors import NotUnderstood
from torquebook.notation import asking
from torquebook.numerals import Number, number_at
from torquebook.unitnames import USUAL, unit_at
from torquebook.units import FACTORS

if TYPE_CHECKING:
    from torquebook.notation.stages import Form

_DASH: Final = "[-‐‑‒–—−]"
_SPACE: Final = re.compile(r"\s*")
_HYPHEN: Final = re.compile(r" ?-(?=[^\W\d_])| *")  # "1/4-turn"
_SPOKEN: Final = re.compile(
    r"(?:an? |one )?(half|third|quarter)(?: of)?(?: an?)?(?=[ -]?turn)", re.IGNORECASE
)
_PARTS: Final = {"half": 1 / 2, "third": 1 / 3, "quarter": 1 / 4}
_MAX: Final = r"max(?:imum(?!\w)|\.|(?!\w))"
_MIN: Final = r"min(?:imum(?!\w)|\.|(?!\w))"
_LIMIT: Final = re.compile(
    rf"(?:(?P<maximum>{_MAX}|at most|(?:not|no) more than|up to|<=|≤)"
    rf"|(?P<minimum>{_MIN}|at least|(?:not|no) less than|>=|≥))\s*",
    re.IGNORECASE,
)
_LIMIT_BEHIND: Final = re.compile(
    rf"\s*(?:(?P<maximum>{_MAX})|(?P<minimum>{_MIN}))(?!\s*\d)", re.IGNORECASE
)
_TO: Final = re.compile(rf"\s*(?:({_DASH})|to(?!\w)|\.{{2,3}}|…)\s*", re.IGNORECASE)
_EITHER_WAY: Final = re.compile(rf"\s*(?:±|\+\s?/?\s?{_DASH})\s*")
_SIGN: Final = re.compile(rf"\s*(?:(\+)|{_DASH})\s*")
_SLASH: Final = re.compile(r"\s*/?")
_PERCENT: Final = re.compile(r"\s*%")

_TORQUES: Final = tuple(f"{{}} {unit}" for unit in USUAL["torque"])

Spread = tuple["Form", tuple[float, ...]]


class Value(NamedTuple):
    """One value as printed, and where it starts."""

    form: Form
    printed: tuple[float, ...]
    unit: str
    decimals: int
    start: int

    @property
    def is_torque(self) -> bool:
        """Whether it is a torque; else it is an angle."""
        return FACTORS[self.unit][0] == "torque"


class Cursor:
    """A place in a text, and what can be read from there.

    Each method reads one thing and moves behind it, or leaves the place where it was.
    """

    def __init__(self, text: str) -> None:
        """Begin at the start of a text."""
        self.text = text
        self.at = 0

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Move behind a pattern and return what matched, or None."""
        if found := pattern.match(self.text, self.at):
            self.at = found.end()
        return found

    def fail(self, what: str, readings: tuple[str, ...] = (), at: int | None = None) -> NoReturn:
        """Raise that the text is not understood, here or at another offset."""
        raise NotUnderstood(self.text, what, readings, self.at if at is None else at)

    def number(self) -> Number | None:
        """Return the number that stands here, or None."""
        if spoken := self.take(_SPOKEN):
            return Number(_PARTS[spoken[1].lower()], self.at, 0, slashed=False)
        try:
            found = number_at(self.text, self.at, sheet=True)
        except NotUnderstood as trouble:
            asking.about_number(self, trouble)
        if found:
            self.at = found.end
        return found

    def unit(self, start: int) -> str | None:
        """Return the unit that stands here, of torque or angle, or None.

        ``start`` is where the value began that the unit belongs to.
        """
        place = self.at
        self.take(_HYPHEN)
        try:
            found = unit_at(self.text, self.at)
            if found and FACTORS[found[0]][0] not in {"torque", "angle"}:
                found = unit_at(self.text, self.at, "torque")
        except NotUnderstood as trouble:
            shown = self.text[start:place].strip()
            readings = tuple(f"{shown} {one}" for one in trouble.readings if "." in one)
            self.fail(trouble.what, readings)
        self.at = found[1] if found else place
        return found[0] if found else None

    def value(self, guesses: tuple[str, ...] = _TORQUES) -> Value | None:
        """Return the value that stands here, or None where neither number nor limit does.

        Parameters
        ----------
        guesses : tuple of str
            What a value without a unit may mean here, with ``{}`` for the value.
        """
        start = self.at
        limit = self.take(_LIMIT)
        first = self.number()
        if first is None:
            if limit:
                self.fail("a limit without a number")
            return None
        unit = self.unit(start)
        form, printed = self._spread(first, unit, start)
        if form != "exact":
            unit = self._one_unit(unit, self.unit(start), start)
        if unit is None:
            asking.about_unit(self, start, guesses)
        value = Value(form, printed, unit, first.decimals, start)
        most = max(printed) if form == "range" else printed[0]
        if value.is_torque and most == 0:
            self.fail("a torque is more than 0", at=start)
        if first.slashed and unit not in {"turn", "flat"}:
            asking.about_fraction(self, value)
        limit = limit or self.take(_LIMIT_BEHIND)
        return self.limited(value, limit) if limit else value

    def limit_behind(self, value: Value) -> Value:
        """Return a value as the minimum or maximum that the words behind it make of it."""
        limit = self.take(_LIMIT_BEHIND)
        return self.limited(value, limit) if limit else value

    def limited(self, value: Value, limit: re.Match[str]) -> Value:
        """Return a value as a minimum or maximum, or raise where it cannot be one."""
        if value.form != "exact" or not value.is_torque:
            self.fail("only a single torque can be a minimum or maximum", at=value.start)
        return value._replace(form="maximum" if limit["maximum"] else "minimum")

    def _spread(self, first: Number, unit: str | None, start: int) -> Spread:
        """Return form and numbers of a value, of which the first number is read."""
        found = (
            self._either_way(first)
            or self._two_sided(first)
            or self._one_sided(first, unit, start)
            or self._range(first, unit, start)
            or ("exact", (first.value,))
        )
        form, printed = found
        if form == "tolerance" and printed[1] > printed[0]:
            self.fail("a tolerance wider than the value", at=start)
        return found

    def _half(self, nominal: float) -> tuple[float, bool] | None:
        """Return one side of a tolerance and whether it is given in per cent, or None."""
        number = self.number()
        if number is None:
            return None
        if self.take(_PERCENT):
            return float(f"{nominal * number.value / 100:.12g}"), True
        return number.value, False

    def _either_way(self, first: Number) -> Spread | None:
        """Return a tolerance that is the same both ways, or None."""
        if not self.take(_EITHER_WAY):
            return None
        half = self._half(first.value)
        if half is None:
            self.fail("a tolerance without a number")
        return "tolerance", (first.value, half[0], half[0])

    def _two_sided(self, first: Number) -> Spread | None:
        """Return a tolerance such as +10/-5, or None."""
        place = self.at
        one = self.take(_SIGN)
        half = self._half(first.value) if one else None
        if one and half:
            slash = self.take(_SLASH)
            other = self.take(_SIGN)
            half_2 = self._half(first.value) if other and slash and other[1] != one[1] else None
            if half_2:
                plus, minus = (half, half_2) if one[1] else (half_2, half)
                return "tolerance", (first.value, minus[0], plus[0])
        self.at = place
        return None

    def _one_sided(self, first: Number, unit: str | None, start: int) -> Spread | None:
        """Return a torque's tolerance such as "60 +10 N.m" or "60 N.m +10 %", or None."""
        place = self.at
        sign = self.take(_SIGN)
        half = self._half(first.value) if sign and sign[1] else None
        if half and (half[1] or (unit is None and half[0] < first.value)):
            end = self.at
            if unit is None and FACTORS[self.unit(start) or "N.m"][0] == "angle":
                end = place
            self.at = end
            if end == place:
                return None
            return "tolerance", (first.value, 0.0, half[0])
        self.at = place
        return None

    def _range(self, first: Number, unit: str | None, start: int) -> Spread | None:
        """Return a range such as "60-70", "60 to 70" or "60 N.m to 70 N.m", or None."""
        place = self.at
        to = self.take(_TO)
        last = self.number() if to else None
        if not to or not last:
            self.at = place
            return None
        if unit and to[1]:
            self._same_unit_behind(unit, place, start)
        return "range", (first.value, last.value)

    def _same_unit_behind(self, unit: str, dash: int, start: int) -> None:
        """Raise where the second end of "60 N.m - 70 N.m" has not the unit of the first."""
        end = self.at
        unit_2 = self.unit(start)
        self.at = end
        if unit_2 == unit:
            return
        first, last = self.text[start:dash].strip(), self.text[dash:end].strip(" -‐‑‒–—−")
        readings: tuple[str, ...] = ()
        if unit_2 is None:
            readings = (f"{first} to {last} {unit}", f"{first}, +{last} deg")
        elif FACTORS[unit_2][0] == "angle":
            readings = (f"{first}, +{last} {unit_2}",)
        self.fail("a dash behind a unit", readings, dash)

    def _one_unit(self, unit: str | None, unit_2: str | None, start: int) -> str | None:
        """Return the unit of a value that may carry it twice."""
        if unit and unit_2 and unit != unit_2:
            self.fail(f"one value in {unit} and {unit_2}", at=start)
        return unit or unit_2
