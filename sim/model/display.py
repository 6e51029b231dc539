"""The display of a scenario: what its table specifies, and the firing windows of the powerplant it names."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.display.cam_profile import Follower
from sim.display.display import CamRequirements, Display, DisplayWindow, Enclosure, Lamp
from sim.display.drive import DisplayPropeller, Handle
from sim.display.spring import SpringRequirements
from sim.errors import NoAnswerError, did_you_mean, refuse
from sim.model.gun_line import gun_line
from sim.synchronizer.gun_line import told_arcs

if TYPE_CHECKING:
    from fractions import Fraction

    from sim.scenario.exhibit import ExhibitTable
    from sim.scenario.tables import Scenario
    from sim.synchronizer.gun_line import GunLine


def display_of(scenario: Scenario) -> Display:
    """Return what the builder of the scenario's display specifies.

    Raises
    ------
    NoAnswerError
        When the scenario has no table for a display, or its blades leave no window.
    """
    table = scenario.exhibit
    if table is None:
        message = "the scenario has no [exhibit] table; copy the one of the tollgate scenario and change it"
        raise NoAnswerError(message)
    name = table.powerplant or next(iter(scenario.powerplant))
    if name not in scenario.powerplant:
        known = " or ".join(scenario.powerplant)
        refuse("exhibit.powerplant", f'must be {known}, got "{name}"{did_you_mean(name, scenario.powerplant)}')
    return _display(table, _window(gun_line(scenario, name)))


def _window(line: GunLine) -> DisplayWindow:
    """Return the first clear arc at the disc, and the lead at the powerplant's full speed."""
    half_blocked = line.blocked_rad / 2.0 + line.margin_rad
    clear = 2.0 * math.pi / line.blades - 2.0 * half_blocked
    if clear <= 0.0:
        message = (
            f"each blade blocks {told_arcs(line.closed_deg)[0]} with its margins and leaves no "
            "window to show; raise the bore line or take a narrower blade"
        )
        raise NoAnswerError(message)
    return DisplayWindow(
        from_rad=half_blocked,
        to_rad=half_blocked + clear,
        lead_rad=line.lead_rad(line.spin_rad_s[-1]),
        blades=line.blades,
        openings=_whole(line.openings),
    )


def _whole(openings: Fraction) -> int:
    if openings.denominator > 1:
        count, turns = openings.as_integer_ratio()
        message = f"the display shows a whole number of windows in a turn, and the cam opens {count} times in {turns}; "
        raise NoAnswerError(message + "give gun.impulses_per_rev a whole number for it")
    return openings.numerator


def _display(table: ExhibitTable, window: DisplayWindow) -> Display:
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
        follower_kg=table.follower_mass_kg,
        spring=SpringRequirements(
            preload_n=table.preload_n,
            rate_n_per_m=table.spring_rate_n_per_m,
            travel_m=table.lift_m,
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
