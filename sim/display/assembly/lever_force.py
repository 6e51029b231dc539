"""The force that sets the lead plate by its lever, and the friction that holds the plate against the cam."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.display.worst_hand import cam_torque

if TYPE_CHECKING:
    from sim.display.assembly.plan import Plan

HOLD_SAFETY = 2.0
"""Friction that holds the lead plate over the torque that the cam puts on it: own limit."""


def plate_torque(plan: Plan) -> float:
    """Return the largest torque of the cam on the lead plate, about the cam's axis. [N m].

    Notes
    -----
    The plate carries follower, guide and spring: of their forces only that of cam on roller has a moment about the
    axis, and it is that of roller on cam, reversed: the torque that turns the cam.
    """
    at_propeller = cam_torque(plan.display, plan.found, plan.spring)
    return float(np.max(np.abs(at_propeller))) / plan.display.cam_ratio


def lever_force(torque_n_m: float, radius_m: float) -> float:
    """Return the largest force at the lever of a plate whose friction is set to hold it. [N].

    Parameters
    ----------
    torque_n_m : float
        Largest torque of the cam on the plate. [N m]
    radius_m : float
        From the axis to the lever. [m]

    Notes
    -----
    The hand overcomes the friction, `HOLD_SAFETY` times the torque, and the torque itself where it opposes.

    Examples
    --------
    >>> round(lever_force(0.05, 0.10), 3)
    1.5
    """
    return (HOLD_SAFETY + 1.0) * torque_n_m / radius_m
