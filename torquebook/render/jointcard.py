"""The card of a joint: its stages large, what to set, then all that goes with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook.render.figures import figures
from torquebook.render.plaincard import facts_of, source, title

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from torquebook.answers.cards import Looked, Setting
    from torquebook.catalogue.store.writing import Card
    from torquebook.render.paper import Paper

_OWN_LINES: Final = frozenset({
    "stages", "fastener", "count", "tighten", "wrench", "order", "passes", "groups", "reuse",
    "snug", "conditions", "rechecks", "supplies", "note", "source",
})  # fmt: skip
_NAMED: Final = frozenset({"thread", "strength_class", "length_mm"})


def text(answer: Looked, paper: Paper) -> None:
    """Write the card of a joint."""
    card = answer.card or {}
    facts = card["facts"]
    title(card, paper)
    _stages(answer, facts, paper)
    rows = [*_fastener(facts), *_order(facts), *_reuse(facts.get("reuse", {})), *_said(facts)]
    rows += facts_of(facts, leave=_OWN_LINES)
    paper.gap()
    paper.columns(rows)
    source(card, paper)


def _stages(answer: Looked, facts: Mapping[str, Any], paper: Paper) -> None:
    """Write each stage on a line of its own, and under it what to set."""
    paper.gap()
    if not facts["stages"]:
        paper.heading(f"    {facts['tighten']}")
    for number, (stage, setting) in enumerate(
        zip(facts["stages"], answer.settings, strict=True), 1
    ):
        paper.heading(f"    {number}.  {stage['said']}")
        if setting and answer.wrench:
            paper.text(_setting(setting, answer.wrench), 8)
    if "wrench" in facts and answer.wrench is None:
        paper.gap()
        paper.text(f'no wrench "{facts["wrench"]}" in the book', 4)


def _setting(setting: Setting, wrench: Card) -> str:
    """Return what to set on a wrench, or why that cannot be."""
    unit = setting.unit.replace(".", "·")
    facts = wrench["facts"]
    if setting.fit:
        ends = f"{figures(facts['low'])}–{figures(facts['high'])} {unit}"
        return f"{wrench['name']}: {setting.fit} its range, {ends}"
    return f"{wrench['name']}: set {figures(setting.value, 4)} {unit}"


def _fastener(facts: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    bolt = facts["fastener"]
    said = [f"{facts['count']} ×", bolt["thread"], bolt.get("strength_class", "")]
    length = bolt.get("length_mm")
    said.append(f"× {figures(length)} mm" if length else "")
    yield "fasteners", " ".join(filter(None, said))
    yield from facts_of(bolt, leave=_NAMED)


def _order(facts: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    if "order" in facts:
        yield "order", facts["order"]
    for number, one in enumerate(facts.get("passes", ()), 1):
        stages = " and ".join(map(str, one["stages"]))
        group = f", {one['group']}" if "group" in one else ""
        yield f"pass {number}", f"stage {stages}: {one['order']}{group}"
    for group in facts.get("groups", ()):
        yield group["name"], f"positions {', '.join(map(str, group['positions']))}"
    if "snug" in facts:
        yield "snug", facts["snug"]


def _reuse(limits: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield what the record says of using the fasteners again."""
    if not limits:
        return
    said = ["always new"] if limits.get("always_new") else []
    if "uses_allowed" in limits:
        said.append(f"{limits['uses_allowed']} times at most")
    if "length_new_mm" in limits:
        said.append(f"{figures(limits['length_new_mm'], 4)} mm long when new")
    if "length_limit_mm" in limits:
        said.append(f"renew above {figures(limits['length_limit_mm'], 4)} mm")
    yield "again", " ".join([", ".join(said), f"({limits['source']})"])


def _said(facts: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield conditions, cautions, and what is looked at again later."""
    for key, label in (("conditions", "first"), ("supplies", "supplies")):
        for at, line in enumerate(facts.get(key, ())):
            yield ("" if at else label), line
    for at, check in enumerate(facts.get("rechecks", ())):
        yield ("" if at else "later"), f"{check['what']}, after {check['after']}"
    if "note" in facts:
        yield "note", facts["note"]
