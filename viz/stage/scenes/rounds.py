"""Rounds on the line of fire, in front of the disc and beyond it, and the splinters of a blade."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.gun_states import SEEN_AFTER, since_passage
from viz.stage.scenes.timing import cross
from viz.stage.shapes import Line, Polygon, Shape
from viz.stage.solid.gun_nose import MUZZLE_X

if TYPE_CHECKING:
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.shapes import Point
    from viz.stage.snapshot import BladesView

GOLDEN_RAD = math.pi * (3.0 - math.sqrt(5.0))
SPLINTERS = 22
LONG, WIDE = 30.0, 13.0
"""Of a round, in units: larger than life, to be seen."""


def places(view: BladesView) -> list[float]:
    """Return where rounds are on their way, from the disc, ahead positive; none in the barrel or far beyond [m]."""
    flight_s = max(view.gun.line.flight_s, 1e-6)
    found = [
        (view.time_s - fired.pass_s) / flight_s * -MUZZLE_X for fired in view.flying if view.time_s >= fired.muzzle_s
    ]
    beyond = since_passage(view)
    if beyond is not None and view.last and not view.last.struck:
        found += [beyond * -MUZZLE_X] if beyond <= SEEN_AFTER else []
    return found


def round_at(over: OverCowl, x_m: float, unit: float) -> list[Shape]:
    """Return a round with the trace of its way: from the muzzle, or from the disc where it is beyond it."""
    place, start = over.on_line(x_m), over.on_line(0.0 if x_m > 0.0 else MUZZLE_X)
    shapes: list[Shape] = [Line((start, place), "keyline", 9 * unit), Line((start, place), "round", 5 * unit)]
    back, front = over.on_line(x_m - 0.1), over.on_line(x_m + 0.1)
    for role, more in (("keyline", 6.0), ("tape", 0.0)):
        shapes.append(Polygon(_bullet(back, front, (LONG + more) * unit, (WIDE + more) * unit), role))
    return shapes


def _bullet(back: Point, front: Point, long: float, wide: float) -> tuple[Point, ...]:
    """Return the outline of a round that points from one place to another, about the middle between them [px]."""
    along = math.atan2(front[1] - back[1], front[0] - back[0])
    sine, cosine = math.sin(along), math.cos(along)
    x, y = 0.5 * (back[0] + front[0]), 0.5 * (back[1] + front[1])
    sides = ((-0.5, 0.5), (0.05, 0.5), (0.28, 0.36), (0.42, 0.18), (0.5, 0.0))
    shape = [*sides, *((far, -aside) for far, aside in reversed(sides[:-1]))]
    return tuple(
        (x + long * far * cosine - wide * aside * sine, y + long * far * sine + wide * aside * cosine)
        for far, aside in shape
    )


def strike(view: BladesView, over: OverCowl, unit: float, *, still: bool = False) -> list[Shape]:
    """Return splinters that fly from where a round has met a blade, for as long as they are seen; `still`: a cross."""
    gone = since_passage(view)
    if gone is None or gone > SEEN_AFTER or not (view.last and view.last.struck):
        return []
    x, y = over.on_line(0.0)
    shapes: list[Shape] = []
    for number in range(0 if still else SPLINTERS):
        angle = number * GOLDEN_RAD
        away = (4.0 + 150.0 * gone * (0.15 + 0.85 * ((0.37 * number) % 1.0))) * unit
        middle = (x + away * math.cos(angle), y + away * math.sin(angle) + 26 * unit * gone**2)
        size, spin = (5.0 + 4.0 * ((0.61 * number) % 1.0)) * unit, angle + 5.0 * gone
        corners = tuple(
            (middle[0] + size * far * math.cos(spin + at), middle[1] + size * far * math.sin(spin + at))
            for at, far in ((0.0, 1.6), (2.4, 0.7), (3.9, 0.7))
        )
        shapes.append(Polygon(corners, "brass" if number % 3 else "linen"))
    return [*shapes, *cross((x, y), 16 * unit, 6 * unit)]
