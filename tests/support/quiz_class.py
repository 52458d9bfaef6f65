"""A small class for the tests of marking: a quiz written by hand, invented, and ways to fill it in.

Its questions are not drawn; what their answers are worth was decided here, by hand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import strategies as st

from torquebook.catalogue.book import Book
from torquebook.quiz.making import make_quiz
from torquebook.quiz.model import (
    AdapterWrench,
    BoltCircle,
    Choice,
    Grid,
    HeadMark,
    Number,
    Option,
    Question,
    Quiz,
    Sequence,
    Sheet,
    Slip,
)

if TYPE_CHECKING:
    from torquebook.quiz.model import Answer, Drawing


def asked(
    family: str,
    answer: Answer,
    text: str = "What?",
    drawing: Drawing | None = None,
    grid: Grid | None = None,
) -> Question:
    """Return an invented question."""
    aim = f"Know {family}."
    return Question(
        family, 1, aim, text, ("invented",), answer, ("so it is",), ("invented",), drawing, grid
    )


SPANNER_8 = Choice((
    Option("16 mm", "the spanner of M10"),
    Option("8 mm", "the thread's diameter"),
    Option("13 mm"),
    Option("18 mm", "the spanner of M12"),
))  # fmt: skip
SPANNER_10 = Choice((
    Option("13 mm", "the spanner of M8"),
    Option("16 mm"),
    Option("10 mm", "the thread's diameter"),
    Option("18 mm", "the spanner of M12"),
))  # fmt: skip
TORQUE = Number(
    47.2, "N.m", 1.4, 1, (Slip(64.0, "the number in lbf·ft"), Slip(472.0, "a decimal slip"))
)
SHARE = Number(11.8, "%", 0.7, 1, (Slip(0.0, "the torque is the same"),))
CIRCLE = Sequence(("1", "2", "3", "4"), (0, 2, 1, 3), ((0, 2, 3, 1),))
STEPS = Sequence(("tighten it to the mark", "mark it", "back it off"), (1, 2, 0))

QUIZ = Quiz(
    class_name="2 b", date="2026-05-31", unit="N.m", level=1, seed="s", families=("spanner",),
    sheets=(
        Sheet(1, (
            asked("spanner", SPANNER_8, "Which spanner fits M8?"),
            asked("torque", TORQUE, "What torque?", HeadMark("8.8")),
            asked("order", CIRCLE, "Which order?", BoltCircle(4, 180.0, clockwise=False)),
            asked("oil", SHARE, "How much more?"),
        )),
        Sheet(2, (
            asked("torque", TORQUE, "Which torque?",
                  AdapterWrench(450, 50, 90, "450 mm", "50 mm")),
            asked("spanner", SPANNER_10, "Which spanner fits M10?",
                  grid=Grid("Widths, in mm", ("thread", "width"), (("M8", "13"), ("M10", "16")))),
            asked("steps", STEPS, "Put them in order."),
            asked("oil", SHARE, "By how much?"),
        )),
        Sheet(3, (
            asked("order", CIRCLE, "In which order?"),
            asked("oil", SHARE, "How many per cent?"),
            asked("spanner", SPANNER_8, "Which is the spanner of M8?"),
            asked("torque", TORQUE, "How many N·m?"),
        )),
    ),
)  # fmt: skip


def quizzes() -> st.SearchStrategy[Quiz]:
    """Return quizzes as they are made, small ones of all levels and units."""
    book = Book.open()
    return st.builds(
        lambda level, seed, unit, count: make_quiz(
            book, level=level, count=count, sheets=3, seed=seed, unit=unit, class_name=seed
        ),
        st.sampled_from((1, 2, 3)),
        st.text(max_size=12),
        st.sampled_from(("N.m", "lbf.ft", "lbf.in", "kgf.m")),
        st.integers(1, 22),
    )
