"""What an angle makes of a fastener: the book's data through the mechanics of yielding."""

from __future__ import annotations

from functools import lru_cache
from math import pi, sqrt
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

from torquebook import notation
from torquebook.bands import Band
from torquebook.catalogue.defaults import ANGLE_SCATTER
from torquebook.errors import NotUnderstood
from torquebook.findings import Place
from torquebook.mechanics.joint import joint_resilience, usual_free_thread
from torquebook.mechanics.plastic import Strength, uniform_strain
from torquebook.mechanics.scatter import with_method, with_tool
from torquebook.mechanics.strength import proof_load
from torquebook.mechanics.yield_bands import TightenedBand, tighten_band
from torquebook.mechanics.yielding import Grip, ScrewThread

if TYPE_CHECKING:
    from torquebook.answers.fastening import Fastening
    from torquebook.catalogue.shelves import Friction, StrengthClass, Thread
    from torquebook.notation import Stage

#: Moduli of elasticity of steel and of aluminium parts [MPa] (VDI 2230-1, from memory).
STEEL_MPA: Final = 205_000.0
ALUMINIUM_MPA: Final = 70_000.0
#: Clamp lengths that vehicles have, as multiples of d, where none is stated: likely, short
#: and long (inference; lengths of 3.5 to 9 d in tests/published/real/C_angle_and_stretch_*).
CLAMPS_D: Final = (3.0, 1.5, 10.0)
#: A bolt is mostly stronger than its class demands, by about so much (inference).
TYPICAL_OVER_LEAST: Final = 1.10
#: A hand holds an angle to about this, where the sheet gives no tolerance (inference).
ANGLE_DEG: Final = 5.0
#: Clamped parts are taken as plates three bearing faces wide (inference).
PARTS_OVER_FACE: Final = 3.0
#: Points of a course, ends included.
POINTS: Final = 49

#: How much of a band necks: none, a part, the likely bolt too, or the whole of it.
Necks = Literal["no", "may", "likely", "yes"]


class Turn(NamedTuple):
    """What stages that end in an angle make of a fastener.

    Parameters
    ----------
    stages : tuple of Stage
        As read.
    clamp_length_mm : Band or None
        None for the band that vehicles have.
    course : tuple of TightenedBand
        From snug to the end, in equal steps of angle.
    """

    stages: tuple[Stage, ...]
    clamp_length_mm: Band | None
    course: tuple[TightenedBand, ...]

    @property
    def end(self) -> TightenedBand:
        """What stands at the end of the angle."""
        return self.course[-1]

    @property
    def necks(self) -> Necks:
        """Whether the bolt necks or parts before the end."""
        return _necks(self.course[-1])

    @property
    def snug_necks(self) -> Necks:
        """Whether the snug torque alone does that; never ``yes``, which ``turn`` refuses."""
        return _necks(self.course[0])


def _necks(state: TightenedBand) -> Necks:
    """Return how much of the band has used up its uniform strain."""
    share = state.strain_share
    if share.low >= 1:
        return "yes"
    if share.nominal >= 1:
        return "likely"
    return "may" if share.high >= 1 else "no"


def turn(what: Fastening, tighten: str, clamp_length: str = "") -> Turn:
    """Return the course of a torque and an angle.

    Parameters
    ----------
    what : Fastening
    tighten : str
        A snug torque and one angle or more, as a sheet prints them: ``30 N.m + 90 deg``.
    clamp_length : str
        A length or a range of it; empty for the band that vehicles have.

    Raises
    ------
    NotUnderstood
        If the stages are not a torque and then angles above 0, the torque alone is more than
        the bolt carries, the length is none, or the class names no elongation after fracture.
    """
    stages, torque, angle = _read(tighten)
    if what.strength.elongation_pct is None:
        name = what.strength.name
        raise NotUnderstood(name, "no elongation after fracture is listed for it", ("8.8", "10.9"))
    snug = with_tool(torque, what.deviation_at(torque.nominal))
    clamp = read_clamp(clamp_length, what.thread.pitch_mm) if clamp_length else None
    course = tuple(
        turned(
            what.thread, what.strength, what.friction, what.bearing_mm, snug,
            angle.scaled(step / (POINTS - 1)), clamp,
        )
        for step in range(POINTS)
    )  # fmt: skip
    found = Turn(stages, clamp, course)
    if found.snug_necks == "yes":
        # Where the whole band is past it, the torque at snug is the most that the bolt takes.
        most = course[0].torque_nm
        raise NotUnderstood(
            tighten,
            f"the snug torque alone is more than {what.thread.size} {what.strength.name} carries: "
            f"it necks or parts at {most.low:.3g} to {most.high:.3g} N·m, over friction and "
            "strength",
        )
    return found


def _read(tighten: str) -> tuple[tuple[Stage, ...], Band, Band]:
    """Return the stages, the snug torque and the whole angle."""
    stages = notation.read(tighten)
    torque, *angles = stages
    if not isinstance(torque, notation.Torque) or not angles:
        raise NotUnderstood(tighten, "a torque and then an angle is wanted", ("30 N.m + 90 deg",))
    bands = [stage.band for stage in angles if isinstance(stage, notation.Angle)]
    if len(bands) < len(angles):
        raise NotUnderstood(tighten, "only angles may follow the torque", ("30 N.m + 90 deg",))
    if any(band.nominal <= 0 for band in bands):
        snug = notation.write((torque,), plain=True)
        raise NotUnderstood(tighten, "an angle is more than 0", (f"{snug} + 90 deg",))
    return stages, torque.band, Band(*(sum(ends) for ends in zip(*bands, strict=True)))


def read_clamp(text: str, pitch_mm: float) -> Band:
    """Return a clamp length [mm], read as that column of a list is.

    Raises
    ------
    NotUnderstood
        If it is none, or below one pitch.
    """
    from torquebook.plans.cells import plan_line  # noqa: PLC0415 - only where it is stated
    from torquebook.plans.model import Cell  # noqa: PLC0415 - as above

    if text.lstrip().startswith(("-", "−", "–")):
        raise NotUnderstood(text, "a length is more than 0")
    place = Place("--clamp-length", 1)
    line = plan_line(place, {"clamp_length": Cell(text.strip(), place)}, {})
    for problem in line.problems:
        if problem.column == "clamp_length":
            raise NotUnderstood(text, problem.what, problem.readings)
    length = line.clamp_length_mm
    if length is None or length.low < pitch_mm:
        what = f"a clamp length is one pitch or more, here {pitch_mm:g} mm"
        raise NotUnderstood(text, what, ("30 mm", "28-32 mm"))
    return length


def turned(
    thread: Thread,
    strength: StrengthClass,
    friction: Friction,
    bearing_mm: float,
    torque: Band,
    angle: Band,
    clamp_length_mm: Band | None,
) -> TightenedBand:
    """Return preload, finishing torque and stretch at the end of an angle, as bands.

    Parameters
    ----------
    thread : Thread
    strength : StrengthClass
        One whose elongation after fracture is known.
    friction : Friction
    bearing_mm : float
        Effective diameter for friction under the head [mm].
    torque : Band
        Snug torque as the wrench delivers it [N·m].
    angle : Band
        Angle from snug; a single value is taken within ``ANGLE_DEG`` [°].
    clamp_length_mm : Band or None
        Clamp length, None for the band that vehicles have.

    Returns
    -------
    TightenedBand

    Raises
    ------
    ValueError
        If the class names no elongation.
    """
    if strength.elongation_pct is None:
        raise ValueError(f"{strength.name} names no elongation after fracture")
    if angle.low == angle.high:
        spread = min(ANGLE_DEG, angle.nominal / 2)
        angle = Band(angle.nominal - spread, angle.nominal, angle.nominal + spread)
    d0_mm = 2 * sqrt(thread.stress_area_mm2 / pi)
    screw = ScrewThread(thread.pitch_mm, thread.d2_mm, d0_mm, bearing_mm)
    end = tighten_band(
        torque,
        angle,
        friction.mu_thread,
        friction.mu_head,
        screw,
        grips(thread.d_mm, thread.pitch_mm, bearing_mm, clamp_length_mm),
        _strengths(thread, strength),
    )
    preload = with_method(end.preload_n, ANGLE_SCATTER)
    proof_n = proof_load(thread.stress_area_mm2, strength.proof_mpa)
    return end._replace(preload_n=preload, proof_share=preload.scaled(1 / proof_n))


@lru_cache(maxsize=1024)
def grips(
    d_mm: float, pitch_mm: float, bearing_mm: float, clamp_length_mm: Band | None
) -> tuple[Grip, ...]:
    """Return what a joint's resilience may be: steel parts, then aluminium ones.

    Parameters
    ----------
    d_mm, pitch_mm, bearing_mm : float
        Diameter, pitch, effective diameter for friction under the head [mm].
    clamp_length_mm : Band or None
        Clamp length, None for the band that vehicles have.
    """
    lengths = [share * d_mm for share in CLAMPS_D]
    if clamp_length_mm is not None:
        lengths = [clamp_length_mm.nominal, clamp_length_mm.low, clamp_length_mm.high]
    # The mean bearing diameter lies half-way between the hole and the edge of the face.
    hole_mm = 1.1 * d_mm
    face_mm = 2 * bearing_mm - hole_mm
    found = []
    for modulus_mpa in (STEEL_MPA, ALUMINIUM_MPA):
        for length_mm in dict.fromkeys(lengths):
            free_mm = usual_free_thread(d_mm, length_mm)
            give = joint_resilience(
                d_mm, pitch_mm, length_mm, free_mm, d_mm, face_mm, hole_mm,
                PARTS_OVER_FACE * face_mm, STEEL_MPA, modulus_mpa,
            )  # fmt: skip
            found.append(Grip(give.bolt_mm_per_n, give.parts_mm_per_n, free_mm))
    return tuple(found)


def _strengths(thread: Thread, strength: StrengthClass) -> tuple[Strength, ...]:
    area = thread.stress_area_mm2
    elongation = (strength.elongation_pct or 0.0) / 100
    return tuple(
        Strength(
            proof_load(area, strength.proof_mpa),
            share * strength.yield_mpa,
            share * strength.tensile_mpa,
            uniform_strain(elongation),
        )
        for share in (TYPICAL_OVER_LEAST, 1.0)
    )
