"""The flash at the muzzle as a round leaves it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.scenes.arcs import polar
from viz.stage.shapes import Polygon, Shape

if TYPE_CHECKING:
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.snapshot import BladesView

LASTS = 0.25
"""Times of flight for which it is seen."""
RAYS, LONG, SHORT = 9, 40.0, 17.0
"""Rays of the star, and radii of their tips and of the notches between them, in units."""


def flash(view: BladesView, over: OverCowl, unit: float) -> list[Shape]:
    """Return a star at the muzzle for a short while, no more often than blades pass that are seen one by one."""
    line = view.gun.line
    if view.blur > 0.0 or view.gun.spin_rad_s * line.blades * line.cycle_s < math.tau:
        return []
    lasts_s = LASTS * line.flight_s
    if not any(0.0 <= view.time_s - fired.muzzle_s < lasts_s for fired in view.flying):
        return []
    stars = (("keyline", 1.2), ("wait", 1.0), ("tape", 0.6))
    return [_star(over, share * unit, role) for role, share in stars]


def _star(over: OverCowl, unit: float, role: str) -> Polygon:
    step = math.pi / RAYS
    return Polygon(
        tuple(polar(over.muzzle, (SHORT if place % 2 else LONG) * unit, place * step) for place in range(2 * RAYS)),
        role,
    )
