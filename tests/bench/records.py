"""Invented joint records by the thousand, each different, as a large user's folder holds them.

Run ``python tests/bench/records.py FOLDER [COUNT]``. Nothing in them is anybody's: places,
machines and torques are drawn by a fixed rule, so that every run writes the same files. Drawn
torques are mostly odd, so that rules have much to say of these records: more than three findings
each. Of two other kinds there is little to say: ``like_ours`` writes variants of the demo's
joints, ``from_template`` fills in the commented template that ``admit --new`` writes.
"""

from __future__ import annotations

import json
import random
import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.catalogue.templates import template
from torquebook.catalogue.tidy import BLANK

if TYPE_CHECKING:
    from collections.abc import Iterator

JOINTS = Path(__file__).resolve().parents[2] / "specs" / "joints"
BLANKS = re.compile(f'"{BLANK}"|{BLANK}')
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


def like_ours(folder: Path, count: int) -> None:
    """Write so many records that are the demo's but for name, title and a little torque."""
    ours = sorted(JOINTS.rglob("*.yaml"))
    for number in range(count):
        share = random.Random(number).uniform(0.97, 1.03)  # noqa: S311 - as above
        unit, path = number // len(ours), ours[number % len(ours)]
        text = path.read_text(encoding="utf-8")
        text = re.sub('^((?:title|name): ".*)"$', rf'\1, unit {unit}"', text, flags=re.MULTILINE)
        for printed in dict.fromkeys(re.findall(r"[0-9]+(?= N\.m)", text)):
            text = text.replace(f"{printed} N.m", f"{float(printed) * share:.0f} N.m")
        here = folder / "joints" / f"brigade-{unit:03}"
        here.mkdir(parents=True, exist_ok=True)
        (here / path.name).write_text(text, encoding="utf-8")


def from_template(folder: Path, count: int) -> None:
    """Write so many records as a contributor fills in the template, its comments left in."""
    here = folder / "joints" / "invented"
    here.mkdir(parents=True, exist_ok=True)
    blank = template("joint", 3).splitlines(keepends=True)
    for number in range(count):
        draw = random.Random(number)  # noqa: S311 - as above
        size, torque = draw.choice(SIZES)
        name = f"{draw.choice(PARTS)} {number} of the {draw.choice(MACHINES)}"
        told = f"{round(torque * draw.uniform(0.85, 1))} N.m"
        facts = [
            name.capitalize(),
            name,
            size,
            "8.8",
            draw.randrange(2, 12),
            "steel",
            "oiled",
            told,
        ]
        source = ["invented", "a made-up sheet", "not stated", f"p. {number}", "invented"]
        stem = "-".join(name.split())
        text = "".join(_filled_in(blank, map(json.dumps, (*facts, *source))))
        (here / f"{stem}.yaml").write_text(text, encoding="utf-8")


def _filled_in(lines: list[str], facts: Iterator[str]) -> Iterator[str]:
    """Yield a template's lines with the blanks filled in, but for those of comments."""
    for line in lines:
        comment = line.lstrip().startswith("#")
        yield line if comment else BLANKS.sub(lambda _: next(facts), line)


if __name__ == "__main__":
    write(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else COUNT)
