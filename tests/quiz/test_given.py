"""What trainers copy from sheets is read, and what cannot be is asked back."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quiz_class import CIRCLE, SHARE, SPANNER_8, STEPS, TORQUE, asked

from torquebook.errors import NotUnderstood
from torquebook.quiz import given as words
from torquebook.quiz.given import Given, judged
from torquebook.quiz.model import Choice, Number, Option, Slip

if TYPE_CHECKING:
    from torquebook.quiz.model import Answer

PERCENT = Choice((
    Option("50.0 %", "half"), Option("class 8", "a class"), Option("10.0 %"),
    Option("class 8.8", "a class"),
))  # fmt: skip
RIGHT = {
    "spanner": (SPANNER_8, ("c", "C", "C)", "(c)", "c.", "C:", "13 mm", "13mm", "c) 13 mm",
                            "C 13 mm", "C.  13 MM", "C 13", "c) 13.0mm")),
    "torque": (TORQUE, ("47.2", "47,2", "47", "48.6", "45,8", "47 Nm", "47.2 N·m", "47.2 N.m",
                        "47,2 N m", "+47", "34.8 lbf.ft", "4,81 kgm")),
    "oil": (SHARE, ("12", "11,8 %", "12%", "11.1 per cent", "12.5 pct.")),
    "order": (CIRCLE, ("1-3-2-4", "1,3,2,4", "1;3;2;4", "1 3 2 4", "1324", "1 – 3 – 2 – 4",
                       "1→3→2→4", "1>3>2>4", "1.3.2.4", "(1-3-2-4)", "1-3-4-2")),
    "steps": (STEPS, ("B-C-A", "b,c,a", "BCA", "b c a", "B → C → A")),
}  # fmt: skip
WRONG = {
    "spanner": (SPANNER_8, {"a": "the spanner of M10", "B)": "the thread's diameter",
                            "18 mm": "the spanner of M12", "x": words.CROSSED}),
    "torque": (TORQUE, {"64": "the number in lbf·ft", "63 Nm": "the number in lbf·ft",
                        "472": "a decimal slip", "50": words.OTHER_NUMBER,
                        "-47": words.OTHER_NUMBER, "47 lbf ft": "the number in lbf·ft",
                        "45.7": words.OTHER_NUMBER, "X": words.CROSSED}),
    "oil": (SHARE, {"0": "the torque is the same", "0,5 %": "the torque is the same",
                    "118": words.OTHER_NUMBER}),
    "order": (CIRCLE, {"4-2-3-1": words.TURNED, "1-2-3-4": words.IN_TURN, "1-3-2": words.MISSED,
                       "1-3-3-4": words.MISSED, "2-4-1-3": words.OTHER_ORDER}),
    "steps": (STEPS, {"ACB": words.TURNED, "a-b-c": words.IN_TURN, "bc": words.MISSED}),
}  # fmt: skip
UNREAD = {
    "spanner": (SPANNER_8, {
        "E": "the options A to D", "AB": "one letter is wanted, A to D", "?": "one letter",
        "13": "one letter is wanted, A to D; write C (13 mm)",
        "C) 16 mm": 'C is "13 mm"; the letter or the text is wrong; write C (13 mm) or A (16 mm)',
        "C 12": 'C is "13 mm"; the letter or the text is wrong; write C (13 mm)',
    }),
    "share": (PERCENT, {
        "10": "one letter is wanted, A to D; write C (10.0 %)",
        "50%": "write A (50.0 %)", "50,0": "write A (50.0 %)", "5": "write A (50.0 %)",
        "8": "write B (class 8)", "class": "write B (class 8) or D (class 8.8)",
        "B 8.8": 'B is "class 8"; the letter or the text is wrong; write B (class 8) or D',
    }),
    "torque": (TORQUE, {
        "": "a number is wanted, with its unit if that is not N·m",
        "about 47": "a number is wanted", "1,350": "thousands or decimals; write 1350 or 1.35",
        "47-48": "no unit of torque", "47 lb": "write 47 lbf.ft or 47 lbf.in",
        "47 mm": "mm measures a length", "4e1": "a power of ten; write 40",
    }),
    "oil": (SHARE, {"12 N": "the answer is in %, and N is another unit"}),
    "order": (CIRCLE, {"1-3-2-5": "5 is none of 1 to 4; write them in order, like 1-2-3-4",
                       "a-c-b-d": "A is none of 1 to 4", "--": "write them in order"}),
    "steps": (STEPS, {"2-3-1": "2 is none of A to C", "mark it": "none of A to C"}),
}  # fmt: skip


@pytest.mark.parametrize("family", RIGHT)
def test_right_answers_as_they_are_written(family: str) -> None:
    """Capitals, brackets, commas, units and dashes make no difference."""
    answer, texts = RIGHT[family]
    for text in texts:
        assert judged(asked(family, answer), text).right, text


@pytest.mark.parametrize("family", WRONG)
def test_wrong_answers_are_known_by_their_mistake(family: str) -> None:
    """An option has its own, a number within the tolerance of a slip has the slip's."""
    answer, texts = WRONG[family]
    for text, mistake in texts.items():
        found = judged(asked(family, answer), text)
        assert (found.right, found.mistake) == (False, mistake), text


@pytest.mark.parametrize("family", UNREAD)
def test_what_is_no_answer_is_asked_back(family: str) -> None:
    """It is told with the whole text, and is not taken for wrong."""
    answer, texts = UNREAD[family]
    for text, said in texts.items():
        with pytest.raises(NotUnderstood) as told:
            judged(asked(family, answer), text or " ")
        assert said in str(told.value)
        assert told.value.text.strip() == text


def test_another_unit_is_converted_and_said() -> None:
    """NIST SP 811 (2008), B.8: 1 lbf·ft is 1.355818 N·m, so that 34.8 lbf·ft are 47.18 N·m."""
    assert judged(asked("torque", TORQUE), "34.8 lbf ft") == Given(
        right=True, note='"34.8 lbf ft" counted as 47.18 N·m'
    )
    assert not judged(asked("torque", TORQUE), "47.2 Nm").note


@pytest.mark.parametrize("family", ["convert", "angle-units"])
def test_the_question_said_again_is_no_answer(family: str) -> None:
    """Where the change of unit is what is asked, 34.8 lbf·ft is not how many N·m it is."""
    with pytest.raises(NotUnderstood, match=r"how much it is in N·m, not in lbf\.ft"):
        judged(asked(family, TORQUE), "34.8 lbf.ft")
    assert judged(asked(family, TORQUE), "47.2 N.m").right


def test_the_nearer_of_two_slips_counts() -> None:
    """Where two lie within the tolerance, the one that was most likely made is told."""
    answer = Number(10.0, "mm", 2.0, 0, (Slip(20.0, "twice"), Slip(21.5, "the wrong row")))
    assert judged(asked("a", answer), "21").mistake == "the wrong row"
    assert judged(asked("a", answer), "20.5").mistake == "twice"


def test_texts_that_differ_by_spelling_alone_need_a_letter() -> None:
    """No option is picked by a text that two of them have."""
    answer = Choice((Option("1.5"), Option("1,5", "a comma")))
    with pytest.raises(NotUnderstood, match="one letter is wanted"):
        judged(asked("a", answer), "1.5")
    assert judged(asked("a", answer), "a").right


WORDS = st.one_of(
    st.text(max_size=30),
    st.text("0123456789.,-+ abcdeABCDEx()%°½²NmlbftkgM:;/→<", min_size=1, max_size=12),
)


@given(
    text=WORDS.map(str.strip).filter(bool),
    answer=st.sampled_from((SPANNER_8, TORQUE, SHARE, CIRCLE, STEPS)),
    family=st.sampled_from(("torque", "convert")),
)
def test_whatever_is_copied_is_read_or_asked_back(text: str, answer: Answer, family: str) -> None:
    """Nothing ends in a fault; what is wrong has a mistake, and what is right has none."""
    found: Given | NotUnderstood
    try:
        found = judged(asked(family, answer), text)
    except NotUnderstood as told:
        found = told
    if isinstance(found, Given):
        assert found.right == (not found.mistake)
    else:
        assert found.text == text
        assert found.what
