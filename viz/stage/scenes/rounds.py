"""Rounds on the line of fire, in front of the disc and beyond it, and the splinters of a blade."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.scenes.timing import cross
from viz.stage.shapes import Disc, Line, Polygon, Shape
from viz.stage.solid.gun_nose import MUZZLE_X

if TYPE_CHECKING:
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.snapshot import BladesView

GOLDEN_RAD = math.pi * (3.0 - math.sqrt(5.0))
SPLINTERS = 22
SEEN_AFTER = 1.0
"""Times of flight for which a round, or splinters, are seen after the disc."""


def places(view: BladesView) -> list[float]:
    """Return where rounds are on their way, from the disc, ahead positive; none in the barrel or far beyond [m]."""
    flight_s = max(view.gun.line.flight_s, 1e-6)
    found = [
        (view.time_s - fired.pass_s) / flight_s * -MUZZLE_X for fired in view.flying if view.time_s >= fired.muzzle_s
    ]
    if view.last is not None and not view.last.struck:
        beyond = (view.time_s - view.last.pass_s) / flight_s
        found += [beyond * -MUZZLE_X] if 0.0 <= beyond <= SEEN_AFTER else []
    return found


def round_at(over: OverCowl, x_m: float, unit: float) -> list[Shape]:
    """Return a round with its trace."""
    head, tail = over.on_line(x_m), over.on_line(max(x_m - 0.25, MUZZLE_X))
    return [
        Line((tail, head), "keyline", 9 * unit),
        Line((tail, head), "round", 5 * unit),
        Disc(*head, 10 * unit, "keyline"),
        Disc(*head, 7.5 * unit, "tape"),
    ]


def strike(view: BladesView, over: OverCowl, unit: float, *, still: bool = False) -> list[Shape]:
    """Return splinters that fly from where a round has met a blade, for as long as they are seen; `still`: a cross."""
    last = view.last
    if last is None or not last.struck:
        return []
    gone = (view.time_s - last.pass_s) / max(view.gun.line.flight_s, 1e-6)
    if not 0.0 <= gone <= SEEN_AFTER:
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
