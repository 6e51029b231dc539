"""The chain from cam to gun: push rod and link, in the colour of what the cam says, and a light along them."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from viz.stage.gun_states import cam_state, raised
from viz.stage.shapes import Disc, Line, Shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.shapes import Point
    from viz.stage.snapshot import BladesView

ROLES: Final = {"now": "now", "not_now": "wait"}
ACTS, RESTS = 11.0, 6.0
"""Width of the chain while the cam lets the gun fire, and while it does not, in units."""
JOINT, LIGHT, EDGE = 9.0, 9.0, 3.0
"""Radii of the joint at the gun and of the light, and width of the dark edge about them, in units."""


def chain(view: BladesView, over: OverCowl, gear: str, unit: float) -> list[Shape]:
    """Return rods and their joint at the gun, and the light that runs from cam to muzzle while a round is released."""
    lift = raised(view)
    role, wide = ROLES[cam_state(view, gear)], ACTS if lift > 0.0 else RESTS
    way = over.chain(lift)
    shapes: list[Shape] = [
        Line(way[:3], "keyline", (wide + 2 * EDGE) * unit, smooth=False),
        Line(way[:3], role, wide * unit),
    ]
    shapes += [Disc(*way[2], (JOINT + EDGE) * unit, "keyline"), Disc(*way[2], JOINT * unit, role)]
    for share in released(view):
        place = along(way, share)
        shapes += [
            Disc(*place, (LIGHT + EDGE) * unit, "keyline"),
            Disc(*place, LIGHT * unit, "tape"),
        ]
    return shapes


def released(view: BladesView) -> list[float]:
    """Return how far rounds that are not yet out of the muzzle are on the way from cam to muzzle, 0..1."""
    inside = (one for one in view.flying if one.release_s <= view.time_s < one.muzzle_s)
    return [(view.time_s - one.release_s) / (one.muzzle_s - one.release_s) for one in inside]


def along(way: Sequence[Point], share: float) -> Point:
    """Return the place at a share of the length of a chain of points."""
    left = share * sum(math.dist(*pair) for pair in pairwise(way))
    for (x, y), (to_x, to_y) in pairwise(way):
        long = math.dist((x, y), (to_x, to_y))
        if left <= long:
            part = left / max(long, 1e-9)
            return x + part * (to_x - x), y + part * (to_y - y)
        left -= long
    return way[-1]
