"""Cam and follower of the gun scene, in the axes of `viz.stage.solid.gun_nose`."""

from __future__ import annotations

from functools import lru_cache
from math import tau
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.gun_states import lift
from viz.stage.solid.gun_nose import CAM_X
from viz.stage.solid.parts import ring, tube
from viz.stage.solid.solid import BARE, METAL, Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.solid.solid import Solid

CAM: Final = "cam"
BASE_M, LIFT_M, ROLLER_M = 0.20, 0.07, 0.045
MARKS: Final = 64


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
    tube(builder, (CAM_X - 0.07, 0.0, 0.0), (CAM_X - 0.03, 0.0, 0.0), "steel", radius_m=0.075, nearer=0.05)
    return builder.solid()


def roller_m(lift: float) -> NDArray[np.float64]:
    """Return the middle of the near face of the roller, raised by a share of the lift; shape (3) [m]."""
    return np.array([CAM_X - 0.03, 0.0, -BASE_M - ROLLER_M - LIFT_M * lift])


@lru_cache(maxsize=4)
def follower(deck_m: float, role: str) -> Solid:
    """Return roller, in a role, and push rod over a cam with no lift, up to a deck [m]."""
    builder = Builder()
    middle = -BASE_M - ROLLER_M
    tube(builder, (CAM_X - 0.03, 0, middle), (CAM_X + 0.03, 0, middle), role, radius_m=ROLLER_M, sides=14)
    tube(builder, (CAM_X, 0, middle - 0.02), (CAM_X, 0, -deck_m + 0.04), "rod", radius_m=0.022, sides=8, nearer=-0.02)
    return builder.solid()
