"""How much later a bench command answers than ``import click`` alone: whole processes.

Run ``python tests/bench/bench_start.py [PAIRS]``. Each pair times the command and the bare
import right after one another, so that a busy machine slows both; the median of the pairs'
ratios is printed. Byte code is kept in a folder of its own, as an installation has it.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

LIMIT = 1.25
ROOT = Path(__file__).resolve().parents[2]
BARE = [sys.executable, "-c", "import click"]
ENTRY = "from torquebook.cli import main; main()"  # as the installed script has it
COMMANDS = {
    "size": ["size", "M10", "8.8"],
    "convert": ["convert", "5.5 kgf.m", "N.m"],
    "torque": ["torque", "M10", "8.8"],
    "wrench": ["wrench", "110 N.m"],
}
LIMITED = ("size", "convert")


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """Return how long one process takes from start to end."""
    start = time.perf_counter()
    subprocess.run(command, check=True, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def ratio(words: list[str], environment: dict[str, str], pairs: int) -> float:
    """Return the median of the ratios of so many pairs, the order alternating."""
    command = [sys.executable, "-c", ENTRY, *words]
    seconds(command, environment)
    found = []
    for pair in range(pairs):
        order = (BARE, command) if pair % 2 else (command, BARE)
        times = {id(one): seconds(one, environment) for one in order}
        found.append(times[id(command)] / times[id(BARE)])
    return statistics.median(found)


def main() -> int:
    """Print a line a command; fail where a limited one is too slow."""
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    slow = False
    with tempfile.TemporaryDirectory() as cache:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": cache}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        for name, words in COMMANDS.items():
            found = ratio(words, environment, pairs)
            limit = f"limit {LIMIT}" if name in LIMITED else "no limit"
            print(f"{name:8} {found:.3f} x import click ({limit})")  # noqa: T201 - a benchmark's answer
            slow = slow or (name in LIMITED and found > LIMIT)
    return int(slow)


if __name__ == "__main__":
    sys.exit(main())
