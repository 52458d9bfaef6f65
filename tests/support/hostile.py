"""Files that mean harm: too large, too deep, too many; and a program that looks at them.

Run as a program with a folder: it looks at each file in a process of its own and prints one
line of JSON for it: its name, the seconds, the peak of memory [MiB], how many findings there
are, the longest message, and the first finding's rule, line, column and message.
"""

from __future__ import annotations

import json
import os
import resource
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Final

from torquebook.rules.admitting import Vetting

if TYPE_CHECKING:
    from collections.abc import Callable

MIB: Final = 1024 * 1024
MANY: Final = 1_000_000
DEEP: Final = 10_000
_JOINT: Final = "kind: joint\n"

#: By name a text, and the rule, line and column that the first finding has.
TEXTS: Final[dict[str, tuple[Callable[[], str], str, int, int]]] = {
    "alias bomb": (
        lambda: "a: &a [x, x]\n" + "".join(f"{k}: &{k} [*a, *a]\n" for k in "bcdefgh"),
        "yaml-unplain",
        1,
        4,
    ),
    "deep flow lists": (lambda: "[" * DEEP, "yaml-broken", 1, 1001),
    "deep flow mappings": (lambda: "{a: " * DEEP, "yaml-unplain", 1, 401),
    "deep block lists": (lambda: "- " * DEEP, "yaml-unplain", 1, 201),
    "deep block mappings": (
        lambda: "".join(f"{' ' * depth}a:\n" for depth in range(DEEP // 4)),
        "yaml-unplain",
        101,
        101,
    ),
    "deep mixture": (lambda: "- " * 50 + "[{a: " * DEEP, "yaml-unplain", 1, 226),
    "a million keys": (
        lambda: "".join(f"k{index:x}: 1\n" for index in range(800_000))[: 8 * MIB],
        "text-unreadable",
        5000,
        8,
    ),
    "a million keys without values": (
        lambda: "".join(f"k{index}:\n" for index in range(MANY))[: 8 * MIB],
        "text-unreadable",
        5000,
        7,
    ),
    "keys of like hashes": (
        lambda: "".join(f'"{index * (2**61 - 1)}": 1\n' for index in range(100_000)),
        "text-unreadable",
        5000,
        28,
    ),
    "a million entries": (
        lambda: _JOINT + "conditions:\n" + "- a\n" * MANY,
        "text-unreadable",
        9998,
        3,
    ),
    "a million lists": (
        lambda: _JOINT + "conditions: [" + "[], " * MANY + "]",
        "text-unreadable",
        2,
        39_994,
    ),
    "unknown keys": (
        lambda: _JOINT + "".join(f"name{index}: 1\n" for index in range(4_990)),
        "key-missing",
        1,
        1,
    ),
    "faults far down": (
        lambda: _JOINT + "\n" * 7 * MIB + "conditions: [" + "1, " * 9_900 + "]",
        "key-missing",
        1,
        1,
    ),
    "faults in one long line": (
        lambda: f'{_JOINT}conditions: [{"1, " * 9_900}"{"a" * 7 * MIB}"]',
        "key-missing",
        1,
        1,
    ),
    "numbers for steps": (
        lambda: "kind: job\nsteps: [" + "1, " * 9_900 + "]",
        "key-missing",
        1,
        1,
    ),
    "one long line": (lambda: f"{_JOINT}name: {'a b ' * (7 * MIB // 4)}", "key-missing", 1, 1),
    "one long quotation": (lambda: "kind: " + "'" * 7 * MIB, "kind-unknown", 1, 7),
    "one long key": (lambda: f'{_JOINT}? "{"name " * MIB}"\n: 1\n', "key-missing", 1, 1),
    "one long number": (lambda: f"{_JOINT}count: {'1' * 7 * MIB}", "number-unusable", 2, 8),
    "one long decimal": (lambda: f"{_JOINT}title: 0.{'1' * 7 * MIB}", "key-missing", 1, 1),
    "one long decimal key": (lambda: f"? 0.{'1' * 7 * MIB}\n: 1\n", "number-for-text", 1, 3),
    "one long tag": (lambda: f"kind: !{'x' * 7 * MIB} a", "yaml-unplain", 1, 7),
    "one long anchor": (lambda: f"kind: &{'x' * 7 * MIB} a", "yaml-unplain", 1, 7),
    "one long alias": (lambda: f"kind: *{'x' * 7 * MIB}", "yaml-unplain", 1, 7),
    "many words for a kind": (lambda: "kind: " + "joint " * MIB, "kind-unknown", 1, 7),
    "colons": (lambda: "kind: " + ":" * 7 * MIB, "yaml-broken", 1, 7 * MIB + 6),
    "question marks": (lambda: "? " * 3 * MIB, "yaml-unplain", 1, 3),
    "line ends": (lambda: "\n" * 7 * MIB, "yaml-broken", 1, 1),
}
#: Files that are only holes: the size of each.
HOLES: Final = {"100 MiB of nothing": 100 * MIB, "a terabyte of nothing": MIB**2}


def main() -> None:
    """Look at each file."""
    folder = Path(sys.argv[1])
    look = Vetting().look
    for name, text in TEXTS.items():
        (folder / f"{name}.yaml").write_text(text[0](), encoding="utf-8")
    for name, size in HOLES.items():
        with (folder / f"{name}.yaml").open("wb") as file:
            file.truncate(size)
    for name in (*TEXTS, *HOLES):
        if os.fork():
            os.wait()
            continue
        started = time.perf_counter()
        found = look(str(folder / f"{name}.yaml"))
        said = {
            "name": name,
            "seconds": time.perf_counter() - started,
            "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
            "count": len(found),
            "longest": max(len(finding.message) + len(finding.instead or "") for finding in found),
            "rule": found[0].rule,
            "line": found[0].place.line,
            "column": found[0].place.column,
            "message": found[0].message,
        }
        sys.stdout.write(json.dumps(said) + "\n")
        sys.stdout.flush()
        os._exit(0)


if __name__ == "__main__":
    main()
