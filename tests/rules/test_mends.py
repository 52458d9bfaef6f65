"""What is offered instead judges clean, and every command means the same by a word."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from torquebook.answers.fastening import fastening
from torquebook.plans.reading import read_line
from torquebook.rules.judge import judge

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book

TOO_MUCH = {"over-proof", "past-yield"}
STRIPS = "threads-strip-first"
FASTENERS = [
    ("M6", "8.8"),
    ("M6", "A2-70"),
    ("M10", "10.9"),
    ("M10", "A4-80"),
    ("M14x1.5", "12.9"),
    ("3/8-16", "SAE 8"),
]
FRICTIONS = ["", "dry", "oiled", "0.08", "0.20", "zinc plated"]


@pytest.mark.parametrize("friction", FRICTIONS)
@pytest.mark.parametrize(("size", "strength"), FASTENERS)
def test_a_torque_that_is_offered_is_not_too_much(
    size: str, strength: str, friction: str, book: Book
) -> None:
    """Both ends of the band that stands for a torque too high are found fault with no more."""
    said = f" friction='{friction}'" if friction else ""
    what = fastening(book, size, strength, friction, "", "")
    mu = what.friction
    twice = 2 * what.torque_nm(what.proof_n, mu.mu_thread.nominal, mu.mu_head.nominal)
    found = judge(read_line(f"{size} {strength} {twice:.4g} N.m{said}"), book).findings
    (mend,) = {finding.instead for finding in found if finding.rule in TOO_MUCH}
    ends = re.match(r"([\d.]+)–([\d.]+) N·m", mend or "")
    assert ends, mend
    for end in ends.groups():
        again = judge(read_line(f"{size} {strength} {end} N.m{said}"), book)
        assert not TOO_MUCH & {finding.rule for finding in again.findings}


@pytest.mark.parametrize("friction", FRICTIONS)
@pytest.mark.parametrize(("size", "strength"), FASTENERS)
def test_commands_mean_the_same_friction(
    size: str, strength: str, friction: str, book: Book
) -> None:
    """The quick commands and the validator find the same preload of one fastener."""
    said = f" friction='{friction}'" if friction else ""
    (answer,) = judge(read_line(f"{size} {strength} 10 N.m{said}"), book).answers
    what = fastening(book, size, strength, friction, "", "")
    assert answer.preload_n is not None
    mu = what.friction
    back = what.torque_nm(answer.preload_n.nominal, mu.mu_thread.nominal, mu.mu_head.nominal)
    assert back == pytest.approx(10)


@pytest.mark.parametrize(
    ("bolt", "part", "engaged"),
    [
        ("M6 12.9 18 N.m", "GK-AlSi9Cu3", 9.6),
        ("M6 12.9 18 N.m", "aluminium", 9),
        ("M6 12.9 18 N.m", "cast iron", 4.2),
        ("M6 12.9 18 N.m", "steel", 6),
        ("M10 10.9 62 N.m", "GK-AlSi9Cu3", 8),
        ("M14x1.5 12.9 220 N.m", "cast aluminium", 11.2),
    ],
)
def test_an_engagement_that_is_offered_holds_and_no_less_would(
    bolt: str, part: str, engaged: float, book: Book
) -> None:
    """The thread of the engagement that is offered does not strip; two tenths less would."""

    def short(engaged_mm: float) -> dict[str, str | None]:
        line = f"{bolt} friction=oiled into='{part}' engagement={engaged_mm:g}"
        found = judge(read_line(line), book).findings
        return {f.rule: f.instead for f in found if f.rule in {STRIPS, "engagement-short"}}

    offered = float((short(engaged)[STRIPS] or "").removesuffix(" mm or more"))
    assert offered > engaged
    assert short(offered) == {}
    assert short(offered - 0.2)
