"""What was found in contributed files."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from torquebook.findings import Finding


@dataclass(frozen=True)
class Admission:
    """What was found in contributed files.

    Parameters
    ----------
    files : tuple of str
        Names as asked for, in order; every file that was looked at.
    findings : tuple of Finding
        Sorted by place, then by rule.
    root : str
        The folder that names are relative to in the annotations of a CI; empty for the current one.
    """

    files: tuple[str, ...]
    findings: tuple[Finding, ...]
    root: str = ""
