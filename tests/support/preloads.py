"""Preload bands as the program computes them, for the checks of its scatter."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from torquebook.mechanics.preload import preload_from_torque
from torquebook.mechanics.scatter import spread

if TYPE_CHECKING:
    from torquebook.bands import Band


def preload_band(
    torque: Band, mu_thread: Band, mu_head: Band, pitch_mm: float, d2_mm: float, bearing_mm: float
) -> Band:
    """Return the preload over a torque as delivered and both frictions, worst case [N]."""
    formula = partial(preload_from_torque, pitch_mm=pitch_mm, d2_mm=d2_mm, bearing_mm=bearing_mm)
    return spread(formula, torque_nm=torque, mu_thread=mu_thread, mu_head=mu_head)
