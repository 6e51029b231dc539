"""Noses of airplanes on the picture: where they point, how hard each is pushed, and the gap between two of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.attitude import axes
from viz.stage.palette import HOLLOW
from viz.stage.scenes.arrows import edged
from viz.stage.scenes.tags import tag, wide
from viz.stage.shapes import Disc, Line, Rect, Shape, Veil
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, TurningView

    Numbers = NDArray[np.float64]

ARROW_LONG: Final = 1.2
"""No arrow is drawn longer than this many times the full one."""
LEAST_SHARE: Final = 0.04
"""A couple below this share of the full arrow is not drawn."""
TOLD_SHARE: Final = 0.3
"""Above this share the arrow has its label."""
PARTED: Final = 24.0
"""Two marks so far apart on the picture, in units, have parted: about 2.5°."""
WEDGE: Final = 0.7
"""Opacity of the gap between them."""
EDGE: Final = 6.0
"""Labels keep so far from the edge of the picture, in units."""
TALL: Final = 32.0
"""Height of a label in units; grows with the letters."""


class Nose(NamedTuple):
    """On the picture: hub of an airplane, where its nose points on the sky and the tip of its push, None for none.

    `share` is the push over that of a full arrow.
    """

    who: str
    hub: Point
    aim: Point | None
    tip: Point | None
    share: float


def nose(
    who: str,
    plane: AirplaneView,
    camera: Camera,
    figure: Figure,
    *,
    scale_n_m: float,
    place_m: Numbers | None = None,
) -> Nose:
    """Return the nose of an airplane; arrows of one that is farther away are drawn larger, to one scale on the picture.

    Parameters
    ----------
    who : str
        Its engine.
    plane : AirplaneView
        As it flies.
    camera : Camera
        Which sees it.
    figure : Figure
        Of the airplane.
    scale_n_m : float
        Couple of a full arrow. [N m]
    place_m : array, shape (3,), optional
        Where it is from the place that the camera is told from; there, where not given. [m]
    """
    bodily = np.array(axes(plane.attitude))
    right, up = plane.yaw_n_m / scale_n_m, plane.pitch_n_m / scale_n_m
    share = math.hypot(right, up)
    away = np.zeros(3) if place_m is None else place_m
    far, near = float(camera.basis[0] @ (away - camera.eye_m)), -float(camera.basis[0] @ camera.eye_m)
    reach_m = 0.42 * figure.span_m * far / near * min(1.0, ARROW_LONG / max(share, LEAST_SHARE))
    points_m = np.add(figure.hub, [(0.0, 0.0, 0.0), (0.0, right * reach_m, -up * reach_m)])
    hub, tip = map(tuple, camera.project(camera.seen(points_m @ bodily + away)).tolist())
    return Nose(who, hub, camera.far(bodily[0]), tip if share >= LEAST_SHARE else None, share)


def sight(one: Nose, hub: Point, unit: float) -> list[Shape]:
    """Return a line from a hub to where a nose points, with a mark there."""
    if one.aim is None:
        return []
    rim = (5 * unit, 3 * unit) if one.who == HOLLOW else (0.0, 0.0)
    return [
        Line((hub, one.aim), "keyline", 5 * unit),
        Line((hub, one.aim), one.who, 3 * unit),
        Disc(*one.aim, 9 * unit, "keyline", rim=rim[0]),
        Disc(*one.aim, 8 * unit, one.who, rim=rim[1]),
    ]


def push(one: Nose, unit: float) -> list[Shape]:
    """Return the push on a nose as an arrow that starts at the hub and points where the nose is pushed."""
    return [] if one.tip is None else edged(one.hub, one.tip, one.who, unit)


def sighted(noses: Sequence[Nose], unit: float) -> tuple[Point | None, bool]:
    """Return the middle between where two noses point on the picture, None out of sight, and whether they parted."""
    one, other = (each.aim for each in noses)
    if one is None or other is None:
        return None, False
    return (0.5 * (one[0] + other[0]), 0.5 * (one[1] + other[1])), math.dist(one, other) >= PARTED * unit


def gap(noses: Sequence[Nose], unit: float) -> list[Shape]:
    """Return the gap between two noses that have parted: the angle between their lines, and a bar from mark to mark."""
    if not sighted(noses, unit)[1]:
        return []
    ends = tuple(each.aim for each in noses if each.aim)
    bar = [Line(ends, role, width * unit) for role, width in (("keyline", 10.0), ("caution", 6.0))]
    return [Veil(np.array([[noses[-1].hub, *ends]]), np.array([WEDGE]), "caution"), *bar]


def told(
    noses: Sequence[Nose], flight: TurningView, view: Rect, layout: Layout, *, language: str, taken: Sequence[Rect]
) -> list[Shape]:
    """Return labels of the gap between two noses, where it is shown, and of the push on the last.

    That of the gap stands along the upper edge of the picture, that of the push below it, to the right of its arrow,
    both clear of what is taken: they never meet.
    """
    unit, pushed, shapes = layout.unit, noses[-1], []
    middle, parted = sighted(noses, unit) if flight.parting else (None, False)
    if middle is not None:
        words = say(language, "turning.gap" if parted else "turning.aims")
        at = _clear(_label(words, (middle[0], view.y), view, layout, lower=0.0), taken, view, EDGE * unit)
        shapes += tag(at, words, unit, ground="caution", to=_below(at.bottom + 4 * EDGE * unit, middle, pushed.hub))
        taken = (*taken, at)
    if flight.pushed != "none" and pushed.tip is not None and pushed.share >= TOLD_SHARE:
        words = say(language, f"turning.spin_{flight.pushed}")
        beside = max(pushed.tip[0], pushed.hub[0]) + 0.5 * wide(words, unit * layout.font) + 26 * unit
        at = _clear(_label(words, (beside, pushed.tip[1]), view, layout, lower=TALL + EDGE), taken, view, EDGE * unit)
        shapes += tag(at, words, unit, ground=pushed.who)
    return shapes


def _clear(at: Rect, taken: Sequence[Rect], view: Rect, gap: float) -> Rect:
    """Return a label moved off those that it would meet: below one in the upper half of the view, above another."""
    for other in taken:
        if at.overlaps(other.inset(-gap)):
            upper = other.center[1] < view.center[1]
            at = at._replace(y=other.bottom + gap if upper else other.y - gap - at.h)
    return at


def _below(y: float, start: Point, end: Point) -> Point:
    """Return the start of a stroke, or where it comes down to a height [px]."""
    share = min(max((y - start[1]) / max(end[1] - start[1], 1.0), 0.0), 1.0)
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _label(words: str, at: Point, view: Rect, layout: Layout, *, lower: float) -> Rect:
    """Return the place of a label about a point, within the picture, and `lower` units below its upper edge."""
    grown, edge = layout.unit * layout.font, EDGE * layout.unit
    long, tall = min(wide(words, grown), view.w - 2 * edge), TALL * grown
    left = min(max(at[0] - 0.5 * long, view.x + edge), view.right - edge - long)
    top = min(max(at[1] - 0.5 * tall, view.y + edge + lower * grown), view.bottom - edge - tall)
    return Rect(left, top, long, tall)
