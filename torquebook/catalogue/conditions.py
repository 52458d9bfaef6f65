"""Read a friction that is stated as a number: ``0.12``, ``mu 0.10-0.14``, ``µ=0.125``."""

from __future__ import annotations

import re
from typing import Final

from torquebook.bands import Band
from torquebook.catalogue.shelves import Friction
from torquebook.errors import NotUnderstood

_MU = r"(?:0?[.,]\d{1,4}|0|1(?:[.,]0{1,3})?|\d{1,3}(?:[.,]\d{1,4})?)"
_STATED: Final = (
    rf"(?P<sign>mu|µ|μ|k|nut factor)?\s*(?:tot(?:al)?)?\s*[=:]?\s*(?P<low>{_MU})"
    rf"(?:\s*(?:-|–|\.\.\.?|to)\s*(?P<high>{_MU}))?"
)
#: No dry pair of metals in the book passes this.
LARGEST_MU = 0.6
#: Machinery's Handbook, 31st ed., table 3, p. 1662: nut factors for like friction in
#: thread and bearing face lie on this line within 0.001.
K_AT_ZERO = 0.0225
K_PER_MU = 1.178
#: A single coefficient is known no better than this: with it and a wrench within 4 % the
#: preload spreads by about 20 %, as VDI 2230:1986 gives (17 to 23 %) for a torque wrench
#: with friction found on the real joint.
STATED_SPREAD = 0.20


def read_friction(text: str) -> Friction | None:
    """Read a coefficient of friction, or a range of it.

    Parameters
    ----------
    text : str
        A number or two with ``mu``, ``µ`` or nothing in front.

    Returns
    -------
    Friction or None
        The same band for thread and bearing face, a single coefficient give or take
        ``STATED_SPREAD``; None if the text is no number.

    Raises
    ------
    NotUnderstood
        If the number is a nut factor K, or no possible coefficient.
    """
    found = re.fullmatch(_STATED, " ".join(text.casefold().split()))
    if not found:
        return None
    low = float(found["low"].replace(",", "."))
    high = float((found["high"] or found["low"]).replace(",", "."))
    if found["sign"] in {"k", "nut factor"}:
        mu = (low - K_AT_ZERO) / K_PER_MU
        mu_text = f"mu {mu:.2f}" if 0 < mu <= LARGEST_MU else "mu 0.12"
        raise NotUnderstood(text, "a nut factor: thread and head cannot be told apart", (mu_text,))
    if not 0 < low <= high <= LARGEST_MU:
        what = f"coefficients lie between 0 and {LARGEST_MU:g}"
        raise NotUnderstood(text, what, ("0.12", "0.10-0.14"))
    name = f"mu {low:g}" if low == high else f"mu {low:g} to {high:g}"
    band = Band.around(low, STATED_SPREAD) if low == high else Band.between(low, high)
    return Friction(name, (), band, band, False, "as stated")
