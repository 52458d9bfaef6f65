"""A question as an item of QTI 2.1: what is asked, what is right, and how it is marked.

A choice is a ``choiceInteraction``, a number a ``textEntryInteraction`` that is right within the
tolerance, an order an ``orderInteraction``. An answer that is right has 1 point.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.numerals import number_text
from torquebook.quiz.answering import unit_word
from torquebook.quiz.letters import labels
from torquebook.quiz.model import Choice, Number, Sequence
from torquebook.render.quizdata.qti.xml import QTI, add, add_all, document, root
from torquebook.render.quizdata.words import described, mistakes_of

if TYPE_CHECKING:
    from xml.etree import ElementTree as ET

    from torquebook.quiz.model import Answer, Grid, Question

RESPONSE: Final = "RESPONSE"
SCORE: Final = "SCORE"
#: Scores 1 where the response is the correct one and 0 else: QTI 2.1, Standard RP Templates.
MATCH_CORRECT: Final = "http://www.imsglobal.org/question/qti_v2p1/rptemplates/match_correct"
_EXPECTED: Final = "12"  # characters of a number with its decimals
_HAIR: Final = 1e-9
_PLACES: Final = 12


def item(asked: Question, identifier: str, title: str, picture: str = "") -> bytes:
    """Return an ``assessmentItem``.

    Parameters
    ----------
    asked : Question
    identifier : str
        A name without spaces that no other item of the package has.
    title : str
    picture : str
        Where the drawing lies, from the item; it is told in words where there is none.
    """
    top = root(
        "assessmentItem",
        QTI,
        {
            "identifier": identifier,
            "title": title,
            "adaptive": "false",
            "timeDependent": "false",
            "xml:lang": "en",
            "toolName": "torquebook",
        },
    )
    _declare(top, asked)
    body = add(top, "itemBody")
    _ask(body, asked, picture)
    _interact(body, asked.answer)
    _tell_trainer(body, asked)
    _mark(add(top, "responseProcessing"), asked)
    return document(top)


def identifiers(answer: Choice | Sequence) -> tuple[str, ...]:
    """Return the identifiers of options or things to be ordered: letters, or ``P1`` and so on."""
    return tuple(label if label.isalpha() else f"P{label}" for label in labels(answer))


def _right(asked: Question) -> list[str]:
    """Return the values of the correct response."""
    answer = asked.answer
    if isinstance(answer, Number):
        return [number_text(answer.value)]
    names = identifiers(answer)
    return [names[answer.key]] if isinstance(answer, Choice) else [names[at] for at in answer.key]


def _declare(top: ET.Element, asked: Question) -> None:
    ordered = isinstance(asked.answer, Sequence)
    response = add(
        top,
        "responseDeclaration",
        identifier=RESPONSE,
        cardinality="ordered" if ordered else "single",
        baseType="float" if isinstance(asked.answer, Number) else "identifier",
    )
    add_all(add(response, "correctResponse"), "value", _right(asked))
    score = add(
        top,
        "outcomeDeclaration",
        identifier=SCORE,
        cardinality="single",
        baseType="float",
        normalMaximum="1",
    )
    add(add(score, "defaultValue"), "value", "0")


def _ask(body: ET.Element, asked: Question, picture: str) -> None:
    """Write the question, its drawing and table, and what it rests on."""
    add(body, "p", asked.text)
    if asked.drawing:
        shows = described(asked.drawing)
        if picture:
            add(add(body, "p"), "img", src=picture, alt=shows)
        else:
            add(body, "p", f"Drawing: {shows}.")
    if asked.grid:
        _table(body, asked.grid)
    add(body, "p", "Given:")
    add_all(add(body, "ul"), "li", asked.assumptions)


def _table(body: ET.Element, grid: Grid) -> None:
    table = add(body, "table")
    add(table, "caption", grid.title)
    head = add(add(table, "thead"), "tr")
    for column in grid.columns:
        add(head, "th", column, scope="col")
    rows = add(table, "tbody")
    for row in grid.rows:
        add_all(add(rows, "tr"), "td", row)


def _interact(body: ET.Element, answer: Answer) -> None:
    """Write where the answer is given: options, things to put in order, or room for a number."""
    if isinstance(answer, Number):
        line = add(body, "p", f"Answer in {unit_word(answer.unit)}: ")
        add(line, "textEntryInteraction", responseIdentifier=RESPONSE, expectedLength=_EXPECTED)
        return
    here = {"responseIdentifier": RESPONSE, "shuffle": "false"}
    if isinstance(answer, Choice):
        interaction = add(body, "choiceInteraction", maxChoices="1", **here)
        texts = [option.text for option in answer.options]
    else:
        interaction = add(body, "orderInteraction", **here)
        texts = list(answer.items)
    for name, text in zip(identifiers(answer), texts, strict=True):
        add(interaction, "simpleChoice", text, identifier=name)


def _tell_trainer(body: ET.Element, asked: Question) -> None:
    """Write the worked solution where platforms show it to trainers and markers alone."""
    block = add(body, "rubricBlock", view="scorer tutor")
    add(block, "p", asked.aim)
    add_all(add(block, "ul"), "li", asked.solution)
    if known := mistakes_of(asked.answer):
        add(block, "p", "Wrong answers that are known:")
        add_all(add(block, "ul"), "li", (f"{given}: {mistake}" for given, mistake in known))
    add(block, "p", f"Sources: {'; '.join(asked.sources)}")


def _mark(processing: ET.Element, asked: Question) -> None:
    """Say how the response is marked: a blank one is none, and has no point."""
    answer = asked.answer
    if isinstance(answer, Choice) or (isinstance(answer, Sequence) and not answer.accepted):
        processing.set("template", MATCH_CORRECT)
        return
    condition = add(processing, "responseCondition")
    found = add(condition, "responseIf")
    if isinstance(answer, Number):
        # As the model: a bound that binary numbers miss by a hair is still within.
        margin = number_text(round(answer.tolerance + _HAIR * abs(answer.value), _PLACES))
        equal = add(found, "equal", toleranceMode="absolute", tolerance=f"{margin} {margin}")
        add(equal, "variable", identifier=RESPONSE)
        add(equal, "correct", identifier=RESPONSE)
    else:
        _any_order(add(found, "or"), answer)
    _score(found, "1")
    _score(add(condition, "responseElse"), "0")


def _any_order(either: ET.Element, answer: Sequence) -> None:
    """Accept the key, or any other order that is as right."""
    match = add(either, "match")
    add(match, "variable", identifier=RESPONSE)
    add(match, "correct", identifier=RESPONSE)
    names = identifiers(answer)
    for order in answer.accepted:
        match = add(either, "match")
        add(match, "variable", identifier=RESPONSE)
        ordered = add(match, "ordered")
        for at in order:
            add(ordered, "baseValue", names[at], baseType="identifier")


def _score(rule: ET.Element, points: str) -> None:
    set_value = add(rule, "setOutcomeValue", identifier=SCORE)
    add(set_value, "baseValue", points, baseType="float")
