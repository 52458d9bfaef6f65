"""Family `gate-order`: checks and steps in the order in which each still can be done.

The steps are common practice of the trade or printed procedure, as their sources say; each can
only be done, or is only worth doing, before the next.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.quiz.model import Question, Sequence

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw

_LEAST: Final = {1: 4, 2: 4, 3: 5}


class _Work(NamedTuple):
    """Steps of one piece of work, with what is given and where the order comes from."""

    what: str
    given: str
    steps: tuple[tuple[str, str], ...]
    source: str
    level: int = 1


_TRADE: Final = "common practice"
_WORKS: Final = (
    _Work(
        "A clutch is renewed and the gearbox put back.",
        "The flywheel has been off.",
        (
            ("tighten the flywheel's bolts", "runout is measured on a face that is bolted down"),
            ("measure the runout of the flywheel's face", "the disc would hide the face"),
            ("draw the cover down over the disc, in a star", "the gearbox would cover it"),
            ("bring the gearbox up on a jack until the faces meet", "bolts do not draw it in"),
            ("tighten the bolts of the gearbox", "they close the joint when the faces meet"),
        ),
        f"{_TRADE}: working order of a clutch",
    ),
    _Work(
        "A cover is bolted to a casting with blind holes.",
        "Oil and dirt stand in the holes.",
        (
            ("blow the blind holes dry", "trapped oil can split the casting, dirt hides depth"),
            ("measure the holes' depth against the bolts", "a bolt that bottoms clamps nothing"),
            ("start every bolt by hand", "a crossed thread is felt by hand only"),
            ("tighten to 30 % in the pattern", "the cover comes down evenly"),
            ("tighten to 60 % in the pattern", "each pass takes a part of the way"),
            ("tighten to 100 % in the pattern", "the full torque comes last"),
            ("go round once more at 100 %", "bolts give when their neighbours are drawn down"),
        ),
        "US Army TB 43-0218, section III; ASME PCC-1, appendix F, passes",
    ),
    _Work(
        "A self-locking nut is used again.",
        "The table gives the torque of a nut without drag, and the least drag of a used one.",
        (
            ("run the nut on until two threads stand through", "drag shows on full threads"),
            ("measure the drag before the nut seats", "a seated nut shows no drag"),
            ("compare the drag with the table", "too little drag: a new nut, and from the start"),
            ("add the drag to the table's torque", "drag clamps nothing"),
            ("tighten to the sum", "it is the last step"),
        ),
        "FAA AC 43.13-1B, 1998-09-08, 7-64 and table 7-2",
        2,
    ),
    _Work(
        "Bolts are tightened by torque and angle.",
        "The sheet gives a snug torque and one angle.",
        (
            ("see whether the bolts may be used again", "a stretched one never goes in"),
            ("start every bolt by hand", "a crossed thread is felt by hand only"),
            ("bring all bolts to the snug torque, in the pattern", "the angle counts from there"),
            ("mark head and part", "the mark is where the angle begins"),
            ("turn every bolt by the angle, in the pattern", "the marks move by the angle"),
            ("look at every mark", "a bolt that was left out shows"),
        ),
        f"{_TRADE}: tightening by torque and angle",
        2,
    ),
    _Work(
        "Whether a tight bolt has its torque is to be checked.",
        "The joint has not settled, rusted or been glued; nothing is stretched past yield.",
        (
            ("mark bolt and part", "the mark shows where it stood"),
            ("back the bolt off a little", "a click on a tight bolt proves only a lower bound"),
            ("tighten it to the mark and read the wrench", "it is now as tight as it was"),
            ("compare the reading with the sheet", "it is what the bolt had"),
        ),
        "US Army TB 43-0218, and NAVEDTRA 14014, 14113, 14008",
    ),
    _Work(
        "A wheel is put back.",
        "The vehicle stands on a jack, the wheel is off.",
        (
            ("see that nuts and wheel have seats of one kind", "a cone in a ball seat works loose"),
            ("draw the nuts down in a star, the wheel off the ground", "the wheel centres itself"),
            ("let the wheel down", "it cannot turn any more"),
            ("tighten to the torque in a star", "the full torque needs a wheel that stands"),
            ("tighten once more after the first 50 km", "seats settle"),
        ),
        f"{_TRADE}: fitting of wheels",
    ),
)


def gate_order(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the order of checks and steps before a joint is closed."""
    work = draw.pick([one for one in _WORKS if one.level <= level])
    count = min(len(work.steps), _LEAST[level] + draw.below(2))
    kept = sorted(draw.mixed(range(len(work.steps)))[:count])
    shown = draw.mixed(range(count))
    items = tuple(work.steps[kept[at]][0] for at in shown)
    key = tuple(shown.index(at) for at in range(count))
    return Question(
        "gate-order", level, "Check what can be checked before it is closed up.",
        f"{work.what} Put these steps in order.",
        (work.given, "No step is done twice."), Sequence(items, key),
        tuple(f"{work.steps[at][0]}: {work.steps[at][1]}" for at in kept), (work.source,),
    )  # fmt: skip


FAMILY: Final = (("gate-order", gate_order),)
