"""Checks with their numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from torquebook.catalogue.library import Library
from torquebook.records.reuse import ReuseRule
from torquebook.reuse.comparing import comparisons
from torquebook.reuse.model import Measured, Used

if TYPE_CHECKING:
    from torquebook.records.reuse import History

SOURCE = {"kind": "invented", "title": "an example", "provenance": "invented"}


def compared(
    measured: Measured,
    history: frozenset[History] = frozenset(),
    *,
    computed: bool = False,
    **check: Any,
) -> tuple[str, bool | None]:
    """Return the words and the outcome of one check."""
    check.setdefault("what", "a check")
    rule = ReuseRule.model_validate(
        {
            "kind": "reuse rule",
            "title": "an example",
            "name": "an example",
            "features": ["wheel"],
            "verdict": "measure",
            "strictness": 1,
            "checks": [check],
            "why": "an example",
            "source": SOURCE,
        }
    )
    used = Used(None, "", frozenset({"wheel"}), history, measured, (), computed)
    (found,) = comparisons(rule, used, Library())
    return found.said, found.passed


LENGTH = {"quantity": "length"}
WHOLE = "in all, for the length that stretches is not known"
GROWTH = {"quantity": "growth", "most": 0.002}
THIN = {"quantity": "diameter"}
APART = {"quantity": "diameter difference"}
USES = {"quantity": "uses"}


@pytest.mark.parametrize(
    ("check", "measured", "said", "passed"),
    [
        ({"what": "no pits"}, Measured(), "no pits", None),
        (LENGTH, Measured(), "not measured; no limit is known", None),
        (LENGTH, Measured(length_mm=99), "99 mm long; no limit is known", None),
        (LENGTH, Measured(limit_length_mm=99), "not measured; at most 99 mm", None),
        (
            LENGTH,
            Measured(length_mm=99, limit_length_mm=99, new_length_mm=98),
            "99 mm long, 98 mm new; at most 99 mm",
            True,
        ),
        (GROWTH, Measured(), "not measured, beside a new one; over 0.2 % proves yield", None),
        (
            GROWTH,
            Measured(length_mm=126.3, new_length_mm=126, stretched_mm=110),
            "grew 0.3 mm of 110 mm that stretch: 0.27 %; over 0.2 % proves yield",
            False,
        ),
        (
            GROWTH,
            Measured(length_mm=99.97, new_length_mm=100),
            f"grew 0 mm of 100 mm {WHOLE}: 0 %; up to 0.2 % proves nothing",
            None,
        ),
        (THIN, Measured(), "not measured; no limit is known", None),
        (
            THIN,
            Measured(diameters_mm=(9.5, 9.2)),
            "9.2 mm where it is thinnest; no limit is known",
            None,
        ),
        (
            THIN,
            Measured(diameters_mm=(9.5, 9.2), least_diameter_mm=9.3),
            "9.2 mm where it is thinnest; at least 9.3 mm",
            False,
        ),
        (
            APART,
            Measured(most_difference_mm=0.3),
            "not measured at two places; at most 0.3 mm",
            None,
        ),
        (
            APART,
            Measured(diameters_mm=(9.2, 9.5)),
            "9.5 mm and 9.2 mm: 0.3 mm apart; no limit is known",
            None,
        ),
        (
            APART,
            Measured(diameters_mm=(9.2, 9.5), most_difference_mm=0.3),
            "9.5 mm and 9.2 mm: 0.3 mm apart; at most 0.3 mm",
            True,
        ),
        (USES, Measured(), "not counted; none is printed", None),
        (USES, Measured(uses=1), "tightened 1 time; none is printed", None),
        (
            USES,
            Measured(uses=3, uses_allowed=4),
            "tightened 3 times; 4 allowed in all",
            True,
        ),
        (
            {"quantity": "uses", "most": 15},
            Measured(uses=15, uses_allowed=20),
            "tightened 15 times; 15 allowed in all",
            False,
        ),
    ],
)
def test_comparison(
    check: dict[str, Any], measured: Measured, said: str, passed: bool | None
) -> None:
    """Each check says its numbers, and decides only where it can."""
    assert compared(measured, **check) == (said, passed)


def test_growth_with_the_computation() -> None:
    """A small growth is enough where the computation says elastic, not where it is assumed."""
    measured = Measured(length_mm=100.1, new_length_mm=100)
    elastic: frozenset[History] = frozenset({"elastic"})
    assert compared(measured, elastic, computed=True, **GROWTH)[1] is True
    assert compared(measured, elastic, **GROWTH)[1] is None
