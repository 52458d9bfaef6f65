"""How much later a bench command answers than ``import click`` alone: whole processes.

Run ``python tests/bench/bench_start.py [PAIRS] [RECORDS]``. Each pair times the command and the
bare import right after one another, so that a busy machine slows both; the median of the pairs'
ratios is printed. Byte code is kept in a folder of its own, as an installation has it.

With RECORDS (100000, say) a folder of so many invented joints is written and indexed too: the
first start is timed against reading the records strictly and no more, and commands that use the
folder are timed as above.
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import records

ROOT = Path(__file__).resolve().parents[2]
BARE = [sys.executable, "-c", "import click"]
ENTRY = "from torquebook.cli import main; main()"  # as the installed script has it
#: Words and the most that they may take; None for no limit.
COMMANDS: dict[str, tuple[list[str], float | None]] = {
    "convert": (["convert", "5.5 kgf.m", "N.m"], 1.15),
    "size": (["size", "M10", "8.8"], 1.25),
    "look, a card": (["look", "joints/brigade/clutch-cover"], 1.25),
    "look, a list": (["look", "flywheel"], 1.25),
    "look, a slip": (["look", "flyweel"], 1.25),
    "torque": (["torque", "M10", "8.8"], None),
    "wrench": (["wrench", "110 N.m"], None),
}
LARGE: dict[str, tuple[list[str], float | None]] = {
    "size": (["size", "M10", "8.8"], 1.3),
    "look, a card": (["look", "joints/yard-003/joint-000777"], 1.3),
    "look, a word": (["look", "gasket"], 1.3),
    "look, a beginning": (["look", "propel"], 1.3),
    "look, a synonym": (["look", "oil pan lathe"], 1.3),
    "look, four words": (["look", "zinc plated aluminium M10"], 1.3),
    "look, a slip": (["look", "flyweel baler"], 1.3),
    "look, a kind": (["look", "--kind", "wrench", "click"], 1.3),
}
MOST_TO_BUILD = 2.0
BUILDS = 3
STRICTLY = (
    "import sys; from pathlib import Path\n"
    "from torquebook.catalogue.plaintext import read_text\n"
    "from torquebook.catalogue.reading import vet_text\n"
    "files = Path(sys.argv[1]).rglob('*.yaml')\n"
    "assert all(vet_text(read_text(path), str(path))[0] for path in files)"
)


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """Return how long one process takes from start to end; one that fails ends all."""
    start = time.perf_counter()
    done = subprocess.run(command, check=False, cwd=ROOT, env=environment, capture_output=True)
    took = time.perf_counter() - start
    if done.returncode:
        sys.exit(done.stderr.decode())
    return took


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


def report(name: str, found: float, limit: float | None, against: str) -> bool:
    """Print a line, and return whether it is within its limit."""
    said = "no limit" if limit is None else f"limit {limit}"
    print(f"{name:18} {found:.3f} x {against} ({said})", flush=True)  # noqa: T201 - a benchmark's answer
    return limit is None or found <= limit


def large(count: int, environment: dict[str, str], pairs: int, work: Path) -> bool:
    """Time a folder of so many records; return whether all is within its limits."""
    folder = work / "shop"
    records.write(folder, count)
    strictly = [sys.executable, "-c", STRICTLY, str(folder)]
    first = [sys.executable, "-c", ENTRY, "look", "gasket", "--book", str(folder)]
    seconds(strictly, environment)  # the files come from memory afterwards, for both
    builds = []
    for _ in range(BUILDS):
        shutil.rmtree(environment["XDG_CACHE_HOME"])
        builds.append(seconds(first, environment) / seconds(strictly, environment))
    build = statistics.median(builds)
    print(f"with {count} records in a folder of the user's:", flush=True)  # noqa: T201 - as above
    fine = report("building the index", build, MOST_TO_BUILD, "reading them strictly")
    for name, (words, limit) in LARGE.items():
        found = ratio([*words, "--book", str(folder)], environment, pairs)
        fine = report(name, found, limit, "import click") and fine
    return fine


def main() -> int:
    """Print a line a command; fail where a limited one is too slow."""
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    with tempfile.TemporaryDirectory() as work:
        own = {"PYTHONPYCACHEPREFIX": f"{work}/pyc", "XDG_CACHE_HOME": f"{work}/cache"}
        environment = {**os.environ, **own}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        fine = True
        for name, (words, limit) in COMMANDS.items():
            fine = report(name, ratio(words, environment, pairs), limit, "import click") and fine
        if count:
            fine = large(count, environment, pairs, Path(work)) and fine
    return int(not fine)


if __name__ == "__main__":
    sys.exit(main())
