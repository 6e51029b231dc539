"""The airplane of a scenario with one of its powerplants, ready for the equations of motion."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from sim.aerodynamics.body import propeller_side_area
from sim.aerodynamics.derivatives import Derivative, estimate, overridden
from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.geometry import Airframe, Surface
from sim.aerodynamics.surface import fin_aspect
from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.control_travel import Travel
from sim.flight.motion import Airplane, Body

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.polar import Polar
    from sim.airframe.wing import Wing
    from sim.model.powerplant import Powerplant
    from sim.scenario.tables import Scenario

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


def flying_airplane(
    scenario: Scenario, wing: Wing, polar: Polar, powerplant: Powerplant, *, speed_m_s: float, altitude_m: float
) -> FlyingAirplane:
    """Return the airplane with one of its powerplants.

    Parameters
    ----------
    scenario : Scenario
        Mass, tail, fuselage, controls and the derivatives that it gives itself.
    wing, polar : Wing, Polar
        Its wing, and its lift and drag.
    powerplant : Powerplant
        One of its powerplants.
    speed_m_s, altitude_m : float
        Where the derivatives that change with lift and advance are estimated. [m/s, m]

    Raises
    ------
    InputError
        When the altitude lies outside the standard atmosphere.
    """
    body = _body(scenario)
    pressure = 0.5 * air(altitude_m).density_kg_m3 * speed_m_s**2
    lift = min(body.mass_kg * GRAVITY_M_S2 / (pressure * polar.area_m2), polar.lift_max)
    estimated = estimate(_airframe(scenario, wing, powerplant, speed_m_s), polar, lift=lift)
    derivatives = overridden(estimated, scenario.derivatives.given())
    airplane = Airplane(
        body=body,
        rotors=powerplant.rotors,
        polar=polar,
        derivatives=Derivatives(**{field.name: derivatives[field.name].value for field in fields(Derivatives)}),
        engine=powerplant.engine_law,
        propeller=powerplant.propeller_law,
        shaft_tilt_rad=powerplant.shaft_tilt_rad,
        thrust_arm_m=powerplant.thrust_arm_m,
    )
    return FlyingAirplane(powerplant, airplane, derivatives, _travel(scenario), speed_m_s, altitude_m)


def _airframe(scenario: Scenario, wing: Wing, powerplant: Powerplant, speed_m_s: float) -> Airframe:
    """Return what the derivatives are estimated from, the propeller turning at cruise speed."""
    tail, fin, aileron, body = scenario.tailplane, scenario.fin, scenario.aileron, scenario.fuselage
    propeller, slope = powerplant.propeller, scenario.wing.section_lift_slope
    return Airframe(
        wing=wing,
        tailplane=Surface(
            tail.span_m * tail.chord_m,
            tail.span_m / tail.chord_m,
            tail.arm_m,
            0.0,
            tail.incidence_rad,
            scenario.elevator.chord_share,
            slope,
        ),
        fin=Surface(
            fin.height_m * fin.chord_m,
            fin_aspect(fin.height_m, fin.height_m * fin.chord_m),
            fin.arm_m,
            fin.centre_height_m,
            0.0,
            scenario.rudder.chord_share,
            slope,
        ),
        aileron_from=aileron.span_share_inner,
        aileron_to=aileron.span_share_outer,
        aileron_chord_share=aileron.chord_share,
        aileron_planes=aileron.planes,
        body_length_m=body.length_m,
        body_width_m=body.width_m,
        body_depth_m=body.depth_m,
        propeller_fin_m2=propeller_side_area(
            blades=propeller.blades,
            chord_m=propeller.blade_chord_m or BLADE_CHORD_SHARE * propeller.diameter_m,
            diameter_m=propeller.diameter_m,
            spin_rad_s=powerplant.gear_ratio * powerplant.cruise_speed_rad_s,
            speed_m_s=speed_m_s,
        ),
        propeller_arm_m=propeller.arm_m,
    )


def _travel(scenario: Scenario) -> Travel:
    return Travel(
        elevator_up_rad=scenario.elevator.up_travel_rad,
        elevator_down_rad=scenario.elevator.down_travel_rad,
        aileron_rad=scenario.aileron.travel_rad,
        rudder_rad=scenario.rudder.travel_rad,
    )


def _body(scenario: Scenario) -> Body:
    plane = scenario.airplane
    return Body(
        mass_kg=plane.mass_kg,
        inertia_roll_kg_m2=plane.inertia_roll_kg_m2,
        inertia_pitch_kg_m2=plane.inertia_pitch_kg_m2,
        inertia_yaw_kg_m2=plane.inertia_yaw_kg_m2,
        inertia_product_kg_m2=plane.inertia_product_kg_m2,
    )
