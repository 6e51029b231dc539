"""An inert interrupter display: the smallest cam that shows the firing windows, its spring, drive, guard and parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import Answer
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
from sim.studies.exhibit_sheet import ExhibitSheet, exhibit_sheet

if TYPE_CHECKING:
    from sim.exhibit.cam import FloatArray
    from sim.exhibit.checks import Check
    from sim.exhibit.display import Display
    from sim.exhibit.drive import Drive
    from sim.exhibit.search import Progress
    from sim.exhibit.shapes import Part


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
class Exhibit(Answer):
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
        Cam, follower, lead plate and base; none while a check fails, for nothing is cut then.
    turn : Turn
        One turn of the propeller.
    follower_at : tuple of float
        Where the follower's origin is while it is down, x and y, and how far it is turned. [m], [rad]
    checklist : tuple of str
        What the builder signs.
    chord_error_m : float
        No cut strays farther than this from the true curve. [m]
    """

    main: ClassVar[str] = "checks"

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


def exhibit(display: Display, progress: Progress = iter) -> Exhibit:
    """Return the smallest display that shows the windows and passes every check it can.

    Parameters
    ----------
    display : Display
        What the builder fixes.
    progress : callable
        Hands the base circles of the search on one by one, and may show how far it is.

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
    found = smallest(display, spring, progress)
    size = {"rise_rad": np.asarray(found.rise_rad), "base_radius_m": np.asarray(found.base_radius_m)}
    numbers = evaluate(display, spring, found.law, **size)
    work = driven(display, spring, float(numbers.cam_torque_n_m))
    shape = cam_checks(display, spring, found.law, rise_rad=found.rise_rad, base_radius_m=found.base_radius_m)
    checks = shape + safety_checks(display, spring)
    passes = all(check.passes for check in checks)
    return Exhibit(
        sheet=exhibit_sheet(display, found, (numbers, spring, work), checks),
        display=display,
        found=found,
        numbers=numbers,
        spring=spring,
        drive=work,
        checks=checks,
        parts=_parts(display, found) if passes else (),
        turn=_turn(display, found, spring),
        follower_at=follower_at(display, found) if passes else (0.0, 0.0, 0.0),
    )


def _parts(display: Display, found: Found) -> tuple[Part, ...]:
    return cam_part(display, found), follower_part(display), lead_plate(display, found), base_plate(display, found)


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
