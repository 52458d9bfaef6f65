"""How answers are written down: options and words by letters, positions by their numbers."""

from __future__ import annotations

from hashlib import sha256
from typing import TYPE_CHECKING, Any, Final

from torquebook.quiz.model import Choice, Number, Sequence

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from torquebook.quiz.model import Answer, Question, Quiz

_CODE_LETTERS: Final = "BCDFGHJKLMNPQRSTVWXZ"  # no vowels: no words, and no number like 12E34
_CODE_LENGTH: Final = 5
_CODE: Final = "_code"
_BETWEEN: Final = "\x1f"


def letter(at: int) -> str:
    """Return the letter that stands before the option or item at an index from 0."""
    return chr(ord("A") + at)


def labels(answer: Choice | Sequence) -> tuple[str, ...]:
    """Return what an apprentice writes for each option or item, in printed order.

    A position of a bolt circle is its own number; all else is a letter, so that no number can
    be taken for a place in the order.
    """
    if isinstance(answer, Choice):
        return tuple(letter(at) for at in range(len(answer.options)))
    if all(item.isdigit() for item in answer.items):
        return answer.items
    return tuple(letter(at) for at in range(len(answer.items)))


def written(answer: Answer) -> str:
    """Return the key as it is written on a sheet: ``B``, ``47.2 N·m``, ``1-3-2-4``, ``D-A-C-B``.

    Examples
    --------
    >>> from torquebook.quiz.model import Sequence
    >>> written(Sequence(("tighten", "mark", "back off"), (1, 2, 0)))
    'B-C-A'
    """
    if isinstance(answer, Number):
        return answer.shown
    said = labels(answer)
    if isinstance(answer, Choice):
        return said[answer.key]
    return "-".join(said[at] for at in answer.key)


def code_of(quiz: Quiz) -> str:
    """Return five letters that tell a quiz from others, made of what its sheets show and no more.

    They stand in the mark list, so that a class is never marked by the key of another quiz, and on
    sheets too: whoever has these can make the letters himself, so that they give nothing away.
    """
    held = vars(quiz)  # as cached_property does: five documents print it, of a frozen quiz
    if _CODE not in held:
        held[_CODE] = _code(
            part
            for sheet in quiz.sheets
            for asked in sheet.questions
            for part in (str(sheet.number), *_shown(asked))
        )
    return str(held[_CODE])


def code_of_answers(quiz: Quiz) -> str:
    """Return five letters for all keys: whoever has the sheets could try keys until they fit.

    They belong into the key's file alone, where they show that no key was changed.
    """
    return _code(written(asked.answer) for sheet in quiz.sheets for asked in sheet.questions)


def _code(parts: Iterable[str]) -> str:
    number = int.from_bytes(sha256(_BETWEEN.join(parts).encode()).digest()[:8], "big")
    code = ""
    for _ in range(_CODE_LENGTH):
        number, at = divmod(number, len(_CODE_LETTERS))
        code += _CODE_LETTERS[at]
    return code


def _shown(asked: Question) -> Iterator[str]:
    """Yield what a sheet shows of a question; a number's unit and tolerance stand in its text."""
    yield asked.text
    yield from asked.assumptions
    if asked.drawing:
        yield from _plain(tuple(vars(asked.drawing).values()))
    if asked.grid:
        yield from _plain((asked.grid.title, asked.grid.columns, asked.grid.rows))
    if isinstance(asked.answer, Choice):
        yield from (option.text for option in asked.answer.options)
    elif isinstance(asked.answer, Sequence):
        yield from asked.answer.items


def _plain(part: Any) -> Iterator[str]:
    """Yield the texts and figures in a part, 90 and 90.0 alike as a file may hold either."""
    if isinstance(part, tuple):
        for one in part:
            yield from _plain(one)
    else:
        yield part if isinstance(part, str) else f"{part:g}"
