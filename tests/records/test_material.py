"""Checks of records of materials."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from torquebook.records.material import Engagement, MaterialRecord


def test_record_without_strengths() -> None:
    """Strength and pressure may be unknown; engagement and its source may not."""
    record = MaterialRecord(
        kind="material",
        title="t",
        name="oak",
        engagement=Engagement(times_d=3, source="invented"),
        source={"kind": "invented", "title": "t", "provenance": "invented"},  # type: ignore[arg-type]
    )
    assert record.tensile_mpa is record.pressure_mpa is None


@pytest.mark.parametrize("engagement", [{"times_d": 1}, {"times_d": 0, "source": "x"}, 1.5])
def test_engagement_has_a_source(engagement: object) -> None:
    """A least engagement is above zero and names its source."""
    with pytest.raises(ValidationError):
        Engagement.model_validate(engagement)
