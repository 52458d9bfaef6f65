"""``torquebook look``."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.finding import KINDS

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Runner

ROOT = Path(__file__).resolve().parents[2]
JOINT = """\
kind: joint
title: "Drawbar eye, {title}"
name: "drawbar eye"
fastener: {{thread: "M12", strength_class: "10.9", length_mm: 45, features: ["stretch"]}}
count: 4
groups: [{{name: "upper", positions: [1, 2]}}, {{name: "lower", positions: [3, 4]}}]
tighten: "{tighten}"
snug: "by hand, until the face is closed"
order: "1-3-2-4"
passes:
  - {{stages: [1, 2], order: "1-2", group: "upper"}}
reuse: {{uses_allowed: 2, length_new_mm: 45, length_limit_mm: 45.8, source: "the maker's sheet"}}
conditions: ["clean faces", "no paint"]
rechecks: [{{what: "torque", after: "50 km"}}, {{what: "paint mark", after: "a year"}}]
supplies: ["new bolts"]
wrench: "{wrench}"
note: "the long ones go below"
source:
  kind: invented
  title: "test"
  conditions: "oiled"
  provenance: "invented"
"""


def book(folder: Path, **said: str) -> str:
    """Return a folder with one joint in it."""
    facts = {"title": "trailer", "tighten": "30 N.m, 60 N.m, +90 deg", "wrench": "click 40-200"}
    (folder / "eye.yaml").write_text(JOINT.format(**facts | said), encoding="utf-8")
    return str(folder)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("joint", ("joints/brigade/clutch-cover",)),
        ("joint-renew", ("joints/brigade/power-take-off-shaft",)),
        ("list", ("propshaft",)),
        ("list-ascii", ("flyweel", "--ascii")),
        ("thread", ("M10x1.25",)),
        ("class", ("8.8", "--kind", "class")),
        ("friction", ("wax",)),
        ("wrench", ("click 20-100",)),
        ("material", ("cast", "iron", "--kind", "material")),
        ("table", ("tables/faa-ac-43.13-1b-7-1",)),
        ("holes", ("iso", "273", "--ascii")),
        ("pattern", ("circle of 6",)),
        ("job", ("brigade overhaul",)),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one and fits 80 columns."""
    ran = cli("look", *words)
    assert ran.code == 0
    golden(f"look-{name}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "--ascii" not in words or ran.out.isascii()


def test_whole_card(tmp_path: Path, cli: Runner, golden: Callable[[str, str], None]) -> None:
    """All that a joint's record says of tightening stands on its card, with the settings."""
    folder = book(tmp_path)
    golden("look-whole-joint.txt", cli("look", "drawbar", "--book", folder).out)


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ({"wrench": "nobody's"}, 'no wrench "nobody\'s" in the book'),
        ({"wrench": "click 100-500"}, "click 100-500: below its range, 100–500 N·m"),
        ({"wrench": "click 5-25"}, "click 5-25: above its range, 5–25 N·m"),
        ({"wrench": "click 20-150 lbf.ft"}, "click 20-150 lbf.ft: set 22.13 lbf·ft"),
        ({"tighten": "hand tight"}, "hand tight"),
    ],
)
def test_setting(said: dict[str, str], shown: str, tmp_path: Path, cli: Runner) -> None:
    """What to set is said in the wrench's unit, and where it cannot be set, why."""
    ran = cli("look", "drawbar", "--book", book(tmp_path, **said))
    assert shown in [line.strip() for line in ran.out.splitlines()]


def test_json(tmp_path: Path, cli: Runner) -> None:
    """For a program there are the card with its settings, and all that was found in short."""
    answer = json.loads(cli("look", "drawbar", "--json", "--book", book(tmp_path)).out)
    assert answer["card"]["facts"]["fastener"]["thread"] == "M12"
    assert answer["settings"][1:] == [{"value": 60, "unit": "N.m", "fit": ""}, None]
    assert answer["settings"][0]["fit"] == "below"
    assert [one["id"] for one in answer["found"]] == ["eye"]
    assert (answer["total"], answer["or_more"], answer["instead"]) == (1, False, {})
    several = json.loads(cli("look", "flyweel", "--json").out)
    assert several["card"] is None
    assert several["instead"] == {"flyweel": ["flywheel"]}
    assert several["total"] == len(several["found"]) > 1


def test_own_folder_lies_over_ours(tmp_path: Path, cli: Runner) -> None:
    """A record of the user's covers ours of its name, in every answer."""
    folder = book(tmp_path)
    path = tmp_path / "eye.yaml"
    path.write_text(path.read_text().replace('"drawbar eye"', '"clutch cover to flywheel"'))
    found = json.loads(cli("look", "clutch", "cover", "--json", "--book", folder).out)["found"]
    assert "eye" in [one["id"] for one in found]
    assert "joints/brigade/clutch-cover" not in [one["id"] for one in found]


def test_hostile_names(tmp_path: Path, cli: Runner) -> None:
    """A name that would act on the terminal is shown for what it is."""
    folder = book(tmp_path, title=r"\e[31m\u202eback\x07", tighten="30 N.m")
    assert cli("look", "drawbar", "--book", folder).code == 2  # the reader refuses it
    folder = book(tmp_path, title="\N{RIGHT-TO-LEFT OVERRIDE}back")
    shown = cli("look", "drawbar", "--book", folder)
    assert "\u202e" not in shown.out + shown.err
    assert r"\u202e" in shown.out + shown.err or "U+202E" in shown.err


def test_job_without_taking_apart(tmp_path: Path, cli: Runner) -> None:
    """A job that says nothing of taking apart shows its steps alone."""
    gate = '{name: "look", question: "Is it clean?", why: "dirt"}'
    source = '{kind: invented, title: "t", provenance: "invented"}'
    text = f'kind: job\ntitle: "T"\nname: "tow"\nsteps: [{{gate: {gate}}}]\nsource: {source}\n'
    (tmp_path / "tow.yaml").write_text(text, encoding="utf-8")
    shown = cli("look", "tow", "--book", str(tmp_path)).out
    assert "Steps\n  1  gate  look: Is it clean?\n" in shown
    assert "Taking apart" not in shown


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind(kind: str, cli: Runner) -> None:
    """Every kind of record can be asked for; where the book has none, that is said."""
    ran = cli("look", *kind.split(), "--kind", kind, "--json")
    if ran.code == 0:
        assert {one["kind"] for one in json.loads(ran.out)["found"]} == {kind}
    else:
        assert ran.err.endswith("no record holds this\n")
    shown = cli("look", *kind.split(), "--kind", kind)
    assert all(len(line) <= 80 for line in shown.out.splitlines())


def test_no_such_kind(cli: Runner) -> None:
    """A kind that there is not is answered with the one that comes near."""
    ran = cli("look", "x", "--kind", "joints")
    assert ran.code == 2
    assert '"joints": no kind of record; write joint' in ran.err


def test_id_for_a_shell(tmp_path: Path, cli: Runner) -> None:
    """An id that a shell would act on is shown as one word that does nothing."""
    book(tmp_path)
    for name in ("$(reboot)", "\x1b[31m"):
        text = (
            (tmp_path / "eye.yaml").read_text().replace('"drawbar eye"', f'"drawbar {len(name)}"')
        )
        (tmp_path / f"{name}.yaml").write_text(text)
    shown = cli("look", "drawbar", "--book", str(tmp_path)).out
    assert "\x1b" not in shown
    assert "     \\x1b[31m\n" in shown
    (tmp_path / "eye.yaml").unlink()
    (tmp_path / "\x1b[31m.yaml").rename(tmp_path / "z.yaml")
    shown = cli("look", "drawbar", "--book", str(tmp_path)).out
    assert "Show one: torquebook look " in shown
    assert "look $(" not in shown


def test_nothing_found(cli: Runner) -> None:
    """Where nothing is found, words that would find something are offered."""
    ran = cli("look", "flywheel", "zzzz")
    assert (ran.code, ran.out) == (2, "")
    assert '"flywheel zzzz": no record holds this; write flywheel' in ran.err


def test_word_on_the_index(tmp_path: Path, cli: Runner) -> None:
    """A word on a stale index goes to standard error, and the answer is right."""
    folder = book(tmp_path)
    cli("look", "drawbar", "--book", folder)
    book(tmp_path, tighten="99 N.m")
    ran = cli("look", "drawbar", "--book", folder, "--ascii")
    assert "1 record changed in" in ran.err
    assert ran.err.count("\n") <= 2
    assert "    1.  99 N.m\n" in ran.out


def test_bench_path_with_a_folder(tmp_path: Path) -> None:
    """Once the index is made, a folder of the user's costs no parser, no model and no pathlib."""
    folder = book(tmp_path)
    code = (
        "import sys; before = set(sys.modules); from torquebook.cli import run;"
        "run(sys.argv[1:]); sys.stderr.write(' '.join(set(sys.modules) - before))"
    )
    for words in (["look", "drawbar"], ["size", "M10"]):
        command = [sys.executable, "-c", code, *words, "--book", folder]
        subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
        done = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True)
        loaded = set(done.stderr.split())
        assert "sqlite3" in loaded
        heavy = {"pydantic", "yaml", "jsonschema_rs", "tabulate", "hashlib", "multiprocessing"}
        assert not loaded & heavy
