"""The rulebook's answer: every rule that applies, and which of them counts first."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from torquebook.catalogue.lookup import near, plain
from torquebook.errors import NotUnderstood
from torquebook.records.reuse import ReuseRule
from torquebook.reuse.comparing import comparisons
from torquebook.reuse.doubts import sound
from torquebook.reuse.drag import chosen, table_of
from torquebook.reuse.model import STRAIN, VERDICTS, ReuseAnswer, Ruling
from torquebook.reuse.silence import unheard, unused

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from torquebook.catalogue.library import Held, Library
    from torquebook.records.reuse import Feature, Given, History, Verdict
    from torquebook.reuse.model import Comparison, Measured, Used

SHELF: Final = "reuse"
#: What alone makes no bolt special: one that has nothing else is a plain one.
NEUTRAL: Final = frozenset[str](
    {"rotating part", "ribbed head", "galvanised", "electroplated", "pickled", "over 390 HV"}
)


def ruled(used: Used, library: Library, prefer: Sequence[str] = ()) -> ReuseAnswer:
    """Return what becomes of a fastener.

    What the maker says counts first, but excuses no damage; then, among rules that answer the
    same question, the preferred source's; else the strictest.

    Parameters
    ----------
    used : Used
    library : Library
    prefer : sequence of str
        Sources by title or a part of it, or rules by name or id; the first wins.

    Raises
    ------
    NotUnderstood
        If no rule has a preferred source, or there is no table of a name.
    """
    rules = library.all(SHELF, ReuseRule)
    for wanted in prefer:
        known(wanted, rules)
    measured, doubts = sound(used)
    used, remarks = _completed(replace(used, measured=measured))
    if measured.table:
        table = table_of(library, measured.table).record.name
        used = replace(used, measured=replace(measured, table=table))
    rulings, aside = _rulings(used, library, rules)
    rulings, preferred = _ordered(rulings, used, prefer)
    remarks += aside + unheard(used, rulings) + unused(used.measured, rulings)
    return ReuseAnswer(used, rulings[0].verdict, tuple(rulings), preferred, doubts, remarks)


def _rulings(
    used: Used, library: Library, rules: Sequence[Held[ReuseRule]]
) -> tuple[list[Ruling], tuple[str, ...]]:
    """Return what the rules that apply say, and which are set aside for their tables."""
    picked = used.measured.table
    found, aside = [], []
    for rule in rules:
        record = rule.record
        if not _applies(record, used):
            continue
        if _other_table(record, picked):
            aside.append(f"set aside for {picked}, which was asked for: {record.source.title}")
            continue
        compared = comparisons(record, used, library)
        missing = [one.said for one in compared if not one.listed]
        if missing and not picked:
            aside.append(f"set aside: {record.source.title}: {missing[0].partition('; ')[2]}")
            continue
        found.append(Ruling(rule, _outcome(record, compared), compared))
    if not found:
        what = ", ".join(sorted(used.features | used.history))
        raise NotUnderstood(what, "no rule of the book applies to it")
    return found, tuple(aside)


def _completed(used: Used) -> tuple[Used, tuple[str, ...]]:
    """Return a fastener with what is taken for granted where nothing special was said."""
    remarks = used.notes
    if used.features - NEUTRAL - {"plain"}:
        return used, remarks
    features: frozenset[Feature] = used.features | {"plain"}
    history = used.history
    if not used.features - NEUTRAL:
        remarks += ("nothing special was said of it: taken as a plain fastener",)
    if not history & STRAIN:
        elastic: frozenset[History] = frozenset({"elastic"})
        history |= elastic
        remarks += ("taken as tightened in its elastic range, for nothing else was said",)
    return replace(used, features=features, history=history), remarks


#: Features of bolts whose only question is how far they are stretched; a patch, a nut that turns,
#: brittle steel or a washer ask others, which no limit of length or uses answers.
STRETCHED: Final[frozenset[Feature]] = frozenset(
    (
        "plain", "stretch", "angle tightened", "driveline", "suspension", "flywheel",
        "clutch cover", "wheel", "ribbed head", "aluminium",
    )
)  # fmt: skip
_GIVEN: Final[dict[Given, Callable[[Measured], bool]]] = {
    "always new": lambda m: m.always_new,
    "length limit": lambda m: m.limit_length_mm is not None,
    "uses allowed": lambda m: m.uses_allowed is not None,
    "least diameter": lambda m: m.least_diameter_mm is not None,
    "most difference": lambda m: m.most_difference_mm is not None,
    "growth": lambda m: (
        m.length_mm is not None and m.new_length_mm is not None and m.limit_length_mm is None
    ),
}


def _applies(rule: ReuseRule, used: Used) -> bool:
    """Return whether a rule speaks of such a fastener."""
    asked = (
        (rule.features, used.features),
        (rule.also, used.features),
        (rule.histories, used.history),
        (rule.classes, {used.strength_class}),
    )
    return (
        all(not wanted or set(wanted) & has for wanted, has in asked)
        and not set(rule.unless) & used.features
        and all(_GIVEN[what](used.measured) for what in rule.given)
    )


def _other_table(rule: ReuseRule, picked: str) -> bool:
    """Return whether a rule goes by tables, and the picked one is not among them."""
    drags = [check for check in rule.checks if check.quantity == "drag"]
    return bool(drags and picked and not chosen(drags, picked))


def _outcome(rule: ReuseRule, compared: Sequence[Comparison]) -> Verdict:
    """Return a rule's verdict after the measurements: what failed is renewed."""
    if any(one.passed is False for one in compared):
        return "renew"
    measures = [one for one in compared if one.check.quantity != "look"]
    if rule.verdict == "measure" and measures and all(one.passed for one in measures):
        return "reuse"
    return rule.verdict


def _ordered(rulings: list[Ruling], used: Used, prefer: Sequence[str]) -> tuple[list[Ruling], str]:
    """Return the rulings, the one that counts first, and the preferred source that decided."""
    liked = [one for wanted in prefer for one in rulings if _is(wanted, one.rule)]
    makers = any(one.is_makers for one in rulings)
    own = [one.rule.record for one in rulings if one.rule.record.source.kind == "maker"]
    told = {feature for record in own for feature in record.features}
    by_preference = {
        id(one)
        for one in rulings
        for place, other in enumerate(liked)
        if _same_question(one, other, used) and one not in liked[: place + 1]
    }

    def answers(record: ReuseRule) -> bool:
        """Return whether the maker answers what a rule asks, by a limit or a rule of his own."""
        damaged = bool(set(record.histories) - STRAIN)
        spoken = bool(set(record.features) & told)
        stretched = not record.classes and set(record.features) <= STRETCHED
        return not damaged and (spoken or stretched)

    def key(one: Ruling) -> tuple[bool, bool, int, bool, int, str]:
        record = one.rule.record
        outranked = makers and not one.is_makers and answers(record)
        worst = VERDICTS.index(one.verdict)
        aside = id(one) in by_preference and not one.is_makers
        return outranked, aside, worst, not one.is_makers, -record.strictness, one.rule.id

    rulings = sorted(rulings, key=key)
    first = rulings[0]
    decided = first in liked and not first.is_makers and bool(by_preference)
    return rulings, first.rule.record.source.title if decided else ""


def _same_question(one: Ruling, other: Ruling, used: Used) -> bool:
    """Return whether two rules speak of the same thing on a fastener, under the same conditions."""
    first, second = one.rule.record, other.rule.record
    shared = set(first.features) & set(second.features) & used.features
    return bool(shared) and all(
        set(getattr(first, name)) == set(getattr(second, name))
        for name in ("also", "histories", "classes", "given")
    )


def _is(wanted: str, rule: Held[ReuseRule]) -> bool:
    """Return whether a preference means a rule or its source."""
    record, text = rule.record, plain(wanted)
    if text in {plain(rule.id), plain(rule.id.partition("/")[2]), plain(record.name)}:
        return True
    return f" {text} " in f" {plain(record.source.title).replace(',', ' ')} "


def known(wanted: str, rules: Sequence[Held[ReuseRule]]) -> None:
    """Raise ``NotUnderstood`` where a preference means no rule of the book."""
    if not any(_is(wanted, rule) for rule in rules):
        titles = list(dict.fromkeys(rule.record.source.title for rule in rules))
        raise NotUnderstood(wanted, "no rule has such a source", near(wanted, titles))
