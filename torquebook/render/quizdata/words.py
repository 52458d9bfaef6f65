"""What a question's parts say in words: its drawing for who cannot see it, its answer's form."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.numerals import number_text
from torquebook.quiz.answering import unit_word
from torquebook.quiz.letters import labels
from torquebook.quiz.model import AdapterWrench, BoltCircle, Choice, Number

if TYPE_CHECKING:
    from torquebook.quiz.model import Answer, Drawing, Quiz

_SIDES: Final = {0: "on top", 90: "on the right", 180: "at the bottom", 270: "on the left"}
_SQUARE: Final = 90
_BACK: Final = 180


def described(drawing: Drawing) -> str:
    """Return what a drawing shows, and no more than it shows.

    Examples
    --------
    >>> described(BoltCircle(4, 90.0))
    "4 bolts on a circle, seen from the head's side, numbered clockwise, number 1 on the right"
    """
    if isinstance(drawing, BoltCircle):
        return _circle(drawing)
    if isinstance(drawing, AdapterWrench):
        return _wrench(drawing)
    return f"a bolt's head seen from above, {drawing.head}, marked {drawing.mark}"


def _circle(circle: BoltCircle) -> str:
    way = "clockwise" if circle.clockwise else "counterclockwise"
    start = circle.start_deg % 360
    from_top = f"at {number_text(start)}° clockwise from the top"
    first = _SIDES.get(int(start), from_top) if start.is_integer() else from_top
    said = f"{circle.count} bolts on a circle, seen from the head's side, "
    said += f"numbered {way}, number 1 {first}"
    if circle.order:
        said += f"; the order drawn is {'-'.join(map(str, circle.order))}"
    return said


def _wrench(wrench: AdapterWrench) -> str:
    if not wrench.angle_deg:
        lies = "that lengthens the wrench"
    elif wrench.angle_deg == _SQUARE:
        lies = "square to the wrench"
    elif wrench.angle_deg == _BACK:
        lies = "that points back along the handle"
    else:
        lies = f"at {number_text(wrench.angle_deg)}° to the wrench"
    return (
        f"a torque wrench, seen along the bolt's axis: L {wrench.lever_text} from the middle of "
        f"the grip to the square drive, and an adapter {lies}, E {wrench.adapter_text} from the "
        "drive to the middle of the bolt"
    )


def form_of(answer: Answer) -> str:
    """Return how an answer is to be written."""
    if isinstance(answer, Choice):
        return "one letter"
    if isinstance(answer, Number):
        return f"a number in {unit_word(answer.unit)}"
    names = labels(answer)
    return f"all of {', '.join(names)} in order, with dashes between them"


def mistakes_of(answer: Answer) -> tuple[tuple[str, str], ...]:
    """Return the wrong answers that are known: what stands on the sheet, and the mistake."""
    if isinstance(answer, Choice):
        named = zip(labels(answer), answer.options, strict=True)
        return tuple((letter, option.mistake) for letter, option in named if not option.right)
    if isinstance(answer, Number):
        return tuple((answer.write(slip.value), slip.mistake) for slip in answer.slips)
    return ()


def about(quiz: Quiz) -> str:
    """Return class, date, level and unit in one line."""
    said = [f"Class {quiz.class_name}"] if quiz.class_name else []
    said += [quiz.date] if quiz.date else []
    return ", ".join([*said, f"level {quiz.level}", f"torques in {unit_word(quiz.unit)}"])
