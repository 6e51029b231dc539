"""Cam and follower of the gun scene, in the axes of `viz.stage.solid.gun_nose`."""

from __future__ import annotations

from functools import lru_cache
from math import tau
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.gun_states import lift
from viz.stage.solid.gun_nose import CAM_X, MUZZLE_X
from viz.stage.solid.parts import ring, tube
from viz.stage.solid.solid import BARE, METAL, Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.solid.solid import Solid

CAM: Final = "cam"
BASE_M, LIFT_M, ROLLER_M = 0.20, 0.07, 0.045
MARKS: Final = 48
KNEE_M: Final = 0.03
"""Height of the knee between push rod and link over the deck. [m]"""
TRIP_X, TRIP_M = -1.60, (-0.07, 0.045)
"""Where the link ends at the gun, and how far right of the line of fire and below it. [m]"""


@lru_cache(maxsize=8)
def cam(windows_rad: tuple[tuple[float, float], ...], action: str, turns: int, sense: float) -> Solid:
    """Return a cam that turns once in so many turns of the propeller, its raised parts where the gun may fire.

    Its hinge turns it right-handed about x: `sense` × propeller angle ÷ turns.
    """
    builder = Builder()
    builder.hinge(CAM, (CAM_X, 0.0, 0.0), (1.0, 0.0, 0.0))
    marks = np.linspace(0.0, turns * tau, MARKS + 1)
    high = np.array([lift(windows_rad, mark, action, turns) for mark in marks])
    middle = np.array([lift(windows_rad, mark, action, turns) for mark in 0.5 * (marks[1:] + marks[:-1])])
    angle = -sense * marks / turns
    outline = (BASE_M + LIFT_M * high)[:, None] * ring(0.0, 1.0, angle)
    rows = np.array([outline + np.array([CAM_X + side, 0.0, 0.0]) for side in (-0.035, 0.035)])
    hub = ring(CAM_X - 0.035, 0.075, angle)
    for place, share in enumerate(middle):
        role, pair = ("now" if share > 0.0 else "wait"), slice(place, place + 2)
        builder.skin(rows[:, pair], role, within=(CAM_X, 0.0, 0.0), finish=METAL, hinge=CAM)
        face = np.array([hub[pair], rows[0, pair]])
        builder.skin(face, role, within=(CAM_X + 1.0, 0.0, 0.0), finish=BARE, nearer=0.02, hinge=CAM)
    tube(builder, (CAM_X - 0.07, 0.0, 0.0), (CAM_X - 0.03, 0.0, 0.0), "brass", radius_m=0.075, nearer=0.05)
    return builder.solid()


def roller_m(lift: float) -> NDArray[np.float64]:
    """Return the middle of the near face of the roller, raised by a share of the lift; shape (3) [m]."""
    return np.array([CAM_X - 0.03, 0.0, -BASE_M - ROLLER_M - LIFT_M * lift])


@lru_cache(maxsize=4)
def follower(role: str) -> Solid:
    """Return the roller that stands on a cam with no lift, in a role."""
    builder = Builder()
    middle = -BASE_M - ROLLER_M
    tube(builder, (CAM_X - 0.03, 0, middle), (CAM_X + 0.03, 0, middle), role, radius_m=ROLLER_M, sides=14)
    return builder.solid()


def chain_m(y_m: float, z_m: float, deck_m: float, lift: float) -> NDArray[np.float64]:
    """Return the way from the roller to the muzzle, the cam raised by a share of its lift; shape (4, 3) [m].

    Roller, knee over the deck, trip on the near side of the gun, muzzle.

    Parameters
    ----------
    y_m, z_m : float
        Line of fire, right of the shaft axis and below it. [m]
    deck_m : float
        Height of the deck over the shaft axis. [m]
    lift : float
        Share of the lift, 0..1.
    """
    knee = (CAM_X, 0.0, -deck_m - KNEE_M - 0.5 * LIFT_M * lift)
    trip = (TRIP_X - 0.5 * LIFT_M * lift, y_m + TRIP_M[0], z_m + TRIP_M[1])
    return np.array([roller_m(lift) - [0.0, 0.0, ROLLER_M], knee, trip, (MUZZLE_X, y_m, z_m)])
