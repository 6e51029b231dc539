"""The line of fire: from the muzzle to a hoop in the disc, and beyond it where a round gets through."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.scenes.arcs import head
from viz.stage.shapes import Line, Polygon, Shape
from viz.stage.solid.parts import ring

if TYPE_CHECKING:
    from viz.stage.gun_states import Crossing
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.shapes import Point

ROLES = {"close": "wait", "held": "steel", "clear": "now", "through": "now", "hit": "strike", "none": "steel"}
FAR_X = 2.4
"""So far ahead of the disc the line of fire is drawn. [m]"""
DASHES = 8
HOOP_M = 0.11
"""Radius of the hoop. [m]"""
OPEN = ("clear", "through")


def beyond(over: OverCowl, meets: Crossing, unit: float) -> list[Shape]:
    """Return the line ahead of the disc, dashed, to an arrowhead; none where a blade is in the way."""
    if meets not in OPEN:
        return []
    y, z = over.line_yz_m
    places = over.flat(np.array([[x, y, z] for x in np.linspace(0.0, FAR_X, 2 * DASHES)]))
    dashes = [Line(places[first : first + 2], "now", 3 * unit) for first in range(1, 2 * DASHES - 1, 2)]
    return [*dashes, Polygon(head(places[-2], places[-1], 20 * unit), "now")]


def up_to_disc(over: OverCowl, meets: Crossing, unit: float) -> list[Shape]:
    """Return the line from the muzzle to the disc and the hoop there; a bar across it where a blade is in the way."""
    ends, role = (over.muzzle, over.on_line(0.0)), ROLES[meets]
    shapes: list[Shape] = [Line(ends, "keyline", 6 * unit), Line(ends, "round", 3 * unit)]
    hoop = hoop_at(over)
    shapes += [Line(hoop, "keyline", 9 * unit), Line(hoop, role, 5 * unit)]
    if meets == "close":
        bar = hoop[3], hoop[15]
        shapes += [Line(bar, "keyline", 9 * unit), Line(bar, role, 5 * unit)]
    return shapes


def hoop_at(over: OverCowl) -> tuple[Point, ...]:
    """Return the hoop, a closed circle in the disc about the line of fire."""
    y, z = over.line_yz_m
    return over.flat(np.array([0.0, y, z]) + ring(0.0, HOOP_M, np.linspace(0.0, math.tau, 25)))
