"""The mass that moves with the roller, from the parts of the follower."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from sim.display.assembly.follower import follower_parts
from sim.display.assembly.interference import shape_of
from sim.display.assembly.plan import Plan
from sim.display.search import FoundCam

if TYPE_CHECKING:
    from shapely import Polygon

    from sim.display.assembly.data import Fastener, Part
    from sim.display.display import Display
    from sim.display.spring import Spring

WIRE_KG_M3 = 7850.0


def spring_mass(spring: Spring) -> float:
    """Return the mass of a spring, its two closed ends included. [kg]."""
    length = math.pi * spring.coil_m * (spring.active_coils + 2.0)
    return WIRE_KG_M3 * math.pi * spring.wire_m**2 / 4.0 * length


def follower_mass(display: Display, spring: Spring) -> float:
    """Return the mass that would move as the roller does, with a third of the spring. [kg].

    Notes
    -----
    Of a slide all of it; of an arm its moment of inertia about the pivot over the square of its length.
    It does not depend on the cam: an arm is taken where it stands square to the line of its pivot and the cam.
    """
    follower = display.follower
    base = 0.05 + abs(follower.offset_m)
    if follower.kind == "swinging":
        base = math.hypot(follower.pivot_m, follower.arm_m) - follower.roller_radius_m
    plan = Plan(display, FoundCam("cycloidal", 0.5, base, passes=True, binding=(), tried=0), spring)
    parts, screws = follower_parts(plan)
    third = spring_mass(spring) / 3.0 * display.spring_ratio**2
    if follower.kind == "translating":
        return sum(part.mass_kg for part in parts) + sum(screw.mass_kg for screw in screws) + third
    pivot = parts[0].x_m, parts[0].y_m
    inertia = 0.0
    pieces: list[Part | Fastener] = [*parts, *screws]
    for each in pieces:
        shapes = [(shape_of(slab, each), slab.z_to_m - slab.z_from_m) for slab in each.slabs]
        volume = sum(shape.area * thick for shape, thick in shapes)
        density = each.mass_kg / volume
        inertia += sum(density * thick * _polar(shape, pivot) for shape, thick in shapes)
    return inertia / follower.arm_m**2 + third


def _polar(shape: Polygon, about: tuple[float, float]) -> float:
    """Return the polar second moment of area of a shape about a point, openings taken off. [m⁴]."""
    rings = [shape.exterior, *shape.interiors]
    moments = []
    for ring in rings:
        corners = [(x - about[0], y - about[1]) for x, y in ring.coords]
        moment = sum(
            (x * v - u * y) * (x * x + x * u + u * u + y * y + y * v + v * v) for (x, y), (u, v) in pairwise(corners)
        )
        moments.append(abs(moment) / 12.0)
    return float(moments[0] - sum(moments[1:]))
