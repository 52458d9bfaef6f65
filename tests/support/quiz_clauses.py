"""Verdicts and working orders a second time, each out of a printed clause.

A clause says what happens to what; its verb gives the verdict, and the order of its words the
order of the work. Those in quotation marks were read in print (US government documents, in the
public domain, and short quotations of two standards); the others are told in our words.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

import quiz_tables as t
from quiz_reading import NUMBER, SIZE, UNIT, said

if TYPE_CHECKING:
    from torquebook.catalogue.book import Book
    from torquebook.quiz.model import Question

WORDS = {
    "renew": "renew it",
    "measure": "measure it first",
    "clean": "clean it; if sound, use again",
    "reuse": "use it again",
}
# What becomes of a thing of which a clause says so.
VERBS = {
    "discard": "renew", "be replaced, not tightened": "renew", "shall not be reused": "renew",
    "display no apparent taper": "renew", "wiped clean": "clean",
    "be inspected before reuse": "clean", "be checked at each reassembly": "measure",
    "require stretch checks prior to reuse": "measure", "Minimum prevailing torque": "measure",
}  # fmt: skip


class Clause(NamedTuple):
    """A printed sentence, and by the words of it what a question calls the same thing."""

    document: str
    where: str
    quote: str
    names: dict[str, str]


TB = "US Army TB 43-0218"
AC = "FAA AC 43.13-1B"
# What is damaged comes first, as a patch or a measurement does not mend it.
CLAUSES = (
    Clause(TB, "section III, 5", "Self-locking fasteners that loosen up must be replaced, not "
           "tightened.", {"Self-locking fasteners that loosen up": "self-locking .* found loose"}),
    Clause(TB, "section III, 5", "Bolts with deformed or damaged threads shall be discarded.",
           {"damaged threads": "damaged thread"}),
    Clause(TB, "section III, 5", "If the surface of the fastener is pitted or rust is not removed "
           "by simple wiping, discard the fastener.", {"pitted": r"\bhas pits"}),
    Clause(TB, "section III, 5", "Bolt shanks shall display no apparent taper.",
           {"taper": "shank has become thinner"}),
    Clause("RCSC Specification for Structural Joints", "2.3.3", "ASTM A490 bolts and galvanized "
           "ASTM A325 bolts shall not be reused.",
           {"A490": "A490", "galvanized ASTM A325": "galvanised .* A325"}),
    Clause("US Army TM 55-2840-251-23", "appendix E", "The locking torque shall be checked at each "
           "reassembly.", {"locking torque": "coil insert .* drag was not measured"}),
    Clause(AC, "table 7-2", "Minimum prevailing torque values for reused self-locking nuts.",
           {"self-locking nuts": r"drag was not measured.* goes by (?:FAA|ISO 2320) "}),
    Clause(AC, "7-40 e, note", "Many applications of bolts in aircraft/engines require stretch "
           "checks prior to reuse.", {"bolts": r"stretch bolt .* came out; new .* allows"}),
    Clause(TB, "section III, 5", "Cotter pins, lockwashers, lockwire, locking bolts, locking nuts "
           "and similar locking devices shall be discarded when removed.",
           {"Cotter pins": "cotter pin", "lockwashers": "spring washer|lock washer|tab washer",
            "lockwire": "lock wire", "locking bolts": "adhesive patch",
            "locking nuts": "self-locking nut .* goes by TB 43-0218"}),
    Clause(TB, "section III, 5", "Any corroded (rusted) fasteners should be wiped clean.",
           {"rusted": "is rusty"}),
    Clause(TB, "section III, 5", "Standard (non-locking) bolts shall be inspected before reuse.",
           {"bolts": r"bolt \S+ of class 8.8 was tightened in its elastic range"}),
)  # fmt: skip
# ISO 2320, class 04, fifth removal [N·m]; AC 43.13-1B, table 7-2, fine thread [lbf·in].
DRAGS_NM = {"M6": 0.3, "M8": 0.6, "M10": 1.0, "M12": 1.6}
DRAGS_LBF_IN = {"7/16-20": 8, "1/2-20": 10, "5/8-18": 18}
CYCLES = 15  # US Army TM 55-2840-251-23, appendix E, as the question says it


def reuse_verdict(q: Question, _: Book) -> str:
    """Limits by their numbers, all else by the clause that speaks of it."""
    options: Any = q.answer
    assert {one.text for one in options.options} == set(WORDS.values())
    return WORDS[_measured(q.text) or _told(said(q))]


def _measured(text: str) -> str:
    """Return the verdict of a measurement, empty where none is told."""
    if found := re.search(rf"is {NUMBER} mm long; new .* allows {NUMBER} mm", text):
        return "reuse" if float(found[1]) <= float(found[2]) else "renew"
    if found := re.search(r"carries (\d) punch marks?, .* allows (\d) tightenings", text):
        return "reuse" if int(found[1]) < int(found[2]) else "renew"
    if found := re.search(rf"into it {NUMBER} times", text):
        return "renew" if float(found[1]) >= CYCLES else ""
    if found := re.search(rf"nut {SIZE} .*drags with {NUMBER} {UNIT}", text):
        value = float(found[2])
        least = DRAGS_LBF_IN.get(found[1])
        enough = value >= least if least else value * t.NM[found[3]] >= DRAGS_NM[found[1]]
        return "reuse" if enough else "renew"
    return ""


def _told(text: str) -> str:
    """Return the verdict of the first clause that speaks of a thing."""
    for clause in CLAUSES:
        for printed, asked in clause.names.items():
            assert printed in clause.quote, clause
            if re.search(asked, text, re.IGNORECASE):
                verbs = [verb for verb in VERBS if verb in clause.quote]
                assert len(verbs) == 1, clause
                return VERBS[verbs[0]]
    raise AssertionError(text)


class Procedure(NamedTuple):
    """A printed procedure, and by the words of it what a step calls the same thing."""

    document: str
    told: str
    names: dict[str, str]


PROCEDURES = (
    # TB 43-0218, section IV, 7.d
    Procedure(TB, "first mark the fastener and its companion components so the marks are in line. "
              "Second, back it off a turn to loosen it. Torque it to the specification with an "
              "even steady pull on the torque wrench. The marks should be in line",
              {"first mark": "^mark bolt", "back it off": "^back", "Torque it": "even pull",
               "The marks should be in line": "^look whether the marks"}),
    # after TM 55-1520-240-23-1, 1-14 d (1) and (2); AC 43.13-1B, 7-40 f, starts at the least too
    Procedure(AC, "Torque nut to the minimum applicable torque. Install cotter pin if nut "
              "castellations are aligned with pin hole. If castellations are not in line with pin "
              "hole, tighten nut as required for alignment. Then install cotter pin. Do not exceed "
              "maximum allowable torque.",
              {"minimum applicable torque": "least torque", "are aligned": "line up",
               "tighten nut as required": "turn on", "Then install": "cotter pin"}),
    # put together of TM 1-1500-204-23-6, p. 2-83, (4), AC 43.13-1B, title of table 7-2, and 7-40 d
    Procedure(AC, "must be measured on the torque wrench as the nut is being turned but before the "
              "nut touches the washer: this drag. Minimum prevailing torque values for reused "
              "self-locking nuts. Add the friction drag torque to the desired torque. This is "
              "referred to as final torque, which should register",
              {"as the nut is being turned": "^turn the nut on", "this drag": "^measure the drag",
               "Minimum prevailing": "^compare", "Add the friction": "^add the drag",
               "should register": "to the sum"}),
    # TM 55-1905-223-24-1, table 3-5, p. 3-87, in our words
    Procedure("US Army TM 55-1905-223-24-1", "80 lb-ft, 160 lb-ft, 240 lb-ft, stretch 0.0135 to "
              "0.0185 in, 270 lb-ft once if short of stretch",
              {"80 ": "to 80 ", "160 ": "to 160 ", "240 ": "to 240 ",
               "stretch 0.0135": "^measure how far", "270 ": "to 270 "}),
    # ASME PCC-1, appendix F, as described by flange-trade pages, in our words
    Procedure("ASME PCC-1", "bolts by hand, then 30 %, 60 %, 100 %, then round at 100 % until none "
              "moves", {"by hand": "by hand", "30 %": "30 %", "60 %": "60 %",
                        "100 %, then round": "to 100 %", "until none": "until none moves"}),
    # TB 43-0218, sections III to V, in our words
    Procedure(TB, "blind holes are dry, one to two pitches stay free below the tip, threads are "
              "started by hand, then tightened",
              {"dry": "^blow", "free below the tip": "depth", "started": "by hand",
               "then tightened": "^tighten"}),
)  # fmt: skip


def gate_order(q: Question, _: Book) -> list[tuple[int, ...]]:
    """Put the steps as the clause of their document tells them; none of it is left out."""
    answer: Any = q.answer
    found = []
    for procedure in PROCEDURES:
        at = [procedure.told.index(printed) for printed in procedure.names]
        assert len(set(at)) == len(at), procedure
        steps = sorted(zip(at, procedure.names.values(), strict=True))
        fits = [
            [one for one, item in enumerate(answer.items) if re.search(asked, item)]
            for _, asked in steps
        ]
        if len(fits) == len(answer.items) and all(len(one) == 1 for one in fits):
            assert procedure.document in q.sources[0], (procedure, q.sources)
            found.append(tuple(one[0] for one in fits))
    assert len(found) == 1, answer.items
    return found
