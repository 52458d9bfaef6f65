"""Family `again`: bolts that were tightened before, and drag and factors that count twice."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from torquebook.findings import Severity
from torquebook.rules.basis import say
from torquebook.rules.basis.fastener import is_locking_nut
from torquebook.rules.basis.tables import ROUNDING
from torquebook.rules.engine import Remark, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.rules.basis.case import Case

NEW = re.compile(r"\bnew\b", re.IGNORECASE)
USED = re.compile(r"\b(used|old|re-?used?)\b", re.IGNORECASE)
RETORQUE = re.compile(
    r"\bre-?(torque|tighten)|\b(torque|tighten) (again|once more)\b|^(again|once more)\b"
    r"|\bcheck (the )?torque after\b",
    re.IGNORECASE,
)
ADDED = re.compile(
    r"\b(drag|prevailing|running torque)\b(?!.*\bnot\b).*\b(added|included)\b"
    r"|\b(plus|incl\w*|with|added) (the )?(drag|prevailing|running torque)\b",
    re.IGNORECASE,
)
EITHER = re.compile(r"\bor\b", re.IGNORECASE)
# What takes a word back, up to two words before it.
NOT = re.compile(r"\b(no|not|never|without|don't)(\s+\w+){0,2}\s*$", re.IGNORECASE)
ASIDE = re.compile(r"\([^)]*\)")


def asks_retorque(text: str) -> bool:
    """Return whether a text asks for a second tightening."""
    return _says(RETORQUE, text)


def _says(pattern: re.Pattern[str], text: str) -> bool:
    """Return whether a text says a word, outside brackets, without taking it back."""
    plain = ASIDE.sub(" ", text)
    return any(not NOT.search(plain[: found.start()]) for found in pattern.finditer(plain))


@rule(
    "stretch-again",
    Severity.ASK,
    source="common practice: renew unless the maker counts uses or prints a limit",
    fires="M10x1.25 10.9 30 N.m + 90 deg kind=stretch state=used",
    passes="M10x1.25 10.9 30 N.m + 90 deg kind=stretch state=new",
)
def stretch_again(case: Case) -> Iterator[Remark]:
    """Does a stretch bolt go in again?

    Why
    ---
    It is longer than it was, and nobody knows how much is left.

    Mend
    ----
    Renew it; or measure it against the maker's limit and say so in the note.

    Known gaps
    ----------
    Needs kind and state.
    """
    if case.is_stretch_bolt and _says(USED, case.line.text("state")):
        yield Remark("a stretch bolt that was tightened before", "state", instead="new bolts")


@rule(
    "old-and-new-mixed",
    Severity.ASK,
    source="common practice",
    fires="M10 10.9 60 N.m count=6 state='4 new, 2 used'",
    passes="M10 10.9 60 N.m count=6 state=used",
    needs=("state",),
)
def old_and_new_mixed(case: Case) -> Iterator[Remark]:
    """Are old and new fasteners mixed in one joint?

    Why
    ---
    Their friction differs, so at one torque they clamp differently.

    Mend
    ----
    All new, or all used ones cleaned and oiled alike.

    Known gaps
    ----------
    Reads only new, used and old; "new or used" is let pass.
    """
    state = case.line.text("state")
    if _says(NEW, state) and _says(USED, state) and not EITHER.search(state):
        yield Remark(f'"{state}": old and new in one joint', "state", instead="all of one kind")


@rule(
    "stretch-retorqued",
    Severity.ASK,
    source="common practice",
    fires="M10x1.25 10.9 30 N.m + 90 deg kind=stretch note='retorque after 1000 km'",
    passes="M10x1.25 10.9 30 N.m + 90 deg kind=stretch note='new bolts'",
)
def stretch_retorqued(case: Case) -> Iterator[Remark]:
    """Is a stretch bolt to be tightened once more later?

    Why
    ---
    Past yield every further turn uses it up.

    Mend
    ----
    Leave it alone; mark it and look whether it moved.

    Known gaps
    ----------
    Reads the note for retorque, retighten, tighten again or once more, check torque after.
    """
    if case.is_stretch_bolt and asks_retorque(case.line.text("note")):
        yield Remark("a stretch bolt is not tightened again", "note")


@rule(
    "drag-unadded",
    Severity.ASK,
    source="AC 43.13-1B, 7-40, and TM 1-1500-204-23-6: added; TB 43-0218: from a third of it up",
    fires="M10 8.8 40 N.m nut=self-locking",
    passes="M10 8.8 40 N.m nut=self-locking note='drag 3 N.m added'",
    needs=("bolt", "torque"),
)
def drag_unadded(case: Case) -> Iterator[Remark]:
    """Is the drag of a self-locking nut in the torque?

    Why
    ---
    What turns the nut before it seats does not clamp; it is added to the table's torque.

    Mend
    ----
    Measure the drag before the nut seats, add it, and say so in the note.

    Known gaps
    ----------
    Whether it was added is read from the note only: drag added, drag included, plus drag.
    """
    if is_locking_nut(case.line.text("nut")) and not _says(ADDED, case.line.text("note")):
        yield Remark("a locking nut: its drag, measured before it seats, is added", "tighten")


@rule(
    "oil-factor-twice",
    Severity.ASK,
    source="the printed tables that the book holds, with their printed corrections",
    fires="1/2-13 SAE 5 52.7 lbf.ft friction=oiled",
    passes="1/2-13 SAE 5 58.5 lbf.ft friction=oiled",
    needs=("bolt", "thread", "class", "torque", "friction"),
)
def oil_factor_twice(case: Case) -> Iterator[Remark]:
    """Was the correction for oil taken off twice?

    Why
    ---
    A value that was printed for oil is cut once more, and the joint is clamped too low.

    Mend
    ----
    Take the correction off the dry value once.

    Known gaps
    ----------
    Needs a printed table with a correction for this condition. Where another applying
    table prints the value, nothing is said.
    """
    torque = case.torque
    if torque is None or case.angle_deg is not None or torque.form != "exact":
        return
    if any(row.prints(torque.band) for row in case.table_rows):
        return
    for row in case.table_rows:
        factor = row.table.factors.get(case.friction.name)
        twice = row.row.high_nm * factor**2 if factor else 0.0
        if twice and abs(torque.band.nominal / twice - 1) < ROUNDING / 2:
            right = say.torque(row.high_nm, torque.unit)
            yield Remark(
                f"{say.planned(torque)} is the dry value of {row.table.source} with "
                f"{say.percent(1 - (factor or 1))} taken off twice",
                instead=right,
            )
            return


FAMILY = (stretch_again, old_and_new_mixed, stretch_retorqued, drag_unadded, oil_factor_twice)
