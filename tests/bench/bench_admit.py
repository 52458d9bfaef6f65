"""Vetting joint records, whole processes: against reading them strictly, and a schema checker.

Run ``python tests/bench/bench_admit.py [RECORDS] [ROUNDS]`` in an environment that has
check-jsonschema, a general-purpose checker of schemas (``pip install check-jsonschema``; it is
needed for nothing else). Vetted are records like those of the demo, then such as the commented
template makes, then drawn ones, of which there is more to say. Each round runs all commands after
one another, so that a busy machine slows all; printed are the medians, and the medians of the
rounds' ratios. Byte code is kept in a folder of its own, as an installation has it.
"""

from __future__ import annotations

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import records
from bench_start import ENTRY, STRICTLY

KINDS = {
    "like the demo's": records.like_ours,
    "from the template": records.from_template,
    "drawn": records.write,
}
ROOT = Path(__file__).resolve().parents[2]
CHECKER = shutil.which(
    "check-jsonschema", path=f"{Path(sys.executable).parent}:{os.environ['PATH']}"
)


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """Return how long one process takes, whatever it finds."""
    start = time.perf_counter()
    subprocess.run(command, check=False, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def commands(folder: Path) -> dict[str, list[str]]:
    """Return the commands by name."""
    files = sorted(map(str, folder.rglob("*.yaml")))
    known = {
        "admit": [sys.executable, "-c", ENTRY, "admit", str(folder)],
        "reading strictly": [sys.executable, "-c", STRICTLY, str(folder)],
    }
    if CHECKER:
        schema = str(ROOT / "schema" / "joint.json")
        known["check-jsonschema"] = [CHECKER, "--schemafile", schema, *files]
    return known


def timed(folder: Path, rounds: int, environment: dict[str, str]) -> None:
    """Print the medians and the ratios for the records of one folder."""
    every = commands(folder)
    times: dict[str, list[float]] = {name: [] for name in every}
    for number in range(rounds + 1):
        for name, command in every.items():
            taken = seconds(command, environment)
            if number:  # the first round only warms up
                times[name].append(taken)
    for name, taken in times.items():
        pairs = zip(times["admit"], taken, strict=True)
        ratio = statistics.median(one / other for one, other in pairs)
        middle = statistics.median(taken)
        print(f"  {name:18} {middle:8.3f} s   admit takes {ratio:.2f} times that")  # noqa: T201 - a benchmark's answer


def main() -> None:
    """Time all kinds of records."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 9
    with tempfile.TemporaryDirectory() as work:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": f"{work}/pyc"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        for what, write in KINDS.items():
            folder = Path(work, what)
            write(folder, count)
            print(f"{count} records, {what}")  # noqa: T201 - as above
            timed(folder / "joints", rounds, environment)
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"largest process: {peak:.0f} MB")  # noqa: T201 - as above


if __name__ == "__main__":
    main()
