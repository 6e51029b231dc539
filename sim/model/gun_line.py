"""A gun line of a scenario: through which blades it fires, at which speeds, after what delay."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import refuse
from sim.synchronizer.blade import at_radius, blocked_arc_rad, bore_line, flex_rad, helix_rad, projected_width_m

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.scenario.powerplant import AnyPowerplant
    from sim.scenario.tables import GunTable, Scenario
    from sim.synchronizer.blade import Action


@dataclass(frozen=True, slots=True)
class Setup:
    """A gun line through a turning propeller.

    Attributes
    ----------
    spin_rad_s : tuple of float
        Propeller speeds asked for, each above 0. [rad/s]
    blades : int
        Blades, evenly spaced.
    blocked_rad : float
        Arc that one blade blocks, the bullet's width in it, margins apart. [rad]
    margin_rad : float
        Kept clear on each side of the blade as well. [rad]
    delay_s : float
        From release to passage through the disc. [s]
    natural_rate_per_s : float or None
        The gun's own rate; None where only the windows are asked for. [1/s]
    action : str
        ``interrupter``: the gun cycles freely, the cam holds the sear while a blade is due. ``impulse``: every
        impulse of the cam releases one round, if the gun is ready.
    impulses_per_rev : int
        Impulses, or windows of the interrupter's cam, in a turn of the propeller; divides the number of blades.
    powerplant : str
        The scenario's name for the engine that turns the propeller; empty without a scenario.
    """

    spin_rad_s: tuple[float, ...]
    blades: int
    blocked_rad: float
    margin_rad: float = 0.0
    delay_s: float = 0.0
    natural_rate_per_s: float | None = None
    action: Action = "interrupter"
    impulses_per_rev: int = 0
    powerplant: str = ""

    @property
    def rpm(self) -> tuple[float, ...]:
        """The speeds as they were written, in rpm."""
        return tuple(neat(spin * 30.0 / math.pi) for spin in self.spin_rad_s)

    @property
    def gun_rounds_per_min(self) -> float:
        """The gun's own rate as it was written, in rounds a minute; 0 where it is not known."""
        return neat((self.natural_rate_per_s or 0.0) * 60.0)

    @property
    def shut_deg(self) -> float:
        """Blocked arc of one blade with both margins as it was written, in degrees."""
        return neat(math.degrees(self.blocked_rad + 2.0 * self.margin_rad))

    @property
    def openings(self) -> int:
        """Windows used in a turn of the propeller."""
        return self.impulses_per_rev or self.blades

    def share(self) -> tuple[float, float]:
        """Return the shut part of one interval from opening to opening, and that interval, both in one small unit.

        Whole degrees give whole numbers, which is what makes the rate exact.
        """
        whole = 360.0 * self.blades
        return whole - self.openings * (360.0 - self.blades * self.shut_deg), whole


def neat(value: float) -> float:
    """Return the number without the rounding that a unit's factor left: 1200 rpm come back as 1200, not 1200.0…02."""
    return float(f"{value:.15g}")


def gun_of(scenario: Scenario) -> GunTable:
    """Return the table of the gun.

    Raises
    ------
    InputError
        When the scenario has none.
    """
    if scenario.gun is None:
        refuse("gun", "is missing; give the table gun with the line of fire, as in the bundled scenario")
    return scenario.gun


def setup_of(scenario: Scenario, powerplant: str, *, spin_rad_s: Sequence[float] = (), sweep: int = 0) -> Setup:
    """Return the gun line of a scenario through the propeller of one of its powerplants.

    Without speeds given: idle, cruise and full, or `sweep` even steps from idle to full.
    """
    engine, gun = scenario.powerplant[powerplant], gun_of(scenario)
    return Setup(
        spin_rad_s=tuple(spin_rad_s) or _speeds(engine, sweep),
        blades=engine.propeller.blades,
        blocked_rad=_blocked_rad(engine, gun),
        margin_rad=gun.margin_rad,
        delay_s=gun.link_delay_s + gun.lock_time_s + gun.barrel_time_s + gun.muzzle_to_disc_m / gun.muzzle_speed_m_s,
        natural_rate_per_s=gun.natural_rate_per_s,
        action=gun.action,
        impulses_per_rev=gun.impulses_per_rev,
        powerplant=powerplant,
    )


def _speeds(engine: AnyPowerplant, sweep: int) -> tuple[float, ...]:
    ratio = abs(engine.gear_ratio)
    idle, cruise, full = (
        speed * ratio for speed in (engine.idle_speed_rad_s, engine.cruise_speed_rad_s, engine.speed_rad_s)
    )
    return tuple(idle + (full - idle) * step / sweep for step in range(sweep + 1)) if sweep else (idle, cruise, full)


@dataclass(frozen=True, slots=True)
class BladeAtBore:
    """The blade where the bore line crosses the disc.

    Attributes
    ----------
    bore_radius_m : float
        Of that place from the shaft axis. [m]
    blade_chord_m, blade_thickness_m : float
        [m]
    helix_rad, flex_rad : float
        From the plane of the disc; and how far the blade may bend out of its place, to each side. [rad]
    """

    bore_radius_m: float
    blade_chord_m: float
    blade_thickness_m: float
    helix_rad: float
    flex_rad: float


def blade_at_bore(engine: AnyPowerplant, gun: GunTable) -> BladeAtBore:
    """Return the blade at the bore line: what the propeller says of it before what the gun does."""
    propeller = engine.propeller
    radius_m = bore_line(gun.bore_radius_m, gun.offset_m, gun.muzzle_to_disc_m, gun.converge_m).radius_m
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
    )


def _blocked_rad(engine: AnyPowerplant, gun: GunTable) -> float:
    """Return the arc one blade blocks at the bore line, its bending to both sides in it."""
    blade = blade_at_bore(engine, gun)
    width_m = projected_width_m(blade.blade_chord_m, blade.blade_thickness_m, blade.helix_rad)
    blocked = blocked_arc_rad(width_m, gun.bullet_diameter_m, blade.bore_radius_m)
    return min(blocked + 2.0 * blade.flex_rad, math.tau)
