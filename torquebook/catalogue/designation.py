"""Read how a thread is written: ``M10x1.25``, ``M8x30``, ``3/8-24 UNF``, ``1 1/8``."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from torquebook.errors import NotUnderstood

INCH_MM = 25.4
#: From here up a second number is a length: no pitch in the book is that large.
SHORTEST_LENGTH_MM = 5.0
#: A whole number with more threads to the inch than this is a numbered size, not inches.
MOST_THREADS_OF_WHOLE_INCHES = 20
LARGEST_BARE_INCH = 2
LARGEST_NUMBERED_SIZE = 12
LARGEST_BARE_METRIC = 39

_NUMBER = r"\d{1,4}(?:[.,]\d{1,4})?|[.,]\d{1,4}"
# Patterns stay text until they are needed: compiling them all would cost every start.
_METRIC: Final = (
    rf"m\s*(?P<d>{_NUMBER})"
    rf"(?:\s*[x*-]\s*(?P<second>{_NUMBER}))?(?:\s*[x*]\s*(?P<third>{_NUMBER}))?(?:\s*mm)?"
    r"(?:\s*-?\s*\d[gh](?:\d[gh])?)?(?:[\s-]*(?P<series>coarse|fine))?(?P<left>[\s-]*lh)?"
)
_FRACTION = r"(?:\d{1,2}[\s-])?\d{1,2}/\d{1,2}"
_INCH: Final = (
    rf"(?:(?P<number>(?:#|no\.?|nr\.?)\s*\d{{1,2}})|(?P<fraction>{_FRACTION})|(?P<whole>\d{{1,2}}))"
    r"(?:\s*(?:\"|in\b\.?|inch\b))?(?:\s*-\s*(?P<tpi>\d{1,2}(?:\.5)?))?"
    r"(?:[\s-]*(?P<series>unrc|unrf|unc|unf|uns|unef|un|nc|nf|coarse|fine))?"
    r"(?:[\s-]*\d[ab])?(?P<left>[\s-]*lh)?"
    rf"(?:\s*x\s*(?P<length>{_FRACTION}|{_NUMBER})\s*(?P<unit>mm|\"|in\b\.?)?)?"
)
_PIPE: Final = (
    r"(?:npt[fs]?|bspt?p?|rc|rp|r|g|pt|pf|ps)[\s.-]*(?:\d|$)"
    r"|.*\d\s*-?\s*(?:npt[fs]?|bsp[tp]?|pipe)\b"
)
_SERIES = {
    "nc": "UNC",
    "nf": "UNF",
    "unrc": "UNC",
    "unrf": "UNF",
    "coarse": "coarse",
    "fine": "fine",
}
_SIGNS = str.maketrans(
    {
        "×": "x",
        "✕": "x",
        "–": "-",
        "‐": "-",
        "‑": "-",
        "−": "-",
        "″": '"',
        "”": '"',
        "“": '"',
        "⁄": "/",
    }
    | {"¼": " 1/4", "½": " 1/2", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
    | {"\N{NO-BREAK SPACE}": " ", "\N{NARROW NO-BREAK SPACE}": " ", "№": "no"}
)
_EXAMPLES = ("M10x1.25", "3/8-16")


class Designation(NamedTuple):
    """What a thread's designation says, whether or not such a thread is listed.

    Parameters
    ----------
    family : str
        ``metric`` or ``inch``.
    d_mm : float
        Nominal diameter [mm].
    pitch_mm, length_mm : float or None
        Pitch and length under head, None where not said [mm].
    text : str
        The text as typed.
    series : str or None
        ``coarse``, ``fine``, ``UNC``, ``UNF``, ``UNS``, ``UNEF``, ``UN``, None where not said.
    left_hand : bool
    """

    family: str
    d_mm: float
    pitch_mm: float | None
    length_mm: float | None
    text: str
    series: str | None
    left_hand: bool = False


def read_designation(text: str) -> Designation:
    """Read a thread's designation.

    Parameters
    ----------
    text : str
        For example ``M10``, ``M 10×1,25``, ``M8x30`` (a second number from 5 up is a
        length), ``3/8-24 UNF-2A``, ``1 1/8``, ``#10-32``.

    Returns
    -------
    Designation
        What the text says.

    Raises
    ------
    NotUnderstood
        If it is no designation, a pipe thread, or a bare number that may be either.
    """
    plain = " ".join(text.translate(_SIGNS).casefold().split())
    if found := re.fullmatch(_METRIC, plain, re.ASCII):
        return _metric(found, text)
    if re.match(_PIPE, plain, re.ASCII):
        what = "a pipe thread: its torque seals and says nothing of preload"
        raise NotUnderstood(text, f"{what}; leave thread empty and name it in the joint")
    if found := re.fullmatch(_INCH, plain, re.ASCII):
        return _inch(found, text)
    raise NotUnderstood(text, "no thread designation", _EXAMPLES)


def _value(text: str) -> float:
    return float(text.replace(",", "."))


def _metric(found: re.Match[str], text: str) -> Designation:
    """Return what a match of the metric pattern says."""
    pitch = length = None
    second, third = found["second"], found["third"]
    if second and (third or _value(second) < SHORTEST_LENGTH_MM):
        pitch = _value(second)
    elif second:
        length = _value(second)
    if third:
        length = _value(third)
    d_mm = _value(found["d"])
    if not d_mm or pitch == 0 or length == 0:
        raise NotUnderstood(text, "a size of 0", _EXAMPLES)
    return Designation("metric", d_mm, pitch, length, text, found["series"], bool(found["left"]))


def _inch(found: re.Match[str], text: str) -> Designation:
    """Return what a match of the inch pattern says."""
    tpi = float(found["tpi"]) if found["tpi"] else None
    if tpi == 0:
        raise NotUnderstood(text, "0 threads to the inch", _EXAMPLES)
    d_in = _diameter(found, tpi, text)
    length = None
    if found["length"]:
        length = _inches(found["length"], text) * (1.0 if found["unit"] == "mm" else INCH_MM)
    word = found["series"]
    series = _SERIES.get(word, word.upper()) if word else None
    pitch = INCH_MM / tpi if tpi else None
    return Designation("inch", d_in * INCH_MM, pitch, length, text, series, bool(found["left"]))


def _diameter(found: re.Match[str], tpi: float | None, text: str) -> float:
    """Return the nominal diameter in inches."""
    if found["fraction"]:
        return _inches(found["fraction"], text)
    number = int(re.sub(r"\D", "", found["number"] or found["whole"]))
    if found["whole"] and number <= LARGEST_BARE_INCH:
        inches = tpi is None or tpi <= MOST_THREADS_OF_WHOLE_INCHES
        if number and inches:
            return float(number)
    said = bool(found["number"] or found["tpi"] or found["series"])
    if said and number <= LARGEST_NUMBERED_SIZE:
        return 0.060 + 0.013 * number  # ASME B1.1: diameter of the numbered sizes
    if number > LARGEST_BARE_METRIC or not number or said:
        raise NotUnderstood(text, "no thread designation", _EXAMPLES)
    numbered = {8: ("8-32", "8-36"), 10: ("10-24", "10-32")}.get(number, ())
    if found["length"]:
        raise NotUnderstood(text, "no thread designation", (f"M{number}x{found['length']}",))
    raise NotUnderstood(text, "a bare number is no thread", (f"M{number}", *numbered))


def _inches(text: str, whole_text: str) -> float:
    """Return the value of ``1-1/8``, ``3/8`` or ``1.5``."""
    *wholes, last = re.split(r"[\s-]", text)
    above, _, below = last.partition("/")
    if not below:
        return _value(last)
    if int(below) not in {2, 4, 8, 16, 32, 64} or not 0 < int(above) < int(below):
        raise NotUnderstood(whole_text, f"{last} is no fraction of an inch on a thread", _EXAMPLES)
    return sum(map(int, wholes)) + int(above) / int(below)
