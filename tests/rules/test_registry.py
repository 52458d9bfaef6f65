"""Every rule has a page, examples that run, and plans that fire it and nearly do."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.plans.reading import read_line, read_plan
from torquebook.rules.judge import judge
from torquebook.rules.registry import FAMILIES, RULES, rule_named

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding
    from torquebook.plans.model import Plan

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*/*.csv"))
EXAMPLES = [(slug, which) for slug in RULES for which in ("fires", "passes")]


def example(slug: str, which: str) -> Plan:
    """Return a rule's own example as a plan."""
    text: str = getattr(RULES[slug], which)
    return read_plan("-", stdin=io.BytesIO(text.encode())) if "\n" in text else read_line(text)


def said_by(slug: str, plan: Plan, book: Book) -> list[Finding]:
    """Return what one rule says of a plan."""
    return [finding for finding in judge(plan, book).findings if finding.rule == slug]


@pytest.mark.parametrize(("slug", "which"), EXAMPLES)
def test_the_examples_of_a_rule_are_true(slug: str, which: str, book: Book) -> None:
    """A rule's first example fires it, its second does not."""
    assert bool(said_by(slug, example(slug, which), book)) is (which == "fires")


@pytest.mark.parametrize("slug", RULES)
def test_a_near_miss_is_clean_under_all_rules(slug: str, book: Book) -> None:
    """What a rule's page shows as passing draws no stop and no question of any other rule."""
    found = judge(example(slug, "passes"), book).findings
    assert [f"{f.rule}: {f.message}" for f in found if f.severity <= Severity.ASK] == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_plans_fire_or_pass(
    path: Path, book: Book, same_as_golden: Callable[[Path, str], None]
) -> None:
    """A plan named fires-* fires its folder's rule as expected, one named passes-* does not."""
    said = said_by(path.parent.name, read_plan(path), book)
    if path.stem.startswith("passes"):
        assert said == []
        return
    assert said
    expected = [
        {
            "severity": finding.severity.word,
            "line": finding.place.line,
            "column": finding.place.column,
            "message": finding.message,
            "instead": finding.instead,
            "numbers": {name: float(f"{value:.6g}") for name, value in finding.numbers.items()},
        }
        for finding in said
    ]
    text = json.dumps(expected, indent=2, ensure_ascii=False) + "\n"
    same_as_golden(path.with_suffix(".expected.json"), text)


@pytest.mark.parametrize("slug", RULES)
def test_a_rule_has_both_kinds_of_plans_and_a_page(slug: str) -> None:
    """Each rule has a plan that fires it, a near miss, and a page without empty headings."""
    stems = [path.stem for path in FILES if path.parent.name == slug]
    assert any(stem.startswith("fires-") for stem in stems)
    assert any(stem.startswith("passes-") for stem in stems)
    rule = RULES[slug]
    assert rule.question.endswith("?")
    assert all(rule.section(heading) for heading in ("Why", "Mend", "Known gaps"))
    assert rule.source


@pytest.mark.parametrize("slug", RULES)
def test_a_rule_says_its_worst(slug: str, book: Book) -> None:
    """Some plan of a rule draws the severity that the rule is registered with."""
    plans = [read_plan(path) for path in FILES if path.parent.name == slug]
    plans.append(example(slug, "fires"))
    worst = min(found.severity for plan in plans for found in said_by(slug, plan, book))
    assert worst is RULES[slug].severity


def test_every_module_of_rules_is_listed() -> None:
    """No module with a FAMILY is left out of the registry, and no folder of plans is an orphan."""
    package = Path(FAMILIES[0].__file__ or "").parent
    with_family = {
        path.stem for path in package.glob("*.py") if "\nFAMILY = (" in path.read_text("utf-8")
    }
    assert with_family == {family.__name__.rsplit(".", 1)[-1] for family in FAMILIES}
    assert {path.parent.name for path in FILES} == set(RULES)


def test_slugs_are_unique() -> None:
    """No two rules share a slug."""
    assert len(RULES) == sum(len(family.FAMILY) for family in FAMILIES)


def test_an_unknown_slug_is_answered_with_near_ones() -> None:
    """A mistyped slug is asked back with the slugs that look alike."""
    with pytest.raises(NotUnderstood) as caught:
        rule_named("over-prof")
    assert caught.value.readings[0] == "over-proof"
