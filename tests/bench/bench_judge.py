"""Lines judged a second on one core, and peak memory, of a list with every column filled in.

Run from the checkout: ``python tests/bench/bench_judge.py [LINES]``; the program is started on
the list with ``--json-lines``; reading counts, and its start is given apart.
"""

from __future__ import annotations

import csv
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from torquebook.plans.model import COLUMNS

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parents[2]
UNCOMPILED = "PYTHONDONTWRITEBYTECODE"
THREADS = {"M6": 6, "M8": 8, "M8x1": 8, "M10": 10, "M10x1.25": 10, "M12": 12, "M12x1.5": 12}


def rows(count: int) -> Iterator[dict[str, str]]:
    """Yield invented lines that share few fasteners, as the lines of a list do."""
    for index in range(count):
        thread, d_mm = list(THREADS.items())[index % len(THREADS)]
        torque = d_mm**3 * 0.04
        yield {
            "joint": f"joint {index // 4}",
            "kind": ("bolt", "stretch")[index % 2],
            "thread": thread,
            "class": ("8.8", "10.9")[index // 2 % 2],
            "tighten": (f"{torque:.0f} N.m", f"{torque / 2:.0f} N.m + 60 deg")[index % 2],
            "friction": ("oiled", "zinc plated", "0.12")[index % 3],
            "head": ("hexagon", "socket")[index % 2],
            "nut": "10",
            "into": ("aluminium", "cast iron", "steel")[index % 3],
            "under": "steel",
            "engagement": f"{1.6 * d_mm:g}",
            "clamp_length": f"{20 + index % 30}",
            "length": f"{20 + index % 30 + 1.6 * d_mm:g}",
            "hole_depth": f"{2.2 * d_mm:g}",
            "state": "new",
            "order": "1-3-2-4",
            "wrench": "5-200 N.m",
            "count": "4",
            "source": f"page {index}",
            "note": "cleaned",
        }


def seconds_for(count: int) -> float:
    """Write a list, judge it in a process of its own, return how long that took."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder, "plan.csv")
        with plan.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.DictWriter(stream, COLUMNS)
            writer.writeheader()
            writer.writerows(rows(count))
        command = [sys.executable, "-m", "torquebook", "judge", "--json-lines", str(plan)]
        # As it is installed: what was compiled once is read again.
        environment = {key: os.environ[key] for key in os.environ if key != UNCOMPILED}
        started = time.perf_counter()
        subprocess.run(command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, check=False)
        return time.perf_counter() - started


def main() -> None:
    """Judge one line, then the list, and print the figures."""
    count = int((sys.argv[1:] or ["1000"])[0])
    start = min(seconds_for(1) for _ in range(3))
    seconds = seconds_for(count)
    peak_mb = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    sys.stdout.write(
        f"{count} lines: {count / seconds:.0f} lines/s in all, {count / (seconds - start):.0f} "
        f"without the start of {start:.2f} s, peak {peak_mb:.1f} MB\n"
    )


if __name__ == "__main__":
    main()
