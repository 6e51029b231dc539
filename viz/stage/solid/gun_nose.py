"""The nose behind a propeller for the gun scene: cowl, fuselage cut open, shaft and gun.

Axes: x forward from the disc, y right, z down, from the shaft axis. [m]
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.parts import box, ring, tube
from viz.stage.solid.solid import MATT, METAL, Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

CAM_X: Final = -0.92
MUZZLE_X: Final = -1.10
CUT_X: Final = -0.60, -1.66
"""The fuselage is cut open from the firewall to the bulkhead in front of the cockpit. [m]"""
CUT_RAD: Final = np.radians(196.0), np.radians(344.0)
"""On its left, clockwise from straight up, seen from behind."""
BEHIND_X, STERN_X = -2.5, -4.6
"""Where the fuselage is no more seen before the bay, and where it ends. [m]"""
DECK_RAD: Final = 0.9
"""Wood lies over the upper side up to this far from straight up. [rad]"""
GAP_M: Final = 0.03
"""Between cylinders and cowl, and from the cowl to the line of fire. [m]"""
SHAFT_M: Final = 0.06
"""Radius of the shaft on which the cam turns with the propeller. [m]"""


def cowl_radius_m(cylinders_m: float, bore_m: float) -> float:
    """Return the radius of the cowl that clears the cylinders, and the line of fire where there is room [m]."""
    return max(min(cylinders_m + GAP_M, bore_m - GAP_M), 0.9 * min(cylinders_m, bore_m))


@lru_cache(maxsize=4)
def nose(radius_m: float) -> Solid:
    """Return cowl, firewall, shaft and the part of the fuselage that is cut open, for a radius of the cowl [m]."""
    builder = Builder()
    _cowl(builder, radius_m)
    _open_bay(builder, radius_m)
    _closed(builder, radius_m, np.linspace(CUT_X[1], BEHIND_X, 4))
    tube(builder, (-1.64, 0.0, 0.0), (-0.66, 0.0, 0.0), "brass", radius_m=SHAFT_M, sides=12)
    return builder.solid()


@lru_cache(maxsize=4)
def stern(radius_m: float) -> Solid:
    """Return the fuselage so far behind the cut that it hides nothing of the bay, for a radius of the cowl [m]."""
    builder = Builder()
    _closed(builder, radius_m, np.linspace(BEHIND_X, STERN_X, 7))
    return builder.solid()


def _closed(builder: Builder, radius_m: float, xs: Numbers) -> None:
    over, under = np.linspace(-DECK_RAD, DECK_RAD, 13), np.linspace(DECK_RAD, 2.0 * np.pi - DECK_RAD, 22)
    _skin(builder, radius_m, xs, over, role="wood")
    _skin(builder, radius_m, xs, under, role="linen")


def _skin(builder: Builder, radius_m: float, xs: Numbers, angle: Numbers, *, role: str) -> None:
    middles = np.array([[[x, 0.0, 0.0]] for x in 0.5 * (xs[1:] + xs[:-1])])
    rows = np.array([_section(x, radius_m, angle) for x in xs])
    builder.skin(rows, role, within=middles, finish=METAL if role == "metal" else MATT)


def _cowl(builder: Builder, radius_m: float) -> None:
    around = np.linspace(0.0, 2.0 * np.pi, 37)
    profile = ((-0.58, 0.96), (-0.50, 0.99), (-0.36, 1.0), (-0.22, 0.985), (-0.13, 0.94), (-0.10, 0.87))
    rows = np.array([ring(x, share * radius_m, around) for x, share in profile])
    roles = ["metal", "metal", "metal", "marking", "marking"]
    builder.skin(rows, roles, within=(-0.35, 0.0, 0.0), finish=METAL)


def _section(x: float, radius_m: float, angle: Numbers) -> Numbers:
    """Return a ring of the fuselage: round at the firewall, flatter of side towards the stern."""
    aft = float(np.clip((-x - 0.6) / 2.0, 0.0, 1.0))
    wide, tall = radius_m * (0.95 - 0.22 * aft), radius_m * (0.95 - 0.12 * aft)
    power = 2.0 / np.where(np.cos(angle) < 0.0, 2.0 + 1.2 * aft, 2.0)
    sine, cosine = np.sin(angle), np.cos(angle)
    y, z = np.sign(sine) * np.abs(sine) ** power, -np.sign(cosine) * np.abs(cosine) ** power
    return np.stack([np.full_like(angle, x), wide * y, tall * z], axis=-1)


def _open_bay(builder: Builder, radius_m: float) -> None:
    front, back = CUT_X
    whole = np.linspace(0.0, 2.0 * np.pi, 33)
    deck, right = np.linspace(CUT_RAD[1] - 2.0 * np.pi, DECK_RAD, 9), np.linspace(DECK_RAD, CUT_RAD[0], 16)
    open_x = np.linspace(front, back, 7)
    core = np.array([0.5 * (front + back), 0.0, 0.0])
    _skin(builder, radius_m, open_x, deck, role="wood")
    _skin(builder, radius_m, open_x, right, role="metal")
    kept = np.linspace(CUT_RAD[1] - 2.0 * np.pi, CUT_RAD[0], 21)
    inside = np.array([_section(x, 0.95 * radius_m, kept) for x in open_x])
    away = 20.0 * (0.5 * (inside[:-1, :-1] + inside[1:, 1:]) - core) * [0.0, 1.0, 1.0] + core
    builder.skin(inside, "wall", within=away, finish=MATT, nearer=-0.1)
    for x, role in ((front - 0.02, "firewall"), (back, "wood")):
        rim = _section(x, 0.94 * radius_m, whole)
        disc = np.array([np.broadcast_to([x, 0.0, 0.0], rim.shape), rim])
        ahead = 1.0 if x > core[0] else -1.0
        builder.skin(disc, role, within=(x + ahead, 0.0, 0.0), finish=MATT, nearer=-0.2)
    _edges(builder, radius_m)


def _edges(builder: Builder, radius_m: float) -> None:
    """Edge the cut in a light colour, so that it is seen to be one."""
    arc = np.linspace(*CUT_RAD, 12)
    for x in CUT_X:
        points = _section(x, radius_m, arc)
        for one, other in pairwise(points):
            builder.rod(one, other, "tape", width_m=0.014)
    for angle in CUT_RAD:
        front, back = (_section(x, radius_m, np.array([angle]))[0] for x in CUT_X)
        builder.rod(front, back, "tape", width_m=0.014, pieces=6)


@lru_cache(maxsize=4)
def gun(y_m: float, z_m: float, deck_m: float) -> Solid:
    """Return the gun on its line of fire, and its mount.

    Parameters
    ----------
    y_m, z_m : float
        Line of fire, right of the shaft axis and below it. [m]
    deck_m : float
        Height of the deck over the shaft axis. [m]
    """
    builder = Builder()
    line = np.array([0.0, y_m, z_m])
    for x in (-1.62, -2.05):
        for side in (-1.0, 1.0):
            foot = (x, 0.6 * y_m + 0.12 * side, -0.9 * deck_m + 0.02)
            tube(builder, foot, line + np.array([x, 0.03 * side, 0.06]), "strut", radius_m=0.018, sides=6)
    box(
        builder,
        line + np.array([-2.15, -0.062, -0.085]),
        line + np.array([-1.65, 0.062, 0.07]),
        "steel_dark",
        nearer=0.05,
    )
    for rib in range(6):
        at = -1.65 + 0.06 * rib
        tube(
            builder,
            line + np.array([at, 0, 0]),
            line + np.array([at + 0.05, 0, 0]),
            "crankcase",
            radius_m=0.052,
            nearer=0.1,
        )
    for start, end, radius in ((-1.29, -1.16, 0.024), (-1.16, MUZZLE_X, 0.036)):
        tube(
            builder,
            line + np.array([start, 0, 0]),
            line + np.array([end, 0, 0]),
            "fin_dark",
            radius_m=radius,
            nearer=0.12,
        )
    return builder.solid()
