"""Numbers as large as a terminal can show them."""

from __future__ import annotations

from typing import Final

_ROWS: Final = 7
_GLYPHS: Final = {
    "0": ".###. #...# #..## #.#.# ##..# #...# .###.",
    "1": "..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.",
    "2": ".###. #...# ....# ...#. ..#.. .#... #####",
    "3": "##### ...#. ..#.. ...#. ....# #...# .###.",
    "4": "...#. ..##. .#.#. #..#. ##### ...#. ...#.",
    "5": "##### #.... ####. ....# ....# #...# .###.",
    "6": "..##. .#... #.... ####. #...# #...# .###.",
    "7": "##### ....# ...#. ..#.. .#... .#... .#...",
    "8": ".###. #...# #...# .###. #...# #...# .###.",
    "9": ".###. #...# #...# .#### ....# ...#. .##..",
    ".": ".. .. .. .. .. ## ##",
    "+": "..... ..#.. ..#.. ##### ..#.. ..#.. .....",
    "-": "..... ..... ..... ##### ..... ..... .....",
    "/": "....# ....# ...#. ..#.. .#... #.... #....",
    "±": "..#.. ..#.. ##### ..#.. ..#.. ..... #####",
    "°": ".##. #..# #..# .##. .... .... ....",
    " ": ".. .. .. .. .. .. ..",
}
_ALIKE: Final = str.maketrans({"–": "-", "−": "-"})


def large(text: str, columns: int, ink: str = "#") -> list[str]:
    """Return a number in rows of ink, as wide as there is room for.

    Parameters
    ----------
    text : str
    columns : int
        The room that there is.
    ink : str
        The character to draw with.

    Returns
    -------
    list of str
        Rows without idle spaces at their ends; empty for what has letters, or is too long.
    """
    text = text.translate(_ALIKE)
    if not text or any(character not in _GLYPHS for character in text):
        return []
    glyphs = [_GLYPHS[character].split() for character in text]
    for times in (2, 1):
        gap = " " * times
        rows = [
            gap.join(
                "".join((ink if dot == "#" else " ") * times for dot in glyph[row])
                for glyph in glyphs
            )
            for row in range(_ROWS)
        ]
        if len(rows[0]) <= columns:
            return [row.rstrip() for row in rows]
    return []
