"""The gun line of a scenario through the propeller of one of its powerplants."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.model.cam import impulses_per_turn
from sim.model.delays import delay_stages, gun_of
from sim.synchronizer.blocked_arc import at_radius, blocked_arc_rad, bore_line, flex_rad, helix_rad, projected_width_m
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.leak import TIGHT

if TYPE_CHECKING:
    from sim.scenario.gun import GunTable
    from sim.scenario.tables import Scenario
    from sim.synchronizer.blocked_arc import BoreLine


def gun_line(scenario: Scenario, powerplant: str) -> GunLine:
    """Return the gun line through the propeller of a powerplant, at idle, cruise and full speed, without its cam.

    Parameters
    ----------
    scenario : Scenario
        With a gun.
    powerplant : str
        Name of one of its powerplants.

    Raises
    ------
    InputError
        When the scenario has no gun.
    """
    engine, gun = scenario.powerplant[powerplant], gun_of(scenario)
    rotation = _rotation(engine.rotation, engine.gear_ratio)
    ratio, stages = abs(engine.gear_ratio), delay_stages(scenario)
    return GunLine(
        spin_rad_s=(engine.idle_speed_rad_s * ratio, engine.cruise_speed_rad_s * ratio, engine.speed_rad_s * ratio),
        blades=engine.propeller.blades,
        blocked_rad=_blocked_rad(blade_at_bore(scenario, powerplant)),
        margin_rad=gun.margin_rad,
        delay_s=sum(stage.mean_s for stage in stages),
        delay_rad=sum(stage.mean_rad for stage in stages),
        leak=next((stage.leak for stage in stages if stage.leak.counts), TIGHT),
        natural_rate_per_s=gun.natural_rate_per_s,
        action=gun.action,
        impulses_per_rev=impulses_per_turn(scenario, powerplant),
        powerplant=powerplant,
        flight_s=stages[-1].mean_s,
        bore_turn_rad=(1.0 if rotation == "clockwise" else -1.0) * _bore(gun).lean_rad,
        rotation=rotation,
    )


def _rotation(engine: str, gear_ratio: float) -> str:
    """Return the sense of a propeller from that of its engine, both seen from the cockpit."""
    return engine if gear_ratio > 0.0 else {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}[engine]


def _bore(gun: GunTable) -> BoreLine:
    return bore_line(gun.bore_radius_m, gun.offset_m, gun.muzzle_to_disc_m, gun.converge_m)


@dataclass(frozen=True, slots=True)
class BladeAtBore:
    """The blade where the bore line crosses the disc.

    Attributes
    ----------
    bore_radius_m : float
        Distance of that place from the shaft axis. [m]
    blade_chord_m, blade_thickness_m : float
        Chord and thickness. [m]
    helix_rad, flex_rad : float
        Angle to the plane of the disc, and angle by which the blade may bend in that plane, to each side. [rad]
    bullet_diameter_m : float
        Of what passes there. [m]
    """

    bore_radius_m: float
    blade_chord_m: float
    blade_thickness_m: float
    helix_rad: float
    flex_rad: float
    bullet_diameter_m: float


def blade_at_bore(scenario: Scenario, powerplant: str) -> BladeAtBore:
    """Return the blade at the bore line; values of the propeller take precedence over those of the gun."""
    gun, propeller = gun_of(scenario), scenario.powerplant[powerplant].propeller
    radius_m = _bore(gun).radius_m
    chord_m, thickness_m = gun.blade_chord_m, gun.blade_thickness_m
    if gun.planform:
        radii = [station.radius_m for station in gun.planform]
        chord_m = at_radius(radius_m, radii, [station.chord_m for station in gun.planform])
        thickness_m = at_radius(radius_m, radii, [station.thickness_m for station in gun.planform])
    return BladeAtBore(
        bore_radius_m=radius_m,
        blade_chord_m=propeller.blade_chord_m or chord_m,
        blade_thickness_m=thickness_m if propeller.blade_thickness_m is None else propeller.blade_thickness_m,
        helix_rad=helix_rad(gun.blade_pitch_m or propeller.pitch_m, radius_m),
        flex_rad=flex_rad(gun.blade_flex_m, radius_m),
        bullet_diameter_m=gun.bullet_diameter_m,
    )


def _blocked_rad(blade: BladeAtBore) -> float:
    """Return the arc that one blade blocks at the bore line, its bending to both sides included."""
    width_m = projected_width_m(blade.blade_chord_m, blade.blade_thickness_m, blade.helix_rad)
    blocked = blocked_arc_rad(width_m, blade.bullet_diameter_m, blade.bore_radius_m)
    return min(blocked + 2.0 * blade.flex_rad, math.tau)
