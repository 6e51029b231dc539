"""Inside an engine: crank, rods and pistons in the plane of the disc, seen from ahead of the airplane, cut open.

Whatever moves is yellow, whatever stands grey: of the rotary all but the crank, of the fixed engine its moving parts.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.shapes import Disc, Line, Polygon, Rect, Shape

if TYPE_CHECKING:
    from sim.live.engine import EnginePicture
    from viz.stage.shapes import Point

REACH = 1.32
"""Cylinder heads from the shaft axis, as a share of the farthest piston pin."""
BORE = 0.36
"""Width of a cylinder, as a share of the rod."""
FINS = 4
WALL_FADE = 0.25
"""Walls and fins of a cylinder differ a little from the piston in it."""


class _Sheet:
    """Turns metres to the airplane's right and up from the shaft axis into pixels, right being left from ahead."""

    def __init__(self, rect: Rect, reach_m: float) -> None:
        self.x, self.y = rect.center
        self.reach_px = 0.47 * rect.w
        self.scale = self.reach_px / reach_m

    def at(self, right_m: float, up_m: float) -> Point:
        """Return the pixel of a point right and up of the axis."""
        return self.x - right_m * self.scale, self.y - up_m * self.scale


def rotary(engine: EnginePicture, rect: Rect, blur: float, unit: float) -> list[Shape]:
    """Return a rotary: cylinders and crankcase turn about the shaft, pistons and rods about the offset crankpin."""
    setup = engine.setup
    reach = REACH * (setup.crank_radius_m + setup.rod_length_m)
    sheet = _Sheet(rect, reach)
    inner = 0.95 * (setup.rod_length_m - setup.crank_radius_m)
    pin = sheet.at(*engine.crankpins_m[0])
    shapes: list[Shape] = []
    if blur > 0.0:
        shapes.append(Disc(sheet.x, sheet.y, 0.97 * reach * sheet.scale, "turning", fade=0.93))
    for axis in engine.cylinder_axes_rad:
        shapes += _cylinder(sheet, axis, ends_m=(inner, reach), rod_m=setup.rod_length_m, role="turning", blur=blur)
    shapes.append(Disc(sheet.x, sheet.y, inner * sheet.scale, "turning", fade=max(blur, 0.72)))
    shapes.append(Disc(sheet.x, sheet.y, inner * sheet.scale, "turning", rim=2 * unit, fade=blur))
    for axis, piston in zip(engine.cylinder_axes_rad, engine.pistons_m, strict=True):
        shapes += _piston(sheet, axis, piston, engine.crankpins_m[0], rod_m=setup.rod_length_m, unit=unit, blur=blur)
    shapes += [
        Line((sheet.at(0.0, 0.0), pin), "still", 12 * unit),
        Disc(sheet.x, sheet.y, 14 * unit, "still"),
        Disc(*pin, 10 * unit, "still"),
        Disc(*pin, 4 * unit, "back"),
    ]
    return shapes


def fixed(engine: EnginePicture, rect: Rect, blur: float, unit: float) -> list[Shape]:
    """Return a fixed flat engine: the crank turns, and the rear pair of cylinders stands behind the front pair."""
    setup = engine.setup
    reach = REACH * (setup.crank_radius_m + setup.rod_length_m)
    sheet = _Sheet(rect, reach)
    inner = 0.95 * (setup.rod_length_m - setup.crank_radius_m)
    shapes: list[Shape] = []
    for axis in engine.cylinder_axes_rad[:2]:
        shapes += _cylinder(sheet, axis, ends_m=(inner, reach), rod_m=setup.rod_length_m, role="still", blur=0.0)
    shapes.append(Disc(sheet.x, sheet.y, inner * sheet.scale, "still", fade=0.72))
    shapes.append(Disc(sheet.x, sheet.y, inner * sheet.scale, "still", rim=2 * unit))
    parts = list(zip(engine.cylinder_axes_rad, engine.pistons_m, engine.crankpins_m, strict=True))
    for place in reversed(range(len(parts))):
        axis, piston, pin = parts[place]
        behind = 0.55 if place > 1 else 0.0
        shapes += _piston(sheet, axis, piston, pin, rod_m=setup.rod_length_m, unit=unit, blur=max(blur, behind))
    for pin in engine.crankpins_m[:2]:
        shapes.append(Line((sheet.at(0.0, 0.0), sheet.at(*pin)), "turning", 12 * unit, fade=blur))
        shapes.append(Disc(*sheet.at(*pin), 10 * unit, "turning", fade=blur))
    shapes.append(Disc(sheet.x, sheet.y, 14 * unit, "turning"))
    return shapes


def _cylinder(
    sheet: _Sheet, axis: float, *, ends_m: tuple[float, float], rod_m: float, role: str, blur: float
) -> list[Shape]:
    """Return a finned cylinder along an axis, clockwise from straight up [rad, m]."""
    half = 0.5 * BORE * rod_m
    inner, outer = ends_m
    body = _box(sheet, axis, (inner * 0.9, outer * 0.97), half)
    fade = max(blur, WALL_FADE)
    shapes: list[Shape] = [Polygon(body, role, 1.0, fade)]
    for step in range(FINS):
        along = inner * 1.1 + (outer * 0.97 - inner * 1.1) * step / (FINS - 1)
        ends = (_along(sheet, axis, along, -1.25 * half), _along(sheet, axis, along, 1.25 * half))
        shapes.append(Line(ends, role, 0.006 * sheet.reach_px, smooth=False, fade=fade))
    return [*shapes, Polygon(_box(sheet, axis, (inner * 0.9, outer * 0.88), 0.76 * half), "back", smooth=False)]


def _piston(
    sheet: _Sheet, axis: float, piston_m: Point, pin_m: Point, *, rod_m: float, unit: float, blur: float
) -> list[Shape]:
    half = 0.3 * BORE * rod_m
    radius = math.hypot(*piston_m)
    body = _box(sheet, axis, (radius - 0.7 * half, radius + 1.4 * half), half)
    return [
        Line((sheet.at(*pin_m), sheet.at(*piston_m)), "turning", 4 * unit, fade=blur),
        Polygon(body, "turning", 1.0, blur),
        Disc(*sheet.at(*piston_m), 3 * unit, "back", fade=blur),
    ]


def _box(sheet: _Sheet, axis: float, ends_m: tuple[float, float], half: float) -> tuple[Point, ...]:
    inner, outer = ends_m
    corners = ((inner, -half), (outer, -half), (outer, half), (inner, half))
    return tuple(_along(sheet, axis, along, across) for along, across in corners)


def _along(sheet: _Sheet, axis: float, along: float, across: float) -> Point:
    sine, cosine = math.sin(axis), math.cos(axis)
    return sheet.at(along * sine + across * cosine, along * cosine - across * sine)
