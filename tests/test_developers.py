"""The developers' guide shows a record that the models take."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

from torquebook.catalogue.layers import read_folder
from torquebook.catalogue.reading import vet_text
from torquebook.records.base import SourceKind

GUIDE = (Path(__file__).parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")
RECORDS = re.findall(r"```yaml\n([\s\S]*?)```", GUIDE)


def test_example_record_is_sound(tmp_path: Path) -> None:
    """The one record in the guide has no fault, and becomes a row of its shelf."""
    (text,) = RECORDS
    record, faults = vet_text(text, "DEVELOPERS.md")
    assert faults == ()
    assert record is not None
    (tmp_path / "mine.yaml").write_text(text, encoding="utf-8")
    assert len(read_folder(tmp_path)["frictions"]) == 1


def test_kinds_of_sources_are_all_named() -> None:
    """The guide lists exactly the kinds of sources that a record may have."""
    (listed,) = re.findall(r"`source\.kind` is one of ([^.]*)\.", GUIDE)
    assert set(re.findall(r"`([^`]*)`", listed)) == set(get_args(SourceKind))
