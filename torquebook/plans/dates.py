"""Cells that a spreadsheet has turned into a date, and what was typed there before."""

from __future__ import annotations

import re
from typing import Final

_MONTHS: Final = (
    "jan", "feb", "mar|mär|mrz", "apr", "may|mai", "jun", "jul", "aug", "sep", "oct|okt", "nov",
    "dec|dez",
)  # fmt: skip
_NAME: Final = f"(?P<name>{'|'.join(_MONTHS)})[a-zä]*\\.?"
_FORMS: Final = tuple(
    re.compile(form, re.IGNORECASE)
    for form in (
        r"(?P<year>[12][0-9]{3})-(?P<month>[0-9]{2})-(?P<day>[0-9]{2})(?:[T ][0-9:.]+)?",
        r"(?P<day>[0-9]{1,2})(?P<by>[.-])(?P<month>[0-9]{1,2})(?P=by)(?P<year>[12][0-9]{3})",
        r"(?P<month>[0-9]{1,2})/(?P<day>[0-9]{1,2})/(?P<year>[12][0-9]{3})",
        rf"(?P<day>[0-9]{{1,2}})[-. /]+{_NAME}(?:[-. /]+(?P<year>[0-9]{{2,4}}))?",
        rf"{_NAME}[-. /]+(?P<day>[0-9]{{1,4}})",
    )
)
_TIME: Final = re.compile(r"[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]*)?)?")


def date_in(column: str, text: str) -> tuple[str, tuple[str, ...]] | None:
    """Return what to say of a date in a column that holds none, and what it was before.

    Parameters
    ----------
    column : str
        One of ``model.COLUMNS``.
    text : str
        The cell's text.

    Returns
    -------
    tuple or None
        What is wrong and the likely readings; None if the text is no date.
    """
    if _TIME.fullmatch(text):
        return "a spreadsheet has turned this into a time; set the cell to text, type it again", ()
    for form in _FORMS:
        match = form.fullmatch(text)
        if match:
            what = "a spreadsheet has turned this into a date; set the cell to text, type it again"
            return what, _typed(column, match.groupdict())
    return None


def _typed(column: str, parts: dict[str, str | None]) -> tuple[str, ...]:
    """Return what may have been typed before it became a date."""
    day = int(parts["day"] or 0)
    month = int(parts.get("month") or 0) or _month(parts.get("name") or "")
    if column == "thread":
        return tuple(dict.fromkeys((f"{month}/{day}", f"{day}/{month}")))
    if column == "class":
        return (f"{day}.{month}",)
    if column in {"engagement", "clamp_length"}:
        return (f"{min(month, day)}-{max(month, day)}",)
    if column == "order":
        year = f"-{int(parts['year'] or 0) % 100}" if parts.get("year") else ""
        return tuple(dict.fromkeys((f"{month}-{day}{year}", f"{day}-{month}{year}")))
    return ()


def _month(name: str) -> int:
    """Return the number of a month's name."""
    return next(
        number
        for number, names in enumerate(_MONTHS, start=1)
        if re.fullmatch(names, name, re.IGNORECASE)
    )
