"""Axes, attitude and the pilot's words for a sign: the only place where a sign convention is decided.

Body axes: x forward, y right, z down (ISO 1151, ANSI/AIAA R-004); p rolls the right wing down, q lifts the nose,
r swings the nose right. "Clockwise" is as seen from the cockpit looking forward: spin along +x. A positive
elevator, aileron or rudder makes a negative moment: nose down, left roll, nose left. Attitude is a unit
quaternion (e0, e1, e2, e3) that turns body components into earth components (north, east, down).
"""

from __future__ import annotations

from math import isnan
from typing import Literal

Effect = Literal["nose up", "nose down", "nose left", "nose right", "none"]
Rotation = Literal["clockwise", "anticlockwise"]
Side = Literal["left", "right"]


def rotation_sign(rotation: Rotation) -> float:
    """Return +1 for a shaft that turns clockwise as seen from the cockpit, −1 for anticlockwise."""
    return 1.0 if rotation == "clockwise" else -1.0


def turn_sign(side: Side) -> float:
    """Return +1 for a right turn (nose right), −1 for a left turn."""
    return 1.0 if side == "right" else -1.0


def nose_effect(pitch_n_m: float, yaw_n_m: float) -> Effect:
    """Say in the pilot's words what a moment on the airframe does; of the two axes the larger one is named.

    ``none`` where both are 0 or where either is not a number. Of equal ones the pitching is named.

    Parameters
    ----------
    pitch_n_m : float
        Pitching moment, positive nose up. [N m]
    yaw_n_m : float
        Yawing moment, positive nose right. [N m]
    """
    if pitch_n_m == yaw_n_m == 0.0 or isnan(pitch_n_m + yaw_n_m):
        return "none"
    if abs(pitch_n_m) >= abs(yaw_n_m):
        return "nose up" if pitch_n_m > 0.0 else "nose down"
    return "nose right" if yaw_n_m > 0.0 else "nose left"
