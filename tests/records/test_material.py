"""Checks of records of materials."""

from __future__ import annotations

from typing import Any

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
    assert record.tensile_mpa is record.pressure_mpa is record.shear is None
    assert record.grades == []


GRADES = [
    {"name": "soft", "tensile_mpa": 100, "pressure_mpa": 200},
    {"name": "hard", "tensile_mpa": 300, "pressure_mpa": 150},
]
SOUND: dict[str, Any] = {
    "kind": "material",
    "title": "t",
    "name": "oak",
    "engagement": {"times_d": 3, "source": "invented"},
    "tensile_mpa": {"low": 100, "nominal": 200, "high": 300},
    "pressure_mpa": {"low": 150, "nominal": 175, "high": 200},
    "grades": GRADES,
    "shear": {"ratio": 0.7, "source": "invented"},
    "source": {"kind": "invented", "title": "t", "provenance": "invented"},
}


def test_bands_run_over_the_grades() -> None:
    """A band goes from the weakest to the strongest grade; without grades it is free."""
    assert MaterialRecord.model_validate(SOUND).grades[1].name == "hard"
    wide = {"tensile_mpa": {"low": 90, "nominal": 200, "high": 300}}
    with pytest.raises(ValidationError, match="write low and high as 100 to 300"):
        MaterialRecord.model_validate(SOUND | wide)
    with pytest.raises(ValidationError, match="write low and high as 150 to 200"):
        MaterialRecord.model_validate(SOUND | {"pressure_mpa": None} | {"grades": GRADES})
    assert MaterialRecord.model_validate(SOUND | wide | {"grades": []}).grades == []


@pytest.mark.parametrize("ratio", [0, -0.1, 1.5])
def test_shear_ratio(ratio: float) -> None:
    """A ratio of shear to tensile strength is one that the stripping formulas take."""
    with pytest.raises(ValidationError):
        MaterialRecord.model_validate(SOUND | {"shear": {"ratio": ratio, "source": "x"}})


@pytest.mark.parametrize("engagement", [{"times_d": 1}, {"times_d": 0, "source": "x"}, 1.5])
def test_engagement_has_a_source(engagement: object) -> None:
    """A least engagement is above zero and names its source."""
    with pytest.raises(ValidationError):
        Engagement.model_validate(engagement)
