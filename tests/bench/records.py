"""Invented joint records by the thousand, each different, as a large user's folder holds them.

Run ``python tests/bench/records.py FOLDER [COUNT]``. Nothing in them is anybody's: places,
machines and torques are drawn by a fixed rule, so that every run writes the same files.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

COUNT = 100_000
A_FOLDER = 250
MACHINES = (
    "pump", "mower", "winch", "saw bench", "press", "lathe", "harvester", "baler", "loader",
    "trailer", "tractor", "generator set", "compressor", "crane", "sweeper", "plough", "mill",
    "conveyor", "dredger", "sprayer",
)  # fmt: skip
PARTS = (
    "flywheel", "clutch cover", "bell housing", "sump", "cylinder head", "big end", "main bearing",
    "propeller shaft", "driveshaft", "axle carrier", "hub", "wheel", "spring hanger",
    "damper mount", "steering box", "manifold", "water pump", "oil pump", "injector clamp",
    "timing cover", "rocker shaft", "gearbox mount", "brake anchor", "drawbar eye",
)  # fmt: skip
WHERE = ("front", "rear", "left", "right", "upper", "lower", "inner", "outer")
SIZES = (("M6", 10), ("M8", 24), ("M10", 48), ("M12", 84), ("M14", 130), ("M16", 200), ("M20", 390))
FACTORS = {"8.8": 1.0, "10.9": 1.45, "12.9": 1.7}
INTO = ("nut", "steel", "cast iron", "aluminium")
RECORD = """\
# yaml-language-server: $schema=../../schema/joint.json
kind: joint
title: "{part} of the {machine} {number}, {where} row, yard {yard}"
name: "{where} {part}, {machine} {number}"
fastener:
  thread: "{size}"
  strength_class: "{grade}"
  head: "hexagon"
  length_mm: {length}
count: {count}
into: "{into}"
friction: "{friction}"
tighten: "{tighten}"
order: "{order}"
conditions:
  - "{condition}"
wrench: "click 40-200"
note: "bay {bay}, shelf {shelf}"
source:
  kind: invented
  title: "a made-up sheet of yard {yard}"
  where: "p. {page}"
  provenance: "invented"
"""


def record(number: int) -> str:
    """Return one record."""
    draw = random.Random(number)  # noqa: S311 - made-up records, not secrets
    size, torque = draw.choice(SIZES)
    grade = draw.choice(tuple(FACTORS))
    full = round(torque * FACTORS[grade] * draw.uniform(0.8, 1.1))
    stages = [f"{round(full * share)} N.m" for share in (0.4, 0.7)[: draw.randrange(3)]]
    end = f"+{draw.randrange(30, 121, 15)} deg" if draw.random() < 0.3 else ""
    positions = list(range(1, draw.choice((2, 3, 4, 6, 8)) + 1))
    draw.shuffle(positions)
    return RECORD.format(
        part=draw.choice(PARTS),
        machine=draw.choice(MACHINES),
        where=draw.choice(WHERE),
        number=number,
        yard=draw.randrange(1, 400),
        size=size,
        grade=grade,
        length=draw.randrange(16, 140, 5),
        count=len(positions),
        into=draw.choice(INTO),
        friction=draw.choice(("dry", "oiled", "zinc plated")),
        tighten=", ".join(filter(None, (*stages, f"{full} N.m", end))),
        order="-".join(map(str, positions)),
        condition=draw.choice(("threads clean and dry", "new gasket", "faces free of paint")),
        bay=draw.randrange(1, 60),
        shelf=draw.randrange(1, 90),
        page=draw.randrange(1, 999),
    )


def write(folder: Path, count: int = COUNT) -> None:
    """Write so many records, some hundred to a folder."""
    for number in range(count):
        if number % A_FOLDER == 0:
            here = folder / "joints" / f"yard-{number // A_FOLDER:03}"
            here.mkdir(parents=True, exist_ok=True)
        (here / f"joint-{number:06}.yaml").write_text(record(number), encoding="utf-8")


if __name__ == "__main__":
    write(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else COUNT)
