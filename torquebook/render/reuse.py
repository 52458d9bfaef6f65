"""The answer of ``reuse``: verdict, comparison in numbers, why, source, and what others say."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any, Final

from torquebook.render.cautions import CAUTION

if TYPE_CHECKING:
    from torquebook.render.paper import Paper
    from torquebook.reuse.asking import Answered, Asked
    from torquebook.reuse.model import Comparison, ReuseAnswer, Ruling

_WORDS: Final = {
    "renew": "RENEW",
    "measure": "MEASURE",
    "clean": "CLEAN, THEN REUSE",
    "reuse": "REUSE",
}
_HEADS: Final = ("joint", "count", "thread", "verdict", "why")
_WIDTHS: Final = (24, 5, 8, 10, 21)
_UNSAID: Final = "not stated"


def text(answer: Answered, paper: Paper) -> None:
    """Write one answer in full, or a job's joints as a table."""
    if answer.job:
        _job(answer, paper)
    else:
        (asked,) = answer.asked
        _one(asked, paper)
    paper.gap()
    paper.text(CAUTION)


def _job(answer: Answered, paper: Paper) -> None:
    paper.heading(f"{answer.job}: what goes back in")
    rows = [
        (
            asked.name,
            str(asked.count),
            asked.answer.used.thread.size if asked.answer.used.thread else "",
            _verdict(asked.answer.rulings[0]),
            asked.answer.rulings[0].rule.record.name,
        )
        for asked in answer.asked
    ]
    paper.grid(rows, _HEADS, _WIDTHS, right={1})
    for asked in answer.asked:
        for doubt in asked.answer.doubts:
            paper.text(f"{asked.name}: {doubt}", 2, 4)
    paper.gap()
    paper.text("One joint with its checks and sources: torquebook reuse --joint NAME")


def _one(asked: Asked, paper: Paper) -> None:
    answer = asked.answer
    first, *others = answer.rulings
    paper.heading(f"{_verdict(first)}: {asked.name}")
    for doubt in answer.doubts:
        paper.text(f"Cannot be right: {doubt}.", 2, 4)
    _ruling(first, paper)
    if first.is_makers:
        paper.text(f"the maker's word: {asked.limits_source or 'as typed'}", 2, 4)
    if answer.preferred:
        paper.text(f"This source was preferred: {answer.preferred}.", 2, 4)
    if others:
        paper.heading("Others say")
        for ruling in others:
            _other(ruling, paper)
    if answer.remarks:
        paper.heading("Taken for granted, worked out, or not spoken of")
        for remark in answer.remarks:
            paper.text(remark, 2, 4)


def _verdict(ruling: Ruling) -> str:
    """Return the verdict in large; a bolt that was measured goes in as measured."""
    measured = ruling.verdict == "reuse" and ruling.rule.record.verdict == "measure"
    return _WORDS[ruling.verdict] + (", AS MEASURED" if measured else "")


def _ruling(ruling: Ruling, paper: Paper) -> None:
    record = ruling.rule.record
    paper.text(record.title, 2, 4)
    for one in ruling.comparisons:
        paper.text(f"{_mark(one)}: {_said(one)}", 4, 6)
    if record.otherwise and not any(one.passed is False for one in ruling.comparisons):
        paper.text(record.otherwise, 4, 6)
    paper.text(f"why: {record.why}", 2, 4)
    paper.text(f"source: {record.source.line}", 2, 4)
    if record.source.conditions != _UNSAID:
        paper.text(f"holds for: {record.source.conditions}", 2, 4)
    paper.text(f"rule: {ruling.rule.id}", 2, 4)


def _mark(one: Comparison) -> str:
    if one.check.quantity == "look":
        return "look"
    if one.passed is None:
        return "open"
    return "passed" if one.passed else "FAILED"


def _said(one: Comparison) -> str:
    """Return a comparison; what is measured says first what that is."""
    return one.said if one.check.quantity == "look" else f"{one.check.what}: {one.said}"


def _other(ruling: Ruling, paper: Paper) -> None:
    record = ruling.rule.record
    paper.text(f"{_verdict(ruling)}: {record.title}", 2, 4)
    for one in ruling.comparisons:
        if one.check.quantity != "look":
            paper.text(f"{_mark(one)}: {one.said}", 4, 6)
    paper.text(f"source: {record.source.line} (rule: {ruling.rule.id})", 4, 6)


def data(answer: Answered) -> dict[str, Any]:
    """Return the answer for a program."""
    return {
        "job": answer.job or None,
        "fasteners": [
            {"name": asked.name, "count": asked.count, **answer_data(asked.answer)}
            for asked in answer.asked
        ],
        "caution": CAUTION,
    }


def answer_data(answer: ReuseAnswer) -> dict[str, Any]:
    """Return one answer for a program."""
    used = answer.used
    return {
        "verdict": answer.verdict,
        "thread": used.thread.size if used.thread else None,
        "class": used.strength_class or None,
        "features": sorted(used.features),
        "history": sorted(used.history),
        "measured": asdict(used.measured),
        "rulings": [_ruling_data(ruling) for ruling in answer.rulings],
        "preferred": answer.preferred or None,
        "doubts": list(answer.doubts),
        "remarks": list(answer.remarks),
    }


def _ruling_data(ruling: Ruling) -> dict[str, Any]:
    record = ruling.rule.record
    return {
        "rule": ruling.rule.id,
        "title": record.title,
        "verdict": ruling.verdict,
        "rule_verdict": record.verdict,
        "strictness": record.strictness,
        "maker": ruling.is_makers,
        "checks": [
            {
                "what": one.check.what,
                "quantity": one.check.quantity,
                "said": one.said,
                "passed": one.passed,
            }
            for one in ruling.comparisons
        ],
        "otherwise": record.otherwise,
        "why": record.why,
        "source": record.source.line,
        "source_kind": record.source.kind,
        "conditions": record.source.conditions,
    }
