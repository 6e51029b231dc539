"""An airplane with one powerplant, ready for the equations of motion."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache, partial
from typing import TYPE_CHECKING

from sim.aerodynamics.derivatives import GROWING
from sim.aerodynamics.forces import Derivatives
from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.motion import Airplane

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.slipstream import Slipstream
    from sim.aerodynamics.strips import Strips
    from sim.flight.control_system import ControlSystem
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Body
    from sim.model.powerplant import Powerplant
    from sim.propulsion.disc import Disc


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
    lift : float
        Lift coefficient of level flight there, at which the derivatives are.
    travel : Travel
        Of the controls.
    controls : ControlSystem
        Between the surfaces and the pilot.
    speed_m_s, altitude_m : float
        At which the derivatives were estimated. [m/s, m]
    strips : callable or None
        Returns its strips, found when first asked for; None where flights in time have linear loads as well.
    dive_m_s : float or None
        Design speed VD that its wing was given, equivalent, which no advice may pass; None where it has none. [m/s]
    """

    powerplant: Powerplant
    airplane: Airplane
    derivatives: Mapping[str, Derivative]
    lift: float
    travel: Travel
    controls: ControlSystem
    speed_m_s: float
    altitude_m: float
    strips: Callable[[], Strips] | None = None
    dive_m_s: float | None = None

    @property
    def name(self) -> str:
        """Name of the powerplant."""
        return self.powerplant.name

    @property
    def flown(self) -> Airplane:
        """The airplane as flights in time fly it: what is steady has attached flow, and needs no strips."""
        return self.airplane if self.strips is None else replace(self.airplane, strips=self.strips())


def level_lift(polar: Polar, *, mass_kg: float, speed_m_s: float, altitude_m: float) -> float:
    """Return the lift coefficient of level flight, at most the greatest.

    Parameters
    ----------
    polar : Polar
        With the area of the wing.
    mass_kg, speed_m_s, altitude_m : float
        Mass, true airspeed above 0, and altitude. [kg, m/s, m]

    Raises
    ------
    InputError
        When the altitude lies outside the standard atmosphere.
    """
    pressure = 0.5 * air(altitude_m).density_kg_m3 * speed_m_s**2
    return min(mass_kg * GRAVITY_M_S2 / (pressure * polar.area_m2), polar.lift_max)


def flying_airplane(
    body: Body,
    polar: Polar,
    powerplant: Powerplant,
    *,
    derivatives: Mapping[str, Derivative],
    disc: Disc,
    slipstream: Slipstream,
    lift: float,
    travel: Travel,
    controls: ControlSystem,
    speed_m_s: float,
    altitude_m: float,
    strips: Callable[[Airplane], Strips] | None = None,
    dive_m_s: float | None = None,
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
    disc, slipstream : Disc, Slipstream
        Place of the propeller, and what lies in the air behind it.
    lift : float
        Lift coefficient at which the derivatives are.
    travel : Travel
        Of the controls.
    controls : ControlSystem
        Between the surfaces and the pilot.
    speed_m_s, altitude_m : float
        At which the derivatives were estimated. [m/s, m]
    strips : callable or None
        Returns the strips of that airplane; None where flights in time have linear loads.
    dive_m_s : float or None
        Design speed VD given for its wing, equivalent. [m/s]
    """
    airplane = Airplane(
        body=body,
        rotors=powerplant.rotors,
        polar=polar,
        derivatives=at_every_lift(derivatives, lift),
        engine=powerplant.engine_law,
        propeller=powerplant.propeller_law,
        disc=disc,
        slipstream=slipstream,
        shaft_tilt_rad=powerplant.shaft_tilt_rad,
        thrust_arm_m=powerplant.thrust_arm_m,
    )
    found = None if strips is None else cache(partial(strips, airplane))
    return FlyingAirplane(
        powerplant, airplane, derivatives, lift, travel, controls, speed_m_s, altitude_m, found, dive_m_s
    )


def at_every_lift(derivatives: Mapping[str, Derivative], lift: float) -> Derivatives:
    """Return the numbers of the equations of motion: values without lift, and their growth with it.

    Parameters
    ----------
    derivatives : Mapping of str to Derivative
        By name.
    lift : float
        Lift coefficient at which their values are.
    """
    values = {name: one.value - one.per_lift * lift for name, one in derivatives.items()}
    growth = {f"{name}_per_lift": one.per_lift for name, one in derivatives.items() if name in GROWING}
    return Derivatives(**values, **growth)
