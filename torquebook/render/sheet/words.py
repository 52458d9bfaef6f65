"""Words of a sheet: safe text, numbered sources, units, limits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.numerals import limits_text
from torquebook.render.plain import ascii_only, inert

if TYPE_CHECKING:
    from collections.abc import Iterable

    from torquebook.findings import Finding
    from torquebook.records.base import Source
    from torquebook.render.sheet.model import Alert

_UNSAID: Final = "not stated"
_UNITS: Final = {"deg": "°", "degC": "°C"}


class Words:
    """Makes text safe, and numbers the sources in the order in which they are named.

    Parameters
    ----------
    plain : bool
        Whether to keep to ASCII.
    """

    def __init__(self, *, plain: bool = False) -> None:
        self.plain = plain
        self._sources: dict[str, int] = {}

    @property
    def sources(self) -> tuple[str, ...]:
        """The sources that were named so far, the first one's number is 1."""
        return tuple(self._sources)

    def said(self, text: str) -> str:
        """Return text as it will stand: inert, and ASCII where that is asked for."""
        text = inert(text)
        return ascii_only(text) if self.plain else text

    def unit(self, unit: str) -> str:
        """Return a unit's plain name as a sheet prints it."""
        return self.said(_UNITS.get(unit, unit.replace(".", "·")))

    def note(self, line: str) -> int:
        """Return the number of a source."""
        return self._sources.setdefault(self.said(line), len(self._sources) + 1)

    def source(self, source: Source) -> int:
        """Return the number of a record's source; its conditions are a part of it."""
        holds = "" if source.conditions == _UNSAID else f"; {source.conditions}"
        return self.note(source.line + holds)

    def alert(self, finding: Finding, step: int) -> Alert:
        """Return a finding as it is printed."""
        from torquebook.render.sheet.model import Alert  # noqa: PLC0415 - other papers have none

        return Alert(
            word=finding.severity.word.upper(),
            step=step,
            joint=self.said(finding.joint),
            text=self.said(finding.message),
            instead=self.said(finding.instead or ""),
            rule=self.said(finding.rule),
            note=self.note(finding.source) if finding.source else 0,
        )


def marks(numbers: Iterable[int]) -> str:
    """Return the mark of some notes, each once: ``[1, 4]``; empty without any."""
    named = ", ".join(str(number) for number in dict.fromkeys(numbers) if number)
    return f"[{named}]" if named else ""


def limits(low: float | None, high: float | None, unit: str) -> str:
    r"""Return limits in words, the unit kept beside its number.

    Examples
    --------
    >>> limits(None, 0.1, "mm"), limits(-0.5, 0.5, "mm"), limits(23.0, None, "mm")
    ('at most 0.1\xa0mm', '-0.5 to 0.5\xa0mm', 'at least 23\xa0mm')
    """
    return f"{limits_text(low, high)}\N{NO-BREAK SPACE}{unit}"
