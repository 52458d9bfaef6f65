"""What a record in specs/ may hold: one model per kind, and nothing else.

The models are the one truth: the JSON Schemas in schema/ and the index are made from them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from torquebook.records.classes import StrengthClasses
from torquebook.records.friction import FrictionRecord
from torquebook.records.heads import Heads
from torquebook.records.holes import Holes, TappingDrills
from torquebook.records.job import JobRecord
from torquebook.records.joint import JointRecord
from torquebook.records.material import MaterialRecord
from torquebook.records.nuts import NutClasses
from torquebook.records.pattern import PatternRecord
from torquebook.records.reuse import DragTable, Preference, ReuseRule
from torquebook.records.table import Table
from torquebook.records.threads import InchThreads, MetricThreads
from torquebook.records.wrench import WrenchRecord

if TYPE_CHECKING:
    from torquebook.records.base import Record

KINDS: dict[str, type[Record]] = {
    "metric threads": MetricThreads,
    "inch threads": InchThreads,
    "strength classes": StrengthClasses,
    "nut classes": NutClasses,
    "heads": Heads,
    "holes": Holes,
    "tapping drills": TappingDrills,
    "friction": FrictionRecord,
    "material": MaterialRecord,
    "wrench": WrenchRecord,
    "printed table": Table,
    "reuse rule": ReuseRule,
    "prevailing torques": DragTable,
    "preference": Preference,
    "pattern": PatternRecord,
    "joint": JointRecord,
    "job": JobRecord,
}

__all__ = ["KINDS"]
