"""Checks of stated coefficients of friction."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.catalogue.conditions import K_AT_ZERO, K_PER_MU, read_friction
from torquebook.errors import NotUnderstood

PUBLISHED = Path(__file__).parents[1] / "published"


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("0.12", 0.096, 0.144),
        ("0,12", 0.096, 0.144),
        (".12", 0.096, 0.144),
        ("mu 0.12", 0.096, 0.144),
        ("µ=0.125", 0.1, 0.15),
        ("μ: 0.125", 0.1, 0.15),
        ("mu tot 0.125", 0.1, 0.15),
        ("mu 0.10-0.14", 0.10, 0.14),
        ("0.10 – 0.14", 0.10, 0.14),
        ("0.10 to 0.14", 0.10, 0.14),
        ("0.6", 0.48, 0.72),
    ],
)
def test_read(text: str, low: float, high: float) -> None:
    """A coefficient, give or take a fifth, or a range is the band of thread and head alike."""
    friction = read_friction(text)
    assert friction
    assert friction.mu_thread == friction.mu_head
    assert (friction.mu_thread.low, friction.mu_thread.high) == pytest.approx((low, high))
    assert friction.source == "as stated"


@pytest.mark.parametrize("text", ["dry", "oiled", "", "mu", "0.1 to", "zinc plated"])
def test_words(text: str) -> None:
    """Words are left to the book."""
    assert read_friction(text) is None


@pytest.mark.parametrize("text", ["0", "14", "0.61", "0.14-0.10", "mu 12", "1"])
def test_impossible(text: str) -> None:
    """No coefficient is taken that parts cannot have, nor a range turned round."""
    with pytest.raises(NotUnderstood, match=r"between 0 and 0\.6"):
        read_friction(text)


def test_nut_factor() -> None:
    """A nut factor is refused, and the friction that comes nearest is offered."""
    with pytest.raises(NotUnderstood, match=r"a nut factor.*write mu 0\.15") as caught:
        read_friction("K 0.2")
    assert caught.value.readings == ("mu 0.15",)
    with pytest.raises(NotUnderstood, match=r"write mu 0\.12"):
        read_friction("K=0.01")


def test_line_of_nut_factors() -> None:
    """The line between nut factor and friction holds all ten cells with like friction.

    Source: Machinery's Handbook, 31st ed., table 3, p. 1662; printed to 0.001.
    """
    with (PUBLISHED / "friction_and_scatter.csv").open(encoding="utf-8") as file:
        cells = [row for row in csv.DictReader(file) if row["kind"] == "K_from_mu"]
    diagonal = {}
    for row in cells:
        mu_thread, mu_head = (float(part.split("=")[1]) for part in row["item"].split())
        if mu_thread == mu_head:
            diagonal[mu_thread] = float(row["value"])
    assert len(diagonal) == 10
    for mu, printed in diagonal.items():
        assert K_AT_ZERO + K_PER_MU * mu == pytest.approx(printed, abs=0.001)


@given(st.text(max_size=15))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text ends in anything but a band in order, nothing, or one message."""
    try:
        friction = read_friction(text)
    except NotUnderstood as refusal:
        assert refusal.text == text  # noqa: PT017 - both ways out are checked
        return
    assert friction is None or 0 < friction.mu_thread.low <= friction.mu_thread.high <= 0.6
