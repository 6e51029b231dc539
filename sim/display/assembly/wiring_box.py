"""The wiring box behind the backboard: how large it is, the rail in it, and what stands on that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.display.assembly.data import Slab
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, box, circle

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan
    from sim.display.rise_laws import FloatArray

    Point = tuple[float, float]

BOX_M, BOX_WALL_M = (0.200, 0.150, 0.100), 0.002
"""Width, height and depth of the wiring box with its lid, and its walls: an ordinary size, no source. [m]"""
BOX_ABOVE_M = 0.070
"""Between footboard and box: room for the glands and the bend of their cables, common practice, no source. [m]"""
GLANDS, GLAND_M, GLANDS_APART_M = 3, 0.0125, 0.030
"""Holes in the lower wall of the box for glands of lamp, sensor and supply: how many, how wide, how far apart. [m]"""
GLAND_NUT_M = 0.008
"""By which nut and end of a gland stand into the box: common practice, no source. [m]"""
WIRING_BOX = "plastic box 200 × 150 × 100 mm (8 × 6 × 4 in) with lid and 3 cable glands M12"
RAIL_M, RAIL_EDGE_M, RAIL_SHEET_M = (0.180, 0.035, 0.0075), 0.027, 0.001
"""Length, width and height of the rail, width of its bottom, and its sheet: TH 35-7.5 of EN 60715, from memory. [m]"""
RAIL = "mounting rail EN 60715 TH 35-7.5, steel, cut to 180 mm (7 1/8 in)"
SCREWS_APART_M = 0.160
"""Between the two screws that hold rail and box, beyond all that stands on the rail. [m]"""
TIMER_M = (0.072, 0.090, 0.060)
"""Width, height, and depth in front of the rail that a logic relay may have; usual ones, from memory. [m]"""
TERMINALS_M = (0.044, 0.055, 0.048)
"""The same of the terminals of eight poles: usual ones, from memory. [m]"""
HOLDER_M, STOP_M = (0.008, 0.060, 0.055), (0.008, 0.050, 0.040)
"""The same of the holder of the fuse, and of an end stop: usual ones, from memory. [m]"""


@dataclass(frozen=True, slots=True)
class OnRail:
    """What stands on the rail.

    Attributes
    ----------
    name : str
        What it is.
    left_m : float
        Its left side as seen from behind, from the middle of the box. [m]
    size_m : tuple of float
        Width, height, and depth in front of the rail; its middle stands at that of the rail. [m]
    """

    name: str
    left_m: float
    size_m: tuple[float, float, float]


def on_rail() -> tuple[OnRail, ...]:
    """Return what stands on the rail, from the left as seen from behind, side by side about its middle."""
    row = (
        ("end stop", STOP_M),
        ("timer K1", TIMER_M),
        ("terminals X1", TERMINALS_M),
        ("fuse F1", HOLDER_M),
        ("end stop", STOP_M),
    )
    left, found = -sum(size[0] for _, size in row) / 2.0, []
    for name, size in row:
        found.append(OnRail(name, left, size))
        left += size[0]
    return tuple(found)


def box_middle(where: Places) -> Point:
    """Return the middle of the box. [m]."""
    return 0.0, where.foot_m + BOX_ABOVE_M + BOX_M[1] / 2.0


def box_spots(where: Places) -> tuple[Point, Point]:
    """Return the screws that hold box and rail. [m]."""
    x, y = box_middle(where)
    return (x - SCREWS_APART_M / 2.0, y), (x + SCREWS_APART_M / 2.0, y)


def wiring_box(plan: Plan, where: Places) -> tuple[tuple[Part, ...], tuple[Fastener, ...]]:
    """Return the box of timer, fuse and terminals behind the backboard, its lid off, its rail, and their screws."""
    medium, (x, y), (wide, high, deep) = plan.stock.threads["medium"], box_middle(where), BOX_M
    rear, spots = plan.backboard_z[0], box_spots(where)
    clear = tuple(circle(medium.passing_m, a - x, b - y) for a, b in spots)
    rim = box(-wide / 2.0, -high / 2.0, wide / 2.0, high / 2.0)
    room = box(BOX_WALL_M - wide / 2.0, BOX_WALL_M - high / 2.0, wide / 2.0 - BOX_WALL_M, high / 2.0 - BOX_WALL_M)
    slabs = (Slab(rim, rear - BOX_WALL_M, rear, clear), Slab(rim, rear - deep, rear - BOX_WALL_M, (room,)))
    whole = bought("wiring box", WIRING_BOX, 0.30, slabs, at=(x, y), material="")
    rail = bought("mounting rail", RAIL, 0.055, _rail(rear - BOX_WALL_M, clear), at=(x, y), material="steel")
    seats = (Seat(spot, plan.backboard_z[1], rear - BOX_WALL_M - RAIL_SHEET_M) for spot in spots)
    joins = ("backboard", "wiring box", "mounting rail")
    return (whole, rail), tuple(screw("wiring box screw", plan.stock, medium, seat, joins=joins) for seat in seats)


def _rail(on_m: float, clear: tuple[FloatArray, ...]) -> tuple[Slab, ...]:
    """Return the rail on the rear wall of the box: its bottom, its two sides and its two edges."""
    long, half, inner, sheet = RAIL_M[0] / 2.0, RAIL_M[1] / 2.0, RAIL_EDGE_M / 2.0, RAIL_SHEET_M
    ends = on_m - RAIL_M[2], on_m - RAIL_M[2] + sheet
    bottom = Slab(box(-long, -inner, long, inner), on_m - sheet, on_m, clear)
    sides = (Slab(box(-long, low, long, low + sheet), ends[1], on_m - sheet) for low in (-inner, inner - sheet))
    edges = (Slab(box(-long, low, long, low + half - inner + sheet), *ends) for low in (-half, inner - sheet))
    return bottom, *sides, *edges
