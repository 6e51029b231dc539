"""What is laid over a three-view: caliper readings, and another airplane."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.drawing_snooping import LIMIT
from viz.drawings.marks import Stroke
from viz.drawings.on_paper import length_text, paper, place_on
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.projection import ThreeViewSide, ViewName
    from sim.studies.drawing_answer import ComparedReading, DrawingAnswer, DrawnDimension, MarkedPlace
    from viz.drawings.marks import Mark, Pen
    from viz.sheets.format import Units

READINGS, OTHER = "readings", "other airplane"
READ: Pen = "number"
OTHERS: Pen = "other"
TICK_MM = 2.2
"""By which the tick of a reading passes the end of what it measures on either side."""


def readings_of(answer: DrawingAnswer) -> dict[str, ComparedReading]:
    """Return what was read of each key that stands in one of the views."""
    return {one.name: one for one in answer.readings if one.shown}


def pen_of(read: ComparedReading | None, otherwise: Pen) -> Pen:
    """Return the pen of the words of a dimension: that of readings where they differ from the scenario."""
    return READ if read is not None and read.differs else otherwise


def told(read: ComparedReading | None, units: Units, *, place: bool = False) -> str:
    """Return what stands behind a dimension, or behind the station of a place, that readings contradict."""
    if read is None or not read.differs:
        return ""
    station = text_of(Value("station_m", read.read_m, decimals=2 if units == "us" else 1), units)
    return f" (read {station if place else length_text(read.read_m, units)})"


def read_marks(answer: DrawingAnswer, view: ViewName, scale: float) -> Iterator[Mark]:
    """Yield a tick at each end of every dimension that was read, and one at each place, as far as the readings say."""
    read = readings_of(answer)
    for one in answer.dimensions:
        if one.view == view and one.key in read:
            yield from _ends(one, read[one.key], scale)
    for place in answer.places:
        if place.view == view and place.key in read:
            yield _tick(place, read[place.key], scale)


def _ends(one: DrawnDimension, read: ComparedReading, scale: float) -> Iterator[Mark]:
    """Yield the ticks of a dimension: about its middle where it lies symmetrical, else from its first end."""
    first, last = one.between_m
    axis = {"above": 0, "below": 0, "left": 1, "right": 1}.get(one.where)
    way = tuple(b - a if axis in (None, n) else 0.0 for n, (a, b) in enumerate(zip(first, last, strict=True)))
    more = read.read_less_drawn_m / one.drawn_m
    symmetrical = abs(first[0] + last[0]) < 1e-9 and axis == 0
    back = 0.5 * more if symmetrical else 0.0
    ends = (
        (first[0] - back * way[0], first[1] - back * way[1]),
        (last[0] + (more - back) * way[0], last[1] + (more - back) * way[1]),
    )
    length = hypot(*way)
    aside = -way[1] / length * TICK_MM, way[0] / length * TICK_MM
    for x, y in (paper(end, scale) for end in ends):
        yield Stroke([(x - aside[0], y - aside[1]), (x + aside[0], y + aside[1])], READ, layer=READINGS)


def _tick(place: MarkedPlace, read: ComparedReading, scale: float) -> Mark:
    sense = 1.0 if place.view == "side" else -1.0
    x, y = place_on(place, scale)
    across = x + sense * paper((read.read_less_drawn_m, 0.0), scale)[0]
    return Stroke([(across, y - TICK_MM), (across, y + TICK_MM)], READ, layer=READINGS)


def other_marks(view: ThreeViewSide, scale: float) -> Iterator[Mark]:
    """Yield the edges of another airplane, from the same datum and waterline 0."""
    for line in view.lines:
        if line.stroke == "edge":
            points = [paper(point, scale) for point in line.points_m]
            yield Stroke(points, OTHERS, line.closed, OTHER)


def notes(answer: DrawingAnswer, other: str) -> Iterator[tuple[str, Pen]]:
    """Yield what the two pens are, for the title."""
    if answer.readings_title:
        wrong = sum(one.differs for one in answer.readings if one.shown)
        differ = f"{wrong} of them in red words: they differ" if wrong else "none of them differs"
        said = f"Red ticks: caliper readings of {answer.readings_title}; {differ} from the scenario by more than "
        yield f"{said}{LIMIT:.2f} standard errors.", READ
    if other:
        yield f"Blue: {other}, from the same datum and waterline 0.", OTHERS
