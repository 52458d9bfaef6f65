"""The card of one joint."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from torquebook import units
from torquebook.jobs.parts import decided
from torquebook.render.pattern import drawing
from torquebook.render.sheet.model import Blank, JointCard, OrderRow, ReuseBox, StageRow
from torquebook.render.sheet.orders import drawn, order_rows
from torquebook.render.sheet.words import marks

if TYPE_CHECKING:
    from collections.abc import Sequence

    from torquebook.findings import Finding
    from torquebook.jobs.model import WorkedJoint, WorkedStage
    from torquebook.records.joint import JointRecord
    from torquebook.render.sheet.words import Words
    from torquebook.reuse.model import Comparison

DRAWING_MM: Final = 25.0
_WHOLE: Final = 20.0  # from here on a scale is read in whole numbers
_VERDICTS: Final = {
    "renew": "RENEW",
    "measure": "MEASURE, then reuse",
    "clean": "CLEAN, then reuse",
    "reuse": "REUSE",
}
_UNMEASURED: Final = re.compile(r"^not (?:measured|counted)[^,;]*[,;]? ?")
_UNITS: Final = {"share": "%", "times": "times", "N.m": "N.m", "mm": "mm"}


def joint_card(
    joint: WorkedJoint, findings: Sequence[Finding], unit: str, words: Words
) -> JointCard:
    """Return the card of a joint.

    Parameters
    ----------
    joint : WorkedJoint
    findings : sequence of Finding
        What is printed beside it.
    unit : str
        In which its torque is written down.
    words : Words
    """
    record = joint.held.record
    said = words.said
    return JointCard(
        number=joint.number,
        name=said(record.name),
        fastener=said(fastener_text(record)),
        drawing=_drawing(joint, words),
        stages=tuple(_stage(stage, words) for stage in joint.stages),
        orders=tuple(OrderRow(said(row.what), said(row.order)) for row in order_rows(joint)),
        before=tuple(said(text) for text in (*record.conditions, record.note) if text),
        snug=said(record.snug or ""),
        have=tuple(said(text) for text in record.supplies),
        reuse=_reuse(joint, words),
        alerts=tuple(words.alert(finding, joint.number) for finding in findings),
        value=Blank(_value_asked(joint), words.unit(unit)),
        count=record.count,
        note=words.source(record.source),
    )


def fastener_text(record: JointRecord) -> str:
    """Return the fasteners of a joint in words: ``8 x M10x1.25 10.9, small flange, 32 mm``."""
    bolt = record.fastener
    parts = [" ".join(part for part in (bolt.thread, bolt.strength_class) if part)]
    parts += [bolt.head] if bolt.head else []
    parts += [f"{bolt.length_mm:g} mm long"] if bolt.length_mm else []
    parts += [f"nut {bolt.nut}"] if bolt.nut else []
    parts += [bolt.kind] if bolt.kind and bolt.kind not in bolt.features else []
    parts += [feature for feature in bolt.features if feature != "plain"]
    parts += [record.friction] if record.friction else []
    return f"{record.count} × {', '.join(parts)}"


def _drawing(joint: WorkedJoint, words: Words) -> str:
    """Return the drawing of the bolts; empty where positions or order are not known."""
    order, groups = drawn(joint)
    if not (joint.spots and order):
        return ""
    return drawing(
        joint.spots,
        order,
        title=words.said(joint.held.record.name),
        size_mm=DRAWING_MM,
        groups=tuple(groups.values())[1:],
    )


def _stage(stage: WorkedStage, words: Words) -> StageRow:
    window = ""
    if stage.window:
        low, high = (_rounded(value) for value in stage.window)
        window = f"{low.value:g}–{units.write(high)}"
    return StageRow(
        number=stage.number,
        shown=words.said(stage.shown),
        setting=words.said(units.write(stage.setting)) if stage.setting else "",
        wrench=words.said(f"{stage.wrench}, {stage.aim}" if stage.aim else stage.wrench),
        window=words.said(window),
        missing="" if stage.covered else "none of the wrenches at hand covers it",
    )


def _rounded(value: units.Quantity) -> units.Quantity:
    """Return what a wrench will show, as near as its scale can be read."""
    return value._replace(value=round(value.value, 0 if value.value >= _WHOLE else 1))


def _value_asked(joint: WorkedJoint) -> str:
    return "shown at the end" if any(stage.window for stage in joint.stages) else "value"


def _reuse(joint: WorkedJoint, words: Words) -> ReuseBox:
    """Return what counts for each thing that came out; what others say is named."""
    answer, limits = joint.reuse, joint.held.record.reuse
    things = decided(joint)
    counting = [ruling for rulings in things.values() for ruling in rulings]
    said = [one for ruling in counting for one in ruling.comparisons]
    notes = [
        words.note(limits.source)
        if limits and one.is_makers
        else words.source(one.rule.record.source)
        for one in counting
    ]
    others: dict[str, list[int]] = {}
    for one in answer.rulings:
        if one not in counting and one.verdict != answer.verdict:
            others.setdefault(one.verdict, []).append(words.source(one.rule.record.source))
    named = [(item, _VERDICTS[first.verdict]) for item, (first, *_) in things.items()]
    alone = len(named) == 1 and named[0][0].what == "bolt"
    verdict = "; ".join(word if alone else f"{item.what}: {word}" for item, word in named)
    return ReuseBox(
        verdict=words.said(verdict),
        looks=tuple(words.said(one.said) for one in said if one.check.quantity == "look"),
        letter="",
        blanks=tuple(_blank(one, words) for one in said if one.check.quantity != "look"),
        otherwise=tuple(
            words.said(one.rule.record.otherwise) for one in counting if one.rule.record.otherwise
        ),
        doubts=tuple(words.said(doubt) for doubt in answer.doubts),
        others="; ".join(f"{verdict} {marks(numbers)}" for verdict, numbers in others.items()),
        notes=tuple(dict.fromkeys(notes)),
    )


def _blank(one: Comparison, words: Words) -> Blank:
    """Return what is to be measured, with the limit that the comparison names."""
    unit = _UNITS.get(one.check.unit or "", "")
    limit = _UNMEASURED.sub("", one.said)
    return Blank(words.said(one.check.what), words.unit(unit), words.said(limit))
