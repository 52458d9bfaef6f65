"""Numbers as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood
from torquebook.numerals import doubt_at, fraction_text, number_at, number_text, settled, sheet_text


@pytest.mark.parametrize(
    ("text", "value", "decimals"),
    [
        ("60", 60.0, 0),
        ("7.00", 7.0, 2),
        ("1,35", 1.35, 2),
        ("0,350", 0.35, 3),
        ("000,350", 0.35, 3),
        ("1,3500", 1.35, 4),
        ("1350,500", 1350.5, 3),
        (".5", 0.5, 1),
        ("1.350", 1.35, 3),
        ("1,350.5", 1350.5, 1),
        ("1,350,000", 1350000.0, 0),
        ("1.350,5", 1350.5, 1),
        ("1\u202f350", 1350.0, 0),
        ("1\u00a0350,5", 1350.5, 1),
        ("١٢", 12.0, 0),
        ("½", 0.5, 2),
        ("1½", 1.5, 2),
        ("1 ½", 1.5, 2),
        ("1/4", 0.25, 2),
        ("1⁄4", 0.25, 2),
        ("1 1/4", 1.25, 2),
        ("1-1/4", 1.25, 2),
    ],
)
def test_takes_every_way_of_writing_a_number(text: str, value: float, decimals: int) -> None:
    """A number ends where its last digit ends, and keeps its count of decimals."""
    number = number_at(f"x{text} N.m", 1)
    assert number is not None
    assert (number.value, number.end, number.decimals) == (value, 1 + len(text), decimals)


def test_tells_a_fraction_that_may_be_two_numbers() -> None:
    """Only a plain a/b is marked: "40/60" could be two stages, "1 1/4" could not."""
    marks = {text: number_at(text) for text in ("1/4", "1 1/4", "¼", "0.25")}
    assert {text: number.slashed for text, number in marks.items() if number} == {
        "1/4": True,
        "1 1/4": False,
        "¼": False,
        "0.25": False,
    }


@pytest.mark.parametrize("text", ["40/60", "5/4", "1/7", "1/4/4"])
def test_takes_only_the_first_number_of_what_is_no_common_fraction(text: str) -> None:
    """A bottom that no rule or sheet uses, or a top above it, is no fraction."""
    number = number_at(text)
    assert number is not None
    assert number.end == text.index("/")


@pytest.mark.parametrize("text", ["", "N.m", "-5", ",", "inf", "nan"])
def test_finds_no_number_where_none_starts(text: str) -> None:
    """Words, signs and nothing at all are no number."""
    assert number_at(text) is None


def test_asks_back_a_comma_before_three_digits() -> None:
    """One comma before exactly three digits is a thousand or a decimal: nobody can tell."""
    with pytest.raises(NotUnderstood) as caught:
        number_at("at 12,345", 3)
    assert caught.value.readings == ("12345", "12.3450")
    assert caught.value.offset == 3


@pytest.mark.parametrize("text", ["1.350.000", "1,2,3", "1.2,3", "1,35.0", "1000000000", "9" * 199])
def test_refuses_digits_that_are_no_number(text: str) -> None:
    """Marks in wrong places, and numbers that no sheet prints, are refused."""
    with pytest.raises(NotUnderstood):
        number_at(text)


@pytest.mark.parametrize(
    ("text", "readings", "end"),
    [
        ("1.350 N.m", ("1350", "1.35"), 5),
        ("1,350 N.m", ("1350", "1.35"), 5),
        ("12.345 N.m", ("12345", "12.3450"), 6),
        ("1.200...1.350 N.m", ("1200", "1.2"), 5),
        ("1 350 N.m", ("1350",), 5),
        ("1 350,5 N.m", ("1350.5",), 7),
        ("1'350 N.m", ("1350",), 5),
        ("1’350’000 N.m", ("1350000",), 9),
        ("1e3 N.m", ("1000",), 3),
        ("1,5E-3 N.m", ("0.0015",), 6),
        ("1.3560e0", ("1.3560",), 8),
        ("1e400 N.m", (), 5),
        ("1e-400 N.m", (), 6),
    ],
)
def test_says_what_is_doubtful_on_a_sheet(text: str, readings: tuple[str, ...], end: int) -> None:
    """A mark of thousands and a power of ten are never guessed at."""
    doubt = doubt_at(text, sheet=True)
    assert doubt is not None
    assert (doubt.readings, doubt.end) == (readings, end)
    for reading in readings:
        assert doubt_at(reading, sheet=True) is None
    with pytest.raises(NotUnderstood):
        number_at(text, sheet=True)


@pytest.mark.parametrize(
    "text",
    [
        "0.350",
        "0,350",
        "12.5",
        "1.3500",
        "1350.500",
        "1,350.500",
        "60 N.m",
        "1 35",
        "1 2000",
        "5 e3",
    ],
)
def test_finds_no_doubt_in_plain_decimals(text: str) -> None:
    """Three decimals behind 0 or behind four digits, and fewer or more of them, are decimals."""
    assert doubt_at(text, sheet=True) is None


def test_takes_a_typed_point_for_decimals() -> None:
    """Only on a sheet may a point mark thousands."""
    number = number_at("1.350")
    assert number is not None
    assert number.value == 1.35


def test_settles_every_doubtful_mark_of_a_text() -> None:
    """The rest of a text is read as its first doubtful number is."""
    text = "1,200-1.356 N.m, 0,350 N.m"
    assert settled(text, thousands=True) == "1200-1356 N.m, 0,350 N.m"
    assert settled(text, thousands=False) == "1.2-1.3560 N.m, 0,350 N.m"


@given(st.floats(0, 9.99e8))
def test_writes_for_sheets_what_reads_back_from_them(value: float) -> None:
    """No number is written so that it may be taken for another."""
    number = number_at(sheet_text(value), sheet=True)
    assert number is not None
    assert number.value == value


@given(st.floats(0, 9.99e8))
def test_writes_decimals_that_read_back(value: float) -> None:
    """Every number below the limit is written without an exponent and reads back the same."""
    text = number_text(value)
    number = number_at(text)
    assert number is not None
    assert (number.value, number.end) == (value, len(text))
    assert set(text) <= set("0123456789.")


def test_writes_numbers_above_the_limit_without_an_exponent() -> None:
    """A converted value may be larger than any that is read."""
    assert number_text(1e17) == "100000000000000000"


@given(st.integers(0, 40), st.sampled_from([1, 2, 3, 4, 5, 6, 8, 12, 16]), st.integers(0, 200))
def test_writes_fractions_that_read_back(whole: int, bottom: int, top: int) -> None:
    """A whole and a fraction of a turn read back as the same number."""
    value = (whole * bottom + top % bottom) / bottom
    number = number_at(fraction_text(value), sheet=True)
    assert number is not None
    assert number.value == value


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.25, "1/4"),
        (1.25, "1 1/4"),
        (1 / 3, "1/3"),
        (2.0, "2"),
        (0.2, "0.2"),
        (12345.5, "12345.5"),
        (0.0, "0"),
    ],
)
def test_writes_a_fraction_only_where_it_is_one(value: float, text: str) -> None:
    """Other decimals stay decimals."""
    assert fraction_text(value) == text
