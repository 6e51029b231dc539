"""The airplane of a scenario with one of its powerplants, ready for the equations of motion."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from sim.aerodynamics.body import propeller_side_area
from sim.aerodynamics.derivatives import Derivative, estimate, overridden
from sim.aerodynamics.forces import Derivatives, Wing
from sim.aerodynamics.geometry import Layout, Plane, Surface
from sim.aerodynamics.surface import fin_aspect
from sim.atmosphere import GRAVITY_M_S2, air
from sim.errors import Fault, InputError, did_you_mean
from sim.flight.control_travel import Travel
from sim.flight.motion import Airplane, Body
from sim.model.planes import plane_values
from sim.model.powerplant import Spin, spin
from sim.model.wing import lift_at_zero, section_lift_slope, section_moment
from sim.propulsion.engine_propeller import Engine, Propeller, matched_engine, matched_propeller

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.scenario.powerplant import AnyPowerplant
    from sim.scenario.tables import Scenario

BEST_ADVANCE_SHARE = 2.0 / 3.0
"""Of the way that a propeller makes without slip, the share at which it is most efficient: see `matched_propeller`."""
BLADE_CHORD_SHARE = 0.075
"""Mean blade chord over diameter where none is given: common practice for wooden two-blade propellers."""


@dataclass(frozen=True, slots=True)
class Flyable:
    """An airplane with one engine in it.

    Attributes
    ----------
    name : str
        Of the powerplant.
    powerplant : Powerplant
        Its table.
    spin : Spin
        What turns in it.
    airplane : Airplane
        All numbers of its motion.
    derivatives : Mapping of str to Derivative
        With their origin and band.
    travel : Travel
        Of the controls.
    speed_m_s, altitude_m : float
        At which the derivatives were estimated. [m/s, m]
    """

    name: str
    powerplant: AnyPowerplant
    spin: Spin
    airplane: Airplane
    derivatives: Mapping[str, Derivative]
    travel: Travel
    speed_m_s: float
    altitude_m: float


def flyable(
    scenario: Scenario, name: str, *, speed_m_s: float | None = None, altitude_m: float | None = None
) -> Flyable:
    """Return the airplane of a scenario with the powerplant called `name`.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    name : str
        Of one of its powerplants.
    speed_m_s, altitude_m : float or None
        Where the estimates that change with lift and advance are taken; None for those of the scenario. [m/s, m]

    Raises
    ------
    InputError
        When no powerplant has that name, or the altitude lies outside the standard atmosphere.
    """
    powerplant = _powerplant(scenario, name)
    speed = scenario.flight.speed_m_s if speed_m_s is None else speed_m_s
    altitude = scenario.flight.altitude_m if altitude_m is None else altitude_m
    layout = laid_out(scenario, powerplant, speed_m_s=speed)
    turning = spin(name, powerplant)
    lift = scenario.airplane.mass_kg * GRAVITY_M_S2 / (0.5 * air(altitude).density_kg_m3 * speed**2 * layout.area_m2)
    estimated = estimate(
        layout,
        lift=min(lift, scenario.lift.max),
        lift_zero=lift_at_zero(scenario, layout),
        zero_lift_drag=scenario.drag.zero_lift,
        section_moment=section_moment(scenario),
    )
    derivatives = overridden(estimated, scenario.derivatives.given())
    engine, propeller = drive(powerplant)
    airplane = Airplane(
        body=_body(scenario),
        rotors=turning.rotors,
        wing=_wing(scenario, layout),
        derivatives=Derivatives(**{field.name: derivatives[field.name].value for field in fields(Derivatives)}),
        engine=engine,
        propeller=propeller,
        shaft_tilt_rad=powerplant.shaft_tilt_rad,
        thrust_arm_m=powerplant.thrust_arm_m,
    )
    return Flyable(name, powerplant, turning, airplane, derivatives, travel(scenario), speed, altitude)


def flyables(
    scenario: Scenario, *, speed_m_s: float | None = None, altitude_m: float | None = None
) -> tuple[Flyable, ...]:
    """Return the airplane with each of its powerplants, in the order of the file; arguments as for `flyable`."""
    return tuple(flyable(scenario, name, speed_m_s=speed_m_s, altitude_m=altitude_m) for name in scenario.powerplant)


def laid_out(scenario: Scenario, powerplant: AnyPowerplant, *, speed_m_s: float) -> Layout:
    """Return what the derivatives are estimated from, the propeller running at cruise.

    Parameters
    ----------
    scenario : Scenario
        Its wing, tail and fuselage.
    powerplant : Powerplant
        Its propeller.
    speed_m_s : float
        Airspeed. [m/s]
    """
    tail, fin, aileron, body = scenario.tailplane, scenario.fin, scenario.aileron, scenario.fuselage
    propeller, slope = powerplant.propeller, scenario.wing.section_lift_slope
    return Layout(
        planes=_planes(scenario),
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


def drive(powerplant: AnyPowerplant) -> tuple[Engine, Propeller]:
    """Return engine and propeller matched to each other: full power at full speed where the propeller is at its best.

    Parameters
    ----------
    powerplant : Powerplant
        Its table.
    """
    propeller, speed = powerplant.propeller, powerplant.speed_rad_s
    advance_m_s = propeller.pitch_m * abs(powerplant.gear_ratio) * speed / (2.0 * math.pi)
    engine = matched_engine(
        power_w=powerplant.power_w,
        speed_rad_s=speed,
        rotation=1.0 if powerplant.rotation == "clockwise" else -1.0,
        friction_torque_n_m=powerplant.friction_torque_n_m,
        windage_w=powerplant.windage_power_w,
    )
    matched = matched_propeller(
        power_w=powerplant.power_w,
        speed_rad_s=speed,
        airspeed_m_s=BEST_ADVANCE_SHARE * advance_m_s,
        efficiency=propeller.efficiency,
        ratio=powerplant.gear_ratio,
    )
    return engine, matched


def travel(scenario: Scenario) -> Travel:
    """Return how far the controls of a scenario go."""
    return Travel(
        elevator_up_rad=scenario.elevator.up_travel_rad,
        elevator_down_rad=scenario.elevator.down_travel_rad,
        aileron_rad=scenario.aileron.travel_rad,
        rudder_rad=scenario.rudder.travel_rad,
    )


def _powerplant(scenario: Scenario, name: str) -> AnyPowerplant:
    if name not in scenario.powerplant:
        known = ", ".join(scenario.powerplant)
        hint = did_you_mean(name, scenario.powerplant)
        raise InputError([Fault("powerplant", f'must be one of {known}, got "{name}"{hint}')])
    return scenario.powerplant[name]


def _planes(scenario: Scenario) -> tuple[Plane, ...]:
    """Return the planes from the top one down; stagger puts each ahead of the one below."""
    wing, slope = scenario.wing, section_lift_slope(scenario)
    middle = 0.5 * (wing.planes - 1)
    return tuple(
        Plane(
            **own,
            height_m=(middle - number) * (wing.gap_m or 0.0),
            arm_m=wing.arm_m - (middle - number) * wing.stagger_m,
            section_slope=slope,
        )
        for number, own in enumerate(plane_values(scenario).values())
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


def _wing(scenario: Scenario, layout: Layout) -> Wing:
    return Wing(
        area_m2=layout.area_m2,
        span_m=layout.span_m,
        chord_m=layout.chord_m,
        aspect_ratio=layout.aspect,
        span_efficiency=scenario.drag.span_efficiency,
        drag_zero_lift=scenario.drag.zero_lift,
        lift_zero=lift_at_zero(scenario, layout),
        lift_max=scenario.lift.max,
    )
