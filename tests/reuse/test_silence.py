"""What was said or measured and no rule asked for."""

from __future__ import annotations

from torquebook.catalogue.library import Library
from torquebook.records.reuse import Feature
from torquebook.reuse.judging import ruled
from torquebook.reuse.model import Measured, Used
from torquebook.reuse.silence import unheard, unused

LIBRARY = Library()


def test_angle_of_a_stretch_bolt_is_no_surprise() -> None:
    """That a stretch bolt was tightened by angle is not named as lost; what else it has is."""
    features = frozenset[Feature]({"stretch", "angle tightened", "galvanised"})
    answer = ruled(Used(None, "", features, frozenset(), Measured()), LIBRARY)
    assert unheard(answer.used, answer.rulings) == (
        'no rule of the book speaks of "galvanised" here',
    )


def test_measured_without_a_rule() -> None:
    """Each kind of measurement that decided nothing is named; one that did is not."""
    measured = Measured(length_mm=1, diameters_mm=(1, 1), drag_nm=1, uses=1)
    assert len(unused(measured, ())) == 4
    nut = Used(None, "", frozenset({"locking nut"}), frozenset(), measured)
    left = unused(measured, ruled(nut, LIBRARY).rulings)
    assert [words.partition(" decided")[0] for words in left] == [
        "the length",
        "the diameters",
        "the number of uses",
    ]
    assert unused(Measured(), ()) == ()
