"""Make each kind of mistake in printed lists, judge them, and count what was raised."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from random import Random
from typing import TYPE_CHECKING

from planted_kinds import KINDS
from planting import Neighbours
from printed_lists import plan_of, printed_tables

from torquebook.findings import Severity
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from planting import Mistake

    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding

_COLUMNS = ("class", "friction", "nut", "head", "joint", "source", "thread")
# How a message writes the units that the mistakes are named by.
_SHOWN = {"lb-ft": "lbf·ft", "lb-in": "lbf·in", "kgf.m": "kgf·m", "kgf.cm": "kgf·cm", "N.m": "N·m"}


@dataclass
class Report:
    """What became of the mistakes, by kind."""

    tried: Counter[str] = field(default_factory=Counter)
    raised: Counter[str] = field(default_factory=Counter)
    over: Counter[str] = field(default_factory=Counter)
    nameable: Counter[str] = field(default_factory=Counter)
    named: Counter[str] = field(default_factory=Counter)
    missed: list[str] = field(default_factory=list)

    @property
    def total(self) -> int:
        """How many mistakes were made."""
        return self.tried.total()

    @property
    def raised_share(self) -> float:
        """The share of mistakes that raised what they deserve."""
        return self.raised.total() / self.total

    @property
    def over_share(self) -> float:
        """The share of mistakes that were stopped where a question would do."""
        return self.over.total() / self.total

    @property
    def named_share(self) -> float:
        """The share of nameable mistakes that a message named."""
        return self.named.total() / self.nameable.total()

    def add(self, kind: str, mistake: Mistake, findings: list[Finding]) -> None:
        """Count one mistake and what was found."""
        worst = min((finding.severity for finding in findings), default=Severity.NOTE)
        self.tried[kind] += 1
        if worst <= mistake.deserves:
            self.raised[kind] += 1
            self.over[kind] += worst < mistake.deserves
        else:
            self.missed.append(f"{kind}: {mistake.row['thread']} {mistake.row['tighten']}")
        if mistake.word:
            self.nameable[kind] += 1
            text = " ".join(f"{finding.message} {finding.instead}" for finding in findings)
            word = _SHOWN.get(mistake.word, mistake.word)
            if word in text or mistake.word in text:
                self.named[kind] += 1
            else:
                self.missed.append(f"{kind}, not named: {mistake.row['thread']} {text}")

    def __str__(self) -> str:
        """Return the report by kind, and what was missed."""
        rows = [
            f"{kind:26}{self.raised[kind]:5} of {self.tried[kind]:5}"
            + (f"   named {self.named[kind]} of {self.nameable[kind]}" * (kind in self.nameable))
            for kind in KINDS
        ]
        sums = (
            f"raised {self.raised_share:.1%} of {self.total}, of these {self.over_share:.1%} "
            f"stopped where a question would do, named {self.named_share:.1%}"
        )
        return "\n".join([*rows, sums, *self.missed])


def plant_all(book: Book, random_seed: int, per_row: int, *, alone: bool = False) -> Report:
    """Make mistakes in every printed row, one at a time, and judge the list each time.

    ``alone`` judges the row without its list.
    """
    random, report = Random(random_seed), Report()  # noqa: S311 - a test wants to repeat itself
    for table in printed_tables().values():
        rows = [dict.fromkeys(_COLUMNS, "") | row for row in table]
        for index, row in enumerate(rows):
            # The kinds that were tried least come first, so that rare ones get their rows.
            kinds = sorted(KINDS, key=lambda kind: (report.tried[kind], random.random()))
            near, made = Neighbours(rows, index, random), 0
            for kind in kinds if not row.get("kind") else ():
                if made == per_row:
                    break
                mistake = KINDS[kind](row, near)
                if mistake is not None:
                    made += 1
                    before, after = ([], []) if alone else (table[:index], table[index + 1 :])
                    wrong = [*before, mistake.row, *after]
                    answer = judge(plan_of(wrong), book).answers[len(before)]
                    report.add(kind, mistake, list(answer.findings))
    return report
