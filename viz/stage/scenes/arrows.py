"""Arrows that a visitor sees from afar: full for the rotary, hollow for the fixed engine, bent round what spins."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.palette import HOLLOW
from viz.stage.shapes import Line, Polygon, Shape
from viz.stage.solid.parts import ring

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from viz.stage.shapes import Point

    Numbers = NDArray[np.float64]

ARC_RAD: Final = 1.5
"""How long a bent arrow is that shows what spins. [rad]"""
ABOUT_CYLINDERS: Final = 1.14
"""Radius of that about a rotary, over the reach of its cylinders."""

EDGE, SHORT_EDGE = 4.0, 2.5
"""How thick the dark edge of an arrow is, and of a short one, in units."""
RIM, SHORT, SHORT_RIM = 2.4, 40.0, 3.6
"""How thick the rim of a hollow arrow is, up to which length one is short, and the rim of that, in units."""


def spin_arcs(radius_m: float, spin_rad_s: float, middles_rad: Sequence[float]) -> Numbers:
    """Return arcs about a shaft, each in the sense in which it spins, in body axes from the shaft [m].

    `middles_rad` are the middles of the arcs, clockwise from straight up as the pilot sees them, as is the spin.
    """
    along = math.copysign(1.0, spin_rad_s) * np.linspace(-0.5 * ARC_RAD, 0.5 * ARC_RAD, 10)
    return np.array([ring(0.0, radius_m, middle + along) for middle in middles_rad])


def bent(points: Sequence[Point], unit: float) -> list[Shape]:
    """Return an arrow along a chain of points, with a dark edge."""
    chain = tuple((x, y) for x, y in points)
    chain, tip = chain[:-2], (chain[-3], chain[-1])
    return [
        Line(chain, "keyline", 10 * unit),
        *arrow(*tip, "keyline", unit, over=EDGE),
        Line(chain, "turning", 5 * unit),
        *arrow(*tip, "turning", unit),
    ]


def edged(start: Point, end: Point, role: str, unit: float) -> list[Shape]:
    """Return an arrow with its dark edge; that of the fixed engine is hollow."""
    short = math.dist(start, end) < SHORT * unit
    rim, edge = (SHORT_RIM, SHORT_EDGE) if short else (RIM, EDGE)
    core = arrow(start, end, "keyline", unit, over=-rim) if role == HOLLOW else []
    return [*arrow(start, end, "keyline", unit, over=edge), *arrow(start, end, role, unit), *core]


def arrow(start: Point, end: Point, role: str, unit: float, *, over: float = 0.0) -> list[Shape]:
    """Return an arrow from one point to another with a head that a visitor sees from afar.

    Its edge is moved out by `over` units; one moved in is the core of a hollow arrow, none of which is left in a short
    one.
    """
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(along_x, along_y) or 1.0
    ux, uy = along_x / length, along_y / length
    over *= unit
    head = min(26 * unit, 0.7 * length)
    neck = (end[0] - ux * head, end[1] - uy * head)
    half = 0.62 * head + 1.5 * over
    if half <= 0.0:
        return []
    tip, base = (end[0] + 1.5 * over * ux, end[1] + 1.5 * over * uy), (neck[0] - over * ux, neck[1] - over * uy)
    corners = (tip, (base[0] - uy * half, base[1] + ux * half), (base[0] + uy * half, base[1] - ux * half))
    return [Line((start, neck), role, (9 * unit) + 1.6 * over), Polygon(corners, role)]
