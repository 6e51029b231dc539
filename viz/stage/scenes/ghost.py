"""The ghost: the blade as it will stand when the round arrives, and how far it has to turn to get there.

Hatched where it will be too close to the line of fire, plain where the round passes, faint where it would and the cam
still waits.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.scenes.arcs import head
from viz.stage.shapes import Line, Polygon, Shape
from viz.stage.solid.parts import ring
from viz.stage.solid.propeller import planform

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.propulsion.blade_geometry import Blade
    from viz.stage.gun_states import Crossing
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.snapshot import BladesView

    Numbers = NDArray[np.float64]

ROLES = {"close": "wait", "held": "steel", "clear": "now"}
FILLS = {"close": ("wait_dark", 0.0), "held": ("steel", 0.8), "clear": ("now", 0.5)}
"""Colours of ghosts, and how far they are taken towards the back colour."""
ROOT, EDGE_POINTS = 0.12, 17
"""Where a ghost begins, over its radius, and points along each of its edges."""
BARS, FILLED, SLANT = 8, 0.52, 0.07
"""Bars of the hatch along a blade, how much of it they fill, and how far they lean, over its radius."""
LEAD_SHARE, TIP = 0.8, 0.93
"""Radii of the arrow from blade to ghost, and of what the label points at, over that of the propeller.

The line of the label comes from outside and does not meet the arrow."""
LEAST_LEAD_RAD = math.radians(6.0)
"""A shorter way to turn has no arrow."""


def ghost(view: BladesView, over: OverCowl, meets: Crossing, unit: float) -> list[Shape]:
    """Return every blade as a flat ghost, and the arrow to the one that is nearest to the line of fire."""
    if view.arrival_rad is None or meets not in ROLES:
        return []
    role, (fill, fade), shapes = ROLES[meets], FILLS[meets], list[Shape]()
    outline_m, bars_m = flat_blade(view.blade, over.disc_m, over.sense)
    for number in range(view.gun.line.blades):
        turned = _turn(over.turn_rad(view.arrival_rad) + math.tau * number / view.gun.line.blades)
        edge = over.flat(outline_m @ turned)
        shapes.append(Polygon(edge, fill, 1.0, fade))
        if meets == "close":
            corners = over.flat(bars_m @ turned)
            shapes += [Polygon(corners[first : first + 4], role) for first in range(0, len(corners), 4)]
        closed = (*edge, edge[0])
        shapes += [Line(closed, "keyline", 6 * unit), Line(closed, role, 3 * unit)]
    return [*shapes, *_lead(view, over, unit, meets=meets)]


def nearest_rad(view: BladesView, arrival_rad: float) -> float:
    """Return where the ghost that is nearest to the line of fire stands, 0 on it [rad]."""
    return math.remainder(arrival_rad, math.tau / view.gun.line.blades)


def lead_rad(view: BladesView, arrival_rad: float) -> float:
    """Return how far the propeller has to turn until then, less than a turn [rad]."""
    return min((arrival_rad - view.angle_rad) % math.tau, 0.95 * math.tau)


def leads_from(view: BladesView, meets: Crossing) -> float | None:
    """Return where the blade stands that the arrow leads from, 0 on the line of fire; None where there is no arrow."""
    if view.arrival_rad is None or meets not in ROLES or lead_rad(view, view.arrival_rad) < LEAST_LEAD_RAD:
        return None
    return nearest_rad(view, view.arrival_rad) - lead_rad(view, view.arrival_rad)


def _lead(view: BladesView, over: OverCowl, unit: float, *, meets: Crossing) -> list[Shape]:
    """Return an arrow about the shaft, from a blade to its ghost."""
    start = leads_from(view, meets)
    if start is None or view.arrival_rad is None:
        return []
    end = nearest_rad(view, view.arrival_rad)
    angle = over.bore_rad + over.sense * np.linspace(start, end, max(8, round(16 * (end - start))))
    way = over.flat(ring(0.0, LEAD_SHARE * over.disc_m, angle))
    tip = head(way[-2], way[-1], 16 * unit)
    return [Line(way, "keyline", 7 * unit), Line(way, "ghost", 4 * unit), Polygon(tip, "ghost")]


def _turn(angle_rad: float) -> Numbers:
    """Return what points are multiplied by to be turned about the shaft, from straight up."""
    sine, cosine = math.sin(angle_rad), math.cos(angle_rad)
    return np.array([[1.0, 0.0, 0.0], [0.0, cosine, sine], [0.0, -sine, cosine]])


@lru_cache(maxsize=8)
def flat_blade(blade: Blade, radius_m: float, sense: float) -> tuple[Numbers, Numbers]:
    """Return the outline of a blade that stands straight up, and corners of bars across it, four each [m]."""

    def along(shares: Numbers, side: float) -> Numbers:
        half, twist = planform(blade, shares, radius_m=radius_m, sense=sense)
        return np.stack([side * half * np.sin(twist), side * half * np.cos(twist), -shares * radius_m], axis=-1)

    shares = 1.0 - (1.0 - ROOT) * np.linspace(1.0, 0.0, EDGE_POINTS) ** 1.6
    outline = np.concatenate([along(shares, -1.0), along(shares[::-1], 1.0)])
    start = ROOT + (1.0 - ROOT) * (np.arange(BARS) - 0.5) / BARS
    end = start + FILLED * (1.0 - ROOT) / BARS
    low, high = ([np.clip(each + lean, ROOT, 1.0) for each in (start, end)] for lean in (0.0, SLANT))
    bars = [along(low[0], -1.0), along(low[1], -1.0), along(high[1], 1.0), along(high[0], 1.0)]
    return outline, np.stack(bars, axis=1).reshape(-1, 3)
