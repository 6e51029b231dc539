"""The wing of a scenario: its planes, its section, and what the mean line gives where the wing table gives nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.geometry import equivalent_aspect_ratio
from sim.aerodynamics.polar import Polar
from sim.aerodynamics.surface import lift_slope
from sim.airframe.section import Airfoil, digits, outline, thin_airfoil
from sim.airframe.wing import Plane, Wing
from sim.errors import Fault, InputError
from sim.scenario.airframe import plane_names

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario


def wing_section(scenario: Scenario) -> Airfoil:
    """Return the section of the wing.

    Parameters
    ----------
    scenario : Scenario
        With the table section.

    Raises
    ------
    InputError
        When it has none.
    """
    table = scenario.section
    if table is not None and table.points is not None:
        return outline(table.points)
    if table is None or table.naca is None:
        raise InputError([Fault("section", 'is missing: naca, as in "2412", or points')])
    return digits(table.naca)


def wing(scenario: Scenario) -> Wing:
    """Return the planes of a scenario's wing, stacked by gap and stagger about the mean arm.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    """
    table, nominal = scenario.wing, _nominal(scenario)
    below = 0.5 * (table.planes - 1)
    planes = []
    for number, name in enumerate(plane_names(table.planes)):
        height = below - number
        placed = replace(
            nominal, name=name, height_m=height * (table.gap_m or 0.0), arm_m=table.arm_m - height * table.stagger_m
        )
        own = table.plane[name].model_dump(exclude_none=True) if name in table.plane else {}
        planes.append(replace(placed, **own))
    return Wing(tuple(planes), nominal)


def _nominal(scenario: Scenario) -> Plane:
    """Return the plane of the wing table, its section as given there, else by the mean line of the table section."""
    table = scenario.wing
    slope, moment = table.section_lift_slope, table.section_moment
    unset = {"section_lift_slope", "section_moment"} - table.model_fields_set
    if scenario.section is not None and unset:
        thin = thin_airfoil(wing_section(scenario))
        slope = thin.lift_slope if "section_lift_slope" in unset else slope
        moment = thin.pitch_quarter_chord if "section_moment" in unset else moment
    return Plane(
        span_m=table.span_m,
        chord_m=table.chord_m,
        arm_m=table.arm_m,
        dihedral_rad=table.dihedral_rad,
        sweep_rad=table.sweep_rad,
        incidence_rad=table.incidence_rad,
        taper=table.taper,
        section_slope=slope,
        section_moment=moment,
        name="wing",
    )


def polar(scenario: Scenario, planes: Wing) -> Polar:
    """Return lift and drag of the airplane, referred to the area, mean chord and largest span of its wing.

    Parameters
    ----------
    scenario : Scenario
        With drag, lift and, where it leaves out ``lift.zero``, the section.
    planes : Wing
        Its wing.

    Raises
    ------
    InputError
        When the section and the incidence come to more than the greatest lift.
    """
    aspect = equivalent_aspect_ratio(planes)
    return Polar(
        area_m2=planes.area_m2,
        span_m=planes.span_m,
        chord_m=planes.mean("chord_m"),
        aspect_ratio=aspect,
        span_efficiency=scenario.drag.span_efficiency,
        drag_zero_lift=scenario.drag.zero_lift,
        lift_zero=_lift_at_zero(scenario, planes, aspect),
        lift_max=scenario.lift.max,
    )


def _lift_at_zero(scenario: Scenario, planes: Wing, aspect: float) -> float:
    """Return CL with the x axis along the flow: as given, else lift slope times the angle from that without lift.

    Thin-airfoil theory makes that angle up to a fifth too large on thick, strongly cambered sections.
    """
    if scenario.lift.zero is not None:
        return scenario.lift.zero
    angle_rad = planes.mean("incidence_rad") - thin_airfoil(wing_section(scenario)).zero_lift_rad
    found = lift_slope(planes.mean("section_slope"), aspect) * angle_rad
    if abs(found) >= scenario.lift.max:
        what = f"gives a CL of {found:.2f} with the x axis along the flow, not below lift.max; give lift.zero"
        raise InputError([Fault("section", what)])
    return found
