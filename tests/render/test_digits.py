"""Large numbers."""

from __future__ import annotations

import pytest

from torquebook.render.digits import large


def test_a_number_is_drawn_in_seven_rows() -> None:
    """Twice as wide as a dot is high, since a terminal's characters are narrow."""
    assert large("1", 20) == [
        "    ##", "  ####", "    ##", "    ##", "    ##", "    ##", "  ######",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text", ["0123456789", "+60°", "0.05–0.15", "80 ±8", "−0.5/0.5", "100-120"]
)
def test_every_number_fits(text: str) -> None:
    """Whatever a stage prints as a number, it is no wider than the room, and each row is inked."""
    rows = large(text, 76, "█")
    assert len(rows) == 7
    assert max(map(len, rows)) <= 76
    assert set("".join(rows)) <= {"█", " "}
    assert all(row == row.rstrip() for row in rows)


def test_narrow_room_makes_narrow_digits() -> None:
    """Half as wide where there is less room, and none where there is not enough."""
    assert max(map(len, large("88", 12))) == 11
    assert large("88", 10) == []


@pytest.mark.parametrize("text", ["", "slacken", "min 60", "60\x1b"])
def test_words_are_not_drawn(text: str) -> None:
    """What has letters stands as words."""
    assert large(text, 80) == []
