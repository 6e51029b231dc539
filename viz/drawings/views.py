"""The views of the drawing sheet: the cam with its angles, a plate with its dimensions, everything put together."""

from __future__ import annotations

from functools import partial
from math import atan2, cos, hypot, sin, tau
from typing import TYPE_CHECKING

from sim.units.convert import mm
from sim.units.text import brief
from viz.drawings.hole_numbers import hole_numbers
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import Note, Ring, Stroke, dimension, scaled
from viz.drawings.outline_table import true_box
from viz.drawings.placing import FIRST_MM, Said, in_rows
from viz.drawings.radii import hollow_centres, radii
from viz.drawings.view import View, fitted, part

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.shapes import FlatPart
    from viz.drawings.drawing import Drawing, DrawnExhibit
    from viz.drawings.marks import Anchor, Box, Mark, Point

LEAST_MM = 3.0
"""On paper, the shortest distance of hole 1 from an edge that is dimensioned. [mm]"""


def cam_view(made: DrawnExhibit, room: Point) -> View:
    """Return the cam, the first part: outline, base circle, path of the cutter, and the angles of its first lobe.

    Like every view here, at the largest usual scale that fits a room, width and height. [mm]
    """
    return fitted(partial(_cam, made), room)


def plate_view(made: DrawnExhibit, number: int, *rooms: Point) -> View:
    """Return a part with its dimensions and its holes numbered, in the room where it is largest.

    Radii, which its table holds too, are left out where without them it is drawn larger.
    """
    left, bottom, right, top = made.drawings[number].box
    draw = partial(_plate, made, number, true_box(made.drawings[number].outline))
    views = [
        fitted(each, room, (right - left, top - bottom))
        for each in (draw, partial(draw, with_radii=False))
        for room in rooms
    ]
    return max(views, key=lambda view: view.scale)


def _cam(made: DrawnExhibit, scale: float) -> View:
    cam = made.drawings[0]
    left, bottom, right, top = (edge * scale for edge in cam.box)
    farthest = max(hypot(x, y) for x, y in cam.cutter_path) * scale
    reach = max(max(right - left, top - bottom) / 2.0 + 5.0, farthest + 2.0)
    shapes: list[Mark] = [
        *part(cam, scale),
        Ring((0.0, 0.0), 2.0 * mm(made.exhibit.found.base_radius_m) * scale, "centre"),
        Stroke(scaled(cam.cutter_path, scale), "hidden", closed=True),
        *_sectors(made, reach),
        *dimension((left, -reach - 13.0), (right, -reach - 13.0), _length(made, (right - left) / scale)),
    ]
    shapes += hole_numbers(cam, scale, shapes, made.parts[0].cut_slots)
    lobes = made.exhibit.display.cam.lobes
    shown = f"Outline of the cam, with {lobes} {'lobe' if lobes == 1 else 'lobes'}"
    return View(tuple(shapes), scale, f"{shown}, its base circle, the path of the cutter and its angles.")


def _sectors(made: DrawnExhibit, reach: float) -> Iterator[Mark]:
    """Yield the rays where dwells end, and the names of the sectors of the first lobe."""
    (x0, y0), (x1, y1) = made.drawings[0].scribes[0]
    zero = atan2(y1 - y0, x1 - x0)
    rise, window = made.exhibit.found.rise_rad, made.exhibit.display.window_rad
    first = made.exhibit.display.start_rad - rise / 2.0
    ends = (first, first + rise, first + window, first + window + rise, first + tau / made.exhibit.display.cam.lobes)
    for end in ends:
        yield Stroke([(0.0, 0.0), (reach * cos(zero - end), reach * sin(zero - end))], "centre")
    angle = brief("rise_rad", rise)
    names = (f"rise {angle}", "high dwell", f"fall {angle}", "low dwell")
    for name, start, end in zip(names, ends[:-1], ends[1:], strict=True):
        middle = zero - (start + end) / 2.0
        anchor: Anchor = "start" if cos(middle) > 0.2 else "end" if cos(middle) < -0.2 else "middle"
        away = reach + (5.0 if name == "low dwell" else 2.0)
        yield Note(name, (away * cos(middle), away * sin(middle)), "thin", anchor=anchor)


def _plate(made: DrawnExhibit, number: int, box: Box, scale: float, *, with_radii: bool = True) -> View:
    drawing = made.drawings[number]
    left, bottom, right, top = (edge * scale for edge in box)
    flat = made.parts[number]
    shapes: list[Mark] = [*part(drawing, scale), *_countersinks(flat, scale)]
    if with_radii:
        shapes += radii(drawing, scale, [*shapes, *_kept_free((left, bottom, right, top))], partial(_length, made))
    across = [((left, bottom), (right, bottom)), *_to_first(drawing, box, scale, 0), *_to_centres(drawing, scale, 0)]
    up = [((left, bottom), (left, top)), *_to_first(drawing, box, scale, 1), *_to_centres(drawing, scale, 1)]
    drawn = [*shapes]
    for ends, where, axis in ((across, "below", 0), (up, "left", 1)):
        said = [Said(start, end, _length(made, (end[axis] - start[axis]) / scale)) for start, end in ends]
        shapes += in_rows(said, drawn, where)  # type: ignore[arg-type]
    shapes += hole_numbers(drawing, scale, shapes, flat.cut_slots)
    return View(tuple(shapes), scale, f"Outline of the {drawing.name} with its dimensions and its holes numbered.")


def _kept_free(box: Box) -> Iterator[Mark]:
    """Yield where the lines from the edges of a part to its dimensions will run."""
    left, bottom, right, top = box
    yield from (Stroke([(x, bottom), (x, bottom - 4.0 * FIRST_MM)], "leader") for x in (left, right))
    yield from (Stroke([(left, y), (left - 4.0 * FIRST_MM, y)], "leader") for y in (bottom, top))


def _countersinks(flat: FlatPart, scale: float) -> Iterator[Mark]:
    """Yield the rim of each countersink, dashed where it is on the face behind."""
    for hole in flat.holes:
        if hole.sunk_m:
            at = mm(hole.x_m) * scale, mm(hole.y_m) * scale
            yield Ring(at, mm(hole.sunk_m) * scale, "hidden" if hole.sunk_behind else "edge")


def _to_first(drawing: Drawing, box: Box, scale: float, axis: int) -> Iterator[tuple[Point, Point]]:
    """Yield the ends of the dimension from the left or the lower edge to the centre of hole 1, where it stands off."""
    left, bottom, *_ = box
    if not drawing.circles:
        return
    (x, y), _ = drawing.circles[0]
    start, end = ((left, y), (x, y)) if axis == 0 else ((x, bottom), (x, y))
    if end[axis] - start[axis] > LEAST_MM / scale:
        yield (start[0] * scale, start[1] * scale), (end[0] * scale, end[1] * scale)


def _to_centres(drawing: Drawing, scale: float, axis: int) -> Iterator[tuple[Point, Point]]:
    """Yield the ends of the dimension from hole 1 to the centre of each hollow arc of the outline."""
    for centre in hollow_centres(drawing) if drawing.circles else ():
        first = drawing.circles[0][0]
        start, end = sorted((first, centre), key=lambda at: at[axis])
        if end[axis] - start[axis] > LEAST_MM / scale:
            yield (start[0] * scale, start[1] * scale), (end[0] * scale, end[1] * scale)


def _length(made: DrawnExhibit, length_mm: float) -> str:
    return dimension_text(length_mm, units_of(made.exhibit.display.hardware))
