"""By how much of propeller the lamp is early or late: every cause, and what they come to together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray

DIFFERENTIAL_M = {"light beam": 0.0001, "lamp switch": 0.00035}
"""Movement of flag or plunger between on and off: usual of a slotted light barrier and of a snap-action switch. [m]"""
GUIDE_PLAY_M = 0.00004
"""Largest play of H8/f7 at 6 mm: ISO 286-1. [m]"""
OVERHANG = 2.0
"""Play at the roller over that at the bushes of a slide, which stands out beyond them; 1 for an arm."""
CUTTING_M = 0.0001
"""Error of the outline as cut: a router or a printer, common practice, no source. [m]"""
SETTING_M = 0.0003
"""Error in setting the cam's line to the roller: the width of a scribed line. [m]"""
BEARING_PLAY_M = 0.000013
"""Radial internal clearance of a small ball bearing, group normal: ISO 5753-1. [m]"""
PULLEY_M = 0.019
"""Pitch radius of the smallest pulley to the cam, 24 teeth of 5 mm. [m]"""
BELT_PLAY_M = 0.0003
"""Play of a toothed belt in its pulley, along the belt: T5, common practice, no source. [m]"""


@dataclass(frozen=True, slots=True)
class LampError:
    """What makes the lamp early or late, in propeller angle.

    Attributes
    ----------
    cause : str
        The cause.
    lamp_error_rad : float or array
        The most that it shifts the lamp. [rad]
    """

    cause: str
    lamp_error_rad: FloatArray


def lamp_errors(
    display: Display, velocity_peak: float, rise_rad: FloatArray, base_radius_m: FloatArray
) -> tuple[LampError, ...]:
    """Return every cause of an early or late lamp.

    Parameters
    ----------
    display : Display
        What is specified.
    velocity_peak : float
        Largest slope of the law of motion, which it has at half lift, where the lamp changes over.
    rise_rad, base_radius_m : array
        Cam angle of a rise, and radius with the follower down. [rad], [m]

    Notes
    -----
    What shifts the change-over along the lift is divided by the slope of the lift; what shifts roller or cam round the
    axis, by the distance of the roller. A belt to the cam adds its play, at the smallest pulley that fits.
    """
    slope = display.cam.lift_m * velocity_peak / rise_rad
    roller = base_radius_m + display.follower.roller_radius_m + display.cam.lift_m / 2.0
    play = GUIDE_PLAY_M * (OVERHANG if display.follower.kind == "translating" else 1.0)
    causes = {
        "setting of the switch": display.cam.setting_error_m / slope,
        "differential of the switch": DIFFERENTIAL_M[display.output] / slope,
        "outline as cut": CUTTING_M / slope,
        "play of the guide": play / roller,
        "setting of the cam": SETTING_M / roller,
        "play of the bearings": 2.0 * BEARING_PLAY_M / roller,
    }
    if not math.isclose(display.cam_ratio, 1.0):
        causes["play of the belt"] = BELT_PLAY_M / PULLEY_M + 0.0 * roller
    shape = np.broadcast(rise_rad, base_radius_m).shape
    return tuple(LampError(cause, np.broadcast_to(angle / display.cam_ratio, shape)) for cause, angle in causes.items())


def total(errors: tuple[LampError, ...]) -> FloatArray:
    """Return the sum of all causes at their worst. [rad]."""
    together: FloatArray = np.sum([each.lamp_error_rad for each in errors], axis=0)
    return together
