"""A short run of the fuzzer: `python tests/bench/fuzz_reader.py 1000000` is the long one."""

from __future__ import annotations

import pytest
from fuzzing import fuzz


@pytest.mark.parametrize("seed", range(-3, 0))
def test_damaged_records_are_read_or_refused(seed: int) -> None:
    """Damaged records end in a record or in messages, and the rules look at all that are sound."""
    tally = fuzz(seed, 1_000, judged=0.3)
    assert not tally.raised
    assert min(tally.seen[what] for what in ("sound", "faulty", "unreadable", "judged")) > 10
