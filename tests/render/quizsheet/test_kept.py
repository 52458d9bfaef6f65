"""Numbers, units, names and formulas that no line tears."""

from __future__ import annotations

from torquebook.render.quizsheet.kept import KeptWords
from torquebook.render.quizsheet.rows import across

FORMULA = "M = F (0.159 P + 0.577 d2 µ + D_Km/2 · µ)"


def shown(text: str) -> str:
    """Return text as it is kept on a question's line, what is joined shown by ``~``."""
    return KeptWords(plain=False).whole(text).replace("\N{NO-BREAK SPACE}", "~")


def test_a_number_stays_beside_its_unit_and_its_name() -> None:
    """P = 1.25 mm is one word for a line, and words beside it are not."""
    assert shown("hole. P = 1.25 mm, D_Km = 15.06 mm.") == "hole. P~=~1.25~mm, D_Km~=~15.06~mm."
    said = KeptWords(plain=False).said("46 N·m · 350 mm / 400 mm = 40.3 N·m")
    assert said.replace("\N{NO-BREAK SPACE}", "~") == "46~N·m · 350~mm / 400~mm~=~40.3~N·m"


def test_a_formula_is_one_word_and_ends_where_the_words_go_on() -> None:
    """It is not joined with what is said behind it."""
    assert shown(f"{FORMULA}, hexagon head.") == f"{FORMULA.replace(' ', '~')}, hexagon head."
    assert shown("M = K · d · F, with the nut factor.") == "M~=~K~·~d~·~F, with the nut factor."
    assert shown("d3 = d − 1.2269 P.") == "d3~=~d~−~1.2269~P."
    assert shown("K = 0.2 is usual.") == "K~=~0.2 is usual."
    assert shown("a sum, 1 + 2 + 3, of no name") == "a sum, 1 + 2 + 3, of no name"


def test_a_formula_wider_than_a_column_may_go_on_in_another_line() -> None:
    """Or it would be torn anywhere."""
    long = "M = " + " + ".join(["0.159 P"] * 6)
    assert " + " in shown(long)


def test_ascii_has_no_space_that_keeps() -> None:
    """There, lines end where they will."""
    assert KeptWords(plain=True).whole("P = 2 mm").isascii()


def test_options_stand_beside_one_another_where_they_have_room() -> None:
    """Five lines of a list in one row; four lengths of eight letters in two."""
    assert across([f"line {at}" for at in range(1, 6)]) == 5
    assert across(["18.5 mm", "17.5 mm", "16.5 mm", "15.5 mm"]) == 4
    assert across(["mmmm mm"] * 4) == 2
    assert across(["0.106 mm", "0.926 mm", "0.635 mm", "1.27 mm"]) == 2
    assert across([]) == 1
