"""How many options of a question stand beside one another on half a page."""

from __future__ import annotations

from math import ceil
from typing import Final

from torquebook.render.quizsheet.kept import KEPT

_BESIDE: Final = ((6, 5), (7, 4), (11, 3), (30, 2))  # letters of an option, options in a row
_PAIR: Final = 2
#: Of DejaVu Sans, the widest font that is named, in em; all else is about as wide as a figure.
_WIDTHS: Final = dict.fromkeys(f" {KEPT}.,·'/ijl", 0.32) | dict.fromkeys("frt-²", 0.41)
_WIDTHS.update(dict.fromkeys("mMwW%±", 0.98) | {"N": 0.75})
_FIGURE_EM: Final = 0.64
_LABEL_EM: Final = 2.55  # an option's box and the gaps, 8.1 mm at 9 pt
_ROW_EM: Final = 29.4  # half a page between its margins, and the gap behind the last option


def across(options: list[str]) -> int:
    """Return how many options stand in a row, so that the rows are about as long.

    Three and more have room in their row whole: a number and its unit never part.

    Examples
    --------
    >>> across(["16 mm", "17 mm", "18 mm", "10 mm"]), across(["see that it is dry", "oil it"])
    (4, 2)
    """
    longest = max(map(len, options), default=0)
    fit = next((count for most, count in _BESIDE if longest <= most), 1)
    # Where the longest would have room in each column, none is measured.
    while fit > _PAIR and fit * (longest + _LABEL_EM) > _ROW_EM < _row_em(options, fit):
        fit -= 1
    rows = ceil(len(options) / fit)
    return ceil(len(options) / rows) if rows else 1


def _row_em(options: list[str], count: int) -> float:
    """Return how wide so many columns of options are, set in a wide font, in em."""
    widest = (max(map(_em, options[at::count]), default=0.0) for at in range(count))
    return sum(widest) + count * _LABEL_EM


def _em(text: str) -> float:
    return sum(_WIDTHS.get(character, _FIGURE_EM) for character in text)
