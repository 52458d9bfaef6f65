"""What is asked of the rulebook, and what it answers."""

from __future__ import annotations

from typing import get_args

import pytest

from torquebook.records.reuse import History, Verdict
from torquebook.reuse.model import STRAIN, VERDICTS, Measured


def test_words_are_those_of_the_records() -> None:
    """The order of verdicts holds each of them once; strains are histories."""
    assert sorted(VERDICTS) == sorted(get_args(Verdict))
    assert set(get_args(History)) > STRAIN


@pytest.mark.parametrize(
    ("measured", "limits"),
    [
        (Measured(length_mm=1, new_length_mm=1, uses=1, drag_nm=1), False),
        (Measured(limit_length_mm=1), True),
        (Measured(uses_allowed=1), True),
        (Measured(least_diameter_mm=1), True),
        (Measured(most_difference_mm=1), True),
        (Measured(always_new=True), True),
    ],
)
def test_limits_of_the_maker(measured: Measured, limits: bool) -> None:
    """A measurement is no limit."""
    assert measured.has_limits is limits
