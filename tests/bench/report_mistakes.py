"""Report by kind how many mistakes in printed tables are raised and named.

Run from the checkout: ``python tests/bench/report_mistakes.py [RANDOM_SEED [PER_ROW]]``.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))

from seeding import seed_all

from torquebook.catalogue.book import Book


def main() -> None:
    """Make the mistakes and print the report."""
    random_seed, per_row = (int(text) for text in (*sys.argv[1:], "1", "4")[:2])
    sys.stdout.write(f"{seed_all(Book.open(), random_seed, per_row)}\n")


if __name__ == "__main__":
    main()
