"""Which parts touch on purpose: those that a screw joins, and those that run on each other with a fit."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING

from shapely import Point, Polygon

from sim.display.assembly.data import Fastener
from sim.display.assembly.screws import WOOD

if TYPE_CHECKING:
    from sim.display.assembly.data import Part, Slab

NEAR_M = 0.0005
"""How near a hole must be to its screw. [m]"""
_RUNNING = (
    ("ball bearing", "shaft"),
    ("ball bearing", "sleeve"),
    ("lead plate", "lead cap"),
    ("lead plate", "lead keeper"),
    ("lead plate", "thrust washer"),
    ("lead plate", "stop bush"),
    ("lead plate", "friction spring"),
    ("lead plate", "friction screw"),
    ("slide", "guide bush"),
    ("slide", "guide screw"),
    ("arm", "pivot bush"),
    ("arm", "pivot screw"),
    ("spring", "slide"),
    ("spring", "arm"),
    ("spring", "spring seat"),
    ("spring block", "spring seat"),
    ("roller", "cam"),
    ("belt", "pulley"),
    ("motor coupling", "geared motor"),
)
"""Pairs that run or press on each other; a name stands for every part whose name ends so."""
_INSIDE = (
    *(("cross pin", name) for name in ("hub", "shaft", "pulley", "flange", "collar")),
    ("spring seat", "slide"),
    ("spring seat", "arm"),
)
"""Pairs of which one stands inside the other; a name stands for every part whose name ends so."""


@cache
def _named(first: str, second: str, pairs: tuple[tuple[str, str], ...]) -> bool:
    return any(
        (first.endswith(one) and second.endswith(other)) or (second.endswith(one) and first.endswith(other))
        for one, other in pairs
    )


def running(first: Part | Fastener, second: Part | Fastener) -> bool:
    """Return whether two parts run on each other with a fit."""
    return _named(first.name, second.name, _RUNNING)


def joined(first: Part | Fastener, second: Part | Fastener, slab: Slab, other: Slab) -> bool:
    """Return whether the overlap of two slabs is that of a screw in what it joins, or of a pin in its hub.

    A countersunk head stands in its countersink, and the thread of a wood screw in the wood; a shank in a drilled or
    tapped hole overlaps with nothing, and is not excused. Holes along y are none of a slab: `astray` looks for them.
    """
    if _named(first.name, second.name, _INSIDE):
        return True
    if isinstance(second, Fastener):
        first, second, slab = second, first, other
    if not isinstance(first, Fastener) or isinstance(second, Fastener) or second.name not in first.joins:
        return False
    if first.thread == WOOD and (first.upright or second.name == first.joins[-1]):
        return True
    return first.head == "sunk" and slab is first.slabs[0]


def astray(screw: Fastener, parts: tuple[Part, ...]) -> bool:
    """Return whether a screw misses what it joins; one along y its hole, or with its head the face there."""
    if not screw.upright:
        joins = ([part for part in parts if part.name == name] for name in screw.joins)
        return not all(any(_passes(screw, part) for part in each) for each in joins)
    middle = (screw.z_from_m + screw.z_to_m) / 2.0
    first = next(part for part in parts if part.name == screw.joins[0])
    faces = {float(each) + first.y_m for each in first.slabs[0].outline_m[:, 1]}
    flush = any(abs(screw.y_m - face) < NEAR_M for face in faces)
    holes = ((hole.x_m + first.x_m, hole.y_m) for hole in first.upright_holes)
    return not (flush and any(math.dist((screw.x_m, middle), hole) < NEAR_M for hole in holes))


def _passes(screw: Fastener, part: Part) -> bool:
    """Return whether the axis of a screw passes inside the outline of a part."""
    cosine, sine = math.cos(part.placed_rad), math.sin(part.placed_rad)
    x, y = screw.x_m - part.x_m, screw.y_m - part.y_m
    spot = Point(cosine * x + sine * y, cosine * y - sine * x)
    return any(Polygon(slab.outline_m).contains(spot) for slab in part.slabs)
