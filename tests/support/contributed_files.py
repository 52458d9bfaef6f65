"""The contributed files of tests/admit: one fault each in ``fires``, near misses in ``passes``.

Each of the two is a folder of records. A file's name begins with the slug of the rule that it is
for.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.rules.admitting import Vetting
from torquebook.rules.registry import RULES

if TYPE_CHECKING:
    from torquebook.findings import Finding

ADMIT = Path(__file__).resolve().parents[1] / "admit"
FIRES = sorted(path for path in (ADMIT / "fires").rglob("*.y*ml"))
PASSES = sorted(path for path in (ADMIT / "passes").rglob("*.y*ml"))
#: Rules that only contributed files are asked, and those that they are asked too.
ADMIT_ONLY = {slug for slug, rule in RULES.items() if set(rule.about) <= {"file", "record"}}
ADMIT_TOO = {slug for slug, rule in RULES.items() if set(rule.about) & {"file", "record"}}
_VETTING = Vetting((str(ADMIT / "fires"), str(ADMIT / "passes")))


def slug_of(path: Path) -> str:
    """Return the slug that a file's name begins with."""
    (slug,) = (slug for slug in RULES if path.stem.startswith(f"{slug}-"))
    return slug


@cache
def found_in(path: Path) -> tuple[Finding, ...]:
    """Return all that is found in a file."""
    return _VETTING.look(str(path))
