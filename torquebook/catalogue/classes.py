"""Read how a strength class is written: ``8.8``, ``class 10.9``, ``A2 70``, ``Gr.8``."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from torquebook.errors import NotUnderstood

_METRIC: Final = (
    r"(?:iso 898(?:-1)?)?\s*(?:(?:property |strength )?(?:class|cl\.?|grade|gr\.?))?\s*"
    r"(?P<class>\d{1,2}[.,]\d)(?P<nut>\s*[/|]\s*\d{1,2})?"
)
_STEEL: Final = r"(?P<steel>a[1-5])\s*[-/ ]?\s*(?P<class>50|70|80|100)?"
_INCH: Final = (
    r"(?P<said>sae(?: j ?429)?|j ?429)?[\s-]*(?:(?P<grade>grade|gr\.?|g)[\s-]*)?"
    r"(?P<class>\d(?:\.\d)?)"
)
_EXAMPLES = ("8.8", "10.9", "A2-70", "SAE 5", "SAE 8")
_BARE = {"4": "4.8", "5": "5.8", "6": "6.8", "8": "8.8", "9": "9.8", "10": "10.9", "12": "12.9"}
_GRADES = frozenset({"1", "2", "4", "5", "7", "8"})


class ClassName(NamedTuple):
    """A class as the book writes it, and the family of threads that it belongs to."""

    name: str
    family: str


def read_class(text: str) -> ClassName:
    """Read the name of a bolt's strength class, whether or not it is listed.

    Parameters
    ----------
    text : str
        For example ``8.8``, ``class 10.9``, ``A4 80``, ``SAE J429 grade 8``, ``Gr.5``.

    Returns
    -------
    ClassName
        The class.

    Raises
    ------
    NotUnderstood
        If it is no class, or one of several: a bare ``8`` may be SAE 8, 8.8 or a nut's.
    """
    plain = " ".join(text.casefold().replace("–", "-").split()).strip("|")
    plain = re.sub(r" ?\([^()]*\)$", "", plain)  # a remark, such as (120 ksi)
    if found := re.fullmatch(_METRIC, plain, re.ASCII):
        name = found["class"].replace(",", ".")
        if found["nut"]:
            raise NotUnderstood(text, "a bolt's class and a nut's", (name,))
        return ClassName(name, "metric")
    if found := re.fullmatch(_STEEL, plain, re.ASCII):
        steel = found["steel"].upper()
        if not found["class"]:
            names = tuple(f"{steel}-{strength}" for strength in ("50", "70", "80"))
            raise NotUnderstood(text, "a steel without its strength", names)
        return ClassName(f"{steel}-{found['class']}", "metric")
    if (found := re.fullmatch(_INCH, plain, re.ASCII)) and (found["said"] or found["grade"]):
        return ClassName(f"SAE {found['class']}", "inch")
    raise _refusal(text, plain)


def _refusal(text: str, plain: str) -> NotUnderstood:
    """Return the message for text that names no class."""
    bare = re.sub(r"(?:property |strength )?class |cl\.? ?", "", plain)
    if re.fullmatch(r"\d{1,2}", bare, re.ASCII):
        inch = f"SAE {bare}" if bare in _GRADES else ""
        readings = tuple(reading for reading in (_BARE.get(bare), inch) if reading)
        what = "a nut's class, or half the name of a bolt's"
        return NotUnderstood(text, what, readings or _EXAMPLES)
    if found := re.fullmatch(r"(?:sae|grades?) (\d(?:(?:-| or |, ?)\d)+)", plain, re.ASCII):
        grades = [grade for grade in re.findall(r"\d", found[1], re.ASCII) if grade in _GRADES]
        return NotUnderstood(text, "several classes", tuple(f"SAE {grade}" for grade in grades))
    return NotUnderstood(text, "no strength class", _EXAMPLES)
