"""Text made safe for any terminal: nothing that acts, and ASCII where that is asked for."""

from __future__ import annotations

from typing import Final

_ASCII: Final = str.maketrans(
    {
        "·": ".",
        "×": "x",
        "°": " deg",
        "±": "+/-",
        "–": "-",
        "—": "-",
        "−": "-",
        "‐": "-",
        "‑": "-",
        "µ": "u",
        "μ": "u",
        "²": "2",
        "³": "3",
        "½": "1/2",
        "¼": "1/4",
        "¾": "3/4",
        "…": "...",
        "≥": ">=",
        "≤": "<=",
        "“": '"',
        "”": '"',
        "‘": "'",
        "’": "'",
        "Ø": "dia ",
        "⌀": "dia ",
        "ß": "ss",
        "\N{NO-BREAK SPACE}": " ",
        "\N{THIN SPACE}": " ",
        "\N{NARROW NO-BREAK SPACE}": " ",
    }
)
# Unicode categories that act on the text around them instead of showing something:
# controls, formats (text direction, zero width), halves of characters, line separators.
_ACTING: Final = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))
_FIRST_DOUBTFUL: Final = "\u0300"  # below it only the controls act
_FIRST_WIDE: Final = "\u1100"
_STACK: Final = 2  # marks on one letter that any language needs


def inert(text: str) -> str:
    r"""Return one line of text in which nothing acts on the terminal.

    Control characters, changes of text direction and characters of no width are shown as
    escapes (``\x1b``, ``\u202e``), so that a hostile name is seen for what it is.

    Parameters
    ----------
    text : str
        Text that may come from anywhere.

    Examples
    --------
    >>> print(inert("wheel\x1b[2Jnuts"))
    wheel\x1b[2Jnuts
    """
    if text.isprintable() and (text.isascii() or max(text) < _FIRST_DOUBTFUL):
        return text
    from unicodedata import category, combining  # noqa: PLC0415 - rarely needed

    if text.isprintable() and not any(map(combining, text)):
        return text  # of what acts, all but marks on letters is not printable
    shown = []
    stacked = 0
    for character in text:
        stacked = stacked + 1 if combining(character) else 0
        if category(character) in _ACTING or stacked > _STACK:
            shown.append(_escape(character))
        else:
            shown.append(character)
    return "".join(shown)


def ascii_only(text: str) -> str:
    """Return text in plain ASCII: ``·`` as ``.``, accents left off, the rest as escapes.

    Examples
    --------
    >>> ascii_only("60 ±3 N·m, Öl")
    '60 +/-3 N.m, Ol'
    """
    text = text.translate(_ASCII)
    if text.isascii():
        return text
    from unicodedata import normalize  # noqa: PLC0415 - rarely needed

    letters = [
        normalize("NFKD", character).encode("ascii", "ignore").decode() for character in text
    ]
    return "".join(
        letter or _escape(character) for letter, character in zip(letters, text, strict=True)
    )


def width(text: str) -> int:
    """Return how many columns of a terminal a line of text takes."""
    if text.isascii() or max(text) < _FIRST_DOUBTFUL:
        return len(text)
    from unicodedata import combining, east_asian_width  # noqa: PLC0415 - rarely needed

    wide = sum(c >= _FIRST_WIDE and east_asian_width(c) in {"W", "F"} for c in text)
    return len(text) + wide - sum(bool(combining(c)) for c in text)


def _escape(character: str) -> str:
    return character.encode("unicode_escape").decode("ascii")
