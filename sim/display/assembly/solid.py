"""Makers of parts: discs, plates and boxes in their place, their mass from volume and density."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypedDict

import numpy as np

from sim.display.assembly.data import Part, Slab
from sim.display.outline import area
from sim.display.shapes import hull
from sim.units.convert import MM_PER_M

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.display.assembly.data import GroupName, Process
    from sim.display.rise_laws import FloatArray
    from sim.display.shapes import Hole, Scribe, Slot


class Placing(TypedDict, total=False):
    """Where a part stands: its origin, its turn about it, and what it moves with."""

    at: tuple[float, float]
    placed_rad: float
    group: GroupName


DENSITIES_KG_M3 = {
    "steel": 7850.0,
    "aluminium": 2700.0,
    "brass": 8500.0,
    "acetal": 1410.0,
    "birch plywood": 680.0,
    "polycarbonate": 1200.0,
    "PTFE": 2200.0,
    "felt": 350.0,
    "rubber": 1200.0,
    "magnet": 7500.0,
    "PLA": 1240.0,
}
"""Handbook values. [kg/m³]"""


def circle(diameter_m: float, x_m: float = 0.0, y_m: float = 0.0) -> FloatArray:
    """Return the corners of a circle, within the chord error. [m]."""
    return hull((x_m, y_m, diameter_m / 2.0))


def box(left_m: float, low_m: float, right_m: float, high_m: float) -> FloatArray:
    """Return the corners of a box, anticlockwise. [m]."""
    return np.array([[left_m, low_m], [right_m, low_m], [right_m, high_m], [left_m, high_m]])


def turned(corners_m: FloatArray, angle_rad: float) -> FloatArray:
    """Return corners turned about the origin, anticlockwise. [m]."""
    cosine, sine = math.cos(angle_rad), math.sin(angle_rad)
    rows: FloatArray = corners_m @ np.array([[cosine, sine], [-sine, cosine]])
    return rows


def joined(*outlines_m: FloatArray) -> FloatArray:
    """Return the outline of pieces that overlap, anticlockwise. [m]."""
    from shapely import Polygon
    from shapely.ops import unary_union

    whole = unary_union([Polygon(each) for each in outlines_m])
    assert isinstance(whole, Polygon)
    rows: FloatArray = np.asarray(whole.exterior.normalize().coords)[:-1]
    return rows if area(rows) > 0.0 else rows[::-1]


def without(outline_m: FloatArray, hole_m: FloatArray) -> FloatArray:
    """Return an outline with what lies inside another taken away, anticlockwise; it stays whole. [m]."""
    from shapely import Polygon

    left = Polygon(outline_m).difference(Polygon(hole_m))
    assert isinstance(left, Polygon)
    rows: FloatArray = np.asarray(left.exterior.normalize().coords)[:-1]
    return rows if area(rows) > 0.0 else rows[::-1]


def ring(outer_m: float, inner_m: float, z_from_m: float, z_to_m: float) -> Slab:
    """Return a ring about the origin; the inside diameter 0 leaves it whole. [m]."""
    return Slab(circle(outer_m), z_from_m, z_to_m, (circle(inner_m),) if inner_m else ())


def whole_mm(length_m: float) -> float:
    """Return a length rounded up to a whole millimetre. [m]."""
    return math.ceil(length_m * MM_PER_M - 1e-9) / MM_PER_M


def volume(slabs: Iterable[Slab]) -> float:
    """Return the volume of slabs that do not overlap. [m³]."""
    return sum(
        (area(each.outline_m) - sum(abs(area(hole)) for hole in each.openings_m)) * (each.z_to_m - each.z_from_m)
        for each in slabs
    )


def made(
    name: str,
    material: str,
    slabs: tuple[Slab, ...],
    *,
    at: tuple[float, float] = (0.0, 0.0),
    placed_rad: float = 0.0,
    group: GroupName = "fixed",
    process: Process = "turned",
    fit: str = "",
    stock: str = "",
) -> Part:
    """Return a part to make from slabs, its mass from its volume."""
    return Part(
        name=name,
        material=material,
        mass_kg=DENSITIES_KG_M3[material] * volume(slabs),
        x_m=at[0],
        y_m=at[1],
        z_from_m=min(each.z_from_m for each in slabs),
        z_to_m=max(each.z_to_m for each in slabs),
        fit=fit,
        made=True,
        standard=stock,
        process=process,
        group=group,
        slabs=slabs,
        placed_rad=placed_rad,
    )


def bought(
    name: str,
    standard: str,
    mass_kg: float,
    slabs: tuple[Slab, ...],
    *,
    at: tuple[float, float] = (0.0, 0.0),
    group: GroupName = "fixed",
    fit: str = "",
    material: str = "steel",
    placed_rad: float = 0.0,
) -> Part:
    """Return a part to buy."""
    return Part(
        name=name,
        material=material,
        mass_kg=mass_kg,
        x_m=at[0],
        y_m=at[1],
        z_from_m=min(each.z_from_m for each in slabs),
        z_to_m=max(each.z_to_m for each in slabs),
        fit=fit,
        made=False,
        standard=standard,
        process="bought",
        group=group,
        slabs=slabs,
        placed_rad=placed_rad,
    )


def flat(
    name: str,
    material: str,
    outline_m: FloatArray,
    z_m: tuple[float, float],
    *,
    at: tuple[float, float] = (0.0, 0.0),
    placed_rad: float = 0.0,
    holes: tuple[Hole, ...] = (),
    slots: tuple[Slot, ...] = (),
    scribes: tuple[Scribe, ...] = (),
    cutouts_m: tuple[FloatArray, ...] = (),
    upright_holes: tuple[Hole, ...] = (),
    group: GroupName = "fixed",
    process: Process = "plate",
    fit: str = "",
) -> Part:
    """Return a part cut from a plate between two places along the shaft, with its holes and slots."""
    openings = tuple(circle(each.diameter_m, each.x_m, each.y_m) for each in holes)
    slab = Slab(outline_m, *z_m, (*openings, *(each.outline_m for each in slots), *cutouts_m))
    return Part(
        name=name,
        material=material,
        mass_kg=DENSITIES_KG_M3[material] * volume((slab,)),
        x_m=at[0],
        y_m=at[1],
        z_from_m=z_m[0],
        z_to_m=z_m[1],
        fit=fit,
        made=True,
        standard="",
        process=process,
        group=group,
        slabs=(slab,),
        placed_rad=placed_rad,
        holes=holes,
        slots=slots,
        scribes=scribes,
        outline_m=outline_m,
        cutouts_m=cutouts_m,
        upright_holes=upright_holes,
    )
