"""The same airplane with its centre of gravity elsewhere: derivatives and thrust line about the new one."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.cg_transfer import about_moved_cg

if TYPE_CHECKING:
    from sim.flight.motion import Airplane


def with_cg_moved(airplane: Airplane, aft_m: float) -> Airplane:
    """Return the airplane with its centre of gravity moved along the x axis, the airframe left as it is.

    Parameters
    ----------
    airplane : Airplane
    aft_m : float
        Displacement of the centre of gravity, aft positive. [m]

    Notes
    -----
    Mass and moments of inertia stay as they are: what was moved is not known.
    """
    return replace(
        airplane,
        derivatives=about_moved_cg(airplane.derivatives, airplane.polar, aft_m),
        disc=replace(airplane.disc, arm_m=airplane.disc.arm_m + aft_m),
        slipstream=replace(
            airplane.slipstream,
            wing_arm_m=airplane.slipstream.wing_arm_m - aft_m,
            tail_arm_m=airplane.slipstream.tail_arm_m - aft_m,
            fin_arm_m=airplane.slipstream.fin_arm_m - aft_m,
        ),
        thrust_arm_m=airplane.thrust_arm_m + aft_m * math.sin(airplane.shaft_tilt_rad),
    )
