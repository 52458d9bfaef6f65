"""Reading the shorthand of service sheets."""

import csv
import time
from contextlib import suppress
from itertools import chain
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from torquebook.errors import NotUnderstood
from torquebook.notation import Angle, Slacken, Torque, Wait, read, write
from torquebook.notation.reading import LONGEST

REAL = Path(__file__).parent.parent / "published" / "real"


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("30 N.m, 60 N.m, +90°, +90°", "30 N.m, 60 N.m, +90 deg, +90 deg"),
        ("60 Nm + 1/4 turn", "60 N.m, +1/4 turn"),
        ("60 N.m + 90 deg + 90 deg", "60 N.m, +90 deg, +90 deg"),
        ("60 N.m plus 90 deg", "60 N.m, +90 deg"),
        ("20 N.m, slacken, 40 N.m + 60 deg", "20 N.m, slacken, 40 N.m, +60 deg"),
        ("40 N.m / 60 N.m / 90°", "40 N.m, 60 N.m, +90 deg"),
        ("40 N.m;60 N.m;90°", "40 N.m, 60 N.m, +90 deg"),
        ("40 N.m -> 60 N.m → 90°", "40 N.m, 60 N.m, +90 deg"),
        ("40 N.m then 60 N.m, and then 90° and 90°", "40 N.m, 60 N.m, +90 deg, +90 deg"),
        ("40 N.m\n60 N.m\n+90°\n", "40 N.m, 60 N.m, +90 deg"),
        ("40 N.m,\n60 N.m,\n+90°.", "40 N.m, 60 N.m, +90 deg"),
        ("1. 30 Nm 2. 60 Nm 3. 90°", "30 N.m, 60 N.m, +90 deg"),
        ("1) 30 Nm; 2) +90°", "30 N.m, +90 deg"),
        ("stage 1: 30 Nm, Stage 2: 60 Nm", "30 N.m, 60 N.m"),
        ("Step 1 30 Nm\nStep 2 slacken\nstep 3 wait 5 min", "30 N.m, slacken, wait 5 min"),
        ("pass 1: 5 Nm", "5 N.m"),
        ("39,2-44,1 N.m, 90°", "39.2-44.1 N.m, +90 deg"),
        ("22.14 ft lb (30 Nm), 45°", "22.14 lbf.ft (30 N.m), +45 deg"),
        ("22.14 ft lb [30 Nm]", "22.14 lbf.ft (30 N.m)"),
        ("100-110 lb-ft (135-170 N.m)", "100-110 lbf.ft (135-170 N.m)"),
        ("80 ±8 N.m (59 ±6 lbf.ft)", "80 +/-8 N.m (59 +/-6 lbf.ft)"),
        ("80 ±8 N.m (59 lbf.ft)", "80 +/-8 N.m (59 lbf.ft)"),
        ("20 N.m (15 lbf.ft) min", "min 20 N.m (15 lbf.ft)"),
        ("min 20 N.m (min 15 lbf.ft)", "min 20 N.m (15 lbf.ft)"),
        ("1/4 turn (90°)", "+1/4 turn"),
        ("  60 N.m  ", "60 N.m"),
        ("75 Nm + 1/8 Umdrehung", "75 N.m, +1/8 turn"),
        ("75 Nm + 1/4 tour", "75 N.m, +1/4 turn"),
        ("30 Nm + 90 Grad", "30 N.m, +90 deg"),
        ("8 mkp, 0.350 N.m, 1.3560 N.m", "8 kgf.m, 0.35 N.m, 1.3560 N.m"),
    ],
)
def test_reads_a_list_of_stages(text: str, canonical: str) -> None:
    """However a sheet strings its stages together, they come out in one notation."""
    assert write(read(text), plain=True) == canonical


@pytest.mark.parametrize(
    ("text", "stage"),
    [
        ("slacken", Slacken()),
        ("loosen off", Slacken()),
        ("back off completely", Slacken()),
        ("slacken to 0", Slacken()),
        ("slacken to zero", Slacken()),
        ("slacken to 0 N.m", Slacken()),
        ("slacken 90 deg", Slacken(90.0)),
        ("back-off by 1/4 turn", Slacken(90.0)),
        ("undo 2 flats", Slacken(120.0)),
        ("wait 5 min", Wait(5.0)),
        ("wait for 1,5 minutes", Wait(1.5)),
        ("pause 2 h", Wait(120.0)),
        ("wait 30 s", Wait(0.5)),
    ],
)
def test_reads_slackening_and_waiting(text: str, stage: Slacken | Wait) -> None:
    """A stage may turn back, by an angle or until free, or leave the joint alone."""
    assert read(text) == (stage,)


def test_says_where_each_stage_begins() -> None:
    """Columns count from 1 and point at the stage, behind its number and its plus."""
    stages = read("1. 30 Nm 2. +90°\n3. slacken 4. wait 5 min")
    assert [stage.column for stage in stages] == [4, 14, 21, 32]


@pytest.mark.parametrize(
    ("text", "readings", "offset"),
    [
        ("", (), 0),
        ("   ", (), 3),
        ("oiled", (), 0),
        ("-90°", (), 0),
        ("60 N.m 90", ("60 N.m, +90 deg", "60 N.m, 90 N.m"), 7),
        ("60 N.m 90°", ("60 N.m, 90°",), 7),
        ("60 N.m oiled", (), 7),
        ("60 N.m,", ("60 N.m",), 6),
        ("60 N.m + ", ("60 N.m",), 6),
        ("60 N.m,, 90°", (), 7),
        ("1. 5 Nm", ("5 Nm", "1.5 Nm"), 0),
        ("2. 5 Nm", (), 0),
        ("1. 30 Nm 3. 60 Nm", (), 9),
        ("slacken 90", ("slacken 90 deg", "slacken 90 turn"), 8),
        ("slacken to 10 N.m", ("slacken, 10 N.m",), 0),
        ("slacken 10 N.m", ("slacken, 10 N.m",), 0),
        ("slacken to 90°", ("slacken 90°",), 0),
        ("slacken to", ("slacken to 0",), 0),
        ("slacken 60-90°", (), 0),
        ("wait", ("wait 10 min",), 0),
        ("wait 10", ("wait 10 min", "wait 10 h", "wait 10 s"), 0),
        ("60 N.m (90°)", ("60 N.m, +90°",), 8),
        ("60 N.m (oiled)", (), 8),
        ("60 N.m (foo)", (), 8),
        ("60 N.m (44 lbf.ft, 6 kgf.m)", (), 8),
        ("60 N.m (44 lbf.ft", (), 8),
        ("60-70 N.m (44 lbf.ft)", (), 11),
        ("60 N.m (44-52 lbf.ft)", (), 8),
        ("1/4 turn (60°)", (), 10),
        ("1/4 turn (60 N.m)", (), 10),
    ],
)
def test_refuses_what_is_no_list_of_stages(
    text: str, readings: tuple[str, ...], offset: int
) -> None:
    """One refusal says where, and offers what can be read."""
    with pytest.raises(NotUnderstood) as caught:
        read(text)
    assert caught.value.readings == readings
    assert caught.value.offset == offset
    assert all(read(reading) for reading in readings)


def test_refuses_a_long_text_in_short() -> None:
    """A very long text is refused by its length."""
    with pytest.raises(NotUnderstood, match="longer than 500") as caught:
        read("30 N.m, " * 10_000)
    assert len(str(caught.value)) < 100


def cells() -> list[tuple[str, str]]:
    """Return file and text of every torque and stage cell in the printed lists."""
    found = []
    for path in sorted(chain(REAL.glob("B*.csv"), REAL.glob("C_angle*.csv"))):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                stages = [row[name] for name in row if name.startswith("stage_")]
                texts = [f"{row['torque']} {row['unit']}"] if "torque" in row else stages
                found += [(path.name, text) for text in texts if text]
    return found


# Cells that are no stage: a scanner's losses, and words of the sheet's own.
REFUSED = {
    ("B02_as_scanned_dirty.csv", "-"): (),
    ("C_angle_and_stretch_procedures.csv", "(270 lb-ft once if short of stretch)"): (),
    ("C_angle_and_stretch_procedures.csv", "45 deg + 30 deg (4th angle)"): (
        "4 N.m",
        "4 lbf.ft",
        "4 lbf.in",
        "4 kgf.m",
    ),
}


def asked(text: str) -> tuple[str, ...] | None:
    """Return the readings with which a text is asked back, or None where it is read."""
    try:
        stages = read(text)
    except NotUnderstood as trouble:
        return trouble.readings
    return None if read(write(stages)) == stages else ()


def test_reads_every_cell_of_the_printed_lists() -> None:
    """All stages that real manuals print are read; numbers without a unit are asked back."""
    answers = {cell: asked(cell[1]) for cell in cells()}
    refused = {cell: readings for cell, readings in answers.items() if readings is not None}
    bare = {cell: readings for cell, readings in refused.items() if cell[1].isdigit()}
    assert {cell: refused[cell] for cell in refused if cell not in bare} == REFUSED
    assert {file for file, _ in bare} == {"B02_as_scanned_dirty.csv"}
    for (_, text), readings in bare.items():
        assert readings == tuple(f"{text} {unit}" for unit in ("N.m", "lbf.ft", "lbf.in", "kgf.m"))
    assert len(answers) - len(refused) > 200


def test_reads_the_one_sided_tolerance_of_a_printed_table() -> None:
    """Source: US Army TM 10-4320-315-24, table 3-4, prints 60 +10 N·m beside 44.28 +7.38."""
    (stage,) = read("60 +10 N.m")
    assert isinstance(stage, Torque)
    assert stage.band == (60.0, 60.0, 70.0)
    (pounds,) = read("44.28 +7.38 lbf.ft")
    assert isinstance(pounds, Torque)
    assert pounds.band == pytest.approx(stage.band, rel=1e-3)


def test_adds_up_the_angles_of_the_printed_procedures() -> None:
    """The stages of each procedure come to the total angle that the list gives."""
    checked = 0
    with (REAL / "C_angle_and_stretch_procedures.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            texts = [row[f"stage_{number}"] for number in (1, 2, 3, 4)]
            if not row["angle_total_deg"] or any("(" in text for text in texts):
                continue
            stages = [stage for text in texts if text for stage in read(text)]
            total = sum(stage.band.nominal for stage in stages if isinstance(stage, Angle))
            assert total == pytest.approx(float(row["angle_total_deg"])), row["joint"]
            checked += 1
    assert checked == 26


WORDS = (
    "30 60 1/4 1 ½ 1,350 1.350 200 39,2 N.m Nm lb ft lbf.ft kg ° deg turn flats + - ± +/- / , "
    "; ( ) [ ] . % max min slacken to 0 wait 5 h then and -> \n 1. 2) stage half "
    "dry foo ft/lb 1e3 ' tight"
)
SHEETS = st.lists(st.sampled_from(WORDS.split(" ")), max_size=30).flatmap(
    lambda words: st.sampled_from(["", " "]).map(lambda space: space.join(words))
)


@given(SHEETS | st.text(max_size=520))
def test_only_not_understood_escapes(text: str) -> None:
    """Any text gives stages that can be written and read again, or one refusal."""
    try:
        stages = read(text)
    except NotUnderstood:
        return
    assert stages
    assert all(text[stage.column - 1 :].strip() for stage in stages)
    assert read(write((stages[0],))) == (stages[0],)


@given(SHEETS)
def test_a_refusal_points_into_its_text(text: str) -> None:
    """The offset of a refusal lies within the text, for an editor to mark."""
    offset = 0
    try:
        read(text)
    except NotUnderstood as trouble:
        offset = trouble.offset
    assert 0 <= offset <= len(text)


@pytest.mark.parametrize(
    "piece",
    [
        "1,",
        "1 1/4 ",
        "(",
        "+90°",
        "30 N.m ",
        "N ",
        "a-",
        " ",
        "\n",
        "max ",
        "1+",
        "1-",
        "1+1-",
        "1/",
        "slacken ",
        "30 N.m\n",
        "1. ",
        "30 N.m (",
        "±",
        "1 to ",
        "1\u00a0",
        "30 N.m +",
        "½",
    ],
)
def test_answers_in_bounded_time(piece: str) -> None:
    """No text makes the reader wander: the longest of each kind is answered at once."""
    text = (piece * LONGEST)[:LONGEST]
    start = time.perf_counter()
    with suppress(NotUnderstood):
        read(text)
    assert time.perf_counter() - start < 1
