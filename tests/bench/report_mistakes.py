"""Report by kind how many mistakes in printed tables are raised and named.

Run from the checkout: ``python tests/bench/report_mistakes.py [RANDOM_SEED [PER_ROW]] [alone]``;
``alone`` judges each row without its list.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))

from mistake_report import plant_all

from torquebook.catalogue.book import Book


def main() -> None:
    """Make the mistakes and print the report."""
    alone = "alone" in sys.argv
    numbers = [int(text) for text in sys.argv[1:] if text != "alone"]
    random_seed, per_row = (*numbers, *(1, 4)[len(numbers) :])
    sys.stdout.write(f"{plant_all(Book.open(), random_seed, per_row, alone=alone)}\n")


if __name__ == "__main__":
    main()
