"""What was said of a fastener, or measured on it, and no rule asked for: nothing gets lost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.reuse.model import STRAIN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.reuse.model import Measured, Ruling, Used

#: By a measured field, the quantities that it serves, its words, and what it lacks.
_SERVES: Final = (
    ("length_mm", {"length", "growth"}, "the length", "a new one's, or the maker's limit"),
    ("diameters_mm", {"diameter", "diameter difference"}, "the diameters", "the maker's limit"),
    ("drag_nm", {"drag"}, "the drag", "a rule or a table that asks for it"),
    ("uses", {"uses"}, "the number of uses", "the number that the maker allows"),
)


def unheard(used: Used, rulings: Sequence[Ruling]) -> tuple[str, ...]:
    """Return what was said of a fastener and no rule that applies asks for."""
    heard = {"plain", *STRAIN}
    for ruling in rulings:
        record = ruling.rule.record
        heard |= {*record.features, *record.also, *record.histories}
    if "stretch" in used.features:
        heard.add("angle tightened")  # stretch bolts mostly are
    words = sorted((used.features | used.history) - heard)
    return tuple(f'no rule of the book speaks of "{word}" here' for word in words)


def unused(measured: Measured, rulings: Sequence[Ruling]) -> tuple[str, ...]:
    """Return what was measured and decided nothing."""
    asked = {
        one.check.quantity
        for ruling in rulings
        for one in ruling.comparisons
        if one.check.quantity != "look"
    }
    return tuple(
        f"{words} decided nothing: {lacking} is missing"
        for field, quantities, words, lacking in _SERVES
        if getattr(measured, field) is not None and not quantities & asked
    )
