"""Tailplane and elevator, fin and rudder: plates with rounded outlines, the moving parts on hinges."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure, SurfaceFigure
    from viz.stage.solid.solid import Builder

    Numbers = NDArray[np.float64]

ELEVATOR, RUDDER = "elevator", "rudder"
LEAD: Final = ((0.0, 0.0), (0.3, 0.02), (0.55, 0.07), (0.75, 0.18), (0.9, 0.32), (1.0, 0.52))
"""Share of the semi-span, and how far the leading edge draws back there over the chord."""
TRAIL: Final = ((0.0, 0.1), (0.3, 0.02), (0.55, 0.0), (0.75, 0.02), (0.9, 0.09), (1.0, 0.24))
"""The like of the trailing edge drawing forward."""
THICK_M: Final = (0.035, 0.022)


def tail(builder: Builder, figure: Figure) -> None:
    """Add the tail."""
    surface = figure.tailplane
    up = np.array([np.sin(surface.incidence_rad), 0.0, np.cos(surface.incidence_rad)])
    aft = np.array([-np.cos(surface.incidence_rad), 0.0, np.sin(surface.incidence_rad)])
    builder.hinge(ELEVATOR, _hinge(surface, aft), (0.0, 1.0, 0.0))
    for side in (-1.0, 1.0):
        _plate(builder, surface, aft=aft, along=np.array([0.0, side, 0.0]), thick=up, hinge=ELEVATOR)
    _fin(builder, figure.fin)


def _hinge(surface: SurfaceFigure, aft: Numbers) -> Numbers:
    return np.asarray(surface.quarter) + (surface.hinge_share - 0.25) * surface.chord_m * aft


def _fin(builder: Builder, surface: SurfaceFigure) -> None:
    aft, up, across = np.array([-1.0, 0.0, 0.0]), np.array([0.0, 0.0, -1.0]), np.array([0.0, 1.0, 0.0])
    builder.hinge(RUDDER, _hinge(surface, aft), (0.0, 0.0, 1.0))
    foot = np.asarray(surface.quarter) - 0.5 * surface.span_m * up
    _plate(builder, surface, aft=aft, along=2.0 * up, thick=across, hinge=RUDDER, root=foot)


def _plate(
    builder: Builder,
    surface: SurfaceFigure,
    *,
    aft: Numbers,
    along: Numbers,
    thick: Numbers,
    hinge: str,
    root: Numbers | None = None,
) -> None:
    """Add half a plate: from its root out, a fixed part, and a hinged one in stripes."""
    chord, out = surface.chord_m, 0.5 * surface.span_m
    start = np.asarray(surface.quarter) if root is None else root
    lead, trail = ([start + share * out * along for share, _ in shape] for shape in (LEAD, TRAIL))
    front = [place + (drawn - 0.25) * chord * aft for place, (_, drawn) in zip(lead, LEAD, strict=True)]
    turns = [place + (surface.hinge_share - 0.25) * chord * aft for place in lead]
    back = [place + (0.75 - drawn) * chord * aft for place, (_, drawn) in zip(trail, TRAIL, strict=True)]
    front = [one if (turn - one) @ aft > 0.0 else turn for one, turn in zip(front, turns, strict=True)]
    stripes = ["marking" if place % 2 else "tape" for place in range(len(LEAD) - 1)]
    for one, other, deep, name, roles in (
        (front, turns, THICK_M[0], "", "linen"),
        (turns, back, THICK_M[1], hinge, stripes if hinge == RUDDER else "linen"),
    ):
        middle = [0.5 * (a + b) for a, b in zip(one, other, strict=True)]
        for side in (-1.0, 1.0):
            rows = np.array([[a, m + side * deep * thick, b] for a, m, b in zip(one, middle, other, strict=True)])
            core = 0.5 * (rows[:-1] + rows[1:]).mean(axis=1, keepdims=True) - side * thick
            builder.skin(rows, roles, within=core, hinge=name)
