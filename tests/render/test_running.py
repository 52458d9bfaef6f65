"""The screens of a run."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest

from torquebook.catalogue.book import Book
from torquebook.catalogue.library import Library
from torquebook.jobs.session import Hand, Session
from torquebook.jobs.working import work_out
from torquebook.render import running as render
from torquebook.render.paper import Paper
from torquebook.render.running import Screen

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from torquebook.jobs.steps import RunStep

LARGE, SMALL = Screen(large=True, ink="#", echoes=False), Screen(large=False, ink="#", echoes=True)
ANSWERS = {
    "flywheel face runout": "0.05",
    "new cover beside the old one": "0",
    "hole depth against bolt length": "24",
    "sensor clearance": "0.7",
    "drag of the pinion bearings": "2",
    "hub end float": "0.1",
    "flywheel to crankshaft": "80",
}


@pytest.fixture
def session(tmp_path: Path) -> Iterator[Session]:
    """Begin a run of the demo's job."""
    job = work_out(Library(), Book.open(), "brigade overhaul")
    hand = Hand("anna", "shed", 77, lambda: "2026-05-02T10:00:00+02:00")
    with Session(job, tmp_path / "run.jsonl", hand, "tanker\x1b[2J") as run:
        yield run


def shown(session: Session, screen: Screen, *said: str, helps: bool = False) -> str:
    """Return the screen of the step that a run is at."""
    paper = Paper(plain=True)
    render.step_text(session, said, screen, paper, helps=helps)
    return str(paper)


def answer(step: RunStep, reading: str | None, *, read: bool | None = None) -> str:
    """Return what is typed at a step: a reading where one is due, or asked for."""
    if step.must if read is None else read:
        return reading or ""
    return "y" if step.blocks else ""


def test_every_screen_fits(session: Session) -> None:
    """No step of the demo is higher than 24 rows or wider than 80 columns."""
    while step := session.state.current:
        for screen in (LARGE, SMALL):
            lines = shown(session, screen, "3 recorded: the step before").splitlines()
            assert len(lines) < 24, step.id
            assert max(map(len, lines)) <= 80
            assert "\x1b" not in "".join(lines)
        session.take("A. Miller" if step.kind == "sign" else answer(step, ANSWERS.get(step.name)))
    with pytest.raises(LookupError):
        shown(session, LARGE)
    paper = Paper()
    render.left(session, "torquebook", paper)
    assert "signed off; the record:" in str(paper)
    assert "still due: front wheels: retorque after 50 km" in str(paper)


def test_a_bolt_has_the_screen_to_itself(session: Session) -> None:
    """What was done, which bolt, the number large with its unit, the wrench, the keys."""
    session.take("y")
    session.take("")
    assert shown(session, LARGE, "3 recorded: before").splitlines() == [
        "brigade overhaul, for tanker\\x1b[2J: part 2, step 3 of 226",
        "3 recorded: before",
        "",
        "flywheel to crankshaft",
        "stage 1 of 2, bolt 1 of 8, position 1",
        "",
        "  ##########    ######",
        "        ##    ##      ##",
        "      ##      ##    ####",
        "        ##    ##  ##  ##",
        "          ##  ####    ##",
        "  ##      ##  ##      ##",
        "    ######      ######  N.m",
        "",
        "  set on click 20-100",
        "",
        "Enter done   b back   s skip   p pause   ? help",
    ]


def test_a_gate_shows_its_limit_and_what_did_not_pass(session: Session) -> None:
    """An end without another one says so beside the number."""
    while (step := session.state.current) and step.name != "flywheel face runout":
        session.take(answer(step, "80"))
    session.take("0.2 mm")
    text = shown(session, LARGE)
    assert "mm at most\n" in text
    assert "did not pass: 0.2 mm" in text
    assert "type the reading   b back   p pause   ? help" in text
    text = " ".join(shown(session, SMALL).split())
    assert "Type the reading: at most 0.1 mm. Did not pass: 0.2 mm." in text
    paper = Paper()
    render.left(session, "torquebook job run x", paper)
    assert str(paper) == "paused before: flywheel face runout\ngo on: torquebook job run x\n"


def test_readings_at_the_bolts_are_offered(session: Session) -> None:
    """Where every bolt was read, Enter takes these readings."""
    while (step := session.state.current) and step.kind != "finish":
        session.take(answer(step, "80", read=bool(step.limits)))
    assert "Read at 8 bolts: Enter takes these readings." in " ".join(shown(session, SMALL).split())


def test_the_reason_for_skipping_is_asked_alone(session: Session) -> None:
    """The keys are those that count now, and a paragraph says no more than the question."""
    session.take("y")
    reply = session.take("s")
    said = session.said(reply)
    assert shown(session, LARGE, *said).endswith(
        "type the reason   b not skipped   p pause   ? help\n"
    )
    assert shown(session, SMALL, *said) == "why is it skipped? b goes back to it\n"


@pytest.mark.parametrize("screen", [LARGE, SMALL])
def test_help_explains_every_key(session: Session, screen: Screen) -> None:
    """Each key with what it does, and the step that is next."""
    text = shown(session, screen, helps=True)
    assert all(f"  {key}" in text and what in text for key, what in render.HELP)
    assert "spigot bearing" in text
    assert len(text.splitlines()) < 24


class Terminal(io.StringIO):
    """A terminal of some encoding."""

    def __init__(self, encoding: str | None, *, there: bool) -> None:
        super().__init__()
        self.named = encoding
        self.there = there

    @property
    def encoding(self) -> str | None:  # type: ignore[override]
        """What it can show."""
        return self.named

    def isatty(self) -> bool:
        """Whether somebody looks at it."""
        return self.there


@pytest.mark.parametrize(
    ("environ", "typed", "looked", "plain", "large"),
    [
        ({"TERM": "xterm"}, True, True, False, True),
        ({"TERM": "xterm", "NO_COLOR": "1"}, True, True, False, True),
        ({"WT_SESSION": "x"}, True, True, False, True),
        ({"TERM": "xterm"}, True, True, True, False),
        ({"TERM": "dumb"}, True, True, False, False),
        ({"TERM": ""}, True, True, False, False),
        ({}, True, True, False, False),
        ({"TERM": "xterm"}, False, True, False, False),
        ({"TERM": "xterm"}, True, False, False, False),
    ],
)
def test_only_a_terminal_that_moves_its_cursor_is_cleared(
    environ: dict[str, str],
    typed: bool,
    looked: bool,
    plain: bool,
    large: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A pipe, a dumb terminal and --plain get a paragraph a step."""
    monkeypatch.setattr("sys.stdin", Terminal("utf-8", there=typed))
    monkeypatch.setattr("sys.stdout", Terminal("utf-8", there=looked))
    screen = render.screen_of(environ, plain=plain, ascii_only=False)
    assert (screen.large, screen.echoes) == (large, not typed)


@pytest.mark.parametrize(
    ("encoding", "ascii_only", "ink"),
    [("utf-8", False, "█"), ("utf-8", True, "#"), ("ascii", False, "#"), (None, False, "#"),
     ("none", False, "#")],
)  # fmt: skip
def test_digits_are_drawn_with_what_can_be_shown(
    encoding: str | None, ascii_only: bool, ink: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Blocks where the terminal has them, number signs elsewhere."""
    monkeypatch.setattr("sys.stdout", Terminal(encoding, there=True))
    assert render.screen_of({}, plain=False, ascii_only=ascii_only).ink == ink
