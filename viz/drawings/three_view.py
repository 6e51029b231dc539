"""A three-view on paper: plan over front view, side view to the right of it, title and key in the corner left free."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.drawings.marks import Ring, Stroke, box_of, shifted
from viz.drawings.placing import Said, beside, in_rows, labelled
from viz.drawings.title import title_block
from viz.drawings.view import View, fitted
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.projection import ThreeViewSide
    from sim.studies.drawing_answer import DrawingAnswer, DrawnDimension, MarkedPlace
    from viz.drawings.marks import Mark, Pen, Point
    from viz.sheets.format import Units

SCALES: Sequence[float] = tuple(
    1.0 / under
    for under in (1, 2, 4, 5, 8, 10, 12, 15, 16, 20, 24, 25, 30, 32, 40, 48, 50, 60, 64, 72, 75, 80, 90, 100)
)
"""Usual scales of drawings in metres and in feet, the largest first."""
PENS: dict[str, Pen] = {"edge": "edge", "thin": "thin", "hidden": "hidden", "centre": "centre"}
DIMENSIONS, PLACES = "dimensions", "stations"
APART_MM = 8.0
"""Between two views."""
DESCRIPTION = "Three-view of {title}: plan, front view and left side, with dimensions, stations and buttlines."


def three_view(answer: DrawingAnswer, units: Units, scale: float) -> View:
    """Return a three-view at a scale, paper over full size.

    Parameters
    ----------
    answer : DrawingAnswer
        What is drawn.
    units : {"us", "si"}
        Units of the dimensions.
    scale : float
        Above 0.
    """
    made = {view.name: _dressed(answer, view, units, scale) for view in answer.views}
    plan, front, side = made["plan"], made["front"], made["side"]
    (_, plan_low, plan_right, plan_high), (_, _, front_right, front_high) = box_of(plan), box_of(front)
    up = front_high + APART_MM - plan_low
    across = max(front_right, plan_right) + APART_MM - box_of(side)[0]
    marks = [
        *front,
        *(shifted(mark, (0.0, up)) for mark in plan),
        *(shifted(mark, (across, 0.0)) for mark in side),
    ]
    left, _, right, top = box_of(side)
    block = title_block(answer, units, scale, right - left)
    _, foot, _, _ = box_of(block)
    head = max(up + plan_high, top + APART_MM - foot)
    marks += [shifted(mark, (across + left, head)) for mark in block]
    return View(tuple(marks), scale, DESCRIPTION.format(title=answer.title))


def three_view_on(answer: DrawingAnswer, units: Units, room: Point) -> View:
    """Return a three-view at the largest usual scale at which it fits a room of paper, width and height [mm]."""
    bare = {view.name: box_of(_drawn(view, 1.0)) for view in answer.views}
    wide = sum(bare[name][2] - bare[name][0] for name in ("front", "side"))
    possible = [scale for scale in SCALES if scale * wide <= room[0]] or SCALES[-1:]
    return fitted(partial(three_view, answer, units), room, possible)


def side_view(answer: DrawingAnswer, units: Units, room: Point) -> View:
    """Return the side view with its dimensions and stations at the largest usual scale that fits a room [mm]."""
    view = next(view for view in answer.views if view.name == "side")

    def make(scale: float) -> View:
        marks = _dressed(answer, view, units, scale)
        return View(
            tuple(marks), scale, f"Side view of {answer.title}, nose to the left, with dimensions and stations."
        )

    return fitted(make, room, SCALES)


def _dressed(answer: DrawingAnswer, view: ThreeViewSide, units: Units, scale: float) -> list[Mark]:
    """Return one view with its dimensions and marked places, about its own origin."""
    made = list(_drawn(view, scale))
    places = [_place(one, units, scale) for one in answer.places if one.view == view.name]
    asked = [one for one in answer.dimensions if one.view == view.name]
    top = box_of(made)[3]
    kept_clear = [Stroke([at, (at[0], top)], "leader") for at, _ in places]
    near = beside([_said(one, units, scale) for one in asked if one.where == "along"], [*made, *kept_clear])
    made += _on(DIMENSIONS, near)
    for where in ("left", "right", "below", "above"):
        said = [_said(one, units, scale) for one in asked if one.where == where]
        made += _on(DIMENSIONS, in_rows(said, made, where))
    return [*made, *_on(PLACES, labelled(places, made))] if places else made


def _on(layer: str, marks: Sequence[Mark]) -> Iterator[Mark]:
    return (replace(mark, layer=layer) for mark in marks)


def _drawn(view: ThreeViewSide, scale: float) -> Iterator[Mark]:
    for line in view.lines:
        points = [_paper(point, scale) for point in line.points_m]
        yield Stroke(points, PENS[line.stroke], line.closed, line.part)
    for circle in view.circles:
        yield Ring(_paper(circle.centre_m, scale), mm(circle.diameter_m) * scale, PENS[circle.stroke], circle.part)


def _paper(point: Point, scale: float) -> Point:
    return mm(point[0]) * scale, mm(point[1]) * scale


def _said(one: DrawnDimension, units: Units, scale: float) -> Said:
    words = f"{one.name} {length_text(one.drawn_m, units)}"
    start, end = (_paper(place, scale) for place in one.between_m)
    return Said(start, end, words)


def length_text(length_m: float, units: Units) -> str:
    """Return a dimension as a shop reads it: feet and inches, or millimetres."""
    return text_of(Value("drawn_m", length_m, decimals=1, tape=True), units)


def _place(one: MarkedPlace, units: Units, scale: float) -> tuple[Point, str]:
    name, number = ("station_m", one.station_m) if one.view == "side" else ("buttline_m", one.buttline_m)
    at = {"side": (one.station_m, one.waterline_m), "front": (-one.buttline_m, one.waterline_m)}[one.view]
    return _paper(at, scale), f"{one.name} {text_of(Value(name, number, decimals=2 if units == 'us' else 1), units)}"
