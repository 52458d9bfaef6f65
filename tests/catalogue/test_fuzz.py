"""A short run of the fuzzer: `python tests/bench/fuzz_reader.py 1000000` is the long one."""

from __future__ import annotations

from typing import Any

import fuzzing
import pytest
from fuzzing import damaged, fuzz


def fails(text: str, _name: str) -> Any:
    """Read as a reader does that has not thought of everything."""
    return {}[text] if "[" in text else [][len(text)]


@pytest.mark.parametrize("seed", range(-3, 0))
def test_damaged_records_are_read_or_refused(seed: int) -> None:
    """Damaged records end in a record or in messages, and the rules look at all that are sound."""
    tally = fuzz(seed, 1_000, judged=0.3)
    assert not tally.raised
    assert min(tally.seen[what] for what in ("sound", "faulty", "unreadable", "judged")) > 10


def test_what_is_raised_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every distinct exception is kept with where it was raised and what drew it."""
    monkeypatch.setattr(fuzzing, "reading", fails)
    raised = fuzz(1, 50).raised
    assert {origin.partition(" at ")[0] for origin in raised} == {"KeyError", "IndexError"}
    assert all("\nfrom b" in trace for trace in raised.values())


def test_a_seed_gives_the_same_damage() -> None:
    """What a seed has shown is shown again."""
    assert damaged(fuzzing.Random(5)) == damaged(fuzzing.Random(5)) != damaged(fuzzing.Random(6))
