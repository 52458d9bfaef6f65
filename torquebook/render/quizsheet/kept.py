"""Words of the papers in which no line ends where it would tear a quantity or a formula."""

from __future__ import annotations

import re
from typing import Final

from torquebook.render.paper import kept
from torquebook.render.sheet.words import Words

KEPT: Final = "\N{NO-BREAK SPACE}"
_EQUALS: Final = " = "
_TERM: Final = r"(?:[·+/×−]|\(*(?:[\d.]+|[A-Za-zµπ]\d?(?:_\w+)?(?:/\d)?)\)*)"
_FORMULA: Final = re.compile(rf"\b[A-Za-zµ]\w* = {_TERM}(?: {_TERM})*(?!\w)")
_LONGEST: Final = 48  # letters that a line of half a page has room for


class KeptWords(Words):
    """Words in which a number and its unit stay together; what a class is told again is known."""

    def __init__(self, *, plain: bool) -> None:
        super().__init__(plain=plain)
        self._known: dict[str, str] = {}
        self._whole: dict[str, str] = {}

    def said(self, text: str) -> str:
        """Return text as it will stand, a name beside what it is equal to."""
        if text not in self._known:
            safe = super().said(text)
            self._known[text] = (
                safe if self.plain else kept(safe).replace(_EQUALS, f"{KEPT}={KEPT}")
            )
        return self._known[text]

    def whole(self, text: str) -> str:
        """Return text in which a formula stands on one line, if half a page has room for it."""
        if text not in self._whole:
            has_formula = _EQUALS in text and not self.plain
            self._whole[text] = self.said(_FORMULA.sub(_joined, text) if has_formula else text)
        return self._whole[text]


def _joined(found: re.Match[str]) -> str:
    formula = found[0]
    return formula.replace(" ", KEPT) if len(formula) <= _LONGEST else formula
