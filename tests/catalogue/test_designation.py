"""Checks of how threads are read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.designation import Designation, read_designation
from torquebook.errors import NotUnderstood


@pytest.mark.parametrize(
    ("text", "d_mm", "pitch_mm", "length_mm", "series"),
    [
        ("M10", 10, None, None, None),
        ("M10x1.25", 10, 1.25, None, None),
        ("M10 X 1,25", 10, 1.25, None, None),
        ("M 10×1.25", 10, 1.25, None, None),
        ("m10*1.25", 10, 1.25, None, None),
        ("M10-1.25", 10, 1.25, None, None),
        ("M8x30", 8, None, 30, None),
        ("M8x30 mm", 8, None, 30, None),
        ("M10x1.25x40", 10, 1.25, 40, None),
        ("M3x8", 3, None, 8, None),
        ("M3.5", 3.5, None, None, None),
        ("M10x4.9", 10, 4.9, None, None),
        ("M10x5", 10, None, 5, None),
        ("M10x1.25-6g", 10, 1.25, None, None),
        ("M10-6H", 10, None, None, None),
        ("M10 fine", 10, None, None, "fine"),
        ("3/8-16", 9.525, 25.4 / 16, None, None),
        ("3/8-24 UNF", 9.525, 25.4 / 24, None, "UNF"),
        ("3/8-24 NF", 9.525, 25.4 / 24, None, "UNF"),
        ("3/8 UNF", 9.525, None, None, "UNF"),
        ("3/8", 9.525, None, None, None),
        ('3/8"', 9.525, None, None, None),
        ("3/8 in", 9.525, None, None, None),
        ("3/8 in.-16", 9.525, 25.4 / 16, None, None),
        ("⅜-16", 9.525, 25.4 / 16, None, None),
        ("7/16-20 UNF-2A", 11.1125, 1.27, None, "UNF"),
        ("1-1/8-7", 28.575, 25.4 / 7, None, None),
        ("1 1/8", 28.575, None, None, None),
        ("1½-6", 38.1, 25.4 / 6, None, None),
        ("1", 25.4, None, None, None),
        ("1-8", 25.4, 25.4 / 8, None, None),
        ("10-32", 4.826, 25.4 / 32, None, None),
        ("#10-32", 4.826, 25.4 / 32, None, None),
        ("#10", 4.826, None, None, None),
        ("No. 8-36", 4.1656, 25.4 / 36, None, None),
        ("1-64", 1.8542, 25.4 / 64, None, None),
        ("3/8-16 x 1-1/2", 9.525, 25.4 / 16, 38.1, None),
        ("3/8-16 x 40 mm", 9.525, 25.4 / 16, 40, None),
        ("3/8 fine", 9.525, None, None, "fine"),
    ],
)
def test_read(
    text: str, d_mm: float, pitch_mm: float | None, length_mm: float | None, series: str | None
) -> None:
    """Each usual way of writing a thread is read as what it says and no more.

    The diameters of numbered sizes follow ASME B1.1: 0.060 in + number x 0.013 in.
    """
    said = read_designation(text)
    assert said.text == text
    assert said.series == series
    assert said.family == ("metric" if text[0] in "Mm" else "inch")
    assert said.d_mm == pytest.approx(d_mm)
    assert said.pitch_mm == (None if pitch_mm is None else pytest.approx(pitch_mm))
    assert said.length_mm == (None if length_mm is None else pytest.approx(length_mm))


@pytest.mark.parametrize("text", ["M10x1 LH", "M10 lh", "7/16-20 UNF LH"])
def test_left_hand(text: str) -> None:
    """A left-hand thread is read as one, for its wrench must be fit for it."""
    assert read_designation(text).left_hand
    assert not read_designation("M10x1").left_hand


@pytest.mark.parametrize(
    "text",
    ["PT 1/8", "PT1/8", "G1/4", "g 1/4", "1/4 NPT", "1/4-18 NPT", "R 1/2", "Rc 3/8", "BSP 1/2"],
)
def test_pipe_threads(text: str) -> None:
    """A pipe thread is refused as one, for its torque says nothing of preload."""
    with pytest.raises(NotUnderstood, match="a pipe thread"):
        read_designation(text)


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("10", ("M10", "10-24", "10-32")),
        ("8", ("M8", "8-32", "8-36")),
        ("12", ("M12",)),
        ("12x1.25", ("M12x1.25",)),
        ("40", ("M10x1.25", "3/8-16")),
        ("0", ("M10x1.25", "3/8-16")),
        ("M0", ("M10x1.25", "3/8-16")),
        ("M10x0", ("M10x1.25", "3/8-16")),
        ("3/8-0", ("M10x1.25", "3/8-16")),
        ("3/7", ("M10x1.25", "3/8-16")),
        ("8/8", ("M10x1.25", "3/8-16")),
        ("3/0", ("M10x1.25", "3/8-16")),
        ("", ("M10x1.25", "3/8-16")),
        ("stud", ("M10x1.25", "3/8-16")),
        ("10.9", ("M10x1.25", "3/8-16")),
        ("13-32", ("M10x1.25", "3/8-16")),
    ],
)
def test_refused(text: str, readings: tuple[str, ...]) -> None:
    """What is no thread, or may be two, is asked back with what it may have meant."""
    with pytest.raises(NotUnderstood) as caught:
        read_designation(text)
    assert caught.value.readings == readings


def outcome(text: str) -> Designation | NotUnderstood:
    """Return what a text gives, or the refusal."""
    try:
        return read_designation(text)
    except NotUnderstood as refusal:
        return refusal


@given(st.one_of(st.text(), st.text('M#No.0123456789x-/, UNCFPTGRlh½"', max_size=20)))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text ends in anything but a designation of some size, or one message."""
    got = outcome(text)
    assert isinstance(got, NotUnderstood) or got.d_mm > 0


@given(st.integers(1, 400), st.integers(1, 49))
def test_metric_round_trip(tenths: int, pitch_tenths: int) -> None:
    """A metric size and pitch written out are read back as they were."""
    said = read_designation(f"M{tenths / 10:g}x{pitch_tenths / 10:g}")
    assert (said.d_mm, said.pitch_mm) == (tenths / 10, pitch_tenths / 10)
