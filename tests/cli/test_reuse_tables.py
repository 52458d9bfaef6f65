"""Every published limit for a fastener that goes in again is reached through the command."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from drag_tables import name_of, printed

from torquebook.catalogue.book import Book

if TYPE_CHECKING:
    from conftest import Runner

ROWS = printed()
#: FAA sizes whose pitch the book does not list.
UNLISTED = {"1-1/8-8", "1-1/4-8"}
INSIDE = ("--length", "126.3 mm", "--new", "126.0 mm", "--limit", "126.5 mm")
#: How much less than the limit is too little, as a share of it.
LESS = 1e-3


def drag(cli: Runner, row: dict[str, str], share: float) -> bool | None:
    """Return whether a share of a printed torque is enough by its table, through the command."""
    table = name_of(row)
    nut = "nylon-insert nut" if table.endswith("nylon") else "all-metal locking nut"
    uses = "1" if row["quantity"] == "first_removal_min" else "3"
    ran = cli(
        "reuse",
        f"{Book.open().candidates(row['thread'])[0].size} {nut}",
        *("--drag", f"{float(row['value']) * share:.6f} {row['unit']}"),
        *("--uses", uses, "--table", table, "--json"),
    )
    assert ran.code == 0, ran.err
    (answer,) = json.loads(ran.out)["fasteners"]
    (check,) = (
        check
        for ruling in answer["rulings"]
        for check in ruling["checks"]
        if check["quantity"] == "drag"
    )
    assert f" by {table} (" in check["said"]
    passed: bool | None = check["passed"]
    return passed


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["thread"] not in UNLISTED],
    ids=lambda row: f"{name_of(row)} {row['thread']} {row['quantity']}",
)
def test_printed_torque_decides(row: dict[str, str], cli: Runner) -> None:
    """The printed torque is enough, a little less is not; of a most a little more is too much."""
    on_most = row["quantity"] == "first_assembly_max"
    assert drag(cli, row, 1) is True
    assert drag(cli, row, 1 + LESS if on_most else 1 - LESS) is False


@pytest.mark.parametrize("thread", sorted(UNLISTED))
def test_unlisted_pitch_is_asked_back(thread: str, cli: Runner) -> None:
    """Two printed sizes are no threads of the book; who types them is told which are."""
    ran = cli("reuse", f"{thread} locking nut", "--table", "FAA coarse")
    assert ran.code == 2
    assert "no listed pitch of this diameter" in " ".join(ran.err.split())
    assert thread in {row["thread"] for row in ROWS}


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        # Examples read in print in makers' engine manuals: 168 and 171 mm, 126.0 and 126.5 mm,
        # four punch marks.
        (("--length", "171 mm", "--new", "168 mm", "--limit", "171 mm"), "reuse"),
        (("--length", "171.1 mm", "--new", "168 mm", "--limit", "171 mm"), "renew"),
        (("--length", "126.5 mm", "--new", "126.0 mm", "--limit", "126.5 mm"), "reuse"),
        (("--length", "126.6 mm", "--new", "126.0 mm", "--limit", "126.5 mm"), "renew"),
        (("--uses", "3", "--allowed", "4"), "reuse"),
        (("--uses", "4", "--allowed", "4"), "renew"),
        # Inside the length, but used up: the stricter of the maker's two counts.
        (
            (*INSIDE, "--uses", "4", "--allowed", "4"),
            "renew",
        ),
        (("--new", "126.0 mm", "--limit", "126.5 mm"), "measure"),
    ],
)
def test_makers_limits(words: tuple[str, ...], verdict: str, cli: Runner) -> None:
    """A maker's length and number of tightenings decide, at the limit and past it."""
    answer = json.loads(cli("reuse", "M10x1.25 10.9 stretch", *words, "--json").out)
    (fastener,) = answer["fasteners"]
    assert fastener["verdict"] == verdict
    assert fastener["rulings"][0]["maker"] is True
    assert "renew" in {ruling["verdict"] for ruling in fastener["rulings"]}


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        ("3/4-10 A325", "measure"),
        ("3/4-10 galvanised A325", "renew"),
        ("3/4-10 A490", "renew"),
        ("3/4-10 galvanised A490", "renew"),
    ],
)
def test_structural_bolts(words: str, verdict: str, cli: Runner) -> None:
    """What RCSC 2.3.3 says of structural bolts; a plain A325 only with the engineer's word."""
    (fastener,) = json.loads(cli("reuse", words, "--json").out)["fasteners"]
    assert fastener["verdict"] == verdict
    first = fastener["rulings"][0]
    assert first["source"].startswith("RCSC")
    assert ("engineer of record" in (first["otherwise"] or "")) == (verdict == "measure")


@pytest.mark.parametrize(("uses", "verdict"), [("14", "measure"), ("15", "renew")])
def test_cycles_of_an_insert(uses: str, verdict: str, cli: Runner) -> None:
    """A locking insert is qualified for 15 cycles (TM 55-2840-251-23, appendix E)."""
    words = ("reuse", "M6 coil insert", "--uses", uses, "--json")
    assert json.loads(cli(*words).out)["fasteners"][0]["verdict"] == verdict
