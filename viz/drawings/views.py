"""The views of the drawing sheet: the cam with its angles, a plate with its dimensions, everything put together."""

from __future__ import annotations

from functools import partial
from math import atan2, cos, hypot, sin, tau
from typing import TYPE_CHECKING

from sim.units.convert import mm
from sim.units.text import brief
from viz.drawings.marks import Note, Ring, Stroke, box_of, dimension, overlap, scaled
from viz.drawings.view import View, fitted, part

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.drawings.drawing import DrawnExhibit
    from viz.drawings.marks import Anchor, Mark, Point


def cam_view(made: DrawnExhibit, room: Point) -> View:
    """Return the cam, the first part: outline, base circle, path of the cutter, and the angles of its first lobe.

    Like every view here, at the largest usual scale that fits a room, width and height. [mm]
    """
    return fitted(partial(_cam, made), room)


def plate_view(made: DrawnExhibit, number: int, room: Point) -> View:
    """Return a part with its overall dimensions and its holes numbered."""
    return fitted(partial(_plate, made, number), room)


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
        *_hole_numbers(made, 0, scale),
        *dimension((left, -reach - 13.0), (right, -reach - 13.0), f"{(right - left) / scale:.2f}"),
    ]
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


def _plate(made: DrawnExhibit, number: int, scale: float) -> View:
    drawing = made.drawings[number]
    left, bottom, right, top = (edge * scale for edge in drawing.box)
    shapes: list[Mark] = [
        *part(drawing, scale),
        *_hole_numbers(made, number, scale),
        *dimension((left, bottom - 7.0), (right, bottom - 7.0), f"{(right - left) / scale:.2f}"),
        *dimension((left - 5.0, bottom), (left - 5.0, top), f"{(top - bottom) / scale:.2f}"),
    ]
    return View(tuple(shapes), scale, f"Outline of the {drawing.name} with its dimensions and its holes numbered.")


def _hole_numbers(made: DrawnExhibit, number: int, scale: float) -> Iterator[Mark]:
    """Yield the number of each hole beside it, clear of other words and on the inner side of a hole near an edge."""
    drawing = made.drawings[number]
    words = [box_of([mark]) for mark in part(drawing, scale) if isinstance(mark, Note)]
    _, _, right, top = drawing.box
    for row, ((x, y), diameter) in enumerate(drawing.circles, start=1):
        away = 0.75 * diameter / 2.0 * scale + 2.2
        across, up = -1.0 if x > 0.8 * right else 1.0, -1.0 if y > 0.8 * top else 1.0
        places = [(across * side, up * end) for side, end in ((1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0))]
        notes = [Note(str(row), (x * scale + away * side, y * scale + away * end), "number") for side, end in places]
        yield next((note for note in notes if not any(overlap(box_of([note]), each) for each in words)), notes[0])
