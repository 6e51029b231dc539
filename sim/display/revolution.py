"""One turn of the display's propeller at hand speed: lift, pressure angle and torque against its angle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.display.evaluation import at_roller
from sim.display.loads import contact_force, torque
from sim.display.outline import path_at
from sim.display.schedule import lift_fraction, schedule_of

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray
    from sim.display.search import FoundCam
    from sim.display.spring import Spring

POINTS = 1441


@dataclass(frozen=True, slots=True)
class Revolution:
    """One turn of the propeller, so slow that inertia forces vanish, the lead plate at no lead.

    Attributes
    ----------
    propeller_rad : array
        Propeller angle, 0 with blade 1 on the bore line. [rad]
    lift_m : array
        Lift of the roller. [m]
    pressure_angle_rad : array
        Pressure angle, signed. [rad]
    torque_n_m : array
        Torque at crank or motor, friction included. [N m]
    """

    propeller_rad: FloatArray
    lift_m: FloatArray
    pressure_angle_rad: FloatArray
    torque_n_m: FloatArray


def revolution(display: Display, found: FoundCam, spring: Spring) -> Revolution:
    """Return one turn of the propeller with the cam and the spring that were found.

    Parameters
    ----------
    display : Display
        What the builder specifies.
    found : FoundCam
        The cam.
    spring : Spring
        The spring.
    """
    schedule, full_lift_m = schedule_of(display, found), display.cam.lift_m
    propeller_rad = np.linspace(0.0, 2.0 * np.pi, POINTS)
    cam_rad = propeller_rad * display.cam_ratio
    lift_m, velocity_m, acceleration_m = (full_lift_m * part for part in lift_fraction(schedule, cam_rad))
    force_n = contact_force(
        **at_roller(display, spring),
        cam_rad_s=0.0,
        lift_m=lift_m,
        acceleration_m=acceleration_m,
    )
    path = path_at(schedule, display.follower, cam_rad, lift_m=full_lift_m, base_radius_m=found.base_radius_m)
    shaft_n_m = display.handle.friction_torque_n_m + display.cam_ratio * torque(force_n, velocity_m)
    return Revolution(propeller_rad, lift_m, path.pressure_angle_rad, shaft_n_m * display.handle.gear)
