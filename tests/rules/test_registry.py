"""Every rule has a page, examples that run, and plans that fire it and nearly do.

The plans of a rule lie in ``tests/rules/<slug>``; rules about contributed files and records have
files in ``tests/admit`` instead, which ``test_admitting.py`` looks at one by one.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from contributed_files import ADMIT_ONLY, ADMIT_TOO, FIRES, PASSES, found_in, slug_of

from torquebook.catalogue.library import Library
from torquebook.errors import NotUnderstood
from torquebook.findings import Severity
from torquebook.plans.reading import read_plan
from torquebook.rules.examples import all_said_of, said_of
from torquebook.rules.judge import judge
from torquebook.rules.judge_records import judged, record_of
from torquebook.rules.registry import FAMILIES, RULES, rule_named

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.catalogue.book import Book
    from torquebook.findings import Finding

HERE = Path(__file__).parent
FILES = sorted(path for path in HERE.glob("*/*") if path.suffix in {".csv", ".yaml"})
EXAMPLES = [(slug, which) for slug in RULES for which in ("fires", "passes")]


def said_by(path: Path, book: Book) -> list[Finding]:
    """Return what the rule of a file's folder says of the plan or the record in it."""
    library = Library()
    held = record_of(str(path), library)
    verdict = judged(held, book, library) if held else judge(read_plan(path), book)
    return [finding for finding in verdict.findings if finding.rule == path.parent.name]


@pytest.mark.parametrize(("slug", "which"), EXAMPLES)
def test_the_examples_of_a_rule_are_true(slug: str, which: str, book: Book) -> None:
    """A rule's first example fires it, its second does not."""
    rule = RULES[slug]
    assert bool(said_of(rule, getattr(rule, which), book)) is (which == "fires")


@pytest.mark.parametrize("slug", RULES)
def test_a_near_miss_is_clean_under_all_rules(slug: str, book: Book) -> None:
    """What a rule's page shows as passing draws no stop and no question of any other rule."""
    found = all_said_of(RULES[slug], RULES[slug].passes, book)
    assert [f"{f.rule}: {f.message}" for f in found if f.severity <= Severity.ASK] == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_plans_fire_or_pass(
    path: Path, book: Book, same_as_golden: Callable[[Path, str], None]
) -> None:
    """A plan named fires-* fires its folder's rule as expected, one named passes-* does not."""
    said = said_by(path, book)
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
    if slug not in ADMIT_ONLY:
        assert any(stem.startswith("fires-") for stem in stems)
        assert any(stem.startswith("passes-") for stem in stems)
    if slug in ADMIT_TOO:
        assert slug in {slug_of(path) for path in FIRES}
        assert slug in {slug_of(path) for path in PASSES}
    rule = RULES[slug]
    assert rule.question.endswith("?")
    assert all(rule.section(heading) for heading in ("Why", "Mend", "Known gaps"))
    assert rule.source


@pytest.mark.parametrize("slug", RULES)
def test_a_rule_says_its_worst(slug: str, book: Book) -> None:
    """Some plan or file of a rule draws the severity that the rule is registered with."""
    rule = RULES[slug]
    said = [*said_of(rule, rule.fires, book)]
    said += [found for path in FILES if path.parent.name == slug for found in said_by(path, book)]
    said += [found for path in FIRES if slug_of(path) == slug for found in found_in(path)]
    assert min(found.severity for found in said) is rule.severity


def test_every_module_of_rules_is_listed() -> None:
    """No module with a FAMILY is left out of the registry, and no folder of plans is an orphan."""
    package = Path(FAMILIES[0].__file__ or "").parent
    with_family = {
        path.stem for path in package.glob("*.py") if "\nFAMILY = (" in path.read_text("utf-8")
    }
    assert with_family == {family.__name__.rsplit(".", 1)[-1] for family in FAMILIES}
    assert {path.parent.name for path in FILES} == set(RULES) - ADMIT_ONLY


def test_slugs_are_unique() -> None:
    """No two rules share a slug."""
    assert len(RULES) == sum(len(family.FAMILY) for family in FAMILIES)


def test_an_unknown_slug_is_answered_with_near_ones() -> None:
    """A mistyped slug is asked back with the slugs that look alike."""
    with pytest.raises(NotUnderstood) as caught:
        rule_named("over-prof")
    assert caught.value.readings[0] == "over-proof"
