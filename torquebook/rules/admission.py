"""What was found in contributed files."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.processors import in_order

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from torquebook.findings import Finding
    from torquebook.rules.admitting import Vetting

    Findings = tuple[Finding, ...]
    Watch = Callable[[Iterable[Findings]], Iterable[Findings]]

#: From so many files on it pays to start other processes.
MANY: Final = 150


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
        The folder that names are relative to in SARIF and in the annotations of a CI: the top of
        the work tree; empty for the current folder.
    """

    files: tuple[str, ...]
    findings: tuple[Finding, ...]
    root: str = ""


def look_through(files: Sequence[str], vetting: Vetting, watch: Watch = iter) -> Admission:
    """Look at contributed files, on all processors where there are many.

    Parameters
    ----------
    files : sequence of str
    vetting : Vetting
    watch : callable, optional
        Is handed what was found in each file, one after another, and hands it on.
    """
    vetting.prepare(files)
    with in_order(vetting.look, files, many=MANY) as every:
        found = _as_asked([finding for findings in watch(every) for finding in findings], files)
    found.sort(key=lambda finding: (finding.place, finding.severity, finding.rule))
    return Admission(tuple(files), tuple(found), _top())


def _as_asked(found: list[Finding], files: Sequence[str]) -> list[Finding]:
    """Return findings with files called as asked for, also by a job of which they are joints."""
    known = set(files)
    if all(finding.place.file in known for finding in found):
        return found
    whole = os.path.abspath
    asked = {whole(name): name for name in files}
    names = [asked.get(whole(one.place.file), one.place.file) for one in found]
    places = [replace(one.place, file=name) for one, name in zip(found, names, strict=True)]
    return [replace(finding, place=place) for finding, place in zip(found, places, strict=True)]


def _top() -> str:
    """Return the top of the work tree, as the CI says or by its folder of git; empty for none."""
    if told := os.environ.get("GITHUB_WORKSPACE"):
        return os.path.realpath(told)
    here = Path.cwd()
    return next((str(one) for one in (here, *here.parents) if os.path.lexists(one / ".git")), "")
