"""The wing section of a scenario, and what its mean line gives where the wing table gives nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.section import Section, ThinAirfoil, digits, outline, thin_airfoil
from sim.errors import Fault, InputError

if TYPE_CHECKING:
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


def _thin(scenario: Scenario, given: str) -> ThinAirfoil | None:
    """Return what the section's mean line gives, or None where the wing gives the key or there is no section."""
    if scenario.section is None or given in scenario.wing.model_fields_set:
        return None
    return thin_airfoil(wing_section(scenario))
