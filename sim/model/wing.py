"""The wing of a scenario: its planes, its section, and what the mean line gives where the wing table gives nothing."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.aerodynamics.biplane import equivalent_aspect_ratio
from sim.aerodynamics.polar import Polar, PolarBands
from sim.airframe.section import digits, outline
from sim.airframe.wing import Plane, Wing
from sim.errors import refuse
from sim.scenario.airframe import plane_names
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.airframe.section import Airfoil, ThinAirfoil
    from sim.model.drag import DragEstimate
    from sim.scenario.airframe import WingTable
    from sim.scenario.section import WingSectionTable
    from sim.scenario.tables import Scenario

MISSING = 'is missing: naca, as in "2412", or points'
"""Said of the table section where something needs it."""


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
    return airfoil(scenario.section) or refuse("section", MISSING)


def airfoil(table: WingSectionTable | None) -> Airfoil | None:
    """Return the section of a table of the scenario, or None where it says nothing."""
    if table is None:
        return None
    if table.points is not None:
        return outline(table.points)
    return digits(table.naca) if table.naca is not None else None


def wing(table: WingTable, thin: Callable[[], ThinAirfoil | None]) -> Wing:
    """Return the planes of a wing, stacked by gap and stagger about the mean arm.

    Parameters
    ----------
    table : WingTable
        Of the scenario.
    thin : callable
        Called for lift slope and moment of the section where the table leaves one out; returns a ThinAirfoil, or None.
    """
    nominal, below = _nominal(table, thin), 0.5 * (table.planes - 1)
    planes = []
    for number, name in enumerate(plane_names(table.planes)):
        height = below - number
        placed = replace(
            nominal, name=name, height_m=height * (table.gap_m or 0.0), arm_m=table.arm_m - height * table.stagger_m
        )
        own = table.plane[name].model_dump(exclude_none=True) if name in table.plane else {}
        planes.append(replace(placed, **own))
    return Wing(tuple(planes), nominal)


def _nominal(table: WingTable, thin: Callable[[], ThinAirfoil | None]) -> Plane:
    missing = {"section_lift_slope", "section_moment"} - table.model_fields_set
    found = thin() if missing else None
    return Plane(
        span_m=table.span_m,
        chord_m=table.chord_m,
        arm_m=table.arm_m,
        dihedral_rad=table.dihedral_rad,
        sweep_rad=table.sweep_rad,
        incidence_rad=table.incidence_rad,
        taper=table.taper,
        section_slope=found.lift_slope if found and "section_lift_slope" in missing else table.section_lift_slope,
        section_moment=found.pitch_quarter_chord if found and "section_moment" in missing else table.section_moment,
        name="wing",
    )


def polar(
    scenario: Scenario,
    planes: Wing,
    thin: Callable[[], ThinAirfoil | None],
    *,
    estimate: Callable[[], DragEstimate],
    lattice: Callable[[float], float],
) -> Polar:
    """Return lift and drag of the airplane, referred to the area, mean chord and largest span of its wing.

    Parameters
    ----------
    scenario : Scenario
        What its tables drag and lift state goes before any estimate.
    planes : Wing
        The wing.
    thin : callable
        Called for the angle without lift of its section where the table of lift leaves out ``zero``; returns a
        ThinAirfoil, or None.
    estimate : callable
        Called for drag and greatest lift built up where the tables leave one out.
    lattice : callable
        Angle of the section without lift [rad] -> CL of the airplane with the x axis along the flow.

    Raises
    ------
    InputError
        When the section and the incidence come to more than the greatest lift.
    """
    aspect = equivalent_aspect_ratio(planes)
    drag, lift = scenario.drag, scenario.lift
    most = estimate().lift.lift_max.value if lift.max is None else lift.max
    efficiency, zero_lift = drag.span_efficiency, drag.zero_lift
    return Polar(
        area_m2=planes.area_m2,
        span_m=planes.span_m,
        chord_m=planes.mean("chord_m"),
        aspect_ratio=aspect,
        span_efficiency=estimate().efficiency.span_efficiency.value if efficiency is None else efficiency,
        drag_zero_lift=estimate().zero_lift.drag_zero_lift.value if zero_lift is None else zero_lift,
        lift_zero=_lift_at_zero(scenario, thin, lattice, most=most),
        lift_max=most,
    )


def polar_bands(scenario: Scenario, estimate: Callable[[], DragEstimate]) -> PolarBands:
    """Return how well lift and drag are known: the ± of what is stated, the band of what is built up."""
    drag, lift, errors = scenario.drag, scenario.lift, scenario.tolerances
    return PolarBands(
        drag_zero_lift_band=estimate().zero_lift.drag_zero_lift.band
        if drag.zero_lift is None
        else errors.get("drag.zero_lift", 0.0),
        span_efficiency_band=estimate().efficiency.span_efficiency.band
        if drag.span_efficiency is None
        else errors.get("drag.span_efficiency", 0.0),
        lift_max_band=estimate().lift.lift_max.band if lift.max is None else errors.get("lift.max", 0.0),
    )


def _lift_at_zero(
    scenario: Scenario,
    thin: Callable[[], ThinAirfoil | None],
    lattice: Callable[[float], float],
    *,
    most: float,
) -> float:
    """Return CL with the x axis along the flow: as given, else of the lattice at the angle from that without lift.

    Thin-airfoil theory makes that angle up to a fifth too large on thick, strongly cambered sections.
    """
    given = scenario.lift.zero
    if given is not None:
        if abs(given) >= most:
            refuse("lift.zero", f'must be smaller than the CL at the stall, {most:.3g}, got "{given:g}"')
        return given
    section = thin() or refuse("section", MISSING)
    found = lattice(section.zero_lift_rad)
    if abs(found) >= most:
        refuse(*_too_much_lift(scenario, found, most))
    return found


def _too_much_lift(scenario: Scenario, found: float, most: float) -> tuple[str, str]:
    """Return the key of a section that lifts beyond the stall with the x axis along the flow, and what to change."""
    number = scenario.section.naca if scenario.section else None
    key, called = ("section.naca", f"NACA {number}") if number else ("section", "the section")
    incidence = brief("incidence_rad", scenario.wing.incidence_rad)
    return key, (
        f"{called} at a wing.incidence of {incidence} gives a CL of {found:.2f} with the x axis along the flow, not "
        f"below the greatest of {most:.2f}; give a section of less camber or less incidence, or the measured lift.zero"
    )


def leading_edge_station_m(scenario: Scenario) -> float:
    """Return the station of the lowest plane's leading edge at the middle of the airplane [m].

    Raises
    ------
    InputError
        When it is not given.
    """
    if scenario.layout is None:
        what = 'is missing: the station of the lowest leading edge, as in "40 in", is needed for the mean chord'
        refuse("layout.leading_edge", what)
    return scenario.layout.leading_edge_m
