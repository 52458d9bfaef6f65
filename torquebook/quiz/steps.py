"""Family `gate-order`: checks and steps in the order in which each still can be done.

The steps are printed procedures, as their sources say; each can only be done, or is only worth
doing, before the next. None is left out: half a procedure would teach wrong work.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from torquebook.quiz.model import Question, Sequence

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.draws import Draw


class _Work(NamedTuple):
    """Steps of one piece of work, with what is given and where the order comes from."""

    what: str
    given: str
    steps: tuple[tuple[str, str], ...]
    source: str
    level: int = 1


_PCC: Final = "ASME PCC-1, appendix F, as described by flange-trade pages: passes"
_WORKS: Final = (
    _Work(
        "A flange is drawn together in passes.",
        "The pattern over its bolts is given.",
        (
            ("start every bolt by hand", "a crossed thread is felt by hand only"),
            ("tighten to 30 % in the pattern", "the flange comes down evenly"),
            ("tighten to 60 % in the pattern", "each pass takes a part of the way"),
            ("tighten to 100 % in the pattern", "the full torque comes after its parts"),
            ("go round at 100 % until none moves", "bolts give as their neighbours are drawn down"),
        ),
        _PCC,
    ),
    _Work(
        "A cover is bolted to a casting with blind holes.",
        "Oil and dirt stand in the holes.",
        (
            ("blow the blind holes dry", "trapped oil can split the casting, dirt hides depth"),
            ("measure the holes' depth against the bolts", "a bolt that bottoms clamps nothing"),
            ("start every bolt by hand", "a crossed thread is felt by hand only"),
            ("tighten them in the pattern, in passes", "every bolt is in its thread by then"),
        ),
        "US Army TB 43-0218, sections III to V: bolts in blind holes",
    ),
    _Work(
        "Whether a tight bolt has its torque is to be checked.",
        "The joint has not settled, rusted or been glued; nothing is stretched past yield.",
        (
            ("mark bolt and part, in line", "the marks show where it stood"),
            ("back the bolt off", "a click on a tight bolt proves only a lower bound"),
            ("tighten it to the sheet's torque with an even pull", "a loose bolt shows its torque"),
            ("look whether the marks are in line", "out of line: it was too loose or too tight"),
        ),
        "US Army TB 43-0218, section IV, 7.d",
    ),
    _Work(
        "A castellated nut is tightened.",
        "The table gives a least and a most torque.",
        (
            ("tighten to the least torque", "between least and most every torque is right"),
            ("see whether hole and slot line up", "the pin must go through both"),
            ("if they do not, turn on, but not past the most torque", "back would be too loose"),
            ("put a new cotter pin in", "it holds the nut where it then stands"),
        ),
        "FAA AC 43.13-1B, 1998-09-08, 7-40; US Army TM 55-1520-240-23-1, 1-14",
    ),
    _Work(
        "A self-locking nut is used again.",
        "The table gives the torque of a nut without drag, and the least drag of a used one.",
        (
            ("turn the nut on until just before it seats", "drag shows on full threads"),
            ("measure the drag there", "a seated nut shows no drag"),
            ("compare the drag with the table", "too little drag: a new nut, and from the start"),
            ("add the drag to the table's torque", "drag clamps nothing"),
            ("tighten to the sum", "it is the last step"),
        ),
        "FAA AC 43.13-1B, 1998-09-08, 7-40, 7-64 and table 7-2; "
        "US Army TM 1-1500-204-23-6, p. 2-83",
        2,
    ),
    _Work(
        "The bolts of an engine's connecting rods are tightened by torque and stretch.",
        "The sheet gives 80, 160 and 240 lbf·ft, and a stretch of 0.343 to 0.470 mm; a bolt that "
        "is short of it gets 270 lbf·ft, once. One past it is renewed.",
        (
            ("tighten to 80 lbf·ft", "the rod closes evenly"),
            ("tighten to 160 lbf·ft", "each pass takes a part of the way"),
            ("tighten to 240 lbf·ft", "it is the torque that stretches a sound bolt enough"),
            ("measure how far each bolt has stretched", "stretch shows the clamp, torque does not"),
            ("take a bolt that is short to 270 lbf·ft", "only who has measured knows which"),
        ),
        "US Army TM 55-1905-223-24-1, table 3-5, p. 3-87",
        2,
    ),
)


def gate_order(draw: Draw, book: Book, level: int, unit: str) -> Question:
    """Ask for the order of checks and steps before a joint is closed."""
    work = draw.pick([one for one in _WORKS if one.level <= level])
    shown = draw.mixed(range(len(work.steps)))
    items = tuple(work.steps[at][0] for at in shown)
    key = tuple(shown.index(at) for at in range(len(work.steps)))
    return Question(
        "gate-order", level, "Check what can be checked before it is closed up.",
        f"{work.what} Put these steps in order.",
        (work.given,), Sequence(items, key),
        tuple(f"{step}: {why}" for step, why in work.steps), (work.source,),
    )  # fmt: skip


FAMILY: Final = (("gate-order", gate_order),)
