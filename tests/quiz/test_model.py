"""Questions, answers and their print: what is no question is refused."""

from __future__ import annotations

import pytest

from torquebook.errors import TorquebookError
from torquebook.quiz.model import Choice, Number, Option, Question, Sequence, Slip


def test_a_choice_has_one_right_answer() -> None:
    """None, two, or two that read alike are refused."""
    right, wrong = Option("47 N·m"), Option("64 N·m", "the row of M12")
    assert Choice((wrong, right)).key == 1
    for options in ((wrong,), (right, Option("50 N·m")), (right, Option("47 N·m", "a slip"))):
        with pytest.raises(TorquebookError, match=r"a choice|read alike"):
            Choice(options)


def test_a_number_takes_what_lies_within_its_tolerance() -> None:
    """Both ends count as right; a slip that would is refused."""
    number = Number(47.2, "N.m", 1.4, 1, (Slip(64.0, "the number in lbf·ft"),))
    assert number.accepts(45.8)
    assert number.accepts(48.6)
    assert not number.accepts(45.7)
    assert not number.accepts(48.7)
    assert (number.shown, number.margin, number.write(5)) == ("47.2 N·m", "1.4", "5.0 N·m")
    assert Number(58.0, "mm2", 0.6, 1).shown == "58.0 mm²"
    assert Number(90, "deg", 1, 0).shown == "90°"
    with pytest.raises(TorquebookError, match="48 is a mistake and would count as right"):
        Number(47.2, "N.m", 1.4, 1, (Slip(48.0, "near"),))


def test_a_sequence_takes_orders_that_are_as_right() -> None:
    """Positions are joined by dashes, words by arrows; every item comes once."""
    order = Sequence(("1", "2", "3", "4"), (0, 2, 1, 3), ((0, 2, 3, 1),))
    assert order.shown == "1-3-2-4"
    assert order.accepts((0, 2, 3, 1))
    assert not order.accepts((0, 1, 2, 3))
    assert Sequence(("tighten", "mark"), (1, 0)).shown == "mark → tighten"
    with pytest.raises(TorquebookError, match="every item once"):
        Sequence(("a", "b"), (0, 0))


def test_a_question_says_what_it_rests_on() -> None:
    """Without assumptions, or at a level that there is not, it is refused."""
    answer = Choice((Option("a"), Option("b", "a slip")))
    with pytest.raises(TorquebookError, match="spanner: assumptions, solution or sources"):
        Question("spanner", 1, "aim.", "text", (), answer, ("step",), ("source",))
    with pytest.raises(TorquebookError, match="level 4"):
        Question("spanner", 4, "aim.", "text", ("given",), answer, ("step",), ("source",))
