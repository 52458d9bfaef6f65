"""A sheet as PDF, set by typst: an optional extra, offline, with the fonts that come with it."""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from torquebook.errors import TorquebookError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from torquebook.render.papersizes import Paper
    from torquebook.render.sheet.model import Sheet

EXTRA: Final = 'pip install ".[pdf]" in the clone'
"""How typst gets installed."""
_TEMPLATE: Final = Path(__file__).with_name("sheet.typ")
#: Letters that the fonts that come with typst do not have; they would be set as empty boxes.
_UNSET: Final = re.compile("[\u0530-\u1dff\u2c00-\U0010ffff]")
_NAMES: Final[dict[Paper, str]] = {"A4": "a4", "Letter": "us-letter"}


def pdf(sheet: Sheet, paper: Paper = "A4") -> bytes:
    """Return the PDF document.

    Parameters
    ----------
    sheet : Sheet
    paper : str
        ``A4`` or ``Letter``.

    Raises
    ------
    TorquebookError
        As :func:`typeset`.
    """
    return typeset(_TEMPLATE, asdict(sheet), paper, "a record")


def typeset(template: Path, content: Mapping[str, Any], paper: Paper, whose: str) -> bytes:
    """Return what a template makes of a content, which it finds as ``sheet``.

    Parameters
    ----------
    template : Path
    content : mapping
        Of plain values.
    paper : str
        ``A4`` or ``Letter``.
    whose : str
        What holds a letter that cannot be set, for the message.

    Raises
    ------
    TorquebookError
        If typst is not installed, or its fonts do not have a letter.
    """
    try:
        import typst  # noqa: PLC0415 - an optional extra
    except ImportError:
        raise TorquebookError(
            f'a PDF needs the extra "pdf": {EXTRA}; or write FILE.html, which any browser prints'
        ) from None
    held = json.dumps(content, ensure_ascii=False)
    if missing := _UNSET.search(held):
        raise TorquebookError(
            f"a PDF has no letter {missing[0]}, which {whose} holds; write FILE.html, which any "
            "browser prints"
        )
    # What a record says goes in as data; the template sets it as text and reads no markup.
    compiler = typst.Compiler(
        template.read_bytes(),
        ignore_system_fonts=True,
        sys_inputs={"sheet": held, "paper": _NAMES[paper]},
    )
    made = compiler.compile(format="pdf")
    if not isinstance(made, bytes):
        raise TypeError(f"typst gave {type(made).__name__}, not one document")
    return made
