"""Years in the edition of a source: of an edition, or of what was done to it later."""

from __future__ import annotations

from pathlib import Path

import pytest

from torquebook.rules.admitting import Vetting

RECORD = Path(__file__).parents[1] / (
    "admit/passes/classes/example/editions-mixed-but-read-in-a-later-copy.yaml"
)


def said_of(edition: str) -> list[str]:
    """Return what the rule says of a record of an edition."""
    text = RECORD.read_text(encoding="utf-8")
    assert text.count('"1999"') == 2
    found = Vetting().look_at(text.replace('"1999"', f'"{edition}"'), str(RECORD))
    return [finding.message for finding in found if finding.rule == "editions-mixed"]


@pytest.mark.parametrize(
    "edition",
    [
        "1990, change 4 of 2004",
        "1990 (Change 4, 15 May 2004)",
        "1990 with changes 1 and 2 of 2004",
        "2018, reprinted 2020",
        "1948, reprint of 1951",
        "2009, corrected 2013",
        "2009, corrected version 2013-02",
        "2009 incorporating corrigendum March 2011",
        "2009 + Amendment 1:2013",
        "1996, reaffirmed 2003, amended 2005",
    ],
)
def test_a_year_of_what_was_done_later_is_no_second_edition(edition: str) -> None:
    """A change, a reprint or a correction belongs to the edition that it was made to."""
    assert said_of(edition) == []


@pytest.mark.parametrize(
    ("edition", "years"),
    [
        ("1980 and 1992", "1980, 1992"),
        ("1980, reprinted 1984, and 1992", "1980, 1992"),
        ("1980 reprint and 1992", "1980, 1992"),
        ("unchanged 1980, 1992", "1980, 1992"),
    ],
)
def test_two_editions_are_two(edition: str, years: str) -> None:
    """What stands beside them does not hide a second one."""
    assert said_of(edition) == [f"one edition of 2 years: {years}"]
