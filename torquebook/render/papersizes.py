"""The sizes of paper that sheets are printed on."""

from typing import Final, Literal

Paper = Literal["A4", "Letter"]
PAPERS: Final[tuple[Paper, ...]] = ("A4", "Letter")
