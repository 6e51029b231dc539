"""Fuselage: cowl open in front, metal behind it, rounded decking with the cockpits, cloth towards the stern."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.parts import ring
from viz.stage.solid.solid import MATT, METAL

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Builder

    Numbers = NDArray[np.float64]

ROUND: Final = 12
"""Faces round the fuselage."""
RINGS, PLAIN_RINGS = 9, 5
"""Rings of the fuselage from the firewall to the stern, and of its shape alone."""
COWL_ROUND: Final = 22
COWL_M: Final = 0.44
"""Length of the cowl. [m]"""
LIP_SHARE: Final = 0.86
"""Radius of the cowl's opening over its own."""
GAP_M: Final = 0.06
"""Between the heads of the cylinders and the cowl. [m]"""
OPEN_RAD: Final = 0.55
"""The cowl is open below within this angle of straight down. [rad]"""
STERN_M: Final = 0.06
DOWN: Final = np.array([0.0, 0.0, 1.0])


def cowl_radius_m(figure: Figure) -> float:
    """Return the radius of the cowl [m]."""
    return max(figure.cylinders.outer_radius_m + GAP_M, 0.5 * figure.body.width_m)


def cowl_back_m(figure: Figure) -> float:
    """Return x of the firewall behind the cowl [m]."""
    return figure.hub[0] - 0.14 - COWL_M


def body(builder: Builder, figure: Figure) -> None:
    """Add the fuselage and the cowl."""
    rows = _rings(figure, RINGS)
    count = len(rows) - 1
    roles = [("metal" if place < 3 else "linen") for place in range(count)]
    roles[-2] = "marking"
    middle = rows.mean(axis=1)
    core = 0.5 * (middle[:-1] + middle[1:])[:, None, :]
    builder.skin(rows, roles, within=core)
    _decking(builder, figure, rows)
    _cowl(builder, figure)


def plain_body(builder: Builder, figure: Figure) -> None:
    """Add the fuselage and the cowl as a shape of which the outline alone is seen."""
    rows = _rings(figure, PLAIN_RINGS)
    middle = rows.mean(axis=1)
    builder.skin(rows, "linen", within=0.5 * (middle[:-1] + middle[1:])[:, None, :])
    hub_x, _, hub_z = figure.hub
    back, front, angle = cowl_back_m(figure), hub_x - 0.12, np.linspace(-np.pi, np.pi, ROUND + 1)
    around = cowl_radius_m(figure) * ring(0.0, 1.0, angle)
    cowl = np.array([[x, 0.0, hub_z] + share * around for x, share in ((back, 0.97), (front, 0.95), (front, 0.0))])
    builder.skin(cowl, "metal", within=[0.5 * (back + front), 0.0, hub_z])


def _rings(figure: Figure, count: int) -> Numbers:
    """Return rings of the fuselage from the firewall to the stern, closed, shape (count, ROUND + 1, 3) [m]."""
    shape, (hub_x, _, hub_z) = figure.body, figure.hub
    radius, start = cowl_radius_m(figure) * 0.97, cowl_back_m(figure)
    del hub_x
    aft = np.linspace(0.0, 1.0, count)
    x = start + aft * (shape.stern_m - start)
    into = np.clip((start - x) / max(start - shape.full_to_m, 1e-3), 0.0, 1.0)
    round_off = into**0.5
    behind = np.clip((shape.full_to_m - x) / (shape.full_to_m - shape.stern_m), 0.0, 1.0)
    top = (hub_z - radius) * (1.0 - round_off) + round_off * shape.top_m
    bottom = (hub_z + radius) * (1.0 - round_off) + round_off * shape.bottom_m
    half = radius * (1.0 - round_off) + round_off * 0.5 * shape.width_m
    top, bottom = (
        edge + behind**0.9 * (stern - edge)
        for edge, stern in ((top, shape.stern_top_m), (bottom, shape.stern_bottom_m))
    )
    half = half + behind**1.15 * (STERN_M - half)
    square = 2.0 + 1.4 * into
    angle = np.linspace(0.0, 2.0 * np.pi, ROUND + 1) + np.pi / ROUND
    across, up = np.cos(angle), np.sin(angle)
    power = np.where(up < 0.0, 2.0, square[:, None])
    y = half[:, None] * np.sign(across) * np.abs(across) ** (2.0 / power)
    middle, tall = 0.5 * (top + bottom)[:, None], 0.5 * (bottom - top)[:, None]
    z = middle + tall * np.sign(up) * np.abs(up) ** (2.0 / power)
    return np.stack([np.broadcast_to(x[:, None], y.shape), y, z], axis=-1)


def _decking(builder: Builder, figure: Figure, rows: Numbers) -> None:
    """Lay wood over the round upper side between firewall and the last cockpit."""
    angle = np.linspace(0.0, 2.0 * np.pi, ROUND + 1) + np.pi / ROUND
    over = np.flatnonzero(np.sin(angle) < -0.3)
    last = min(x for x, _, _ in figure.heads) - 0.45
    aft = np.flatnonzero(rows[:, 0, 0] > last)
    if len(aft) > 1:
        wood = rows[np.ix_(aft, over)].copy()
        core = wood.mean(axis=(0, 1)) + 0.5 * DOWN
        builder.skin(wood - 0.006 * DOWN, "wood", within=core, finish=MATT, nearer=0.02)


def _cowl(builder: Builder, figure: Figure) -> None:
    hub_x, _, hub_z = figure.hub
    radius, back = cowl_radius_m(figure), cowl_back_m(figure)
    front = hub_x - 0.12
    angle = np.linspace(-np.pi + OPEN_RAD, np.pi - OPEN_RAD, COWL_ROUND + 1)
    around = ring(0.0, 1.0, angle)
    outer = ((back, 0.97), (back + 0.5 * COWL_M, 1.0), (front - 0.07, 0.98), (front, 0.92), (front - 0.02, LIP_SHARE))
    rows = np.array([[x, 0.0, hub_z] + share * radius * around for x, share in outer])
    core = np.array([0.5 * (back + front), 0.0, hub_z])
    builder.skin(rows[:4], "metal", within=core, finish=METAL)
    builder.skin(rows[3:], "marking", within=core - [0.4, 0.0, 0.0], finish=METAL)
    inner = np.array([rows[-1], [back + 0.02, 0.0, hub_z] + 0.88 * radius * around])
    far = inner.mean(axis=0)[:-1] + 5.0 * radius * around[:-1]
    builder.skin(inner, "inside", within=far[None], finish=MATT, nearer=-0.25, ahead_of=back)
    disc = np.array([np.broadcast_to([back + 0.02, 0.0, hub_z], inner[1].shape), inner[1]])
    builder.skin(disc, "inside", within=[back - 1.0, 0.0, hub_z], finish=MATT, nearer=-0.35, ahead_of=back)
