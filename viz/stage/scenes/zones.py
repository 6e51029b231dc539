"""Now and not now: where on the disc a blade may be when a round arrives, and where not, hatched."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.live.gun import delay_s
from viz.stage.scenes.over_cowl import ZONE
from viz.stage.shapes import Line, Polygon, Shape
from viz.stage.solid.parts import ring

if TYPE_CHECKING:
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.shapes import Point
    from viz.stage.snapshot import BladesView

    Arc = tuple[float, float]

HUB_M = 0.1
STRIPES = 5
"""Bars of the hatch across a zone of `HATCHED_RAD`; wider ones have more, none fewer than four."""
HATCHED_RAD = math.radians(30.0)
SLANT_RAD = math.radians(22.0)
FAR_X = 4.0
"""So far ahead of the disc the line of fire is drawn. [m]"""


def open_arcs(view: BladesView, sense: float) -> tuple[Arc, ...]:
    """Return where about the line of fire a blade may stand on the arrival of a round that the cam releases [rad].

    Clockwise from the line of fire; none where no round is released, all round where nothing holds the gun.
    """
    gun = view.gun
    if gun.never_shuts:
        return ((-math.pi, math.pi),)
    if view.arrival_rad is None:
        return ()
    lead_rad = view.gun.spin_rad_s * delay_s(gun)
    found: dict[float, Arc] = {}
    for opens, closes in gun.windows_rad:
        for blade in range(gun.line.blades):
            start, end = sorted(
                sense * (edge + lead_rad + math.tau * blade / gun.line.blades) for edge in (opens, closes)
            )
            turned = math.remainder(start, math.tau)
            found[round(turned, 2)] = (round(turned, 4), round(turned + end - start, 4))
    return tuple(found[key] for key in sorted(found))


def zones(over: OverCowl, arcs: tuple[Arc, ...], closed_rad: float, unit: float) -> list[Shape]:
    """Return the disc in its zones, with the ring about it and the line of fire beyond it.

    Parameters
    ----------
    over : OverCowl
        The view.
    arcs : tuple of (float, float)
        Where the cam lets a blade be on the arrival of a round, see `open_arcs`. [rad]
    closed_rad : float
        Arc about the line of fire in which no blade may be then. [rad]
    unit : float
        A pixel of a window of 1280 × 720.
    """
    inner, rim, outer = HUB_M, 1.03 * over.disc_m, ZONE * over.disc_m
    half, bore = min(0.5 * closed_rad, math.pi), over.bore_rad
    whole = (bore - math.pi, bore + math.pi)
    shapes: list[Shape] = [Polygon(_sector(over, (inner, outer), whole), "wait_dark")]
    shapes += _hatch(over, math.pi, (inner, outer), filled=0.14)
    for start, end in arcs:
        arc = (bore + start, bore + end)
        shapes += [
            Polygon(_sector(over, (inner, rim), arc), "now_dark"),
            Polygon(_sector(over, (rim, outer), arc), "now"),
        ]
    shapes.append(Polygon(_sector(over, (inner, outer), (bore - half, bore + half)), "wait_dark"))
    shapes += _hatch(over, half, (inner, outer), filled=0.6)
    for angle in (bore - half, bore + half):
        shapes.append(Line((over.on_disc(inner, angle), over.on_disc(outer, angle)), "wait", 2 * unit))
    return [*shapes, Line((over.on_line(0.0), over.on_line(FAR_X)), "round", 2 * unit)]


def _hatch(over: OverCowl, half: float, radii: tuple[float, float], *, filled: float) -> list[Shape]:
    count = max(4, round(STRIPES * 2.0 * half / HATCHED_RAD))
    step = 2.0 * half / count
    radius = np.linspace(*radii, 24)
    slant = SLANT_RAD * (radius - radii[0]) / radii[1]
    shapes: list[Shape] = []
    for bar in range(-math.ceil(SLANT_RAD / step), count):
        low, high = (np.clip(-half + (bar + side) * step + slant, -half, half) for side in (0.0, filled))
        kept = np.flatnonzero(high - low > 1e-6)
        if len(kept) < 2:
            continue
        edges = [(radius[kept], low[kept]), (radius[kept][::-1], high[kept][::-1])]
        points = np.concatenate([r[:, None] * ring(0.0, 1.0, over.bore_rad + angle) for r, angle in edges])
        shapes.append(Polygon(tuple(over.flat(points)), "wait"))
    return shapes


def _sector(over: OverCowl, radii: tuple[float, float], angles: tuple[float, float]) -> tuple[Point, ...]:
    angle = np.linspace(*angles, max(8, round(16 * (angles[1] - angles[0]))))
    return tuple(over.flat(np.concatenate([ring(0.0, radii[0], angle), ring(0.0, radii[1], angle[::-1])])))
