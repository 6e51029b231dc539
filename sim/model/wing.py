"""The wing section of a scenario, and what its mean line gives where the wing table gives nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.aerodynamics.surface import lift_slope
from sim.airframe.section import Section, ThinAirfoil, digits, outline, thin_airfoil
from sim.errors import Fault, InputError

if TYPE_CHECKING:
    from sim.aerodynamics.geometry import Layout
    from sim.scenario.tables import Scenario


def wing_section(scenario: Scenario) -> Section:
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


def section_lift_slope(scenario: Scenario) -> float:
    """Return the lift slope of the section per radian: as the wing gives it, else of its mean line, else usual.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    """
    found = _thin(scenario, "section_lift_slope")
    return found.lift_slope if found else scenario.wing.section_lift_slope


def section_moment(scenario: Scenario) -> float:
    """Return the moment of the section about its quarter chord, nose up positive, likewise.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    """
    found = _thin(scenario, "section_moment")
    return found.pitch_quarter_chord if found else scenario.wing.section_moment


def lift_at_zero(scenario: Scenario, layout: Layout) -> float:
    """Return CL with the x axis along the flow: as given, else by the incidence of the wing and its mean line.

    Parameters
    ----------
    scenario : Scenario
        With ``lift.zero`` or the table section.
    layout : Layout
        Its wing.

    Raises
    ------
    InputError
        When the section and the incidence come to more than the greatest lift.

    Notes
    -----
    Lift slope times the angle from that without lift; thin-airfoil theory makes it up to a fifth large on thick,
    strongly cambered sections.
    """
    if scenario.lift.zero is not None:
        return scenario.lift.zero
    angle_rad = layout.mean("incidence_rad") - thin_airfoil(wing_section(scenario)).zero_lift_rad
    found = lift_slope(layout.mean("section_slope"), layout.aspect) * angle_rad
    if abs(found) >= scenario.lift.max:
        what = f"gives a CL of {found:.2f} with the x axis along the flow, not below lift.max; give lift.zero"
        raise InputError([Fault("section", what)])
    return found


def _thin(scenario: Scenario, given: str) -> ThinAirfoil | None:
    """Return what the section's mean line gives, or None where the wing gives the key or there is no section."""
    if scenario.section is None or given in scenario.wing.model_fields_set:
        return None
    return thin_airfoil(wing_section(scenario))
