"""A class is marked as it was counted by hand, and nothing that was copied is lost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from quiz_class import QUIZ, quizzes

from torquebook.errors import Unreadable
from torquebook.quiz.answerlist import AnswerList, read_answers
from torquebook.quiz.given import IN_TURN, OTHER_NUMBER, TURNED
from torquebook.quiz.keyfile import read_key
from torquebook.quiz.letters import code_of, labels, written
from torquebook.quiz.listform import COLUMNS, empty_rows
from torquebook.quiz.marking import Marking, Status, mark
from torquebook.quiz.model import Choice, Number, Quiz
from torquebook.quiz.tallies import Mistake, tallies

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.quiz.model import Question

CODE = code_of(QUIZ)
BY_ITS_OWN = "mark this row by the key of its own"
COMMA = "the comma in 1,350 may mark thousands or decimals"
#: As a spreadsheet of a country with decimal commas saves it.
CLASS = f"""\ufeffSheet;Quiz;Name;1;2;3;4;remarks\r
1;{CODE};Ann;c;47,2 Nm;1-3-2-4;11,8;\r
2;{CODE};Ben;64;A);BCA;-;ill last week\r
3;{CODE.lower()};Cleo;4-2-3-1;12 %;a;about 50;\r
1;;Dan;B;1,350;1,2,3,4;0;\r
;;;;;;;\r
Sheet 7;{CODE};Eve;a;b;c;d;\r
2;BCDFG;Finn;a;b;c;d;\r
3;{CODE};;;;;;\r
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return the path of a list, to be written."""
    return tmp_path / "answers.csv"


def marked(file: Path, text: str, quiz: Quiz = QUIZ) -> Marking:
    """Return a class whose list is a text."""
    file.write_bytes(text.encode())
    return mark(quiz, read_answers(file))


def test_a_class_as_counted_by_hand(file: Path) -> None:
    """Points, and answers by what became of them; a doubtful cell is neither right nor wrong."""
    found = marked(file, CLASS)
    assert [(one.name, one.sheet, one.points) for one in found.apprentices] == [
        ("Ann", "1", (4, 4)),
        ("Ben", "2", (1, 1)),
        ("Cleo", "3", (1, 2)),
        ("Dan", "1", (0, 1)),
        ("Eve", "Sheet 7", (0, 0)),
        ("Finn", "2", (0, 0)),
    ]
    assert [one.percent for one in found.apprentices] == [
        (100, 100), (25, 25), (25, 50), (0, 25), None, None,
    ]  # fmt: skip
    right, wrong, left_out, unread = Status
    assert [[one.status for one in row.marks] for row in found.apprentices] == [
        [right, right, right, right],
        [wrong, wrong, right, left_out],
        [wrong, right, wrong, unread],
        [wrong, unread, wrong, wrong],
        [],
        [],
    ]


def test_mistakes_as_counted_by_hand(file: Path) -> None:
    """The least share right of all asked comes first, 1 of 4 before 1 of 3; then the name."""
    found = {one.family: one for one in tallies(marked(file, CLASS).marks)}
    right, wrong, left_out, unread = Status
    assert {slug: (one.asked, dict(one.counts)) for slug, one in found.items()} == {
        "spanner": (4, {right: 1, wrong: 3}),
        "order": (3, {right: 1, wrong: 2}),
        "torque": (4, {right: 1, wrong: 1, unread: 2}),
        "oil": (4, {right: 2, wrong: 1, left_out: 1}),
        "steps": (1, {right: 1}),
    }
    assert list(found) == ["spanner", "torque", "order", "oil", "steps"]
    assert found["spanner"].mistakes == (
        Mistake("the spanner of …", 2), Mistake("the thread's diameter", 1),
    )  # fmt: skip
    assert {one.text for one in found["order"].mistakes} == {TURNED, IN_TURN}
    assert found["torque"].mistakes == (Mistake("the number in lbf·ft", 1),)
    assert found["torque"].aim == "Know torque."
    assert found["steps"].mistakes == ()


def test_every_bad_cell_has_one_message_with_its_place(file: Path) -> None:
    """File and cell, the text, what is wrong, and what would be right where that can be said."""
    found = marked(file, CLASS)
    said = [f"{one.place}: {one.message}" for one in found.problems]
    assert said == [
        f'{file} cell G4: "about 50": a number is wanted, with its unit if that is not N·m',
        f'{file} cell E5: "1,350": {COMMA}; write 1350 or 1.35',
        f'{file} cell A7: "Sheet 7": the key has the sheets 1 to 3; write one of them here',
        f'{file} cell B8: "BCDFG": the key is that of quiz {CODE}; {BY_ITS_OWN}',
    ]
    assert [one.place.line for one in found.problems] == [4, 5, 7, 8]
    assert found.notes == (
        'the column "remarks" was left alone',
        "no quiz code in line 5; whether the key is the right one could not be checked",
        "sheet 1 in more rows than one; each was marked by itself",
    )


def test_slipped_rows_are_not_read(file: Path) -> None:
    """An order in commas that nobody quoted shifts what follows: the row counts as unread."""
    found = marked(file, "sheet,name,1,2,3,4\n1,Ann,c,47.2,1,3,2,4,11.8\n2,Ben,64,a,b,x\n")
    assert [one.status for one in found.apprentices[0].marks] == [Status.UNREAD] * 4
    assert [one.status for one in found.apprentices[1].marks] == [Status.WRONG] * 4
    assert "more cells than the header" in found.problems[0].message
    assert found.problems[0].place.cell == "G2"
    quoted = marked(file, 'sheet,name,1,2,3,4\n1,Ann,c,47.2,"1,3,2,4",11.8\n')
    assert quoted.apprentices[0].points == (4, 4)
    more = marked(file, "sheet,1,2,3,4,5\n1,c,47.2,1324,11.8,b\n")
    assert "sheet 1 has 4 questions; none has the number 5" in more.problems[0].message
    assert more.apprentices[0].points == (0, 4)


def test_what_a_spreadsheet_changed_is_told(file: Path) -> None:
    """A date in place of a number is told, and so is text behind a closing quote."""
    found = marked(file, 'sheet;1;2;3;4\n1;c;2026-07-04;"1-3"-2-4;11.8\n')
    assert found.apprentices[0].points == (2, 4)
    assert "turned this into a date" in found.problems[0].message
    assert "text follows the closing quote" in found.problems[1].message


def test_rows_that_nobody_handed_in_and_who_wrote_nothing(file: Path) -> None:
    """A sheet without a name or an answer is told; a name with no answer was there."""
    found = marked(file, "sheet;name;1;2;3\n1;;;;\n2;Ben;;-;\n3;Cleo;;;\n")
    assert [(one.name, one.points) for one in found.apprentices] == [
        ("Ben", (0, 0)),
        ("Cleo", (0, 0)),
    ]
    assert all(one.status is Status.LEFT_OUT for one in found.marks)
    assert found.notes == (
        "no quiz code; whether the key is the right one could not be checked",
        "nothing was handed in of sheet 1",
        "no column is named 4; these questions count as left out",
    )


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([f"1;{CODE};Ann;a", f"2;{CODE};Ben;a"], ""),
        (["1;;Ann;a", "2;;Ben;a", f"3;{CODE};;"], "no quiz code; whether"),
        ([f"1;{CODE};Ann;a", "2;;Ben;a", "3;;Cleo;a"], "no quiz code in lines 3, 4; whether"),
        ([f"1;{CODE};Ann;a", "2;;;", "3;;;"], ""),
    ],
)
def test_rows_without_a_code_are_told_once(rows: list[str], said: str, file: Path) -> None:
    """By a wrong key they would be marked without a word; sheets not handed in do not count."""
    notes = marked(file, "\n".join(["sheet;quiz;name;1", *rows])).notes
    told = [note for note in notes if "code" in note]
    assert len(told) == bool(said)
    assert all(note.startswith(said) for note in told)
    assert all(note.endswith("the key is the right one could not be checked") for note in told)


REFUSED = {
    "name;1;2\nAnn;a;b\n": 'no column is named "sheet"',
    "sheet;name\n1;Ann\n": "no column is named by a question's number",
    "sheet;1;question 1\n1;a;b\n": "columns B and C are both named",
    " \n": "the file is empty",
    'sheet;1\n1;"a\n': "a quoted cell is never closed",
}


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_list_is_refused(text: str, file: Path) -> None:
    """One message says what the first row has to be."""
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable, match=REFUSED[text]):
        read_answers(file)


def test_other_files_are_refused(tmp_path: Path) -> None:
    """A key in place of the answers, and a file that is not there."""
    key = tmp_path / "key.json"
    key.write_text("{}", encoding="utf-8")
    with pytest.raises(Unreadable, match="answers are read from a CSV or a workbook"):
        read_answers(key)
    with pytest.raises(Unreadable, match="there is no such file; name the mark list, filled in"):
        read_answers(tmp_path / "none.csv")
    with pytest.raises(Unreadable, match="there is no such file; name the key that was written"):
        read_key(tmp_path / "none.json")


def test_a_workbook_is_read_like_a_csv(tmp_path: Path) -> None:
    """Numbers typed as numbers count; a formula is told with the value to paste."""
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for row in (["sheet", "quiz", "name", 1, 2, 3, 4], [1, CODE, "Ann", "c", 47.2, 1324, "=11.8"]):
        book.active.append(row)
    path = tmp_path / "answers.xlsx"
    book.save(path)
    found = mark(QUIZ, read_answers(path))
    assert found.apprentices[0].points == (3, 4)
    assert "a formula stands here" in found.problems[0].message
    assert found.problems[0].place.cell == "G2"


def test_the_template_reads_back_empty(file: Path) -> None:
    """It has a row for each sheet with the quiz's code, and no answer."""
    rows = list(empty_rows(QUIZ))
    assert rows[:2] == [("sheet", "quiz", "name", "1", "2", "3", "4"), ("1", CODE, *[""] * 5)]
    file.write_text("".join(f"{','.join(row)}\n" for row in rows), encoding="utf-8")
    answers = read_answers(file)
    assert [row.text("sheet") for row in answers.rows] == ["1", "2", "3"]
    assert all(row.is_unused for row in answers.rows)
    assert mark(QUIZ, answers).apprentices == ()


def filled(quiz: Quiz, file: Path, write: Any) -> AnswerList:
    """Return the list of a class in which every answer is what ``write`` makes of a question."""
    count = len(quiz.sheets[0].questions)
    lines = [";".join([*COLUMNS, *map(str, range(1, count + 1))])]
    code = code_of(quiz)
    lines += [
        ";".join([str(sheet.number), code, f"a{sheet.number}", *map(write, sheet.questions)])
        for sheet in quiz.sheets
    ]
    file.write_text("\n".join(lines), encoding="utf-8")
    return read_answers(file)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a path that every example writes anew."""
    return tmp_path_factory.mktemp("answers") / "answers.csv"


@settings(max_examples=40, deadline=None)
@given(quiz=quizzes(), style=st.sampled_from((str, str.lower, str.upper)))
def test_who_answers_all_keys_has_every_point(shared: Path, quiz: Quiz, style: Any) -> None:
    """The keys as the sheets print them, in whatever letters, are right without a word."""
    found = mark(quiz, filled(quiz, shared, lambda one: style(written(one.answer))))
    assert [one.percent for one in found.apprentices] == [(100, 100)] * 3
    assert (found.problems, found.notes) == ((), ())
    assert all(one.mistakes == () for one in tallies(found.marks))


def slipped(question: Question, which: int) -> tuple[str, str]:
    """Return a wrong answer to a question, and the mistake that it shows."""
    answer = question.answer
    if isinstance(answer, Choice):
        wrong = [at for at, option in enumerate(answer.options) if not option.right]
        at = wrong[which % len(wrong)]
        return labels(answer)[at], answer.options[at].mistake
    if isinstance(answer, Number):
        if not answer.slips:
            return answer.write(answer.value + 3 * answer.tolerance), OTHER_NUMBER
        slip = answer.slips[which % len(answer.slips)]
        return f"{slip.value:.10g}", slip.mistake
    if answer.accepts(answer.key[::-1]):
        return "x", "crossed out by the trainer"
    return "-".join(labels(answer)[at] for at in answer.key[::-1]), TURNED


@settings(max_examples=40, deadline=None)
@given(quiz=quizzes(), which=st.integers(0, 5))
def test_a_slip_is_counted_under_its_mistake(shared: Path, quiz: Quiz, which: int) -> None:
    """Whoever makes the same mistake everywhere is told it everywhere, and has no point."""
    found = mark(quiz, filled(quiz, shared, lambda one: slipped(one, which)[0]))
    assert found.problems == ()
    for row in found.apprentices:
        assert row.points == (0, 0)
        assert [one.mistake for one in row.marks] == [
            slipped(one.question, which)[1] for one in row.marks
        ]
    counted = sum(one.count for tally in tallies(found.marks) for one in tally.mistakes)
    assert counted == len(found.marks) == sum(len(sheet.questions) for sheet in quiz.sheets)
