"""``torquebook reuse``."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from conftest import Runner

BOOK = str(Path(__file__).parents[1] / "reuse" / "book")
STRETCH = "M10x1.25 10.9 stretch"
LIMIT = ("--length", "126.3 mm", "--new", "126.0 mm", "--limit", "126.5 mm")
NUT = ("7/16-20 nylon-insert nut", "--drag", "10 lbf.in")


def one(cli: Runner, *words: str) -> dict[str, Any]:
    """Return the answer for one fastener."""
    ran = cli("reuse", *words, "--json")
    assert ran.code == 0, ran.err
    (fastener,) = json.loads(ran.out)["fasteners"]
    assert isinstance(fastener, dict)
    return fastener


def complaint(cli: Runner, *words: str) -> str:
    """Return what is complained of, of input that cannot be used."""
    ran = cli("reuse", *words)
    assert (ran.code, ran.out) == (2, "")
    return " ".join(ran.err.split())


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("reuse-renew", (STRETCH,)),
        ("reuse-measured", (STRETCH, *LIMIT)),
        ("reuse-contradiction", NUT),
        ("reuse-preferred-ascii", (*NUT, "--prefer", "FAA", "--ascii")),
        ("reuse-doubt", (STRETCH, "--length", "125.3 mm", "--new", "126 mm")),
        ("reuse-plain", ("M10 8.8",)),
        ("reuse-joint", ("--joint", "limits", "--book", BOOK, "--length", "126.2 mm")),
        ("reuse-job", ("--job", "brigade-overhaul")),
    ],
)
def test_text(
    name: str, words: tuple[str, ...], cli: Runner, golden: Callable[[str, str], None]
) -> None:
    """The text answer is the reviewed one and fits 80 columns."""
    ran = cli("reuse", *words)
    assert ran.code == 0
    golden(f"{name}.txt", ran.out)
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "--ascii" not in words or ran.out.isascii()


def test_strictest_source_counts(cli: Runner) -> None:
    """Without a preference the source that discards counts, and the others are shown."""
    answer = one(cli, *NUT)
    said = [(ruling["source"].split(",")[0], ruling["verdict"]) for ruling in answer["rulings"]]
    assert said[0] == ("US Army TB 43-0218", "renew")
    assert ("FAA AC 43.13-1B", "reuse") in said
    assert ("US Army TM 1-1500-204-23-6", "renew") in said  # 10 is below its 14 lbf·in
    assert (answer["verdict"], answer["preferred"]) == ("renew", None)


@pytest.mark.parametrize("source", ["AC 43.13-1B", "FAA", "locking nut, FAA", "locking-nut-faa"])
def test_preference_turns_it(source: str, cli: Runner) -> None:
    """A preferred source counts first, and the one that discards stands below."""
    answer = one(cli, *NUT, "--prefer", source)
    assert (answer["verdict"], answer["preferred"]) == ("reuse", "FAA AC 43.13-1B")
    assert answer["rulings"][0]["source"].startswith("FAA AC 43.13-1B")
    assert "renew" in {ruling["verdict"] for ruling in answer["rulings"][1:]}


def test_first_of_two_preferences_wins(cli: Runner) -> None:
    """Of two preferred sources that disagree the first named counts."""
    both = ("--prefer", "TM 1-1500-204-23-6", "--prefer", "FAA")
    assert one(cli, *NUT, *both)["verdict"] == "renew"
    assert one(cli, *NUT, *both[2:], *both[:2])["verdict"] == "reuse"


def test_preference_of_a_book(cli: Runner, tmp_path: Path) -> None:
    """A record in the user's folder prefers as the option does."""
    (tmp_path / "mine.yaml").write_text(
        'kind: preference\ntitle: "ours"\nname: "ours"\nprefer: ["AC 43.13-1B"]\n'
        'source: {kind: measured, title: "the shop", provenance: "agreed"}\n',
        encoding="utf-8",
    )
    assert one(cli, *NUT, "--book", str(tmp_path))["verdict"] == "reuse"


def test_preference_that_no_rule_has(cli: Runner, tmp_path: Path) -> None:
    """A record that prefers an unknown source is named with its file."""
    path = tmp_path / "mine.yaml"
    path.write_text(
        'kind: preference\ntitle: "ours"\nname: "ours"\nprefer: ["US Army TB 43-0219"]\n'
        'source: {kind: measured, title: "the shop", provenance: "agreed"}\n',
        encoding="utf-8",
    )
    said = complaint(cli, *NUT, "--book", str(tmp_path))
    assert (
        f'{path}: "US Army TB 43-0219": no rule has such a source; write US Army TB 43-0218' in said
    )


MAKERS = """\
kind: reuse rule
title: "Our pump's nuts"
name: "pump nut"
features: ["locking nut", "nylon-insert nut"]
verdict: reuse
strictness: 1
why: "its maker says so"
source: {kind: maker, title: "sheet of the pump", provenance: "read"}
"""


def test_rule_of_a_maker(cli: Runner, tmp_path: Path) -> None:
    """A rule in the user's folder whose source is the maker counts before all others."""
    (tmp_path / "reuse").mkdir()
    (tmp_path / "reuse" / "pump.yaml").write_text(MAKERS, encoding="utf-8")
    answer = one(cli, *NUT, "--book", str(tmp_path), "--prefer", "TB 43-0218")
    assert (answer["verdict"], answer["rulings"][0]["rule"]) == ("reuse", "reuse/pump")


def test_preference_excuses_no_damage(cli: Runner) -> None:
    """A preferred source settles a contradiction, not what it does not speak of."""
    loose = one(cli, *NUT, "--prefer", "FAA", "--history", "found loose")
    assert loose["rulings"][0]["rule"] == "reuse/locking-loose"
    turning = one(cli, "7/16-20 locking nut rotating", *NUT[1:], "--prefer", "TM 1-1500-204-23-6")
    assert turning["rulings"][0]["rule"] == "reuse/locking-nut-rotating"


def test_maker_counts_before_all_but_damage(cli: Runner) -> None:
    """A kept limit of the maker's counts before any preference, and excuses no damage."""
    assert one(cli, STRETCH, *LIMIT)["verdict"] == "reuse"
    answer = one(cli, f"{STRETCH} damaged thread", *LIMIT)
    assert [ruling["verdict"] for ruling in answer["rulings"][:2]] == ["renew", "reuse"]


@pytest.mark.parametrize(
    ("words", "doubt", "verdict"),
    [
        ((STRETCH, *LIMIT[2:], "--length", "125.8 mm"), "no bolt shrinks", "measure"),
        ((STRETCH, *LIMIT[2:], "--length", "132.3 mm"), "grew 5 %", "measure"),
        ((STRETCH, *LIMIT[4:], "--length", "12.63 mm"), "far from the limit", "measure"),
        ((STRETCH, "--limit", "126 mm", "--new", "126.5 mm"), "not above the new", "renew"),
        (("M10 8.8", "--diameter", "10.2 mm", "9.9 mm"), "10 mm nominal", "clean"),
        (("M10 8.8", "--diameter", "9.9 mm", "4 mm"), "less than half", "clean"),
        (("M10 locking nut", "--drag", "0 N.m", "--prefer", "ISO 2320"), "scrap", "measure"),
        (("M10 locking nut", "--drag", "60 N.m", "--prefer", "ISO 2320"), "is tight", "measure"),
        ((STRETCH, "--uses", "0", "--allowed", "4"), "at least once", "measure"),
        (("M10 8.8", "--stretched", "90 mm", "--new", "60 mm"), "90 mm that stretch", "clean"),
    ],
)
def test_what_cannot_be_right_is_asked_back(
    words: tuple[str, ...], doubt: str, verdict: str, cli: Runner
) -> None:
    """A measurement that cannot be right is asked back, and decides nothing."""
    answer = one(cli, *words)
    (said,) = answer["doubts"]
    assert doubt in said
    assert answer["verdict"] == verdict


def test_reading_error_is_no_doubt(cli: Runner) -> None:
    """A calliper's last digit makes no bolt shrink."""
    answer = one(cli, STRETCH, *LIMIT[2:], "--length", "125.95 mm")
    assert (answer["doubts"], answer["verdict"]) == ([], "reuse")


@pytest.mark.parametrize(
    ("length", "stretched", "verdict", "passed"),
    [
        ("100.2 mm", "", "measure", None),  # just 0.2 % of the whole: proves nothing
        ("100.21 mm", "", "renew", False),
        ("100.11 mm", "50 mm", "renew", False),
        ("100.1 mm", "50 mm", "measure", None),
    ],
)
def test_growth(
    length: str, stretched: str, verdict: str, passed: bool | None, cli: Runner
) -> None:
    """Growth over 0.2 % of the length that stretches proves yield; less proves nothing."""
    more = ("--stretched", stretched) if stretched else ()
    answer = one(cli, "M10 10.9 by angle", "--length", length, "--new", "100 mm", *more)
    (check,) = (c for c in answer["rulings"][0]["checks"] if c["quantity"] == "growth")
    assert (answer["verdict"], check["passed"]) == (verdict, passed)


@pytest.mark.parametrize(
    ("tighten", "history", "verdict"),
    [
        ("20 N.m + 10 deg", "elastic", "measure"),
        ("30 N.m + 60 deg", "may be past yield", "measure"),
        ("30 N.m + 180 deg", "past yield", "renew"),
        ("20 N.m, slacken, 20 N.m", "elastic", "clean"),
    ],
)
def test_own_computation(tighten: str, history: str, verdict: str, cli: Runner) -> None:
    """Whether it went past yield is computed over the whole band, and the numbers are shown."""
    answer = one(cli, "M10 10.9", "--tighten", tighten, "--clamp-length", "60")
    assert (answer["history"], answer["verdict"]) == ([history], verdict)
    assert any("% of yield" in remark for remark in answer["remarks"])
    assert ("angle tightened" in answer["features"]) == ("deg" in tighten)


def test_elastic_and_not_grown_goes_back(cli: Runner) -> None:
    """Where computation and measurement agree that it stayed elastic it goes in as measured."""
    words = ("--tighten", "20 N.m + 10 deg", "--clamp-length", "60", "--friction", "oiled")
    grown = ("--length", "80.05 mm", "--new", "80 mm", "--stretched", "60 mm")
    assert one(cli, "M10 10.9", *words, *grown)["verdict"] == "reuse"


def test_table_by_name(cli: Runner) -> None:
    """A named table is the one that counts, and the rules of the others are set aside."""
    words = ("M10 nylon-insert nut", "--drag", "1.2 N.m", "--table", "iso 2320")
    answer = one(cli, *words, "--uses", "3")
    said = [c["said"] for r in answer["rulings"] for c in r["checks"] if c["quantity"] == "drag"]
    told = "at least 1 N·m up to the fifth removal, at most 10.5 N·m going on for M10"
    assert said == [f"drag 1.2 N·m; {told} by ISO 2320 (steel nuts of class 04)"]
    assert "set aside for ISO 2320, which was asked for: FAA AC 43.13-1B" in answer["remarks"]


def test_table_that_does_not_list_it(cli: Runner) -> None:
    """A table that lacks the thread says so, whether it was named or not."""
    words = ("M10x1.25 locking nut", "--drag", "1.2 N.m")
    (said,) = (
        check["said"]
        for ruling in one(cli, *words, "--table", "ISO 2320")["rulings"]
        for check in ruling["checks"]
        if check["quantity"] == "drag"
    )
    assert said == "drag 1.2 N·m; ISO 2320 does not list M10x1.25"
    remarks = one(cli, *words)["remarks"]
    assert (
        "set aside: ISO 2320: ISO 2320 and ISO 2320 class 8 or 10 do not list M10x1.25" in remarks
    )


def test_nothing_gets_lost(cli: Runner) -> None:
    """What no rule asks for is named: words as well as measurements."""
    words = ("--length", "50 mm", "--uses", "2", "--drag", "1 N.m", "--diameter", "9 mm", "9 mm")
    remarks = " ".join(one(cli, "M10 8.8 ribbed head loose", *words)["remarks"])
    for lost in ('"ribbed head"', '"found loose"', "length", "uses", "drag", "diameters"):
        assert lost in remarks


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "name one of"),
        (("M10", "--job", "x"), "name one of"),
        (("M8 stretsh",), "write stretch"),
        (("M8 patch",), "adhesive patch or nylon patch"),
        (("M8 not stretch",), "leave out what it does not have"),
        (("3/8 stretch",), "3/8-16 UNC or 3/8-24 UNF"),
        (("M10x1.3 stretch",), "no listed pitch"),
        (("M10 8 stretch",), "8.8 or SAE 8"),
        (("M10 SAE 8",), "a class for inch threads only"),
        (("M10 M12",), "two threads"),
        (("M10 8.8 10.9",), "two classes"),
        ((STRETCH, "--length", "126.3"), "126.3 mm or 126.3"),
        ((STRETCH, "--length", "1,350 mm"), "1350 mm or 1.35 mm"),
        ((STRETCH, "--length", "0 mm"), "more than 0"),
        ((STRETCH, "--length", "2 N.m"), "2 N.m"),
        ((STRETCH, "--uses", "two"), "no number of times"),
        ((STRETCH, "--allowed", "0"), "1 to 1000 times"),
        ((STRETCH, "--history", "found lose"), "found loose"),
        ((STRETCH, "--prefer", "a friend"), "no rule has such a source"),
        (("M8 locking nut", "--table", "ISO 2302"), "ISO 2320"),
        (("stretch", "--tighten", "30 N.m"), "needs its thread and class"),
        (("M10 10.9 past yield", "--tighten", "30 N.m"), "give one of them"),
        (("M10 10.9", "--tighten", "90 deg"), "no torque"),
        (("M10 10.9", "--clamp-length", "40"), "goes with --tighten"),
        (("--joint", "limits", "--tighten", "30 N.m", "--book", BOOK), "a joint says its own"),
        (("--joint", "limit", "--book", BOOK), "joints/limits"),
        (("--job", "no-such"), "no record of that name in jobs/"),
        (("--job", "brigade-overhaul", "--uses", "2"), "name it with --joint"),
        ((",",), "no fastener"),
        (("M10 " * 200,), "more than 500 characters"),
    ],
)
def test_unusable_input(words: tuple[str, ...], said: str, cli: Runner) -> None:
    """Bad input gets one message that says what would be right, and exit code 2."""
    assert said in complaint(cli, *words)


def test_record_with_a_fault(cli: Runner, tmp_path: Path) -> None:
    """A faulty rule of the user's own is named with its place."""
    (tmp_path / "reuse").mkdir()
    (tmp_path / "reuse" / "mine.yaml").write_text("kind: reuse rule\n", encoding="utf-8")
    assert "mine.yaml" in complaint(cli, "M10 8.8", "--book", str(tmp_path))


def test_job_as_json(cli: Runner) -> None:
    """A job's JSON has every joint with its rulings."""
    answer = json.loads(cli("reuse", "--job", "brigade-overhaul", "--json").out)
    assert answer["job"] == "brigade overhaul"
    assert len(answer["fasteners"]) == 25
    assert all(fastener["rulings"] for fastener in answer["fasteners"])
    assert answer["caution"].startswith("The maker's data")


def test_job_shows_doubts(cli: Runner) -> None:
    """What cannot be right in a joint's record stands below a job's table."""
    ran = cli("reuse", "--job", "doubtful", "--book", BOOK)
    assert "too thick: 140 mm that stretch are more than the whole 126 mm" in ran.out


def test_joint_by_file(cli: Runner) -> None:
    """A joint may be named by its file, and its own limits count."""
    answer = one(cli, "--joint", f"{BOOK}/joints/limits.yaml", "--uses", "4")
    assert answer["verdict"] == "renew"
    assert answer["measured"]["uses_allowed"] == 4
    assert answer["measured"]["stretched_mm"] == 110
