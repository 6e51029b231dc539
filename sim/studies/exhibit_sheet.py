"""The answer of `exhibit` as it is printed for programs: names and units of the JSON."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.exhibit.checks import Check
    from sim.exhibit.display import Display
    from sim.exhibit.drive import Drive
    from sim.exhibit.evaluation import CamNumbers
    from sim.exhibit.search import Found
    from sim.exhibit.spring import Spring

_PER_RPM = math.pi / 30.0


@dataclass(frozen=True, slots=True)
class CamSheet:
    """The cam as it is cut.

    Attributes
    ----------
    law : str
        Law of motion.
    lobes : int
        Number of lobes.
    base_radius_mm, lift_mm : float
        Radius with the follower down, and lift of the roller. [mm]
    rise_deg, dwell_deg : float
        Cam angle of a rise, and at full lift. [°]
    pressure_angle_deg : float
        Largest of a turn. [°]
    min_radius_mm : float
        Smallest radius of curvature of the pitch curve. [mm]
    contact_stress_mpa : float
        Largest between roller and cam. [MPa]
    float_speed_rpm : float
        Cam speed above which the roller leaves the cam. [rpm]
    """

    law: str
    lobes: int
    base_radius_mm: float
    lift_mm: float
    rise_deg: float
    dwell_deg: float
    pressure_angle_deg: float
    min_radius_mm: float
    contact_stress_mpa: float
    float_speed_rpm: float


@dataclass(frozen=True, slots=True)
class SpringSheet:
    """The spring as it is ordered.

    Attributes
    ----------
    wire_mm, coil_mm : float
        Wire diameter and mean coil diameter. [mm]
    active_coils : float
        Coils that twist; two closed ends come on top.
    rate_n_mm : float
        Rate. [N/mm]
    preload_n : float
        Force with the follower down. [N]
    stress_mpa : float
        Largest shear stress. [MPa]
    energy_j : float
        Energy held at full lift. [J]
    """

    wire_mm: float
    coil_mm: float
    active_coils: float
    rate_n_mm: float
    preload_n: float
    stress_mpa: float
    energy_j: float


@dataclass(frozen=True, slots=True)
class DriveSheet:
    """What hand or motor gives, and what the propeller holds.

    Attributes
    ----------
    crank_force_n : float
        Largest at the grip. [N]
    torque_n_m : float
        Largest at crank or motor. [N m]
    tip_speed_m_s, kinetic_energy_j : float
        Of the propeller at top speed. [m/s], [J]
    """

    crank_force_n: float
    torque_n_m: float
    tip_speed_m_s: float
    kinetic_energy_j: float


@dataclass(frozen=True, slots=True)
class CheckLine:
    """One check.

    Attributes
    ----------
    name, unit : str
        What is checked, and the unit it is printed in.
    value, limit : float
        What it is, and what it may be.
    passes : bool
        Whether the limit is kept.
    source : str
        Where the limit comes from.
    cure : str
        For a failure, the nearest change that would pass; empty otherwise.
    """

    name: str
    value: float
    limit: float
    unit: str
    passes: bool
    source: str
    cure: str


@dataclass(frozen=True, slots=True)
class ExhibitSheet(Answer):
    """The answer as it is printed for programs; `inert` is always true."""

    main: ClassVar[str] = "checks"

    cam: CamSheet
    spring: SpringSheet
    drive: DriveSheet
    checks: tuple[CheckLine, ...]
    inert: bool


def exhibit_sheet(
    display: Display, found: Found, sized: tuple[CamNumbers, Spring, Drive], checks: tuple[Check, ...]
) -> ExhibitSheet:
    """Return the sheet of a sized display.

    Parameters
    ----------
    display, found : Display, Found
        What was fixed, and the cam that was found.
    sized : tuple
        The cam's figures of merit, the spring and the drive.
    checks : tuple of Check
        Every check.
    """
    numbers, spring, work = sized
    cam = CamSheet(
        law=found.law,
        lobes=display.cam.lobes,
        base_radius_mm=_mm(found.base_radius_m),
        lift_mm=_mm(display.cam.lift_m),
        rise_deg=_neat(math.degrees(found.rise_rad)),
        dwell_deg=_neat(math.degrees(float(numbers.high_dwell_rad))),
        pressure_angle_deg=math.degrees(float(numbers.pressure_angle_rad)),
        min_radius_mm=_mm(float(numbers.pitch_radius_m)),
        contact_stress_mpa=float(numbers.contact_stress_pa) / 1e6,
        float_speed_rpm=float(numbers.float_rad_s) / _PER_RPM,
    )
    ordered = SpringSheet(
        wire_mm=_mm(spring.wire_m),
        coil_mm=_mm(spring.coil_m),
        active_coils=spring.active_coils,
        rate_n_mm=spring.rate_n_per_m / 1e3,
        preload_n=spring.preload_n,
        stress_mpa=spring.stress_pa / 1e6,
        energy_j=spring.energy_j,
    )
    given = DriveSheet(work.crank_force_n, work.torque_n_m, work.tip_speed_m_s, work.kinetic_energy_j)
    lines = (CheckLine(c.name, c.value, c.limit, c.unit, c.passes, c.source, c.cure) for c in checks)
    return ExhibitSheet(cam, ordered, given, tuple(lines), inert=True)


def _mm(length_m: float) -> float:
    return _neat(length_m * 1e3)


def _neat(value: float) -> float:
    """Return the number without the rounding that a unit's factor left."""
    return float(f"{value:.12g}")
