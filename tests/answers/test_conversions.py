"""A quantity in other units."""

from __future__ import annotations

import pytest

from torquebook.answers.conversions import conversion
from torquebook.errors import NotUnderstood


def test_one_unit() -> None:
    """With a unit there is one result: 1 kgf·m is 9.80665 N·m (NIST SP 811, 2008, B.8)."""
    answer = conversion(["1 kgf.m", "N.m"])
    assert [tuple(result) for result in answer.results] == [(9.80665, "N.m")]


def test_usual_units_without_the_one_given() -> None:
    """Without a unit come the usual ones of the kind."""
    assert [q.unit for q in conversion(["1 N.m"]).results] == ["lbf.ft", "lbf.in", "kgf.m"]
    assert [q.unit for q in conversion(["25 mm"]).results] == ["in"]


@pytest.mark.parametrize("words", [["60", "N.m"], ["60", "N.m", "lbf.ft"], ["5.5", "kgf", "m"]])
def test_quotes_are_asked_for(words: list[str]) -> None:
    """A quantity in two words is asked back, with the first reading in quotes."""
    with pytest.raises(NotUnderstood, match="quotes") as trouble:
        conversion(words)
    assert trouble.value.readings[0].startswith('"')


@pytest.mark.parametrize("words", [["60 lb", "N.m"], ["60 N.m", "mm"], ["N.m"], ["60 N.m", "frob"]])
def test_what_cannot_be_read_is_refused(words: list[str]) -> None:
    """Doubtful, unlike and unknown units are not guessed at."""
    with pytest.raises(NotUnderstood):
        conversion(words)
