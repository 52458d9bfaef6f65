"""What a rule may need of a line, and why a line does not have it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.rules.basis.kinds import REASONS

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.rules.basis.case import Case


def unmet(case: Case, need: str) -> str | None:
    """Return why a need is not met, or None if it is.

    Parameters
    ----------
    case : Case
    need : str
        A column that must be filled and read, or a name of ``ASKED``.
    """
    asked = ASKED.get(need)
    return asked(case) if asked else _unstated(case, need)


def _unstated(case: Case, column: str) -> str | None:
    if not case.line.text(column):
        return f"no {column.replace('_', ' ')} stated"
    problems = (problem.column for problem in case.line.problems)
    unread = column in case.fastener.troubles or column in problems
    return f"the {column.replace('_', ' ')} cannot be read" if unread else None


def _listed_class(case: Case) -> str | None:
    if case.thread and not case.fastener.classes:
        return f"no class is listed for {case.thread.size}"
    return None


def _elongation(case: Case) -> str | None:
    if case.angle_deg is None or case.strength is None or case.turned is not None:
        return None
    return f"no elongation after fracture is listed for {case.strength.name}"


def _order(case: Case) -> str | None:
    return _unstated(case, "order") or (None if case.passes else "the order names no positions")


def _nut(case: Case) -> str | None:
    missing = _unstated(case, "nut")
    return missing or (None if case.fastener.nut else "the nut is of no class of ISO 898-2")


def _reach(case: Case) -> str | None:
    if _unstated(case, "engagement") is None:
        return None
    return _unstated(case, "length") or _unstated(case, "clamp_length")


#: Needs that ask more of a line than a filled cell.
ASKED: dict[str, Callable[[Case], str | None]] = {
    "bolt": lambda case: case.silence,
    "clamp": lambda case: REASONS[case.hinted_kind] if case.hinted_kind else None,
    "listed class": _listed_class,
    "thread": lambda case: None if case.thread else "no thread stated",
    "class": lambda case: None if case.strength else "no class stated",
    "torque": lambda case: None if case.torque else "no torque that can be read",
    "elongation": _elongation,
    "order": _order,
    "nut": _nut,
    "reach": _reach,
}
