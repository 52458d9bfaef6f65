"""What lies already where a file of a quiz is to go: no answers are lost, nor the key to them."""

from __future__ import annotations

import json
import os.path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from torquebook.errors import Unreadable
from torquebook.quiz.keyfile import WHAT
from torquebook.quiz.letters import code_of
from torquebook.quiz.listform import CODE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from torquebook.quiz.answerlist import AnswerList, AnswerRow
    from torquebook.quiz.model import Quiz

_RIGHT: Final = "name another --out, or move that file away first"
_TABLES: Final = (".csv", ".xlsx")
_MOST_SHOWN: Final = 3  # codes of quizzes in one message


def refuse_held(path: str) -> None:
    """Refuse to write anything else where answers or a key lie.

    Raises
    ------
    Unreadable
        If the file holds a key, or a mark list that is filled in.
    """
    if _key_at(path):
        raise Unreadable(path, "it holds a key of question sheets, which would be lost", _RIGHT)
    try:
        answers = _answers_at(path) if path.casefold().endswith(_TABLES) else None
    except Unreadable:
        return  # what is no mark list may be written over, as --out says
    if answers and _codes(answers):
        raise Unreadable(path, "answers of apprentices stand in it, which would be lost", _RIGHT)


class Standing(NamedTuple):
    """What has to be heeded of the files that lie beside new sheets.

    Parameters
    ----------
    keeps_list : bool
        Whether the mark list is filled in, for this very quiz, and has to stay.
    notes : tuple of str
        What a trainer has to know.
    """

    keeps_list: bool
    notes: tuple[str, ...]


def beside(quiz: Quiz, key: str, marks: str, empty: str = "") -> Standing:
    """Return what has to be heeded before a quiz is written.

    Parameters
    ----------
    quiz : Quiz
    key, marks : str
        Where its key and its mark list, as CSV, are to go.
    empty : str
        The list before anybody has filled it in.

    Raises
    ------
    Unreadable
        If answers to another quiz would lose their key, or something else would be lost.
    """
    code = code_of(quiz)
    keeps_list = _is_filled_in(marks, code, empty)
    _is_filled_in(f"{os.path.splitext(marks)[0]}.xlsx", code)  # noqa: PTH122 - pathlib costs the start
    notes = [f"{marks} is filled in; it stays as it is"] if keeps_list else []
    return Standing(keeps_list, (*notes, *_replaced(key, code)))


def _is_filled_in(path: str, code: str, empty: str = "") -> bool:
    """Return whether a mark list is filled in for a quiz; refuse that of another."""
    if _held(path) == empty.encode():
        return False
    try:
        answers = _answers_at(path)
    except Unreadable as fault:
        raise Unreadable(path, f"no mark list that can be read ({fault.what})", _RIGHT) from fault
    if not answers:
        return False
    codes = _codes(answers)
    if codes == [code]:
        return True
    more = len(codes) - _MOST_SHOWN
    whose = ", ".join(codes[:_MOST_SHOWN]) + (f" and {more} more" if more > 0 else "")
    said = f"to quiz {whose}" if codes else "that name no quiz"
    what = f"answers {said} stand in it, and the key of quiz {code} would lie beside them"
    raise Unreadable(path, what, _RIGHT)


def _replaced(path: str, code: str) -> Iterator[str]:
    """Yield what is to be known of the key that the one of a quiz replaces; refuse all else."""
    key = _key_at(path)
    if not key and _held(path).strip():
        raise Unreadable(path, "no key of question sheets, and one is to go there", _RIGHT)
    if key and key.get("code") != code:
        from shlex import quote  # noqa: PLC0415 - only here

        yield (
            f"{path} was the key of quiz {key.get('code')}; --seed {quote(str(key.get('seed')))} "
            "makes that quiz again, with the options that it was made with"
        )


def _held(path: str) -> bytes:
    """Return what a file holds; nothing where there is none."""
    if not os.path.isfile(path):  # noqa: PTH113 - pathlib costs the start
        return b""
    try:
        with open(path, "rb") as file:  # noqa: PTH123 - as above
            return file.read()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror}), so that nobody knows what would be lost"
        raise Unreadable(path, what, _RIGHT) from fault


def _key_at(path: str) -> dict[str, Any]:
    """Return the key that a file holds; empty where it holds none."""
    content = _held(path)
    if WHAT.encode() not in content:
        return {}
    try:
        value = json.loads(content)
    except (ValueError, RecursionError):
        return {}
    return value if isinstance(value, dict) and value.get("what") == WHAT else {}


def _answers_at(path: str) -> AnswerList | None:
    """Return the mark list that a file holds; None where nothing is written into it."""
    if not _held(path).strip():
        return None
    from torquebook.quiz.answerlist import read_answers  # noqa: PLC0415 - the first time none lies

    answers = read_answers(path)
    blank = not answers.notes and all(map(_is_blank, answers.rows))
    return None if blank else answers


def _is_blank(row: AnswerRow) -> bool:
    """Whether a row is as it was made; a dash, too, was written by somebody."""
    return row.is_unused and not any(cell.text for cell in row.answers.values())


def _codes(answers: AnswerList) -> list[str]:
    """Return the codes of the quizzes that a list's rows name."""
    return sorted({row.text(CODE).upper() for row in answers.rows} - {""})
