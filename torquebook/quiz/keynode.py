"""A value in a key file that is read: of the right type, or refused with its line and column."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, NamedTuple, TypeVar

from torquebook.errors import TorquebookError, Unreadable

if TYPE_CHECKING:
    from collections.abc import Callable

    from torquebook.catalogue.strict import Positions, ValuePath

    Value = TypeVar("Value")

RIGHT: Final = "name the key that was written with the sheets"


class Node(NamedTuple):
    """A value of a file, and where it stands.

    Parameters
    ----------
    value : object
        As JSON gives it.
    path : tuple
        Keys and indices that lead to it.
    positions : mapping
        Line and column of every path.
    name : str
        The file's.
    """

    value: Any
    path: ValuePath
    positions: Positions
    name: str

    def wrong(self, what: str) -> Unreadable:
        """Return the refusal of this value."""
        line, column = self.positions[self.path]
        return Unreadable(f"{self.name}:{line}:{column}", what, RIGHT)

    def at(self, key: str) -> Node:
        """Return what stands under a key."""
        if not isinstance(self.value, dict):
            raise self.wrong("braces are wanted here")
        if key not in self.value:
            raise self.wrong(f'"{key}" is missing here')
        return Node(self.value[key], (*self.path, key), self.positions, self.name)

    def each(self, read: Callable[[Node], Value]) -> tuple[Value, ...]:
        """Return what is read from each entry of this list."""
        if not isinstance(self.value, list):
            raise self.wrong("a list is wanted here")
        return tuple(
            read(Node(one, (*self.path, index), self.positions, self.name))
            for index, one in enumerate(self.value)
        )

    def maybe(self, read: Callable[[Node], Value]) -> Value | None:
        """Return what is read from this value, None for null."""
        return None if self.value is None else read(self)

    def text(self) -> str:
        """Return this text."""
        if not isinstance(self.value, str):
            raise self.wrong("a text is wanted here")
        return self.value

    def whole(self) -> int:
        """Return this whole number."""
        if not isinstance(self.value, int) or isinstance(self.value, bool):
            raise self.wrong("a whole number is wanted here")
        return self.value

    def number(self) -> float:
        """Return this number."""
        return self.value if isinstance(self.value, float) else float(self.whole())

    def flag(self) -> bool:
        """Return this truth value."""
        if not isinstance(self.value, bool):
            raise self.wrong("true or false is wanted here")
        return self.value

    def built(self, build: Callable[[], Value]) -> Value:
        """Return what is built from this value; what its model refuses is told with its place."""
        try:
            return build()
        except Unreadable:
            raise
        except TorquebookError as fault:
            raise self.wrong(str(fault)) from fault
