"""What to set on a wrench."""

from __future__ import annotations

import pytest

from torquebook.answers.settings import WrenchSetting, read_adapter, settings
from torquebook.catalogue.book import Book
from torquebook.catalogue.shelves import Wrench
from torquebook.errors import NotUnderstood, TorquebookError
from torquebook.units import Quantity

BOOK = Book.open()


def on_scale(low: float, high: float, value: float) -> str:
    """Return where a value lies on a scale."""
    wrench = Wrench("w", (), low, high, "N.m", 0.04, "", "a test")
    return WrenchSetting(wrench, Quantity(value, "N.m"), (value - low) / (high - low)).fit


@pytest.mark.parametrize(
    ("torque", "length", "extension", "unit", "expected", "source"),
    [
        ("40 lbf.ft", "12in", "4in", "lbf.ft", 30, "TM 9-2350-277-40&P, p. 44"),
        ("300 lbf.in", "10in", "4in", "lbf.in", 214, "TM 1-1500-204-23-9, fig. 8-16"),
    ],
)
def test_setting_of_manuals(
    torque: str, length: str, extension: str, unit: str, expected: float, source: str
) -> None:
    """The setting is the one that a manual works out."""
    found = settings(BOOK, torque, read_adapter(length, extension, ""), ()).setting
    assert found.unit == unit
    assert found.value == pytest.approx(expected, rel=0.003), source


@pytest.mark.parametrize(
    ("low", "high", "best_low", "best_high"), [(0, 200, 50, 150), (15, 75, 30, 60)]
)
def test_best_range_is_the_printed_one(
    low: float, high: float, best_low: float, best_high: float
) -> None:
    """The middle of a scale is what TB 43-0218, table 3-1, prints as most effective."""
    inside = [best_low, (best_low + best_high) / 2, best_high]
    assert [on_scale(low, high, value) for value in inside] == ["best"] * 3
    assert on_scale(low, high, best_low - 1) == "low end"
    assert on_scale(low, high, best_high + 1) == "high end"


def test_ends_of_the_scale_are_on_it() -> None:
    """The last mark can be set; one beyond it cannot."""
    values = [19.9, 20, 100, 100.1]
    fits = [on_scale(20, 100, value) for value in values]
    assert fits == ["below", "low end", "high end", "above"]
    assert settings(BOOK, "150 lbf.ft", None, ["inch click"]).wrenches[0].fit == "high end"


def test_wrench_nearest_its_middle_comes_first() -> None:
    """Of all wrenches in the book the best one leads."""
    found = settings(BOOK, "110 N.m", None, ()).wrenches
    distances = [abs(one.position - 0.5) for one in found]
    assert distances == sorted(distances)
    assert found[0].fit == "best"
    assert len(found) == len(BOOK.wrenches())


@pytest.mark.parametrize(("length", "extension"), [("12in", ""), ("", "4in")])
def test_adapter_needs_both_lengths(length: str, extension: str) -> None:
    """One length alone is asked back."""
    with pytest.raises(TorquebookError, match="both lengths"):
        read_adapter(length, extension, "")


def test_angle_with_and_without_unit() -> None:
    """A bare angle is in degrees, as the option says; a unit is taken too."""
    for angle in ("90", "90deg", "1/4 turn"):
        adapter = read_adapter("12in", "4in", angle)
        assert adapter is not None
        assert adapter.angle_deg == 90
    assert read_adapter("", "", "") is None


def test_impossible_is_refused() -> None:
    """No torque, an unknown wrench, and an adapter as long as the wrench turned back."""
    with pytest.raises(NotUnderstood):
        settings(BOOK, "0 N.m", None, ())
    with pytest.raises(NotUnderstood):
        settings(BOOK, "10 N.m", None, ["no such wrench"])
    with pytest.raises(
        TorquebookError, match=r"an adapter of 4 in, turned by 180 degrees"
    ) as caught:
        settings(BOOK, "10 N.m", read_adapter("4in", "4in", "180"), ())
    assert "reaches back to the hand or past it; take one that is shorter than 4 in" in str(
        caught.value
    )


@pytest.mark.parametrize(
    ("length", "extension", "angle", "message"),
    [
        ("0mm", "4in", "", '"0mm": a wrench is 1 mm to 10 m long'),
        ("-3in", "4in", "", '"-3in": a value below zero'),
        ("10001mm", "4in", "", '"10001mm": a wrench is 1 mm to 10 m long'),
        ("4in", "-1mm", "", '"-1mm": a value below zero'),
        ("4in", "10001mm", "", '"10001mm": an adapter is at most 10 m long'),
        ("4in", "4in", "-45", "(straight back); write 45"),
        ("4in", "4in", "270", "(straight back); write 90"),
        ("4in", "4in", "361", "to 180 degrees (straight back)"),
        ("4in", "4in", "-181", "to 180 degrees (straight back)"),
        ("4in", "4in", "nan", "to 180 degrees (straight back)"),
        ("4in", "4in", "inf", "to 180 degrees (straight back)"),
    ],
)
def test_no_such_adapter(length: str, extension: str, angle: str, message: str) -> None:
    """A length or angle that no adapter can have is refused in words, as it was typed."""
    with pytest.raises(NotUnderstood) as caught:
        read_adapter(length, extension, angle)
    assert message in str(caught.value)
    assert "; write" not in str(caught.value) or "; write" in message


def test_adapter_just_short_of_the_hand() -> None:
    """Limits of lengths and angles can be used."""
    for words in (("4in", "0mm", "0"), ("10000mm", "9999mm", "180"), ("4in", "4in", "179.9")):
        assert settings(BOOK, "10 N.m", read_adapter(*words), ()).setting.value > 0


def test_invented_wrenches_say_so() -> None:
    """The demo book's wrenches are known as invented; a user's own are not."""
    assert all(wrench.invented for wrench in BOOK.wrenches())
    assert not Wrench("w", (), 1, 2, "N.m", 0.04, "", "measured: my own").invented
