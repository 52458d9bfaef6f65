"""The key of a quiz as a file: all of it, from answers to sources, so that it can be read back.

It lies on the trainer's desk beside the sheets. A week later it marks the answers by itself, with
no need of the seed, the book or the version of the program that the sheets were made from.
"""

from __future__ import annotations

from dataclasses import is_dataclass
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import Unreadable
from torquebook.quiz.keynode import RIGHT, Node
from torquebook.quiz.letters import code_of, code_of_answers, labels, written
from torquebook.quiz.model import (
    AdapterWrench,
    BoltCircle,
    Choice,
    Grid,
    HeadMark,
    Number,
    Option,
    Question,
    Quiz,
    Sequence,
    Sheet,
    Slip,
)

if TYPE_CHECKING:
    from pathlib import Path

    from torquebook.quiz.model import Answer, Drawing

WHAT: Final = "key of question sheets"
CHOICE, NUMBER, ORDER = "choice", "number", "order"
CIRCLE, HEAD, WRENCH = "bolt circle", "head mark", "adapter wrench"
_KINDS: Final = {
    Choice: CHOICE,
    Number: NUMBER,
    Sequence: ORDER,
    BoltCircle: CIRCLE,
    HeadMark: HEAD,
    AdapterWrench: WRENCH,
}


def kind_of(part: Answer | Drawing) -> str:
    """Return the word that a document names an answer or a drawing by."""
    return _KINDS[type(part)]


def key_data(quiz: Quiz) -> dict[str, Any]:
    """Return the key of a quiz as plain values: answers, mistakes, solutions, sources."""
    return {
        "what": WHAT,
        "code": code_of(quiz),
        "code_of_answers": code_of_answers(quiz),
        "class_name": quiz.class_name,
        "date": quiz.date,
        "unit": quiz.unit,
        "level": quiz.level,
        "seed": quiz.seed,
        "families": list(quiz.families),
        "sheets": [
            {
                "sheet": sheet.number,
                "questions": [
                    {"question": number, **_question_data(asked)}
                    for number, asked in enumerate(sheet.questions, 1)
                ],
            }
            for sheet in quiz.sheets
        ],
    }


def _plain(part: Any) -> Any:
    """Return a part of a quiz as plain values."""
    if isinstance(part, tuple):
        return [_plain(one) for one in part]
    if is_dataclass(part):
        return {name: _plain(value) for name, value in vars(part).items()}
    return part


def _question_data(asked: Question) -> dict[str, Any]:
    held: dict[str, Any] = _plain(asked)
    answer = {"kind": kind_of(asked.answer), "written": written(asked.answer), **held["answer"]}
    if isinstance(asked.answer, Choice):
        options = zip(labels(asked.answer), held["answer"]["options"], strict=True)
        answer["options"] = [{"letter": letter, **option} for letter, option in options]
    held["answer"] = answer
    if asked.drawing:
        held["drawing"] = {"kind": kind_of(asked.drawing), **held["drawing"]}
    return held


def read_key(source: str | Path) -> Quiz:
    """Return the quiz whose key a file holds.

    Parameters
    ----------
    source : str or Path
        A JSON file of what :func:`key_data` gives, or ``-`` for standard input.

    Raises
    ------
    Unreadable
        If it is none: with the line and column of the value that is missing or wrong.
    """
    from torquebook.plans import intake, jsontext  # noqa: PLC0415 - who writes a key reads none
    from torquebook.quiz.files import take_in  # noqa: PLC0415 - as above

    content, name = take_in(source, RIGHT)
    text = intake.decode(content, name, [])
    value, positions = jsontext.load(text, name) if text.lstrip().startswith("{") else ({}, {})
    if value.get("what") != WHAT:
        raise Unreadable(name, f"this is no {WHAT}", RIGHT)
    top = Node(value, (), positions, name)
    quiz = Quiz(
        class_name=top.at("class_name").text(),
        date=top.at("date").text(),
        unit=top.at("unit").text(),
        level=top.at("level").whole(),
        seed=top.at("seed").text(),
        families=top.at("families").each(Node.text),
        sheets=top.at("sheets").each(_sheet),
    )
    if not quiz.sheets:
        raise top.at("sheets").wrong("there is no sheet in this key")
    if len({sheet.number for sheet in quiz.sheets}) < len(quiz.sheets):
        raise top.at("sheets").wrong("two sheets have the same number")
    if top.at("code").text() != code_of(quiz):
        raise top.at("code").wrong("the questions below are not those that this code stands for")
    if top.at("code_of_answers").text() != code_of_answers(quiz):
        raise top.at("code_of_answers").wrong(
            "the answers below are not those that this code stands for"
        )
    return quiz


def _sheet(node: Node) -> Sheet:
    return Sheet(node.at("sheet").whole(), node.at("questions").each(_question))


def _question(node: Node) -> Question:
    return node.built(
        lambda: Question(
            family=node.at("family").text(),
            level=node.at("level").whole(),
            aim=node.at("aim").text(),
            text=node.at("text").text(),
            assumptions=node.at("assumptions").each(Node.text),
            answer=_answer(node.at("answer")),
            solution=node.at("solution").each(Node.text),
            sources=node.at("sources").each(Node.text),
            drawing=node.at("drawing").maybe(_drawing),
            grid=node.at("grid").maybe(_grid),
        )
    )


def _answer(node: Node) -> Answer:
    kind = node.at("kind").text()
    readers = {CHOICE: _choice, NUMBER: _number, ORDER: _order}
    if kind not in readers:
        raise node.at("kind").wrong(f'"{kind}" is no kind of answer')
    return node.built(lambda: readers[kind](node))


def _choice(node: Node) -> Answer:
    return Choice(
        node.at("options").each(lambda o: Option(o.at("text").text(), o.at("mistake").text()))
    )


def _number(node: Node) -> Answer:
    return Number(
        value=node.at("value").number(),
        unit=node.at("unit").text(),
        tolerance=node.at("tolerance").number(),
        decimals=node.at("decimals").whole(),
        slips=node.at("slips").each(lambda s: Slip(s.at("value").number(), s.at("mistake").text())),
    )


def _order(node: Node) -> Answer:
    return Sequence(
        items=node.at("items").each(Node.text),
        key=node.at("key").each(Node.whole),
        accepted=node.at("accepted").each(lambda order: order.each(Node.whole)),
    )


def _drawing(node: Node) -> Drawing:
    kind = node.at("kind").text()
    if kind == HEAD:
        return HeadMark(node.at("mark").text(), node.at("head").text())
    if kind == CIRCLE:
        return BoltCircle(
            count=node.at("count").whole(),
            start_deg=node.at("start_deg").number(),
            clockwise=node.at("clockwise").flag(),
            order=node.at("order").each(Node.whole),
        )
    if kind == WRENCH:
        return AdapterWrench(
            lever_mm=node.at("lever_mm").number(),
            adapter_mm=node.at("adapter_mm").number(),
            angle_deg=node.at("angle_deg").number(),
            lever_text=node.at("lever_text").text(),
            adapter_text=node.at("adapter_text").text(),
        )
    raise node.at("kind").wrong(f'"{kind}" is no kind of drawing')


def _grid(node: Node) -> Grid:
    return Grid(
        title=node.at("title").text(),
        columns=node.at("columns").each(Node.text),
        rows=node.at("rows").each(lambda row: row.each(Node.text)),
    )
