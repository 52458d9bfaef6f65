"""Checks of records of printed tables."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from torquebook.records.table import TableRow


@pytest.mark.parametrize(
    "torques",
    [{"low": 5}, {"low": 5, "high": 5}, {"low": 5, "high": 6, "most": 6}, {"low": 5, "most": 9}],
)
def test_rows(torques: dict[str, float]) -> None:
    """One value, a range, and a largest torque that is not below them are a row."""
    assert TableRow.model_validate({"thread": "M10"} | torques).low == 5


@pytest.mark.parametrize(
    "torques",
    [{"low": 6, "high": 5}, {"low": 6, "most": 5}, {"low": 5, "high": 7, "most": 6}, {"high": 5}],
)
def test_rows_out_of_order(torques: dict[str, Any]) -> None:
    """A range turned round, or a largest torque below it, is refused."""
    with pytest.raises(ValidationError):
        TableRow.model_validate({"thread": "M10"} | torques)
