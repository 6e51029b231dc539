"""Screws in their place: the standard length that holds, with washers and nut, and the space that they fill."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from sim.display.assembly.data import Fastener, Slab
from sim.display.assembly.solid import DENSITIES_KG_M3, box, ring, volume

if TYPE_CHECKING:
    from sim.display.assembly.data import GroupName
    from sim.display.assembly.stock import Disc, Stock, Thread

Head = Literal["socket", "sunk", "hex", "pan"]
WOOD = "wood"
"""Thread of a wood screw."""
WOOD_GRIP_M = 0.020
"""Least length of a wood screw in the part that it holds in: common practice, no source. [m]"""
WIDER = 1.5
"""Diameter of a hole in a clear panel over that of its screw, and least distance of its middle from the edge of the
panel over its own diameter: the panel grows with warmth. Common practice, no source."""
PAN_M = {"metric": (0.0080, 0.0028), "inch": (0.0078, 0.0031)}
"""Diameter and height of the head of a pan or round head wood screw: DIN 7996, ASME B18.6.1. [m]"""
WOOD_STANDARDS = {
    ("metric", "sunk"): "DIN 7997 4",
    ("metric", "pan"): "DIN 7996 4",
    ("inch", "sunk"): "ASME B18.6.1 flat head No. 8",
    ("inch", "pan"): "ASME B18.6.1 round head No. 8",
}
"""System and head -> standard and size of a wood screw."""
WOOD_SKIN_M = 0.002
"""Least wood in front of the tip of a screw: common practice, no source. [m]"""


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a screw stands and what it holds.

    Attributes
    ----------
    at_m : tuple of float
        Its axis. [m]
    head_z_m : float
        Face on which its head or its first washer bears; of a countersunk one the face it is flush with. [m]
    end_z_m : float
        Face on which its nut bears, or where its tapped thread may end at most. [m]
    tapped_z_m : float or None
        Where a tapped thread begins, coming from the head; None with a nut. [m]
    """

    at_m: tuple[float, float]
    head_z_m: float
    end_z_m: float
    tapped_z_m: float | None = None


def screw(
    name: str,
    stock: Stock,
    thread: Thread,
    seat: Seat,
    *,
    joins: tuple[str, ...],
    head: Head = "socket",
    washer: Literal["plain", "large", "none"] = "plain",
    group: GroupName = "fixed",
) -> Fastener:
    """Return a screw of standard length: through to a nut, or as deep into a tapped hole as there is room."""
    under = None if washer == "none" or head == "sunk" else thread.large if washer == "large" else thread.washer
    length = _length(stock, thread, seat, under)
    slabs = _pieces(thread, seat, head, under, length_m=length)
    washers = (under.name,) if under else ()
    told = f"tapped {thread.name}"
    if seat.tapped_z_m is None:
        washers, told = (*washers, thread.washer.name), thread.nut.name
    return Fastener(
        name=name,
        standard=f"{stock.names[head]} {thread.name} × {stock.told(length)}",
        thread=thread.name,
        length_m=length,
        washers=washers,
        nut=told,
        joins=joins,
        x_m=seat.at_m[0],
        y_m=seat.at_m[1],
        z_from_m=min(each.z_from_m for each in slabs),
        z_to_m=max(each.z_to_m for each in slabs),
        mass_kg=DENSITIES_KG_M3["steel"] * volume(slabs),
        head=head,
        front=seat.head_z_m > seat.end_z_m,
        group=group,
        slabs=slabs,
        head_m=thread.heads_m[head][0],
    )


def _length(stock: Stock, thread: Thread, seat: Seat, under: Disc | None) -> float:
    """Return the standard length: the shortest that fills a nut, or the longest that its tapped hole has room for."""
    through = abs(seat.head_z_m - seat.end_z_m) + (under.height_m if under else 0.0)
    if seat.tapped_z_m is None:
        return stock.length(through + thread.washer.height_m + thread.nut.height_m)
    return max((each for each in stock.lengths_m if each <= through + 1e-9), default=stock.lengths_m[0])


def _pieces(thread: Thread, seat: Seat, head: Head, under: Disc | None, *, length_m: float) -> tuple[Slab, ...]:
    """Return head, shank, washers and nut as discs; the head is the first of them, the shank the second."""
    side = 1.0 if seat.head_z_m > seat.end_z_m else -1.0
    lifted = under.height_m if under else 0.0

    def disc(outer_m: float, start_m: float, height_m: float, inner_m: float = 0.0) -> Slab:
        """Return a disc, its start measured from the head's face away from the work."""
        ends = sorted((seat.head_z_m + side * start_m, seat.head_z_m + side * (start_m + height_m)))
        return ring(outer_m, inner_m, ends[0], ends[1])

    across, tall = thread.heads_m[head]
    if head == "sunk":
        slabs = [disc(across, -tall, tall), disc(thread.diameter_m, -length_m, length_m - tall)]
    else:
        slabs = [disc(across, lifted, tall), disc(thread.diameter_m, lifted - length_m, length_m)]
    if under:
        slabs.append(disc(under.outer_m, 0.0, lifted, thread.diameter_m))
    if seat.tapped_z_m is None:
        end = -abs(seat.head_z_m - seat.end_z_m) - thread.washer.height_m
        slabs.append(disc(thread.washer.outer_m, end, thread.washer.height_m, thread.diameter_m))
        slabs.append(disc(thread.nut.outer_m, end - thread.nut.height_m, thread.nut.height_m, thread.diameter_m))
    return tuple(slabs)


def engaged(fastener: Fastener, seat: Seat) -> float:
    """Return how much of a tapped thread a screw fills, over its diameter; infinite with a nut."""
    if seat.tapped_z_m is None:
        return math.inf
    end = fastener.z_from_m if fastener.front else fastener.z_to_m
    return abs(seat.tapped_z_m - end) / float(fastener.slabs[1].outline_m[:, 0].max()) / 2.0


def wood(
    name: str,
    stock: Stock,
    seat: Seat,
    *,
    joins: tuple[str, ...],
    deep_m: float = math.inf,
    head: Literal["sunk", "pan"] = "sunk",
) -> Fastener:
    """Return a wood screw along the shaft, its thread in the last of what it joins, so deep at most.

    One with a pan head, for a clear panel, stands on a large washer; a countersunk one is flush.
    """
    thread = stock.threads["medium"]
    front = seat.head_z_m > seat.end_z_m
    side = 1.0 if front else -1.0
    wide, tall = thread.heads_m["sunk"] if head == "sunk" else PAN_M[stock.hardware]
    lifted = thread.large.height_m if head == "pan" else 0.0
    under = -lifted if head == "pan" else tall
    through = abs(seat.head_z_m - seat.end_z_m) + lifted
    length = stock.length(through + WOOD_GRIP_M)
    if length > through + deep_m - WOOD_SKIN_M:
        length = max(each for each in stock.lengths_m if each <= through + deep_m - WOOD_SKIN_M)

    def piece(outer_m: float, start_m: float, end_m: float, inner_m: float = 0.0) -> Slab:
        """Return a disc between two depths below the face that the screw stands on."""
        ends = sorted((seat.head_z_m - side * start_m, seat.head_z_m - side * end_m))
        return ring(outer_m, inner_m, *ends)

    slabs = [piece(wide, under - tall, under), piece(thread.diameter_m, under, length - lifted)]
    if lifted:
        slabs.append(piece(thread.large.outer_m, -lifted, 0.0, thread.diameter_m))
    washers = (thread.large.name,) if lifted else ()
    return _wood(
        name,
        stock,
        tuple(slabs),
        seat.at_m,
        length=length,
        joins=joins,
        front=front,
        head=(head, wide),
        washers=washers,
    )


def across(
    name: str, stock: Stock, head_m: tuple[float, float, float], through_m: float, *, joins: tuple[str, ...]
) -> Fastener:
    """Return a countersunk wood screw along y, from a face through a board into the next: from the foot up."""
    thread = stock.threads["medium"]
    side = 1.0 if joins[0] == "footboard" else -1.0
    length = stock.length(through_m + WOOD_GRIP_M)
    half, wide, tall = thread.diameter_m / 2.0, thread.heads_m["sunk"][0] / 2.0, thread.heads_m["sunk"][1]
    x, y, z = head_m

    def piece(radius: float, start: float, end: float) -> Slab:
        low, high = sorted((side * start, side * end))
        return Slab(box(-radius, low, radius, high), z - radius, z + radius)

    slabs = (piece(wide, 0.0, tall), piece(half, tall, length))
    made = _wood(name, stock, slabs, (x, y), length=length, joins=joins, front=True, head=("sunk", 2.0 * wide))
    return replace(made, upright=True)


def _wood(
    name: str,
    stock: Stock,
    slabs: tuple[Slab, ...],
    at: tuple[float, float],
    *,
    length: float,
    joins: tuple[str, ...],
    front: bool,
    head: tuple[Literal["sunk", "pan"], float],
    washers: tuple[str, ...] = (),
) -> Fastener:
    return Fastener(
        name=name,
        standard=f"{WOOD_STANDARDS[stock.hardware, head[0]]} × {stock.told(length)}",
        thread=WOOD,
        length_m=length,
        washers=washers,
        nut="in wood",
        joins=joins,
        x_m=at[0],
        y_m=at[1],
        z_from_m=min(each.z_from_m for each in slabs),
        z_to_m=max(each.z_to_m for each in slabs),
        mass_kg=DENSITIES_KG_M3["steel"] * volume(slabs),
        head=head[0],
        front=front,
        group="fixed",
        slabs=slabs,
        head_m=head[1],
    )
