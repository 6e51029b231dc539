"""The airframe of a scenario: geometry of wing, tail and fuselage, travel of its controls."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.aerodynamics.geometry import Airframe, Surface
from sim.flight.control_travel import Travel

if TYPE_CHECKING:
    from sim.airframe.wing import Wing
    from sim.scenario.tables import Scenario


def airframe(scenario: Scenario, wing: Wing) -> Airframe:
    """Return the geometry of a scenario's airplane without its powerplant.

    Parameters
    ----------
    scenario : Scenario
        Tail, controls and fuselage.
    wing : Wing
        Its wing.
    """
    tail, fin, aileron, body = scenario.tailplane, scenario.fin, scenario.aileron, scenario.fuselage
    slope = scenario.wing.section_lift_slope
    foot_m = fin.centre_height_m - 0.5 * fin.height_m
    return Airframe(
        wing=wing,
        tailplane=Surface(
            span_m=tail.span_m,
            chord_m=tail.chord_m,
            arm_m=tail.arm_m,
            height_m=foot_m if tail.height_m is None else tail.height_m,
            incidence_rad=tail.incidence_rad,
            flap_share=scenario.elevator.chord_share,
            section_slope=slope,
        ),
        fin=Surface(
            span_m=fin.height_m,
            chord_m=fin.chord_m,
            arm_m=fin.arm_m,
            height_m=fin.centre_height_m,
            incidence_rad=0.0,
            flap_share=scenario.rudder.chord_share,
            section_slope=slope,
        ),
        aileron_from=aileron.span_share_inner,
        aileron_to=aileron.span_share_outer,
        aileron_chord_share=aileron.chord_share,
        aileron_planes=aileron.planes,
        body_length_m=body.length_m,
        body_width_m=body.width_m,
        body_depth_m=body.depth_m,
        wing_height_m=_wing_height_m(scenario, wing),
    )


def _wing_height_m(scenario: Scenario, wing: Wing) -> float:
    """Return the height of the middle between the planes: as given, else the lowest under the body, one plane in it."""
    if scenario.wing.height_m is not None:
        return scenario.wing.height_m
    if len(wing.planes) == 1:
        return 0.0
    return -0.5 * scenario.fuselage.depth_m - wing.planes[-1].height_m


def travel(scenario: Scenario) -> Travel:
    """Return the travel of the controls of a scenario's airplane."""
    return Travel(
        elevator_up_rad=scenario.elevator.up_travel_rad,
        elevator_down_rad=scenario.elevator.down_travel_rad,
        aileron_rad=scenario.aileron.travel_rad,
        rudder_rad=scenario.rudder.travel_rad,
    )
