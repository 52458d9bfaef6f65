"""The rulebook's answer."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, get_args

import pytest

from torquebook.catalogue.library import Library
from torquebook.errors import NotUnderstood
from torquebook.records.reuse import Feature, History
from torquebook.reuse.judging import NEUTRAL, ruled
from torquebook.reuse.model import STRAIN, VERDICTS, Measured, Used

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.catalogue.library import Held
    from torquebook.records.reuse import ReuseRule

LIBRARY = Library()


def used(
    *features: Feature, history: Sequence[History] = (), measured: Measured | None = None
) -> Used:
    """Return a fastener without thread and class."""
    return Used(None, "", frozenset(features), frozenset(history), measured or Measured())


@pytest.mark.parametrize("feature", get_args(Feature))
def test_every_feature_has_a_rule(feature: Feature) -> None:
    """Whatever is special on a fastener, the book has an answer for it."""
    answer = ruled(used(feature), LIBRARY)
    assert answer.rulings
    assert answer.verdict == answer.rulings[0].verdict
    assert not any(f'"{feature}"' in remark for remark in answer.remarks) or feature in NEUTRAL


@pytest.mark.parametrize("history", sorted(set(get_args(History)) - STRAIN))
def test_no_history_is_lost(history: History) -> None:
    """What a plain fastener went through is answered by a rule, or named as not spoken of."""
    answer = ruled(used(history=[history]), LIBRARY)
    asked = any(history in ruling.rule.record.histories for ruling in answer.rulings)
    assert asked != any(f'"{history}"' in remark for remark in answer.remarks)


@pytest.mark.parametrize("feature", get_args(Feature))
def test_strictest_comes_first(feature: Feature) -> None:
    """Without maker and preference the rulings go from the strictest to the most lenient."""
    answer = ruled(used(feature), LIBRARY)
    order = [
        (VERDICTS.index(ruling.verdict), -ruling.rule.record.strictness)
        for ruling in answer.rulings
    ]
    assert order == sorted(order)


def test_nothing_said_is_a_plain_fastener() -> None:
    """A fastener of which nothing is said is plain and elastic, and the answer says so."""
    answer = ruled(used(), LIBRARY)
    assert (answer.used.features, answer.used.history) == ({"plain"}, {"elastic"})
    assert len(answer.remarks) == 2
    assert answer.verdict == "clean"


def test_plain_and_computed_needs_no_assumption() -> None:
    """Who says plain and what it went through has nothing taken for granted."""
    assert ruled(used("plain", history=["elastic"]), LIBRARY).remarks == ()


def test_preference_of_a_rule_that_does_not_apply() -> None:
    """A preferred source that says nothing of this fastener changes nothing."""
    answer = ruled(used("stretch"), LIBRARY, ["RCSC"])
    assert (answer.verdict, answer.preferred) == ("renew", "")


def test_preference_of_the_strictest_decides_too() -> None:
    """A preference for the source that would count anyway is named as what decided."""
    answer = ruled(used("tab washer"), LIBRARY, ["TB 43-0218"])
    assert (answer.verdict, answer.preferred) == ("renew", "US Army TB 43-0218")
    answer = ruled(used("tab washer"), LIBRARY, ["tab-washer-look"])
    assert (answer.verdict, answer.preferred) == ("reuse", "no published source found")


def test_preference_does_not_beat_the_maker() -> None:
    """The maker's word counts before a preferred source's."""
    measured = Measured(length_mm=10.2, limit_length_mm=10.3)
    answer = ruled(used("stretch", measured=measured), LIBRARY, ["reuse/stretch"])
    assert answer.rulings[0].rule.id == "reuse/maker-length"
    assert (answer.verdict, answer.preferred) == ("reuse", "")


class Empty(Library):
    """A library without a rule."""

    def all(self, shelf: str, model: type) -> tuple[Held[ReuseRule], ...]:  # type: ignore[override]  # noqa: ARG002 - the library's signature
        """Return nothing."""
        return ()


def test_no_rule_at_all() -> None:
    """Where no rule applies nothing is guessed."""
    with pytest.raises(NotUnderstood, match="no rule of the book applies"):
        ruled(used("wheel"), Empty())


@pytest.mark.parametrize("feature", ["adhesive patch", "tab washer", "structural A490", "pickled"])
def test_a_limit_of_length_answers_no_other_question(feature: Feature) -> None:
    """A spent patch, a bent washer and brittle steel stay renewed, whatever a length allows."""
    measured = Measured(length_mm=10.2, limit_length_mm=10.3)
    fastener = replace(used(feature, measured=measured), strength_class="12.9")
    assert ruled(fastener, LIBRARY).verdict == "renew"
