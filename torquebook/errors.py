"""The few exceptions that reach a user.

Everything else that escapes is a fault of ours and ends in exit code 3.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


class TorquebookError(ValueError):
    """Something the user can put right: one message says where, what, and what would be right."""

    def __reduce__(self) -> tuple[object, ...]:
        """Let another process raise it: its parts are not what its making takes."""
        return _remade, (type(self), self.args, self.__dict__)


def _remade(
    kind: type[TorquebookError], args: tuple[object, ...], parts: dict[str, object]
) -> TorquebookError:
    """Return an error as it was in another process."""
    error = kind.__new__(kind, *args)
    error.__dict__.update(parts)
    return error


class Unreadable(TorquebookError):
    """A file or stream that cannot be taken in as a whole (exit code 2).

    Parameters
    ----------
    where : str
        File name, with line, column or cell where known.
    what : str
        What is wrong.
    right : str
        What would be right.
    rule : str
        The slug of the rule that says so of a record; empty where none does.
    """

    def __init__(self, where: str, what: str, right: str, rule: str = "") -> None:
        super().__init__(f"{where}: {what}; {right}")
        self.where = where
        self.what = what
        self.right = right
        self.rule = rule


def first_of(faults: Sequence[Unreadable]) -> Unreadable:
    """Return the first of some faults, with how many more there are."""
    first, *others = faults
    if not others:
        return first
    more = f"(and {len(others)} more fault{'s' if len(others) > 1 else ''})"
    return Unreadable(first.where, first.what, f"{first.right} {more}")


class NotUnderstood(TorquebookError):
    """A piece of text that is no quantity, thread, class or notation, or more than one.

    Parameters
    ----------
    text : str
        The text as typed.
    what : str
        What is wrong with it.
    readings : tuple of str
        What it may have meant, likeliest first; empty if nobody can tell.
    offset : int
        Where in the text the trouble starts, counted from 0.
    """

    def __init__(
        self, text: str, what: str, readings: tuple[str, ...] = (), offset: int = 0
    ) -> None:
        meant = f"; write {' or '.join(readings)}" if readings else ""
        super().__init__(f'"{text}": {what}{meant}')
        self.text = text
        self.what = what
        self.readings = readings
        self.offset = offset


#: Least and largest value that a formula works with where its range is open at an end: no
#: fastener comes near either, and neither is ever shown.
LEAST = 1e-6
MOST = 1e12


class OutOfRange(TorquebookError):
    """A value outside the range that a formula's source gives it.

    Parameters
    ----------
    name : str
        The argument's name, with its unit suffix.
    value, low, high : float
        The value, and the ends of the range that holds; ``LEAST`` and ``MOST`` stand for
        ends that are open.
    source : str
        The document that sets the range; empty where no document has to.
    """

    def __init__(self, name: str, value: float, low: float, high: float, source: str) -> None:
        where = f" ({source})" if source else ""
        super().__init__(f"{name} = {value:g} is {_outside(value, low, high)}{where}")
        self.name = name
        self.value = value
        self.low = low
        self.high = high
        self.source = source


def _outside(value: float, low: float, high: float) -> str:
    """Return in words how a value lies outside a range whose ends may be open."""
    if high >= MOST:
        if not abs(value) <= MOST:
            return "no number to reckon with"
        return "not above 0" if low == LEAST else f"below {low:g}"
    if low == LEAST:
        return f"not above 0 and below {high:g}"
    return f"outside {low:g} to {high:g}"
