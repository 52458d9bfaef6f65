"""Checks of records of wrenches."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.records.wrench import WrenchRecord

SOUND: dict[str, Any] = {
    "kind": "wrench",
    "title": "t",
    "name": "mine",
    "low": 20,
    "high": 100,
    "unit": "N.m",
    "deviation": 0.04,
    "drive": "3/8 in",
    "source": {"kind": "invented", "title": "t", "provenance": "invented"},
}


def test_sound_record() -> None:
    """A wrench has a scale, a unit, a deviation and a drive."""
    assert WrenchRecord.model_validate(SOUND).high == 100


@pytest.mark.parametrize(
    "changes",
    [
        {"low": 100},
        {"low": 120},
        {"unit": "Nm"},
        {"deviation": 4},
        {"deviation": 0.51},
        {"drive": 0.375},
    ],
)
def test_records_refused(changes: dict[str, Any]) -> None:
    """A scale turned round, an unknown unit and a deviation in per cent are refused."""
    with pytest.raises(ValidationError):
        WrenchRecord.model_validate(SOUND | changes)
