"""A reader of QTI 2.1 items for tests: it knows no more of them than the standard says.

It reads with a general XML reader of the standard library and marks by response processing and
expressions as IMS QTI 2.1, Assessment Test, Section and Item Information Model, has them;
``match_correct`` is the standard template of that name.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from xml.dom import minidom

if TYPE_CHECKING:
    from xml.dom.minidom import Element

    Value = float | str | bool | tuple[str, ...] | None


def parsed(document: bytes) -> Element:
    """Return the root of a document."""
    root = minidom.parseString(document).documentElement  # noqa: S318 - the document is ours
    assert root is not None
    return root


def children(element: Element) -> list[Element]:
    """Return an element's elements."""
    return [node for node in element.childNodes if node.nodeType == node.ELEMENT_NODE]


def text_of(element: Element) -> str:
    """Return all text in an element."""
    return "".join(
        node.data if node.nodeType == node.TEXT_NODE else text_of(node)
        for node in element.childNodes
    )


class Item:
    """An item that can be answered and marked."""

    def __init__(self, document: bytes) -> None:
        self.top = parsed(document)
        (self.response,) = self.top.getElementsByTagName("responseDeclaration")
        self.base = self.response.getAttribute("baseType")
        self.ordered = self.response.getAttribute("cardinality") == "ordered"

    @property
    def identifiers(self) -> list[str]:
        """The identifiers of what there is to choose or to put in order."""
        return [
            one.getAttribute("identifier") for one in self.top.getElementsByTagName("simpleChoice")
        ]

    def correct(self) -> Value:
        """Return the correct response."""
        values = [text_of(one) for one in self.response.getElementsByTagName("value")]
        if self.ordered:
            return tuple(values)
        (value,) = values
        return float(value) if self.base == "float" else value

    def score(self, response: Value) -> float:
        """Return the points of a response; None is a blank one."""
        (processing,) = self.top.getElementsByTagName("responseProcessing")
        if template := processing.getAttribute("template"):
            assert template.endswith("/qti_v2p1/rptemplates/match_correct")
            assert not children(processing)
            return float(response is not None and response == self.correct())
        (condition,) = children(processing)
        holds, otherwise = children(condition)
        assert (holds.tagName, otherwise.tagName) == ("responseIf", "responseElse")
        test, then = children(holds)
        (instead,) = children(otherwise)
        chosen = then if self.value(test, response) is True else instead
        assert (chosen.tagName, chosen.getAttribute("identifier")) == ("setOutcomeValue", "SCORE")
        return float(text_of(chosen))

    def value(self, element: Element, response: Value) -> Value:
        """Return the value of an expression; whatever takes in a NULL is NULL, but ``or``."""
        leaves = {
            "variable": lambda: response,
            "correct": self.correct,
            "baseValue": lambda: text_of(element),
        }
        if element.tagName in leaves:
            return leaves[element.tagName]()
        parts = [self.value(one, response) for one in children(element)]
        if element.tagName == "or":
            return any(part is True for part in parts)
        if None in parts:
            return None
        operators = {"ordered": tuple, "match": lambda pair: pair[0] == pair[1], "equal": equal}
        found: Value = operators[element.tagName](
            [*parts, element] if element.tagName == "equal" else parts
        )
        return found


def equal(given: list[Any]) -> bool:
    """Return whether two numbers are equal within an absolute tolerance, ends included."""
    first, second, element = given
    assert element.getAttribute("toleranceMode") == "absolute"
    below, above = map(float, element.getAttribute("tolerance").split())
    return bool(second - below <= first <= second + above)
