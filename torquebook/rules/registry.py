"""All rules, family by family; a rule that is not listed here does not exist."""

from __future__ import annotations

from difflib import get_close_matches
from functools import cache
from typing import TYPE_CHECKING

from torquebook.errors import NotUnderstood
from torquebook.rules import (
    again,
    columns,
    entry,
    filing,
    length,
    load,
    mating,
    order,
    plausible,
    positions,
    printed,
    record,
    references,
    rows,
    shape,
    slip,
    sourcing,
    spec,
    stages,
    thread,
    turn,
    work,
    wrench,
    writing,
)

if TYPE_CHECKING:
    from torquebook.rules.engine import About, Rule

FAMILIES = (
    entry, slip, load, rows, stages, turn, thread, mating, length, again, order, wrench,
    spec, positions, record, work,
    writing, shape, filing, sourcing, references, printed, columns, plausible,
)  # fmt: skip
RULES: dict[str, Rule] = {rule.slug: rule for family in FAMILIES for rule in family.FAMILY}


@cache
def rules_about(about: About) -> tuple[Rule, ...]:
    """Return the rules that are asked of a line, a joint, a job, a record or a file."""
    return tuple(rule for rule in RULES.values() if about in rule.about)


def rule_named(slug: str) -> Rule:
    """Return the rule of a slug.

    Raises
    ------
    NotUnderstood
        If there is none; offers the slugs that look alike.
    """
    found = RULES.get(slug.strip().casefold())
    if found is None:
        near = tuple(get_close_matches(slug.strip().casefold(), RULES, 3)) or tuple(RULES)
        raise NotUnderstood(slug, "there is no such rule", near)
    return found
