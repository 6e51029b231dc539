"""The display of a scenario: what its table specifies, and the cam and gun line of the powerplant it names."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.display.cam_profile import Follower
from sim.display.display import ARM_SPRING, CamRequirements, Display, DisplayWindow, Enclosure, Lamp
from sim.display.drive import DisplayPropeller, Handle
from sim.display.spring import SpringRequirements
from sim.errors import NoAnswerError, did_you_mean, refuse
from sim.synchronizer.cam import SAME_RAD
from sim.synchronizer.gun_line import told_arcs
from sim.synchronizer.windows import release_windows
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.scenario.exhibit import ExhibitTable
    from sim.scenario.tables import Scenario
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.windows import ReleaseWindows


def display_line(scenario: Scenario, line_of: Callable[[str], GunLine]) -> GunLine:
    """Return the gun line that the display shows: at full speed, its cam with it; an ideal one as fitted to that speed.

    Parameters
    ----------
    scenario : Scenario
        With a table for the display.
    line_of : callable
        Returns the gun line behind a powerplant of that name, with its cam or without for the ideal one.

    Raises
    ------
    InputError
        When the display asks for a powerplant that there is not.
    NoAnswerError
        When the scenario has no table for a display.
    """
    name = _table(scenario).powerplant or next(iter(scenario.powerplant))
    if name not in scenario.powerplant:
        known = " or ".join(scenario.powerplant)
        refuse("exhibit.powerplant", f'must be {known}, got "{name}"{did_you_mean(name, scenario.powerplant)}')
    line = line_of(name)
    full_rad_s = line.spin_rad_s[-1]
    return replace(line, spin_rad_s=(full_rad_s,), cam=line.cam_at(full_rad_s))


def display_of(scenario: Scenario, line: GunLine) -> Display:
    """Return what the builder of the scenario's display specifies, for the gun line that it shows.

    Raises
    ------
    NoAnswerError
        When the scenario has no table for a display, its blades leave no window, or equal lobes and a lamp cannot show
        the windows of the cam.
    """
    return display_for(_table(scenario), line)


def display_for(table: ExhibitTable, line: GunLine) -> Display:
    """Return what a table of a display specifies, for the gun line that it shows; raises as `display_of`."""
    return _display(table, _window(line))


def _table(scenario: Scenario) -> ExhibitTable:
    if scenario.exhibit is None:
        message = "the scenario has no [exhibit] table; copy the one of the tollgate scenario and change it"
        raise NoAnswerError(message)
    return scenario.exhibit


def _window(line: GunLine) -> DisplayWindow:
    """Return where the rounds pass that the cam releases at full speed, and their lead."""
    if line.clear_deg <= 0.0:
        message = (
            f"each blade blocks {told_arcs(line.closed_deg)[0]} with its margins and leaves no "
            "window to show; raise the bore line or take a narrower blade"
        )
        raise NoAnswerError(message)
    openings, (found,) = _whole(line), release_windows(line)
    first, step_rad = found.windows[0], math.tau / openings
    widened_rad = _either_side(line, found) if first.from_rad == first.to_rad else 0.0
    lit_rad = first.to_rad - first.from_rad + 2.0 * widened_rad
    if lit_rad >= step_rad - SAME_RAD:
        message = "the cam never shuts, so that the lamp would never go out; give dwell a shorter angle"
        raise NoAnswerError(message)
    from_rad = (first.from_rad + found.lead_rad - widened_rad) % step_rad
    return DisplayWindow(
        from_rad=from_rad,
        to_rad=from_rad + lit_rad,
        lead_rad=found.lead_rad,
        blades=line.blades,
        openings=openings,
        closed_rad=line.closed_rad,
    )


def _whole(line: GunLine) -> int:
    """Return how many windows the cam has in a turn, all alike."""
    count, turns = line.openings.as_integer_ratio()
    if turns > 1:
        message = f"the display shows a whole number of windows in a turn, and the cam opens {count} times in {turns}; "
        raise NoAnswerError(message + "give it a whole number, in gun.impulses_per_rev")
    if line.cam is not None and not line.cam.is_even:
        message = "the lobes of the display are all alike, and the windows of the cam are at uneven angles; "
        raise NoAnswerError(message + "leave out the windows of the cam, or ask for the ideal cam")
    return count


def _either_side(line: GunLine, found: ReleaseWindows) -> float:
    """Return how much earlier or later each impulse could come and its round still clear blade and margin [rad].

    An impulse has no length, and a lamp needs one.
    """
    least_rad = min(window.clearance_rad for window in found.windows)
    if least_rad <= 0.0:
        message = (
            f"at {brief('rpm', line.rpm[0], digits=6)} the impulses of the cam let rounds go that meet a blade or its "
            "margin, so that no lamp can show when they pass clear; give opens another angle, or ask for the ideal "
            "cam"
        )
        raise NoAnswerError(message)
    return least_rad


def _display(table: ExhibitTable, window: DisplayWindow) -> Display:
    """Return the display; the spring of an arm stands nearer to the pivot, and is the stiffer there."""
    ratio = 1.0 if table.follower == "translating" else ARM_SPRING
    return Display(
        window=window,
        cam=_cam(table),
        follower=Follower(
            kind=table.follower,
            roller_radius_m=table.roller_diameter_m / 2.0,
            offset_m=table.offset_m,
            arm_m=table.arm_m or 0.0,
            pivot_m=table.pivot_m or 0.0,
        ),
        follower_kg=math.nan,
        spring=SpringRequirements(
            preload_n=table.preload_n / ratio,
            rate_n_per_m=table.spring_rate_n_per_m / ratio**2,
            travel_m=table.lift_m * ratio,
            outer_space_m=table.spring_diameter_space_m,
            length_space_m=table.spring_length_space_m,
        ),
        propeller=DisplayPropeller(table.propeller_diameter_m, table.propeller_mass_kg, table.propeller_speed_rad_s),
        handle=Handle(
            kind=table.drive,
            crank_radius_m=table.crank_radius_m,
            gear=table.gear_ratio,
            axis_height_m=table.crank_height_m,
            friction_torque_n_m=table.friction_torque_n_m,
            most_force_n=table.handle_force_n,
        ),
        enclosure=Enclosure(
            place=table.place,
            shape=table.guard_shape,
            opening_m=table.guard_opening_m,
            distance_m=table.guard_distance_m,
            blade_gap_m=table.blade_gap_m,
            stops_on_opening=table.stops_on_opening == "yes",
        ),
        lamp=Lamp(table.lamp_voltage_v, table.lamp_supply, table.placard_ink, table.placard_paper),
        hardware=table.hardware,
        output="lamp switch" if table.output == "lamp switch" else "light beam",
    )


def _cam(table: ExhibitTable) -> CamRequirements:
    return CamRequirements(
        lobes=table.lobes,
        lift_m=table.lift_m,
        face_width_m=table.cam_thickness_m,
        material=table.cam_material,
        shaft_radius_m=table.shaft_diameter_m / 2.0,
        cutter_radius_m=table.cutter_diameter_m / 2.0,
        space_m=table.cam_space_m,
        setting_error_m=table.switch_setting_m,
        law=table.law,
        rise_rad=table.rise_rad,
        base_radius_m=table.base_radius_m,
    )
