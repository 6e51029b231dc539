"""A three-view on paper: plan over front view, side view to the right of it, title and key in the corner left free."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, replace
from functools import cache, partial
from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.drawings import overlay
from viz.drawings.marks import Ring, Stroke, box_of, shifted
from viz.drawings.on_paper import length_text, paper, place_on, place_text
from viz.drawings.placing import Said, beside, in_rows, labelled
from viz.drawings.title import title_block
from viz.drawings.view import View

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sim.airframe.projection import ThreeViewSide
    from sim.studies.drawing_answer import DrawingAnswer, DrawnDimension, MarkedPlace, Where
    from viz.drawings.marks import Mark, Pen, Point
    from viz.figures.complete import Other
    from viz.sheets.format import Units

UNDER = (1, 2, 4, 5, 8, 10, 12, 15, 16, 20, 24, 25, 30, 32, 40, 48, 50, 60, 64, 72, 75, 80, 90, 100, 120, 150, 200)
SCALES: Sequence[float] = tuple(1.0 / under for under in UNDER)
"""Usual scales of drawings in metres and in feet, the largest first."""
SMALL = 0.01
"""The smallest scale with letters of their usual size."""
SMALL_LETTERS = (0.75, 0.6)
"""Sizes of letters over the usual one, where that finds no room."""
PENS: dict[str, Pen] = {"edge": "edge", "thin": "thin", "hidden": "hidden", "centre": "centre"}
SIDES: tuple[Where, ...] = ("left", "right", "below", "above")
"""Of a view, in the order in which they are filled: what is placed later lies outside of what was before."""
DIMENSIONS, PLACES = "dimensions", "stations"
APART_MM = 8.0
"""Between two views."""
DESCRIPTION = "Three-view of {title}: plan, front view and left side, with dimensions, stations and buttlines."


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a three-view shows.

    Attributes
    ----------
    answer : DrawingAnswer
        The airplane, with the readings laid over it.
    units : {"us", "si"}
        Of its dimensions.
    other : Other or None
        Another airplane laid under it: what it is called, and its drawing.
    """

    answer: DrawingAnswer
    units: Units
    other: Other | None = None


def three_view(drawn: Drawn, scale: float, letters: float = 1.0) -> View:
    """Return a three-view at a scale.

    Parameters
    ----------
    drawn : Drawn
        What it shows.
    scale : float
        Paper over full size, above 0.
    letters : float
        Size of letters, and of the room between lines, over the usual one.
    """
    usual = _three_view(drawn, scale, letters)
    return replace(usual, marks=tuple(shifted(mark, (0.0, 0.0), letters) for mark in usual.marks))


def _three_view(drawn: Drawn, scale: float, letters: float) -> View:
    """Return a three-view with letters of their usual size, larger by as much as they are to be smaller."""
    made = {view.name: _dressed(drawn, view, scale / letters) for view in drawn.answer.views}
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
    called = drawn.other.called if drawn.other else ""
    block = title_block(drawn.answer, drawn.units, (scale, letters), (right - left, called))
    _, foot, _, _ = box_of(block)
    head = max(up + plan_high, top + APART_MM - foot)
    marks += [shifted(mark, (across + left, head)) for mark in block]
    return View(tuple(marks), scale, DESCRIPTION.format(title=drawn.answer.title))


def three_view_on(drawn: Drawn, room: Point) -> View:
    """Return a three-view at the largest usual scale at which it fits a room of paper, width and height [mm].

    Where it fits at none down to 1:100, its letters are smaller.
    """
    bare = {view.name: box_of(_lines(view, 1.0)) for view in drawn.answer.views}
    wide = sum(bare[name][2] - bare[name][0] for name in ("front", "side"))
    possible = [scale for scale in SCALES if scale * wide <= room[0]] or SCALES[-1:]
    usual = _largest(partial(three_view, drawn), room, [scale for scale in possible if scale >= SMALL])
    if usual is not None:
        return usual
    small = (_largest(partial(three_view, drawn, letters=size), room, possible) for size in SMALL_LETTERS)
    return next(filter(None, small), None) or three_view(drawn, possible[-1])


def _largest(make: Callable[[float], View], room: Point, scales: Sequence[float]) -> View | None:
    """Return the view at the first of falling scales at which it fits a room, None where it fits at none."""
    made = cache(make)

    def fits(place: int) -> bool:
        size = made(scales[place]).size
        return size[0] <= room[0] and size[1] <= room[1]

    first = bisect_left(range(len(scales)), True, key=fits)
    return made(scales[first]) if first < len(scales) else None


def _dressed(drawn: Drawn, view: ThreeViewSide, scale: float) -> list[Mark]:
    """Return one view with its dimensions and marked places, about its own origin."""
    answer = drawn.answer
    made = [*_under(drawn, view, scale), *_lines(view, scale), *overlay.read_marks(answer, view.name, scale)]
    places = [_place(drawn, one, scale) for one in answer.places if one.view == view.name]
    asked = [one for one in answer.dimensions if one.view == view.name]
    top = box_of(made)[3]
    kept_clear = [Stroke([at, (at[0], top)], "leader") for at, _, _ in places]
    near = beside([_said(drawn, one, scale) for one in asked if one.where == "along"], [*made, *kept_clear])
    made += _on(DIMENSIONS, near)
    for where in SIDES:
        said = [_said(drawn, one, scale) for one in asked if one.where == where]
        made += _on(DIMENSIONS, in_rows(said, made, where))
    return [*made, *_on(PLACES, labelled(places, made))] if places else made


def _under(drawn: Drawn, view: ThreeViewSide, scale: float) -> Iterator[Mark]:
    """Yield the other airplane in the same view."""
    for other in drawn.other.answer.views if drawn.other else ():  # type: ignore[attr-defined] # a drawing as well
        if other.name == view.name:
            yield from overlay.other_marks(other, scale)


def _on(layer: str, marks: Sequence[Mark]) -> Iterator[Mark]:
    return (replace(mark, layer=layer) for mark in marks)


def _lines(view: ThreeViewSide, scale: float) -> Iterator[Mark]:
    for line in view.lines:
        points = [paper(point, scale) for point in line.points_m]
        yield Stroke(points, PENS[line.stroke], line.closed, line.part)
    for circle in view.circles:
        yield Ring(paper(circle.centre_m, scale), mm(circle.diameter_m) * scale, PENS[circle.stroke], circle.part)


def _said(drawn: Drawn, one: DrawnDimension, scale: float) -> Said:
    read = overlay.readings_of(drawn.answer).get(one.key)
    words = f"{one.name} {length_text(one.drawn_m, drawn.units)}{overlay.told(read, drawn.units)}"
    start, end = (paper(place, scale) for place in one.between_m)
    return Said(start, end, words, overlay.pen_of(read, "thin"))


def _place(drawn: Drawn, one: MarkedPlace, scale: float) -> tuple[Point, str, Pen]:
    read = overlay.readings_of(drawn.answer).get(one.key)
    words = f"{one.name} {place_text(one, drawn.units)}{overlay.told(read, drawn.units, place=True)}"
    return place_on(one, scale), words, overlay.pen_of(read, "leader")
