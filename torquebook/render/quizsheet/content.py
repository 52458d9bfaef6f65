"""What is printed of a quiz: questions, keys, solutions; all text leaves here safe to show."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from torquebook.numerals import number_text
from torquebook.quiz.answering import unit_text
from torquebook.quiz.letters import code_of, labels, letter, written
from torquebook.quiz.model import AdapterWrench, Choice, Number
from torquebook.render.cautions import CAUTION
from torquebook.render.plain import ascii_only
from torquebook.render.quizsheet.drawing import drawn
from torquebook.render.quizsheet.kept import KEPT, KeptWords
from torquebook.render.quizsheet.model import (
    Asked,
    AskedSheet,
    Keyed,
    KeyedSheet,
    KeyPaper,
    QuestionPaper,
    SolutionPaper,
    Table,
    Worked,
    WorkedSheet,
)
from torquebook.render.quizsheet.rows import across

if TYPE_CHECKING:
    from torquebook.quiz.model import Answer, Drawing, Grid, Question, Quiz, Sequence, Sheet
    from torquebook.render.sheet.words import Words

TITLE: Final = "Tightening and reuse"
TRAINING: Final = f"For training: tighten nothing by this sheet. {CAUTION}"
_READING: Final = (
    "Cross the box of the one right answer. A number counts as right within its ±. "
    "An order: one letter or number in each box, the first on the left."
)
_UNITS: Final = {"mm2": "mm²", "deg": "°", "turn": "turns", "flat": "flats"}
_WIDEST: Final = 7  # columns that a table on half a page has room for
_LISTED: Final = 3  # up to so many right orders stand in the key itself


def questions_of(quiz: Quiz, *, plain: bool = False) -> QuestionPaper:
    """Return the sheets as apprentices get them; what they say depends on no key and no seed.

    Parameters
    ----------
    quiz : Quiz
    plain : bool
        Whether to keep to ASCII.
    """
    words = KeptWords(plain=plain)
    return QuestionPaper(
        title=TITLE,
        facts=words.said(_facts(quiz)),
        foot=words.said(f"{quiz.class_name or quiz.date} · {_code(quiz)}"),
        reading=words.said(_READING),
        caution=words.said(TRAINING),
        sheets=tuple(
            AskedSheet(
                _name(sheet, quiz),
                tuple(_asked(at, one, words) for at, one in enumerate(sheet.questions, 1)),
            )
            for sheet in quiz.sheets
        ),
    )


def _facts(quiz: Quiz, *more: str) -> str:
    each = len(quiz.sheets[0].questions)
    facts = (
        quiz.class_name,
        quiz.date,
        f"level {quiz.level}",
        f"{each} question{'s' if each > 1 else ''}",
        f"torques in {unit_text(quiz.unit)}",
        _code(quiz),
        *more,
    )
    return " · ".join(fact for fact in facts if fact)


def _code(quiz: Quiz) -> str:
    """Return what tells a quiz from another of the same class and day."""
    return f"code {code_of(quiz)}"


def _facts_of_keys(quiz: Quiz) -> str:
    """Return also what the quiz can be made again from."""
    return _facts(quiz, f"seed {quiz.seed}")


def _name(sheet: Sheet, quiz: Quiz) -> str:
    return f"Sheet {sheet.number} of {len(quiz.sheets)}"


def _asked(number: int, asked: Question, words: KeptWords) -> Asked:
    answer = asked.answer
    wide = isinstance(asked.drawing, AdapterWrench)
    given = words.whole if wide or not asked.drawing else words.said  # half a column is narrow
    options = _options(answer, words)
    return Asked(
        number=number,
        text=words.said(asked.text),
        given=tuple(map(given, asked.assumptions)),
        drawing=_drawing(asked.drawing, words) if asked.drawing else "",
        wide=wide,
        table=_table(asked.grid, words) if asked.grid else None,
        options=options,
        across=across([text for _, text in options]),
        unit=_unit(answer.unit, words) if isinstance(answer, Number) else "",
        margin=words.said(f"±{answer.margin}") if isinstance(answer, Number) else "",
        places=0 if isinstance(answer, Choice | Number) else len(answer.items),
    )


def _drawing(drawing: Drawing, words: Words) -> str:
    """Return a drawing, which is our own markup, so only its letters may have to change."""
    return ascii_only(drawn(drawing)) if words.plain else drawn(drawing)


def _options(answer: Answer, words: Words) -> tuple[tuple[str, str], ...]:
    """Return what is chosen from or put in order, each with its letter; positions have none."""
    if isinstance(answer, Number):
        return ()
    if isinstance(answer, Choice):
        texts = tuple(option.text for option in answer.options)
    else:
        texts = answer.items
    labelled = zip(labels(answer), map(words.said, texts), strict=True)
    return tuple((label, text) for label, text in labelled if label != text)


def _unit(unit: str, words: Words) -> str:
    return words.said(_UNITS[unit]) if unit in _UNITS else words.unit(unit)


def _table(grid: Grid, words: Words) -> Table:
    """Return a table, its columns as rows where they are too many to stand beside one another."""
    # In a narrow column a number may have to stand over its unit.
    rows = [
        tuple(words.said(cell).replace(KEPT, " ") for cell in row)
        for row in (grid.columns, *grid.rows)
    ]
    if len(grid.columns) > _WIDEST:
        rows = list(zip(*rows, strict=True))
    return Table(words.said(grid.title), rows[0], tuple(rows[1:]))


def keys_of(quiz: Quiz, *, plain: bool = False) -> KeyPaper:
    """Return the keys of all sheets, with the mistake that each wrong answer comes from.

    Parameters
    ----------
    quiz, plain
        As for :func:`questions_of`.
    """
    words = KeptWords(plain=plain)
    orders = _Orders()
    sheets = tuple(
        KeyedSheet(
            _name(sheet, quiz),
            tuple(
                Keyed(
                    at,
                    words.said(_key(one.answer, orders)),
                    tuple((words.said(a), words.said(b)) for a, b in _wrong(one.answer)),
                )
                for at, one in enumerate(sheet.questions, 1)
            ),
        )
        for sheet in quiz.sheets
    )
    return KeyPaper(
        title=f"{TITLE}: keys",
        facts=words.said(_facts_of_keys(quiz)),
        sheets=sheets,
        orders=tuple((name, words.said(text)) for name, text in orders.listed()),
        caution=words.said(TRAINING),
    )


class _Orders:
    """Lists of orders that are equally right; each is printed once for all sheets."""

    def __init__(self) -> None:
        self._lists: dict[tuple[str, ...], str] = {}

    def named(self, shown: list[str]) -> str:
        """Return the letter of a list."""
        return self._lists.setdefault(tuple(sorted(shown)), letter(len(self._lists)))

    def listed(self) -> list[tuple[str, str]]:
        """Return every letter with its orders."""
        return [(name, ", ".join(shown)) for shown, name in self._lists.items()]


def _key(answer: Answer, orders: _Orders | None = None) -> str:
    if isinstance(answer, Choice):
        return f"{written(answer)}: {answer.options[answer.key].text}"
    if isinstance(answer, Number):
        return f"{answer.shown} ±{answer.margin}"
    first, *others = (_order(answer, order) for order in (answer.key, *answer.accepted))
    if len(others) < _LISTED:
        return " or ".join((first, *others))
    if orders is None:
        return f"{first}, among others"
    return f"{first} or another of list {orders.named([first, *others])}"


def _order(answer: Sequence, order: tuple[int, ...]) -> str:
    return written(replace(answer, key=order, accepted=()))


def _wrong(answer: Answer) -> list[tuple[str, str]]:
    """Return wrong answers with their mistakes, those of one mistake together."""
    if isinstance(answer, Choice):
        found: dict[str, list[str]] = {}
        for label, option in zip(labels(answer), answer.options, strict=True):
            if not option.right:
                found.setdefault(option.mistake, []).append(label)
        return [(", ".join(letters), mistake) for mistake, letters in found.items()]
    if isinstance(answer, Number):
        return [(number_text(slip.value), slip.mistake) for slip in answer.slips]
    return []


def solutions_of(quiz: Quiz, *, plain: bool = False) -> SolutionPaper:
    """Return the ways to all keys, and where they come from.

    Parameters
    ----------
    quiz, plain
        As for :func:`questions_of`.
    """
    words = KeptWords(plain=plain)
    sheets = tuple(
        WorkedSheet(
            _name(sheet, quiz),
            tuple(
                Worked(
                    at,
                    words.said(one.aim),
                    words.said(_key(one.answer)),
                    tuple(map(words.said, one.solution)),
                    tuple(map(words.note, one.sources)),
                )
                for at, one in enumerate(sheet.questions, 1)
            ),
        )
        for sheet in quiz.sheets
    )
    return SolutionPaper(
        title=f"{TITLE}: solutions",
        facts=words.said(_facts_of_keys(quiz)),
        sheets=sheets,
        sources=words.sources,
        caution=words.said(TRAINING),
    )
