"""The strips of an airplane with one powerplant: section curves of its scenario, places and angles of its lattice."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.section_curve import SectionCurve
    from sim.aerodynamics.strips import Strips
    from sim.airframe.wing import Plane
    from sim.flight.motion import Airplane
    from sim.model.model import Model
    from sim.scenario.tables import Scenario

SECTION_DRAG: Final = 0.011
"""Least drag of a section where the scenario has none (common practice, no source)."""
TAIL_LIFT_MAX: Final = 0.9
"""Of a thin flat tail surface, both ways (common practice, no source)."""
INVERTED: Final = 1.6
"""Loss of the largest lift upside down, in units of the lift that camber gives without incidence (common practice)."""


def strips_for(model: Model, scenario: Scenario, powerplant: str) -> Callable[[Airplane], Strips] | None:
    """Return the function airplane -> its strips, for one powerplant; None where its flights have linear loads."""
    if scenario.flight.air == "linear":
        return None

    def strips(airplane: Airplane) -> Strips:
        sections = model.drag_estimate(powerplant).sections if scenario.section else ()
        return strips_of(
            airplane,
            model.airframe,
            cg_aft_m=model.flown_mass(powerplant).cg_aft_m,
            section_lift_max=[section.section_lift_max.value for section in sections],
        )

    return strips


def strips_of(airplane: Airplane, airframe: Airframe, *, cg_aft_m: float, section_lift_max: Sequence[float]) -> Strips:
    """Return the strips of an airplane, whose greatest lift in trim is that of its polar.

    Parameters
    ----------
    airplane : Airplane
        With polar, derivatives and slipstream.
    airframe : Airframe
        Geometry about its centre of gravity.
    cg_aft_m : float
        How far the centre of gravity lies aft of that of `airframe`. [m]
    section_lift_max : sequence of float
        Of the sections of the planes beside one another; empty where they are alike.
    """
    from sim.aerodynamics.airframe_flow import turned_flow
    from sim.aerodynamics.strips_lattice import Curves, airplane_strips
    from sim.aerodynamics.strips_lift_max import with_lift_max

    planes, polar = airframe.wing.planes, airplane.polar
    zero_rad = -turned_flow(airframe, polar.lift_zero).turn_rad
    largest = section_lift_max or [polar.lift_max] * len(planes)
    curves = Curves(
        tuple(_section(plane, zero_rad, most) for plane, most in zip(planes, largest, strict=True)),
        _flat(airframe.tailplane.section_slope),
        _flat(airframe.fin.section_slope),
    )
    found = airplane_strips(airframe, polar, airplane.slipstream, curves, cg_aft_m=cg_aft_m)
    return with_lift_max(found, polar, airplane.derivatives)


def _section(plane: Plane, zero_rad: float, most: float) -> SectionCurve:
    from sim.aerodynamics.section_curve import SectionCurve

    least = -max(most + INVERTED * min(zero_rad, 0.0) * plane.section_slope, 0.3 * most)
    return SectionCurve(
        lift_slope=plane.section_slope,
        zero_lift_rad=zero_rad,
        lift_max=most,
        lift_min=least,
        drag_zero_lift=SECTION_DRAG,
        moment=plane.section_moment,
    )


def _flat(slope: float) -> SectionCurve:
    from sim.aerodynamics.section_curve import SectionCurve

    return SectionCurve(
        lift_slope=slope,
        zero_lift_rad=0.0,
        lift_max=TAIL_LIFT_MAX,
        lift_min=-TAIL_LIFT_MAX,
        drag_zero_lift=SECTION_DRAG,
        moment=0.0,
    )
