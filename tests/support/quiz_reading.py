"""Numbers and words of a printed question."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from torquebook.quiz.model import Question

UNIT = r"(N·m|lbf·ft|lbf·in|kgf·m|kgf·cm)"
NUMBER = r"(\d+(?:\.\d+)?)"
SIZE = r"(M\d+(?:x\d+(?:\.\d+)?)?|\d+(?:-\d+)?(?:/\d+)?-\d+)"
CLASS = r"(\d+\.\d+|A\d-\d0|SAE \d)"


def said(question: Question) -> str:
    """Return the text and the assumptions."""
    return " ".join((question.text, *question.assumptions))


def find(pattern: str, text: str) -> Any:
    """Return the groups of the one place where a pattern fits."""
    found = re.search(pattern, text)
    assert found, f"{pattern} is not in: {text}"
    return found.groups() if len(found.groups()) > 1 else found[1]


def bolt(question: Question) -> tuple[str, str]:
    """Return the size and the class of the bolt that a question is about."""
    size, name = find(rf"bolt {SIZE} of class {CLASS}", question.text)
    return size, name
