"""The answer of ``torque``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from torquebook import units
from torquebook.answers.torques import ASSEMBLY_SOURCE, TO_YIELD, USUAL_METHOD, in_unit
from torquebook.catalogue.defaults import METHODS
from torquebook.render.cautions import CAUTION
from torquebook.render.data import band
from torquebook.render.figures import figures, kilonewtons, percent, span, three_digits

if TYPE_CHECKING:
    from torquebook.answers.torques import ByFriction, Printed, Tightening, Torques
    from torquebook.bands import Band
    from torquebook.catalogue.shelves import Friction
    from torquebook.render.paper import Paper

_FULL: Final = 1.0
_MARKS: Final = {
    "!": "The high end of the band passes the proof load: find out the friction, or take less.",
    "!!": "The whole band passes the proof load: take less.",
}


def text(answer: Torques, paper: Paper) -> None:
    """Write what each torque does, what each aim needs, what tables print, and the basis."""
    what = answer.fastening
    paper.heading(f"{what.thread.size} {what.strength.name}, friction {_friction(answer)}")
    if answer.turn:
        from torquebook.render import turn  # noqa: PLC0415 - only an angle needs it

        turn.text(answer.turn, what, paper)
    else:
        _tightenings(answer, paper)
        _by_friction(answer, paper)
    _printed_tables(answer, paper)
    if what.assumed:
        paper.heading("Assumed, where nothing was said")
        for note in what.assumed:
            paper.text(note, 2, 4)
    paper.gap()
    paper.text(f"Sources: {'; '.join(_sources(answer))}.")
    paper.gap()
    paper.text(CAUTION)


def _friction(answer: Torques) -> str:
    friction = answer.fastening.friction
    both = _mu(friction.mu_thread)
    if friction.mu_head != friction.mu_thread:
        both += f" in the thread, {_mu(friction.mu_head)} under the head"
    return both if _stated(friction) else f"{friction.name}: {both}"


def _mu(given: Band) -> str:
    """Return a friction as its nominal value and its band."""
    if given.low == given.high:
        return f"{given.nominal:g}"
    return f"{given.nominal:g} ({span(f'{given.low:g}', f'{given.high:g}')})"


def _stated(friction: Friction) -> bool:
    """Return whether the friction was given as a number."""
    return friction.name.startswith("mu ")


def _tightenings(answer: Torques, paper: Paper) -> None:
    rows: list[tuple[str, ...]] = [("torque", "", "preload kN", "likely", "% of proof", "")]
    # What stops at yield is meant to pass the proof load.
    marks = [_mark(one) if answer.method != TO_YIELD else "" for one in answer.tightenings]
    rows += [_tightening(one, mark) for one, mark in zip(answer.tightenings, marks, strict=True)]
    paper.gap()
    paper.columns(rows)
    paper.text(_basis(answer.method), 2, 4)
    for mark, meaning in _MARKS.items():
        if mark in marks:
            paper.text(f"{mark} {meaning}", 2, 4)


def _basis(method: str) -> str:
    """Return what the bands of a method of tightening rest on."""
    known = f"(VDI 2230:1986, ±{percent(METHODS[method])} %)"
    if method == TO_YIELD:
        return (
            "nominal (low–high): where a tool ends that stops as the bolt yields, over the "
            f"friction; the preload no narrower than such tools are known to scatter {known}"
        )
    tool = "a torque wrench" if method == USUAL_METHOD else f"the method, {method},"
    return (
        "nominal (low–high): the worst case of friction and wrench; likely: their scatter as "
        f"root-sum-square; neither below what {tool} is known to scatter {known}"
    )


def _mark(one: Tightening) -> str:
    """Return the mark of a torque whose preload passes the proof load, in part or as a whole."""
    if one.utilisation.low > _FULL:
        return "!!"
    return "!" if one.utilisation.high > _FULL else ""


def _tightening(one: Tightening, mark: str) -> tuple[str, ...]:
    return (
        _torque(one.torque_nm, "N.m"),
        _torque(one.torque_nm, "lbf.ft"),
        _spread(one.preload_n, kilonewtons),
        span(*(kilonewtons(end) for end in (one.likely_preload_n.low, one.likely_preload_n.high))),
        _spread(one.utilisation, percent),
        mark,
    )


def _torque(torque_nm: Band, unit: str) -> str:
    low, high = (figures(in_unit(value, unit)) for value in (torque_nm.low, torque_nm.high))
    return units.with_unit(span(low, high), unit)


def _spread(given: Band, shown: Any) -> str:
    return f"{shown(given.nominal)} ({span(shown(given.low), shown(given.high))})"


def _by_friction(answer: Torques, paper: Paper) -> None:
    """Write the torque for each aim at the ends of the friction."""
    mu = answer.fastening.friction.mu_thread
    ends = range(3) if mu.low < mu.high else (1,)
    rows = [("N·m at friction", *(f"{mu[end]:g}" for end in ends))]
    rows += [
        (f"{percent(aim.share)} % of proof", *(three_digits(aim.torque_nm[end]) for end in ends))
        for aim in answer.for_shares
    ]
    assembly = answer.assembly
    rows.append(
        (
            f"{percent(assembly.share)} % of yield, with torsion ({ASSEMBLY_SOURCE})",
            *(three_digits(assembly.torque_nm[end]) for end in ends),
        )
    )
    paper.heading("Torque for an aim")
    paper.columns(rows, right=range(1, len(rows[0])))


def _printed_tables(answer: Torques, paper: Paper) -> None:
    if not answer.printed:
        return
    paper.heading("Printed tables")
    noted = None
    for one in answer.printed:
        if one.table is not noted:
            table = one.table
            paper.text(f"{table.source}: {table.title}", 2, 4)
            paper.text(_conditions(one), 4, 6)
            noted = table
        paper.text(_printed(one, answer), 4, 6)


def _conditions(one: Printed) -> str:
    """Return what a table was printed for."""
    table = one.table
    said = [f"printed for {table.friction} threads"]
    if table.tolerance:
        said.append(f"±{percent(table.tolerance)} %")
    said += [f"× {factor:g} for {name}" for name, factor in table.factors.items()]
    said += [f"× {factor:g} into {name}" for name, factor in table.into_factors.items()]
    if not one.row.strength_class:
        said.append("names no class")
    note = f". {table.note}" if table.note else ""
    return f"{', '.join(said)}{note}"


def _printed(one: Printed, answer: Torques) -> str:
    row, friction = one.row, answer.fastening.friction.name
    shown = units.with_unit(span(figures(row.low), figures(row.high)), row.unit)
    metric = units.with_unit(span(figures(row.low_nm), figures(row.high_nm)), "N.m")
    said = shown if row.unit == "N.m" else f"{shown} ({metric})"
    if row.nut:
        said = f"{row.nut} nut: {said}"
    if row.most:
        said += f", at most {units.with_unit(figures(row.most), row.unit)}"
    if one.factor not in {None, 1.0}:
        low, high = (figures(value * (one.factor or 1.0)) for value in (row.low, row.high))
        said += f"; {friction}: {units.with_unit(span(low, high), row.unit)}"
    return said


def _sources(answer: Torques) -> dict[str, None]:
    what = answer.fastening
    found = dict.fromkeys([what.strength.source, what.thread.source])
    if not _stated(what.friction):
        found[what.friction.source] = None
    if what.head:
        found[what.head.source] = None
    found["torque and preload by VDI 2230-1"] = None
    return found


def data(answer: Torques) -> dict[str, Any]:
    """Return the answer for a program."""
    what = answer.fastening
    return {
        "thread": what.thread.size,
        "class": what.strength.name,
        "friction": {
            "name": what.friction.name,
            "mu_thread": band(what.friction.mu_thread),
            "mu_head": band(what.friction.mu_head),
        },
        "head": what.head and what.head._asdict(),
        "bearing_mm": what.bearing_mm,
        "proof_load_n": what.proof_n,
        "method": answer.method,
        "tightenings": [
            {
                "torque_nm": band(one.torque_nm),
                "preload_n": band(one.preload_n),
                "likely_preload_n": band(one.likely_preload_n),
                "utilisation": band(one.utilisation),
            }
            for one in answer.tightenings
        ],
        "for_shares_of_proof": [_aim(aim) for aim in answer.for_shares],
        "for_yield_with_torsion": {**_aim(answer.assembly), "source": ASSEMBLY_SOURCE},
        "printed": [
            {
                "table": one.table.id,
                "source": one.table.source,
                "friction": one.table.friction,
                "class": one.row.strength_class,
                "nut": one.row.nut,
                "printed": one.row.printed,
                "low_nm": one.row.low_nm,
                "high_nm": one.row.high_nm,
                "max_nm": one.row.max_nm,
                "factor": one.factor,
            }
            for one in answer.printed
        ],
        "at_end": _at_end(answer),
        "assumed": list(what.assumed),
        "sources": list(_sources(answer)),
        "caution": CAUTION,
    }


def _at_end(answer: Torques) -> dict[str, Any] | None:
    if answer.turn is None:
        return None
    from torquebook.render import turn  # noqa: PLC0415 - only an angle needs it

    return turn.data(answer.turn)


def _aim(aim: ByFriction) -> dict[str, Any]:
    ends = ("at_low_friction", "at_nominal_friction", "at_high_friction")
    return {
        "share": aim.share,
        "preload_n": dict(zip(ends, aim.preload_n, strict=True)),
        "torque_nm": dict(zip(ends, aim.torque_nm, strict=True)),
    }
