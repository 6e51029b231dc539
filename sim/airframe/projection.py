"""Lines, circles and dimensions in space, in stations, waterlines and buttlines, and how three views show them.

Third-angle projection: the plan above the front view, nose down, and the left side to the right of it, nose left.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

if TYPE_CHECKING:
    from collections.abc import Iterable

ViewName = Literal["plan", "side", "front"]
VIEWS: tuple[ViewName, ...] = get_args(ViewName)
Place = tuple[float, float, float]
"""Station aft of the datum, waterline up, buttline right of the plane of symmetry. [m]"""
Flat = tuple[float, float]
"""Right and up on a view. [m]"""
Stroke = Literal["edge", "thin", "hidden", "centre"]
"""``edge`` of what is seen, ``thin`` for its details, ``hidden`` behind or inside something, ``centre`` of a part."""


@dataclass(frozen=True, slots=True)
class SpaceLine:
    """A chain of straight lines in space.

    Attributes
    ----------
    part : str
        What it is part of, a layer of the drawing: ``wing``, ``spars``, ``wires``.
    points_m : tuple of (station, waterline, buttline)
        [m]
    stroke : str
        How it is drawn.
    closed : bool
        Whether its ends are joined.
    views : tuple of str
        Views that show it.
    """

    part: str
    points_m: tuple[Place, ...]
    stroke: Stroke = "edge"
    closed: bool = False
    views: tuple[ViewName, ...] = VIEWS


@dataclass(frozen=True, slots=True)
class SpaceCircle:
    """A circle that lies in the plane of one view.

    Attributes
    ----------
    part : str
        As for `SpaceLine`.
    centre_m : (station, waterline, buttline)
        [m]
    diameter_m : float
        [m]
    view : str
        The view that shows it round.
    stroke : str
        How it is drawn.
    """

    part: str
    centre_m: Place
    diameter_m: float
    view: ViewName
    stroke: Stroke = "edge"


@dataclass(frozen=True, slots=True)
class ViewLine:
    """A chain of straight lines on one view.

    Attributes
    ----------
    part, stroke, closed
        As for `SpaceLine`.
    points_m : tuple of (right, up)
        [m]
    """

    part: str
    points_m: tuple[Flat, ...]
    stroke: Stroke
    closed: bool


@dataclass(frozen=True, slots=True)
class ViewCircle:
    """A circle on one view.

    Attributes
    ----------
    part, stroke
        As for `SpaceLine`.
    centre_m : (right, up)
        [m]
    diameter_m : float
        [m]
    """

    part: str
    centre_m: Flat
    diameter_m: float
    stroke: Stroke


@dataclass(frozen=True, slots=True)
class ThreeViewSide:
    """One view of an airplane.

    Attributes
    ----------
    name : str
        ``plan``, ``side`` or ``front``.
    lines, circles : tuple
        What is drawn.
    """

    name: ViewName
    lines: tuple[ViewLine, ...]
    circles: tuple[ViewCircle, ...]


def projected(place: Place, view: ViewName) -> Flat:
    """Return where a view shows a place, right and up on the paper [m].

    Examples
    --------
    >>> projected((3.0, 1.0, 0.5), "front")
    (-0.5, 1.0)
    """
    station_m, waterline_m, buttline_m = place
    if view == "side":
        return station_m, waterline_m
    return -buttline_m, station_m if view == "plan" else waterline_m


def mirrored(lines: Iterable[SpaceLine]) -> tuple[SpaceLine, ...]:
    """Return lines with their images on the left side, which in the side view would lie over them."""
    right = tuple(lines)
    left = (
        SpaceLine(
            one.part,
            tuple((s, w, -b) for s, w, b in one.points_m),
            one.stroke,
            closed=one.closed,
            views=tuple(v for v in one.views if v != "side"),
        )
        for one in right
    )
    return (*right, *(one for one in left if one.views))


def box(part: str, middle: Place, size: Place, stroke: Stroke = "thin") -> tuple[SpaceLine, ...]:
    """Return the outline in every view of a box: its middle, and its length, height and width [m]."""
    ends = [(at - 0.5 * across, at + 0.5 * across) for at, across in zip(middle, size, strict=True)]
    (fore, aft), (low, high), (left, right) = ends
    s, w, b = middle
    return (
        SpaceLine(
            part, ((fore, low, b), (aft, low, b), (aft, high, b), (fore, high, b)), stroke, closed=True, views=("side",)
        ),
        SpaceLine(
            part,
            ((fore, w, left), (aft, w, left), (aft, w, right), (fore, w, right)),
            stroke,
            closed=True,
            views=("plan",),
        ),
        SpaceLine(
            part,
            ((s, low, left), (s, high, left), (s, high, right), (s, low, right)),
            stroke,
            closed=True,
            views=("front",),
        ),
    )


def seen(lines: Iterable[SpaceLine], circles: Iterable[SpaceCircle]) -> tuple[ThreeViewSide, ...]:
    """Return plan, side and front view of lines and circles in space."""
    lines, circles = tuple(lines), tuple(circles)
    return tuple(
        ThreeViewSide(
            view,
            tuple(
                ViewLine(one.part, tuple(projected(p, view) for p in one.points_m), one.stroke, one.closed)
                for one in lines
                if view in one.views
            ),
            tuple(
                ViewCircle(one.part, projected(one.centre_m, view), one.diameter_m, one.stroke)
                for one in circles
                if one.view == view
            ),
        )
        for view in VIEWS
    )
