"""How long a class's sheets take against ``import pydantic, click`` alone: whole processes.

Run ``python tests/bench/bench_quiz.py [PAIRS]``: 30 sheets of 20 questions with keys and
solutions, written into files in each format, at each level. HTML is the format with a limit; a PDF
is set by typst and a package holds a file a question, so that these take what they take. Pairs and
byte code as in bench_start.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile

from bench_start import ENTRY, report, seconds

BARE = [sys.executable, "-c", "import pydantic, click"]
#: The most that each format may take; None for no limit.
FORMATS = {"html": 3.0, "markdown": None, "json": None, "qti": None, "pdf": None}
UNITS = {1: "N.m", 2: "kgf.m", 3: "lbf.ft"}


def ratio(
    form: str, level: int, unit: str, environment: dict[str, str], pairs: int, work: str
) -> float:
    """Return the median of the ratios of so many pairs, the order alternating."""
    words = ["quiz", "--level", str(level), "--unit", unit, "--sheets", "30", "--count", "20"]
    words += ["--seed", "bench", "--class", "1A", "--format", form]
    words += ["--out", f"{work}/{form}{level}.{form}"]  # each once: another's key is told of
    command = [sys.executable, "-c", ENTRY, *words]
    for one in (BARE, command):
        seconds(one, environment)
    found = []
    for pair in range(pairs):
        order = (BARE, command) if pair % 2 else (command, BARE)
        times = {id(one): seconds(one, environment) for one in order}
        found.append(times[id(command)] / times[id(BARE)])
    return statistics.median(found)


def main() -> int:
    """Print a line a format and level; fail where one with a limit is too slow."""
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as work:
        own = {"PYTHONPYCACHEPREFIX": f"{work}/pyc", "XDG_CACHE_HOME": f"{work}/cache"}
        environment = {**os.environ, **own}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        fine = True
        for form, most in FORMATS.items():
            for level, unit in UNITS.items():
                found = ratio(form, level, unit, environment, pairs, work)
                name = f"{form}, level {level}"
                fine = report(name, found, most, BARE[-1]) and fine
    return int(not fine)


if __name__ == "__main__":
    sys.exit(main())
