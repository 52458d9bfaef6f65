"""What an apprentice wrote: read as an answer to one question, and held against its key.

A trainer copies it as it stands on the sheet: ``b``, ``B)``, ``47``, ``47,2 Nm``, ``1-3-2-4``.
What cannot be read is never wrong: it raises, and is listed until the trainer has mended it, or
has written ``x`` for an answer that is wrong whatever it says.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.errors import NotUnderstood
from torquebook.numerals import number_at, number_text
from torquebook.quiz.answering import unit_word
from torquebook.quiz.letters import labels
from torquebook.quiz.model import Choice, Number, Sequence
from torquebook.unitnames import FACTORS, unit_named
from torquebook.units import Quantity, convert, write

if TYPE_CHECKING:
    from collections.abc import Iterable

    from torquebook.quiz.model import Question

#: Families whose question is the change of unit: the same thing in another unit is no answer.
RESTATED: Final = frozenset({"convert", "angle-units"})
OTHER_NUMBER: Final = "another number, by no known mistake"
OTHER_ORDER: Final = "another order"
MISSED: Final = "something missed, or put twice"
TURNED: Final = "the right order turned round"
IN_TURN: Final = "one after the other, as printed"
CROSSED: Final = "crossed out by the trainer"

_LETTER: Final = re.compile(r"\(?([A-Za-z])(?:[).:\s]+(.*))?", re.DOTALL)
_SPACE: Final = re.compile(r"\s+")
_WORD: Final = re.compile(r"\d+(?:[.,]\d+)?|[^\W\d_]+|\S")
_BETWEEN: Final = re.compile(r"\s*(?:[-–—−‐‑,;.>/→+]|->|=>)+\s*|\s+")
_OTHERS: Final = {
    "%": re.compile(r"%|per ?cent|pct\.?", re.IGNORECASE),
    "mm2": re.compile(r"mm ?(?:²|\^ ?2|2)|sq\.? ?mm|square mm", re.IGNORECASE),
    "MPa": re.compile(r"MPa|N ?/ ?mm ?(?:²|\^ ?2|2)", re.IGNORECASE),
}
_MINUS: Final = "-−–"
_HAIR: Final = 1e-9
_CROSS: Final = "x"


class Given(NamedTuple):
    """An answer that was read.

    Parameters
    ----------
    right : bool
    mistake : str
        What somebody got wrong who gives this answer; empty if it is right.
    note : str
        What was made of it, where that is not what stands there; else empty.
    """

    right: bool
    mistake: str = ""
    note: str = ""


def judged(question: Question, text: str) -> Given:
    """Hold what an apprentice wrote against the key.

    Parameters
    ----------
    question : Question
    text : str
        Not empty.

    Raises
    ------
    NotUnderstood
        If it is no answer of the kind that the question asks for, or more than one.

    Examples
    --------
    >>> from torquebook.quiz.model import Number, Question, Slip
    >>> number = Number(47.2, "N.m", 1.4, 1, (Slip(64.0, "the number in lbf·ft"),))
    >>> asked = Question("torque", 1, "", "?", ("a",), number, ("s",), ("t",))
    >>> judged(asked, "46,5 Nm").right, judged(asked, "64").mistake
    (True, 'the number in lbf·ft')
    """
    answer = question.answer
    if text.casefold() == _CROSS:
        return Given(right=False, mistake=CROSSED)
    if isinstance(answer, Choice):
        return _chosen(answer, text)
    if isinstance(answer, Number):
        return _worked_out(answer, text, restated=question.family in RESTATED)
    return _ordered(answer, text)


def _folded(text: str) -> str:
    """Return a text so that spelling alone makes no difference."""
    return _SPACE.sub("", text).casefold().replace("·", ".").replace("²", "2").replace(",", ".")


def _words(text: str) -> tuple[str, ...]:
    """Return words, numbers and marks of a text, 50 and 50,0 alike."""
    found = _WORD.findall(text.casefold())
    return tuple(
        f"{float(word.replace(',', '.')):g}" if word[0].isdecimal() else word for word in found
    )


def _like(answer: Choice, text: str) -> tuple[int, ...]:
    """Return which options hold a text's words one after the other, ``8`` as ``class 8``."""
    words = _words(text)
    held = [_words(option.text) for option in answer.options]
    return tuple(
        at
        for at, own in enumerate(held)
        if any(own[start : start + len(words)] == words for start in range(len(own)))
    )


def _named(answer: Choice, near: Iterable[int]) -> tuple[str, ...]:
    """Return options as a message names what to write."""
    letters = labels(answer)
    return tuple(f"{letters[at]} ({answer.options[at].text})" for at in near)


def _chosen(answer: Choice, text: str) -> Given:
    letters = labels(answer)
    folded = [_folded(option.text) for option in answer.options]
    same = [at for at, option in enumerate(folded) if option == _folded(text)]
    lettered = _LETTER.fullmatch(text)
    if not lettered and len(same) != 1:
        begun = [at for at, option in enumerate(folded) if option.startswith(_folded(text))]
        what = f"one letter is wanted, {letters[0]} to {letters[-1]}"
        raise NotUnderstood(text, what, _named(answer, _like(answer, text) or begun))
    at = same[0] if len(same) == 1 else _lettered(answer, text, lettered)
    option = answer.options[at]
    return Given(option.right, option.mistake)


def _lettered(answer: Choice, text: str, found: re.Match[str] | None) -> int:
    """Return which option a letter names; text behind it has to be that option's alone."""
    letters = labels(answer)
    letter = found[1].upper() if found else ""
    if letter not in letters:
        what = f"this question has the options {letters[0]} to {letters[-1]}"
        raise NotUnderstood(text, what)
    at = letters.index(letter)
    behind = found[2] if found else ""
    if behind and _folded(behind) != _folded(answer.options[at].text):
        near = _like(answer, behind)
        if near != (at,):
            what = f'{letter} is "{answer.options[at].text}"; the letter or the text is wrong'
            raise NotUnderstood(text, what, _named(answer, dict.fromkeys((at, *near))))
    return at


def _worked_out(answer: Number, text: str, *, restated: bool) -> Given:
    value, note = _value(answer, text, restated=restated)
    if answer.accepts(value):
        return Given(right=True, note=note)
    near = sorted(
        (
            slip
            for slip in answer.slips
            if abs(value - slip.value) <= answer.tolerance * (1 + _HAIR)
        ),
        key=lambda slip: abs(value - slip.value),
    )
    return Given(right=False, mistake=near[0].mistake if near else OTHER_NUMBER, note=note)


def _value(answer: Number, text: str, *, restated: bool) -> tuple[float, str]:
    """Return the number in the question's unit, and what was made of it if that is another."""
    start = len(text) - len(text.lstrip("+-−– "))
    number = number_at(text, start)
    asked = unit_word(answer.unit)
    if number is None:
        raise NotUnderstood(text, f"a number is wanted, with its unit if that is not {asked}")
    value, unit = number.value, text[number.end :].strip()
    if text[0] in _MINUS:
        value = -value
    if not unit or _is_spelt(answer.unit, unit):
        return value, ""
    if answer.unit not in FACTORS:
        raise NotUnderstood(text, f"the answer is in {asked}, and {unit} is another unit")
    try:
        name = unit_named(unit, FACTORS[answer.unit][0])
    except NotUnderstood as fault:
        shown = number_text(number.value)
        readings = tuple(f"{shown} {one}" for one in fault.readings)
        raise NotUnderstood(text, fault.what, readings) from fault
    if name == answer.unit:
        return value, ""
    if restated:
        raise NotUnderstood(text, f"the question is how much it is in {asked}, not in {name}")
    held = convert(Quantity(value, name), answer.unit)
    return held.value, f'"{text}" counted as {write(held)}'


def _is_spelt(unit: str, text: str) -> bool:
    """Return whether a text spells a unit of answers that ``units`` does not know."""
    return unit in _OTHERS and _OTHERS[unit].fullmatch(text) is not None


def _ordered(answer: Sequence, text: str) -> Given:
    names = labels(answer)
    given = _items(names, text)
    at = tuple(names.index(name) for name in given)
    if sorted(at) != list(range(len(names))):
        return Given(right=False, mistake=MISSED)
    if answer.accepts(at):
        return Given(right=True)
    if at[::-1] == answer.key:
        return Given(right=False, mistake=TURNED)
    in_turn = at == tuple(range(len(names)))
    return Given(right=False, mistake=IN_TURN if in_turn else OTHER_ORDER)


def _items(names: tuple[str, ...], text: str) -> list[str]:
    """Return the items of an order, parted by whatever stands between them, or by nothing."""
    parts = [part for part in _BETWEEN.split(text.strip(" ()").upper()) if part]
    if len(parts) == 1 and all(len(name) == 1 for name in names):
        parts = list(parts[0])
    strange = next((part for part in parts if part not in names), None)
    if strange is None and parts:
        return parts
    example = "-".join(names)
    what = f"{strange} is none of {names[0]} to {names[-1]}; write them in order, like {example}"
    raise NotUnderstood(text, what)
