"""The airframe of a scenario: geometry of wing, tail and fuselage, travel of its controls."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.geometry import Airframe, Surface
from sim.aerodynamics.lifting_surface import fin_aspect
from sim.airframe.wing import Wing
from sim.flight.control_travel import Travel

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario


def airframe(scenario: Scenario, wing: Wing, *, cg_aft_m: float = 0.0) -> Airframe:
    """Return the geometry of a scenario's airplane without its powerplant.

    Parameters
    ----------
    scenario : Scenario
        Tail, controls and fuselage.
    wing : Wing
        Its wing.
    cg_aft_m : float
        How far the centre of gravity lies aft of the one that the scenario measures arms from. [m]
    """
    tail, fin, aileron, body = scenario.tailplane, scenario.fin, scenario.aileron, scenario.fuselage
    slope = scenario.wing.section_lift_slope
    return Airframe(
        wing=_about(wing, cg_aft_m),
        tailplane=Surface(
            span_m=tail.span_m,
            chord_m=tail.chord_m,
            aspect=tail.span_m / tail.chord_m,
            arm_m=tail.arm_m - cg_aft_m,
            height_m=0.0,
            incidence_rad=tail.incidence_rad,
            flap_share=scenario.elevator.chord_share,
            section_slope=slope,
        ),
        fin=Surface(
            span_m=fin.height_m,
            chord_m=fin.chord_m,
            aspect=fin_aspect(fin.height_m, fin.height_m * fin.chord_m),
            arm_m=fin.arm_m - cg_aft_m,
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
    )


def _about(wing: Wing, aft_m: float) -> Wing:
    """Return the wing with its arms measured from a centre of gravity farther aft."""
    if aft_m == 0.0:
        return wing
    planes = tuple(replace(plane, arm_m=plane.arm_m - aft_m) for plane in wing.planes)
    return Wing(planes, replace(wing.nominal, arm_m=wing.nominal.arm_m - aft_m))


def travel(scenario: Scenario) -> Travel:
    """Return the travel of the controls of a scenario's airplane."""
    return Travel(
        elevator_up_rad=scenario.elevator.up_travel_rad,
        elevator_down_rad=scenario.elevator.down_travel_rad,
        aileron_rad=scenario.aileron.travel_rad,
        rudder_rad=scenario.rudder.travel_rad,
    )
