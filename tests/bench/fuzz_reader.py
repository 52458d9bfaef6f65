"""Damaged records a second on all processors, and every distinct traceback that they draw.

Run from the checkout: ``python tests/bench/fuzz_reader.py [INPUTS] [FIRST_SEED]``; it ends with
exit code 1 if anything but ``Unreadable`` was raised.
"""

from __future__ import annotations

import os
import sys
import time
from collections import Counter
from multiprocessing import Pool
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "support")]

from fuzzing import fuzz  # noqa: E402 - as pytest finds it

BATCH = 1_000


def main() -> int:
    """Damage and read records, and print the figures."""
    count, first = (*map(int, sys.argv[1:]), *(100_000, 0)[len(sys.argv) - 1 :])
    started = time.perf_counter()
    seen: Counter[str] = Counter()
    raised: dict[str, str] = {}
    with Pool(os.cpu_count()) as pool:
        for tally in pool.imap_unordered(fuzz, range(first, first + -(-count // BATCH))):
            seen += tally.seen
            raised = tally.raised | raised
    seconds = time.perf_counter() - started
    for origin, trace in raised.items():
        sys.stdout.write(f"{origin}\n{trace}\n")
    said = ", ".join(f"{number} {what}" for what, number in sorted(seen.items()))
    total = seen.total() - seen["judged"]
    sys.stdout.write(
        f"{total} inputs ({said}) in {seconds:.0f} s: {total / seconds:.0f} inputs/s on "
        f"{os.cpu_count()} processors, {len(raised)} distinct tracebacks\n"
    )
    return 1 if raised else 0


if __name__ == "__main__":
    sys.exit(main())
