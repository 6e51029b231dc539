"""The light barrier, or the lamp switch, on its block: where its beam and holes stand, how the flag comes to it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from math import cos, sin
from typing import TYPE_CHECKING

import numpy as np
from shapely import Polygon, box, union_all

from sim.units.convert import mm
from viz.drawings.bores import circle_of, is_round
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import Note, Ring, Stroke, arrow_line, box_of, scaled, shifted
from viz.drawings.placing import Said, in_rows
from viz.drawings.view import View, fitted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Part, Slab
    from sim.display.rise_laws import FloatArray
    from viz.drawings.marks import Mark, Point

NAMES = ("light barrier", "lamp switch")
APART_MM = 14.0
"""Between the two views. [mm]"""
BEAM_MM = 1.0
"""Diameter of the ring that stands for the beam, at full size. [mm]"""
PLATE_MM = 9.0
"""How far the lead plate is drawn on either side of the sensor. [mm]"""


def sensor_of(assembly: Assembly) -> Part:
    """Return the light barrier or the lamp switch."""
    return next(part for part in assembly.parts if part.name in NAMES)


def sensor_view(assembly: Assembly, lift_m: float, room: Point) -> View:
    """Return the sensor from the front and along the flag's motion, at the largest usual scale for a room [mm].

    Parameters
    ----------
    assembly : Assembly
        The display, its follower down.
    lift_m : float
        Travel of the flag where it is sensed, positive. [m]
    room : tuple of float
        Width and height. [mm]
    """
    return fitted(partial(_view, assembly, lift_m), room)


def flag_edge(assembly: Assembly) -> float:
    """Return how far the edge of the flag that comes first is from the beam, the follower down. [m].

    Of a lamp switch it is the distance from the middle of its body.
    """
    _, low, _, high = _flag(assembly).bounds
    return min(abs(low), abs(high)) / mm(1.0)


def _own(part: Part, slab: Slab, sensor: Part) -> FloatArray:
    """Return the outline of a slab in the axes of the sensor, y along the motion. [mm]."""
    c, s = cos(part.placed_rad), sin(part.placed_rad)
    x, y = slab.outline_m.T
    placed = np.column_stack([part.x_m + c * x - s * y - sensor.x_m, part.y_m + s * x + c * y - sensor.y_m])
    c, s = cos(sensor.placed_rad), -sin(sensor.placed_rad)
    own: FloatArray = mm(placed @ np.array([[c, s], [-s, c]]))
    return own


def _flag(assembly: Assembly) -> BaseGeometry:
    flag = assembly.part("flag")
    return Polygon(_own(flag, flag.slabs[0], sensor_of(assembly)))


def _view(assembly: Assembly, lift_m: float, scale: float) -> View:
    front, along = _front(assembly, lift_m, scale), _along(assembly, scale)
    if assembly.hardware == "metric":  # first angle: what is seen from below stands above
        front, along = along, front
    rise = box_of(along)[3] - box_of(front)[1] + APART_MM
    shapes = [*along, *(shifted(each, (0.0, rise)) for each in front)]
    name = sensor_of(assembly).name
    return View(tuple(shapes), scale, f"The {name} with the flag, from the front and along the motion of the flag.")


def _front(assembly: Assembly, lift_m: float, scale: float) -> list[Mark]:
    """Return the sensor from the front, the flag down and, dashed, at the end of its lift."""
    sensor, flag = sensor_of(assembly), _flag(assembly)
    up = 1.0 if flag.bounds[1] + flag.bounds[3] < 0.0 else -1.0
    lifted = mm(lift_m) * up
    shapes: list[Mark] = list(_rims(_whole(sensor), scale, "cut"))
    holes = [circle_of(rim) for rim in sensor.slabs[0].openings_m if is_round(rim)]
    spots = [((mm(x), mm(y)), mm(2.0 * radius)) for (x, y), radius in holes]
    shapes += [Ring((x * scale, y * scale), wide * scale, "cut") for (x, y), wide in spots]
    left = sensor.slabs[0].outline_m.min(axis=0)
    shapes += _rims(flag, scale, "edge")
    shapes.append(Note("flag", ((flag.bounds[0] + 4.0) * scale, flag.centroid.y * scale), "thin"))
    moved = Polygon([(x, y + lifted) for x, y in flag.exterior.coords])  # type: ignore[attr-defined]
    shapes += [replace(each, pen="hidden") for each in _rims(moved, scale, "edge")]
    shapes += _beam(sensor, scale)
    edge = flag.bounds[3] if up > 0.0 else flag.bounds[1]
    start = flag.bounds[0]
    shapes += arrow_line((start * scale - 4.0, edge * scale), (start * scale - 4.0, (edge + lifted) * scale))
    told = partial(_told, assembly)
    right = mm(float(sensor.slabs[0].outline_m[:, 0].max()))
    ends = sorted(y for (_, y), _ in spots)
    turned = abs(ends[-1] - ends[0]) < 1.0 if ends else False
    made = list(shapes)
    up_said = [_said((start, edge), (start, edge + lifted), 1, told, scale=scale)]
    up_said += [_said((start, edge), (start, 0.0), 1, told, scale=scale)]
    made += in_rows(up_said, shapes, "left")
    axis = 0 if turned else 1
    apart = [_said(spots[0][0], spots[-1][0], axis, told, scale=scale)]
    made += in_rows(apart, shapes, "below" if turned else "right")
    wide = [_said((mm(float(left[0])), 0.0), (right, 0.0), 0, told, scale=scale)]
    made += in_rows(wide, made, "above")
    return made


def _beam(sensor: Part, scale: float) -> Iterator[Mark]:
    """Yield where the beam of a light barrier crosses the gap; it runs along the shaft."""
    if sensor.name == "light barrier":
        yield Ring((0.0, 0.0), BEAM_MM * scale, "mark")
        for x, y in ((3.0, 0.0), (0.0, 3.0)):
            yield Stroke([(-x, -y), (x, y)], "centre")


def _along(assembly: Assembly, scale: float) -> list[Mark]:
    """Return what is seen along the motion of the flag: plate, block, sensor, and the flag between them, front up."""
    sensor, flag, plate = sensor_of(assembly), assembly.part("flag"), assembly.part("lead plate")
    block = assembly.part(f"{sensor.name} block")
    zero = plate.z_to_m
    left, _, right, _ = _whole(sensor).bounds
    deep = box(left - PLATE_MM, -mm(plate.thickness_m), right + PLATE_MM, 0.0)
    shapes: list[Mark] = [*_rims(deep, scale, "thin"), *_rims(_side(block, sensor, zero), scale, "edge")]
    shapes += _rims(_side(sensor, sensor, zero), scale, "cut")
    shapes += _rims(_side(flag, sensor, zero), scale, "edge")
    shapes.append(Note("lead plate", ((left + right) / 2.0 * scale, -mm(plate.thickness_m) / 2.0 * scale), "thin"))
    middle = mm((flag.z_from_m + flag.z_to_m) / 2.0 - zero)
    if sensor.name == "light barrier":
        ends = [mm(sensor.slabs[0].z_from_m - zero) * scale, mm(sensor.z_to_m - zero) * scale]
        shapes.append(Stroke([(0.0, each) for each in ends], "centre"))
    told = partial(_told, assembly)
    faces = sorted({mm(end - zero) for slab in sensor.slabs for end in (slab.z_from_m, slab.z_to_m)})
    said = [_said((right, 0.0), (right, face), 1, told, scale=scale) for face in faces]
    made = [*shapes, *in_rows(said, shapes, "right")]
    start = _flag(assembly).bounds[0]
    made += in_rows([_said((start, 0.0), (start, middle), 1, told, scale=scale)], shapes, "left")
    return made


def _told(assembly: Assembly, length_mm: float) -> str:
    return dimension_text(length_mm, units_of(assembly.hardware))


def _said(start: Point, end: Point, axis: int, told: partial[str], *, scale: float) -> Said:
    first, last = sorted((start, end), key=lambda at: at[axis])
    return Said(*_pair(scaled([first, last], scale)), told(last[axis] - first[axis]))


def _pair(chain: list[Point]) -> tuple[Point, Point]:
    return chain[0], chain[1]


def _whole(sensor: Part) -> BaseGeometry:
    return union_all([Polygon(mm(slab.outline_m)) for slab in sensor.slabs])


def _side(part: Part, sensor: Part, zero_m: float) -> BaseGeometry:
    """Return a part as it is seen along the motion, over the front face of the lead plate. [mm]."""
    return union_all(
        [
            box(rim[:, 0].min(), mm(slab.z_from_m - zero_m), rim[:, 0].max(), mm(slab.z_to_m - zero_m))
            for slab in part.slabs
            for rim in (_own(part, slab, sensor),)
        ]
    )


def _rims(shape: BaseGeometry, scale: float, pen: str) -> Iterator[Stroke]:
    for face in getattr(shape, "geoms", [shape]):
        for rim in (face.exterior, *face.interiors):
            yield Stroke(scaled(list(rim.simplify(1e-4).coords)[:-1], scale), pen, closed=True)  # type: ignore[arg-type]
