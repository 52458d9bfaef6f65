"""Standard output and standard error: the one place that writes to them."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from torquebook.errors import Unreadable
from torquebook.render.paper import Paper
from torquebook.render.plain import ascii_only

if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Protocol, TextIO, TypeVar

    Answer_contra = TypeVar("Answer_contra", contravariant=True)

    class Renderer(Protocol[Answer_contra]):
        """A module of this package: one kind of answer, for a person and for a program."""

        def text(self, answer: Answer_contra, paper: Paper) -> None:
            """Write the answer on paper."""

        def data(self, answer: Answer_contra) -> object:
            """Return the answer as plain values."""


def is_screen() -> bool:
    """Return whether standard output is a terminal, which a person reads."""
    return sys.stdout.isatty()


def paper(*, plain: bool = False) -> Paper:
    """Return paper for standard output: bold only on a terminal that may have it."""
    bold = (
        is_screen()
        and not os.environ.get("NO_COLOR")
        and os.environ.get("TERM") not in {None, "dumb"}
    )
    return Paper(plain=plain, bold=bold)


def show(answer: object) -> None:
    """Write an answer to standard output; a reader who has left is no trouble."""
    _write(sys.stdout, str(answer))


def save(path: str, document: str | bytes, *, plain: bool) -> None:
    """Write a drawing, a page or another document to a file, and say so on standard error.

    Raises
    ------
    Unreadable
        If the file cannot be written.
    """
    held = document if isinstance(document, bytes) else document.encode()
    _save(path, (held,), plain=plain)


def _save(path: str, pieces: Iterable[bytes], *, plain: bool) -> None:
    try:
        with open(path, "wb") as stream:  # noqa: PTH123 - pathlib costs the start
            stream.writelines(pieces)
    except FileNotFoundError as fault:
        folder = os.path.dirname(path) or "."  # noqa: PTH120 - pathlib costs the start
        raise Unreadable(path, f"there is no folder {folder}", "make it first") from fault
    except (OSError, ValueError) as fault:
        what = f"cannot be written ({getattr(fault, 'strerror', None) or fault})"
        raise Unreadable(path, what, "name a file that can") from fault
    complain(f"written into {path}", plain=plain)


def lenient(stream: TextIO) -> None:
    """Read what is no text as escapes, so that a stray byte is seen and ends nothing."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure:
        reconfigure(errors="backslashreplace")


def complain(message: str, *, plain: bool = False) -> None:
    """Write one message to standard error."""
    note = Paper(plain=plain)
    note.text(f"torquebook: {message}", hang=2)
    _write(sys.stderr, str(note))


def _write(stream: TextIO, text: str) -> None:
    try:
        try:
            stream.write(text)
        except UnicodeEncodeError:
            stream.write(ascii_only(text))
        stream.flush()
    except BrokenPipeError:
        # Python flushes once more at its end, and would complain there.
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except OSError as fault:
        what = f"cannot be written ({fault.strerror})"
        raise Unreadable("the answer", what, "look where it was to go") from fault


def deliver(document: str, out: str, *, plain: bool) -> None:
    """Write a document into a file, or to standard output where none is named."""
    if out:
        save(out, document, plain=plain)
    else:
        show(document)


def pour(pieces: Iterable[str], out: str, *, plain: bool) -> None:
    """Write a document that comes in pieces, as :func:`deliver`."""
    if out:
        _save(out, (piece.encode("utf-8", "backslashreplace") for piece in pieces), plain=plain)
        return
    for piece in pieces:
        show(piece)


def answer(
    given: Answer_contra,
    render: Renderer[Answer_contra],
    *,
    as_json: bool,
    plain: bool,
    out: str = "",
) -> None:
    """Show an answer, as text or as JSON, or write it into a file."""
    if as_json:
        from torquebook.render.data import json_text  # noqa: PLC0415 - only for programs

        deliver(json_text(render.data(given)), out, plain=plain)
        return
    sheet = Paper(plain=plain) if out else paper(plain=plain)
    render.text(given, sheet)
    deliver(str(sheet), out, plain=plain)
