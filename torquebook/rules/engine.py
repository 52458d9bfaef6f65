"""What a rule is: facts attached by a decorator, remarks yielded by a function.

The function looks at one line of a plan (:class:`~torquebook.rules.basis.case.Case`), at one
record as a whole (:mod:`~torquebook.rules.basis.records`), or at the shape of a contributed file
(:mod:`~torquebook.rules.basis.contributed`), and yields remarks; the engine adds slug, severity,
place and source. Nothing is registered here: ``registry.py`` lists the rules by
name.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal, Protocol, TypeVar

from torquebook.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from torquebook.findings import Place

    About = Literal["line", "joint", "job", "file", "record"]

    class Subject(Protocol):
        """What a rule looks at."""

        @property
        def joint(self) -> str:
            """The name that a finding carries."""

        def place_of(self, column: str) -> Place:
            """Return where a column's value stands."""

    S = TypeVar("S", bound=Subject)


@dataclass(frozen=True)
class Remark:
    """What a rule has to say, before the engine completes it.

    Parameters
    ----------
    message : str
        What is wrong, with the numbers that were compared.
    column : str
        The plan's column that is wrong.
    numbers : mapping of str to float
        The same numbers for programs.
    instead : str or None
        What would be right.
    severity : Severity or None
        Where it differs from the rule's own.
    source : str or None
        Where it differs from the rule's own.
    place : Place or None
        Where it is not the column's cell.
    """

    message: str
    column: str = "tighten"
    numbers: Mapping[str, float] = field(default_factory=dict)
    instead: str | None = None
    severity: Severity | None = None
    source: str | None = None
    place: Place | None = None


@dataclass(frozen=True)
class Rule:
    """One question that every line of a plan, or every record of a kind, is asked.

    Parameters
    ----------
    slug : str
        Names the fault; unique, never reused.
    severity : Severity
        The worst that the rule says.
    needs : tuple of str
        What a line must state, by the names that ``Case.missing`` knows; where one is
        missing the rule is listed as not judged.
    source : str
        The document that the comparison rests on, or ``common practice``.
    fires, passes : str
        A plan that fires the rule, and a near miss that does not: one line, or a CSV; for a
        rule about records the keys that make the difference, in YAML.
    check : callable
        The function itself; its docstring is the rule's page.
    about : tuple of str
        What is asked: a plan's ``line``, a ``joint`` or a ``job`` as a whole, a contributed
        ``record`` of any kind, or the ``file`` of one.
    """

    slug: str
    severity: Severity
    needs: tuple[str, ...]
    source: str
    fires: str
    passes: str
    check: Callable[[Any], Iterator[Remark]]
    about: tuple[About, ...] = ("line",)

    @property
    def question(self) -> str:
        """The question that the rule answers, in one sentence."""
        return self._doc.split("\n", 1)[0]

    def section(self, heading: str) -> str:
        """Return one section of the rule's page, empty if it has none."""
        lines = self._doc.splitlines()
        for index, line in enumerate(lines[:-1]):
            if line == heading and set(lines[index + 1]) == {"-"}:
                body = lines[index + 2 :]
                break
        else:
            return ""
        for index in range(len(body) - 1):
            if body[index + 1] and set(body[index + 1]) == {"-"}:
                body = body[:index]
                break
        return "\n".join(body).strip()

    @property
    def _doc(self) -> str:
        from inspect import getdoc  # noqa: PLC0415 - only pages need it, and it is slow to import

        return getdoc(self.check) or ""

    def completed(self, remark: Remark, asked: Subject) -> Finding:
        """Return a remark about one line or record with all that the rule itself says."""
        return Finding(
            rule=self.slug,
            severity=self.severity if remark.severity is None else remark.severity,
            place=remark.place or asked.place_of(remark.column),
            joint=asked.joint,
            message=remark.message,
            source=self.source if remark.source is None else remark.source,
            instead=remark.instead,
            numbers=remark.numbers,
        )


def rule(
    slug: str,
    severity: Severity,
    *,
    source: str,
    fires: str,
    passes: str,
    needs: tuple[str, ...] = (),
    about: tuple[About, ...] = ("line",),
) -> Callable[[Callable[[S], Iterator[Remark]]], Rule]:
    """Attach a rule's facts to its function; see :class:`Rule` for the arguments."""

    def attach(check: Callable[[S], Iterator[Remark]]) -> Rule:
        return Rule(slug, severity, needs, source, fires, passes, check, about)

    return attach


class RuleFault(Exception):
    """A rule raised; names the rule and the line."""


def said(rule: Rule, asked: Subject, place: Place) -> list[Finding]:
    """Return what a rule says.

    Raises
    ------
    RuleFault
        If it fails; a broken rule must never look like a clean plan.
    """
    try:
        return [rule.completed(remark, asked) for remark in rule.check(asked)]
    except Exception as fault:
        raise RuleFault(f"rule {rule.slug}, {place}: {fault!r}") from fault
