"""``torquebook why``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from torquebook.rules.registry import RULES

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Runner


def test_text(cli: Runner, golden: Callable[[str, str], None]) -> None:
    """A rule's page is the reviewed one."""
    golden("why-unit-unsaid.txt", cli("why", "unit-unsaid").out)


def test_listing_has_every_rule_with_its_question(cli: Runner) -> None:
    """Without a rule every rule is listed, in 80 columns."""
    out = cli("why").out
    words = " ".join(out.split())
    assert max(map(len, out.splitlines())) <= 80
    assert all(f"{slug} {rule.severity.word}" in words for slug, rule in RULES.items())
    listed = json.loads(cli("why", "--json").out)
    assert [(row["rule"], row["asks"]) for row in listed] == [
        (slug, rule.question) for slug, rule in RULES.items()
    ]


@pytest.mark.parametrize("slug", RULES)
def test_page_shows_what_the_rule_says(slug: str, cli: Runner) -> None:
    """A page has its question, its reason, its example, and its source."""
    page = json.loads(cli("why", slug, "--json").out)
    assert page["rule"] == slug
    assert page["asks"].endswith("?")
    assert all(page[key] for key in ("why", "fires", "passes", "mend", "known_gaps", "source"))
    ran = cli("why", slug)
    assert ran.code == 0
    assert max(map(len, ran.out.splitlines())) <= 80


def test_mistyped_rule_is_answered_with_the_nearest(cli: Runner) -> None:
    """A slug that nobody knows offers those that look alike."""
    ran = cli("why", "over-prof")
    assert ran.code == 2
    assert "write over-proof" in ran.err
