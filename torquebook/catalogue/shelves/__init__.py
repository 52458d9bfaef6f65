"""What the book hands out: small frozen records without any model behind them.

They are named tuples because eleven dataclasses cost every start some milliseconds; and
even those cost a fifth of one each, so a module is loaded when one of its names is first
asked for: a thread's page makes no friction and no wrench.

The order of the fields is the order of the columns in ``index.json``. ``source`` is always
one line that names the document, its edition and the table; ``kind`` in front of it says
where a value is from memory, common practice or invented.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from torquebook.catalogue.shelves.conditions import (
        Entry,
        Friction,
        Grade,
        Material,
        NutClass,
        Pattern,
        PrintedRow,
        PrintedTable,
        Wrench,
    )
    from torquebook.catalogue.shelves.fasteners import Drill, HeadSize, Hole, StrengthClass, Thread

_FASTENERS: Final = frozenset({"Drill", "HeadSize", "Hole", "StrengthClass", "Thread"})

__all__ = [
    "Drill",
    "Entry",
    "Friction",
    "Grade",
    "HeadSize",
    "Hole",
    "Material",
    "NutClass",
    "Pattern",
    "PrintedRow",
    "PrintedTable",
    "StrengthClass",
    "Thread",
    "Wrench",
]


def __getattr__(name: str) -> Any:
    """Return a record's class, and load the module that it stands in."""
    if name not in __all__:
        raise AttributeError(f"module {__name__} has no attribute {name}")
    module = "fasteners" if name in _FASTENERS else "conditions"
    found = globals()[name] = getattr(import_module(f"{__name__}.{module}"), name)
    return found
