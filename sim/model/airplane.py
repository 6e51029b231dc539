"""An airplane with one powerplant, ready for the equations of motion."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.aerodynamics.body import propeller_side_area
from sim.aerodynamics.derivatives import Derivative, estimate, values
from sim.aerodynamics.geometry import RunningPropeller
from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.motion import Airplane

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Body
    from sim.model.powerplant import Powerplant

BLADE_CHORD_SHARE = 0.075
"""Mean blade chord over diameter where none is given: common practice for wooden two-blade propellers."""


@dataclass(frozen=True, slots=True)
class FlyingAirplane:
    """An airplane with one powerplant, at an airspeed and an altitude.

    Attributes
    ----------
    powerplant : Powerplant
        Its engine and propeller.
    airplane : Airplane
        All numbers of its motion.
    derivatives : Mapping of str to Derivative
        With their origin and band.
    travel : Travel
        Of the controls.
    speed_m_s, altitude_m : float
        At which the derivatives were estimated. [m/s, m]
    """

    powerplant: Powerplant
    airplane: Airplane
    derivatives: Mapping[str, Derivative]
    travel: Travel
    speed_m_s: float
    altitude_m: float

    @property
    def name(self) -> str:
        """Name of the powerplant."""
        return self.powerplant.name


def derivatives_at(
    airframe: Airframe, polar: Polar, powerplant: Powerplant, *, mass_kg: float, speed_m_s: float, altitude_m: float
) -> Mapping[str, Derivative]:
    """Return the derivatives estimated in straight flight, the propeller turning at cruise speed.

    Parameters
    ----------
    airframe, polar : Airframe, Polar
        Geometry, and lift and drag.
    powerplant : Powerplant
        Its propeller counts as a fin ahead of the airplane.
    mass_kg, speed_m_s, altitude_m : float
        Gross mass, true airspeed above 0, and altitude. [kg, m/s, m]

    Raises
    ------
    InputError
        When the altitude lies outside the standard atmosphere.
    """
    pressure = 0.5 * air(altitude_m).density_kg_m3 * speed_m_s**2
    lift = min(mass_kg * GRAVITY_M_S2 / (pressure * polar.area_m2), polar.lift_max)
    return estimate(airframe, polar, _running(powerplant, speed_m_s), lift=lift)


def flying_airplane(
    body: Body,
    polar: Polar,
    powerplant: Powerplant,
    *,
    derivatives: Mapping[str, Derivative],
    travel: Travel,
    speed_m_s: float,
    altitude_m: float,
) -> FlyingAirplane:
    """Return an airplane with one powerplant.

    Parameters
    ----------
    body, polar : Body, Polar
        Mass and inertia, and lift and drag.
    powerplant : Powerplant
        Its engine and propeller.
    derivatives : Mapping of str to Derivative
        Estimated or given.
    travel : Travel
        Of the controls.
    speed_m_s, altitude_m : float
        At which the derivatives were estimated. [m/s, m]
    """
    airplane = Airplane(
        body=body,
        rotors=powerplant.rotors,
        polar=polar,
        derivatives=values(derivatives),
        engine=powerplant.engine_law,
        propeller=powerplant.propeller_law,
        shaft_tilt_rad=powerplant.shaft_tilt_rad,
        thrust_arm_m=powerplant.thrust_arm_m,
    )
    return FlyingAirplane(powerplant, airplane, derivatives, travel, speed_m_s, altitude_m)


def _running(powerplant: Powerplant, speed_m_s: float) -> RunningPropeller:
    propeller = powerplant.propeller
    fin_m2 = propeller_side_area(
        blades=propeller.blades,
        chord_m=propeller.blade_chord_m or BLADE_CHORD_SHARE * propeller.diameter_m,
        diameter_m=propeller.diameter_m,
        spin_rad_s=powerplant.gear_ratio * powerplant.cruise_speed_rad_s,
        speed_m_s=speed_m_s,
    )
    return RunningPropeller(fin_m2, propeller.arm_m)
