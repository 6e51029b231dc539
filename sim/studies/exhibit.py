"""An inert interrupter display: the smallest cam that shows the firing windows, its spring, drive, guard and parts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import InputError
from sim.exhibit.cam_checks import cam_checks
from sim.exhibit.evaluation import CamNumbers, driven, evaluate
from sim.exhibit.inert import CHECKLIST, refused_values
from sim.exhibit.loads import push, torque
from sim.exhibit.outline import path_at
from sim.exhibit.parts import cam_part, follower_at, follower_part, schedule_of
from sim.exhibit.plates import base_plate, lead_plate
from sim.exhibit.safety_checks import safety_checks
from sim.exhibit.schedule import lift_share
from sim.exhibit.search import Found, smallest
from sim.exhibit.shapes import CHORD_ERROR_M
from sim.exhibit.spring import Spring, choose

if TYPE_CHECKING:
    from sim.exhibit.cam import FloatArray
    from sim.exhibit.checks import Check
    from sim.exhibit.display import Display
    from sim.exhibit.drive import Drive
    from sim.exhibit.shapes import Part

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
class ExhibitSheet:
    """The answer as it is printed for programs; `inert` is always true."""

    cam: CamSheet
    spring: SpringSheet
    drive: DriveSheet
    checks: tuple[CheckLine, ...]
    inert: bool


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn of the propeller at hand speed, the lead plate at no lead.

    Attributes
    ----------
    propeller_deg : array
        Propeller angle, 0 with blade 1 on the bore line. [°]
    lift_mm : array
        Lift of the roller. [mm]
    pressure_deg : array
        Pressure angle, signed. [°]
    torque_n_m : array
        Torque at crank or motor, friction included. [N m]
    """

    propeller_deg: FloatArray
    lift_mm: FloatArray
    pressure_deg: FloatArray
    torque_n_m: FloatArray


@dataclass(frozen=True, slots=True)
class Exhibit:
    """Everything about a display: the sheet, and what drawings and cutting files are made from.

    Attributes
    ----------
    sheet : ExhibitSheet
        For programs.
    display : Display
        What was fixed.
    found : Found
        The cam, and the checks that bind it.
    numbers : CamNumbers
        Its figures of merit.
    spring : Spring
        As ordered and as worked.
    drive : Drive
        What hand or motor gives.
    checks : tuple of Check
        With margins.
    parts : tuple of Part
        Cam, follower, lead plate and base.
    turn : Turn
        One turn of the propeller.
    follower_at : tuple of float
        Where the follower's origin is while it is down, x and y, and how far it is turned. [m], [rad]
    checklist : tuple of str
        What the builder signs.
    chord_error_m : float
        No cut strays farther than this from the true curve. [m]
    """

    sheet: ExhibitSheet
    display: Display
    found: Found
    numbers: CamNumbers
    spring: Spring
    drive: Drive
    checks: tuple[Check, ...]
    parts: tuple[Part, ...]
    turn: Turn
    follower_at: tuple[float, float, float]
    checklist: tuple[str, ...] = CHECKLIST
    chord_error_m: float = CHORD_ERROR_M

    @property
    def failures(self) -> tuple[Check, ...]:
        """The checks that fail."""
        return tuple(check for check in self.checks if not check.passes)


def exhibit(display: Display) -> Exhibit:
    """Return the smallest display that shows the windows and passes every check it can.

    Parameters
    ----------
    display : Display
        What the builder fixes.

    Raises
    ------
    InputError
        When a value is beyond what an inert display needs.

    Notes
    -----
    A failed check is part of the answer, with its cure; files to cut are not written until none fails.
    """
    refused = refused_values(display)
    if refused:
        raise InputError(refused)
    spring = choose(display.spring)
    found = smallest(display, spring)
    size = {"rise_rad": np.asarray(found.rise_rad), "base_radius_m": np.asarray(found.base_radius_m)}
    numbers = evaluate(display, spring, found.law, **size)
    work = driven(display, spring, float(numbers.cam_torque_n_m))
    shape = cam_checks(display, spring, found.law, rise_rad=found.rise_rad, base_radius_m=found.base_radius_m)
    checks = shape + safety_checks(display, spring)
    return Exhibit(
        sheet=_sheet(display, found, (numbers, spring, work), checks),
        display=display,
        found=found,
        numbers=numbers,
        spring=spring,
        drive=work,
        checks=checks,
        parts=(cam_part(display, found), follower_part(display), lead_plate(display, found), base_plate(display)),
        turn=_turn(display, found, spring),
        follower_at=follower_at(display, found),
    )


def _sheet(
    display: Display, found: Found, sized: tuple[CamNumbers, Spring, Drive], checks: tuple[Check, ...]
) -> ExhibitSheet:
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


def _turn(display: Display, found: Found, spring: Spring) -> Turn:
    schedule, lift_m = schedule_of(display, found), display.cam.lift_m
    propeller = np.linspace(0.0, 2.0 * np.pi, 1441)
    cam = propeller * display.cam_ratio
    lift, slope, bend = (lift_m * part for part in lift_share(schedule, cam))
    force = push(
        preload_n=spring.preload_n,
        rate_n_per_m=spring.rate_n_per_m,
        mass_kg=display.follower_kg,
        cam_rad_s=0.0,
        lift_m=lift,
        bend_m=bend,
    )
    path = path_at(schedule, display.follower, cam, lift_m=lift_m, base_radius_m=found.base_radius_m)
    shaft = display.handle.friction_torque_n_m + display.cam_ratio * torque(force, slope)
    return Turn(np.degrees(propeller), lift * 1e3, np.degrees(path.pressure_angle_rad), shaft * display.handle.gear)


def _mm(length_m: float) -> float:
    return _neat(length_m * 1e3)


def _neat(value: float) -> float:
    """Return the number without the rounding that a unit's factor left."""
    return float(f"{value:.12g}")
