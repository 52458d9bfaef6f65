"""What the reuse rulebook says of a fastener that came out, as an entry of the bank.

An entry says nothing that only holds with a condition that its options do not show: such rules
are not asked for.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import NotUnderstood
from torquebook.quiz.answering import figure, to_nm, unit_text
from torquebook.quiz.stock import founded
from torquebook.reuse.asking import Tightened, used_in_words
from torquebook.reuse.comparing import NOT_MEASURED
from torquebook.reuse.judging import ruled
from torquebook.reuse.model import VERDICTS, Measured

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.catalogue.library import Library
    from torquebook.quiz.takenout import Out
    from torquebook.records.base import Source
    from torquebook.records.reuse import ReuseRule
    from torquebook.reuse.model import Comparison, ReuseAnswer

_NONE: Final = "; no table is named"


def verdict_on(book: Book, library: Library, out: Out) -> list[Any] | None:
    """Return what the rulebook says of a fastener, None where no printed source bears it."""
    measured = Measured(**out.measured)
    try:
        used = used_in_words(out.words, frozenset(), measured, Tightened(), book)
        answer = ruled(used, library, (out.prefer,) if out.prefer else ())
    except NotUnderstood as trouble:
        raise SystemExit(f"{out.words}: {trouble}") from trouble
    first = answer.rulings[0]
    record = first.rule.record
    if not founded(record.source.line) or answer.doubts:
        return None
    if answer.verdict == record.verdict and not _is_whole(record.otherwise or ""):
        return None
    measures = [one for one in first.comparisons if one.check.quantity != "look"]
    # What a table of drags demands is not known by heart: the question states it.
    drags = [one.said for one in measures if one.check.quantity == "drag"]
    asks = [_asked_for(said) for said in drags if _NONE not in said]
    if asks and unit_text(out.unit) not in asks[0]:
        asks.append(f"1 {unit_text(out.unit)} is {figure(to_nm(1.0, out.unit), 'N.m')}.")
    steps = [
        *(_said(one) for one in measures), record.why,
        *_besides(record, answer.verdict, out.words), *_stricter(answer),
    ]  # fmt: skip
    return [out.said, answer.verdict, steps, _whole(record.source), out.prefer, asks]


def _asked_for(said: str) -> str:
    """Return what a table demands of a used nut, without what it is called there."""
    least = re.sub(r", at most .* going on| for \S+ by .*", "", said.partition("; ")[2])
    return f"Its table asks for {least}."


def _said(one: Comparison) -> str:
    said = one.said.partition(_NONE)[0]
    drag = one.check.quantity == "drag" and said.startswith(NOT_MEASURED)
    return f"drag {said}" if drag else said


def _besides(record: ReuseRule, verdict: str, words: str) -> list[str]:
    """Return what a rule asks for besides; of what is renewed, only what is never to be done."""
    otherwise = record.otherwise or ""
    if verdict == "renew":
        return [otherwise] if otherwise.startswith("never") else []
    metal = "all-metal" in words
    looks = [
        one.what for one in record.checks
        if one.quantity == "look" and not (metal and "nylon" in one.what)
    ]  # fmt: skip
    return [
        *([f"by eye and hand: {', '.join(looks)}"] if looks else []),
        *([f"besides: {otherwise}"] if otherwise else []),
    ]


def _is_whole(otherwise: str) -> bool:
    """Return whether a verdict says all, though its rule says something besides.

    Where new ones are refused too, or it is another part that is renewed, it does not.
    """
    return not re.search(r"refuse|approval|renew the nut", otherwise)


def _stricter(answer: ReuseAnswer) -> list[str]:
    """Return the printed sources that the workshop's own choice has set aside."""
    if not answer.preferred:
        return []
    own = VERDICTS.index(answer.verdict)
    found = [
        f"stricter: {one.rule.record.source.line}: {one.verdict}"
        for one in answer.rulings
        if VERDICTS.index(one.verdict) < own and founded(one.rule.record.source.line)
    ]
    return list(dict.fromkeys(found))[:1]


def _whole(source: Source) -> str:
    """Return a source with the conditions that it holds under."""
    unsaid = source.conditions in {"", "not stated"} or source.conditions.startswith("example")
    return source.line if unsaid else f"{source.line}; {source.conditions}"
