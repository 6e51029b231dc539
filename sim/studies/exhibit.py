"""An inert interrupter display: the smallest cam that shows the firing windows, its spring, drive, guard and parts."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cache
from math import degrees
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import ASIDE, Answer
from sim.display.assembly.fit_checks import fit_checks
from sim.display.assembly.follower_mass import follower_mass
from sim.display.assembly.places import crank_ratio
from sim.display.assembly.put_together import put_together
from sim.display.cam_checks import cam_checks
from sim.display.checks import check
from sim.display.evaluation import CamProperties, driven, evaluate
from sim.display.hand_speed import WorstHand
from sim.display.inert import refused_values
from sim.display.safety_checks import hand_checks, safety_checks
from sim.display.search import FoundCam, smallest_cam
from sim.display.spring import Spring, choose
from sim.display.worst_hand import worst_hand
from sim.errors import InputError, NoAnswerError, refuse
from sim.studies.cam_answer import CamUsed, cam_used
from sim.synchronizer.windows import release_windows
from sim.units.convert import rpm
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.display.checks import Check
    from sim.display.display import Display
    from sim.display.drive import Drive
    from sim.display.revolution import Revolution
    from sim.display.search import Progress
    from sim.display.shapes import FlatPart
    from sim.model.display_model import DisplayModel
    from sim.model.model import Model
    from sim.synchronizer.gun_line import GunLine


OUT_OF_REACH = 0.25
"""Error of the belt's ratio that only one below or above all of those sold has: between them none is missed so far."""


@dataclass(frozen=True, slots=True)
class ExhibitCam:
    """The cam of the display.

    Attributes
    ----------
    law : str
        Law of motion.
    lobes : int
        Number of lobes.
    base_radius_m, lift_m : float
        Radius with the follower down, and lift of the roller. [m]
    rise_deg, dwell_deg, low_dwell_deg : float
        Cam angle of a rise, at full lift, and on the base circle. [°]
    pressure_angle_deg : float
        Largest of a turn. [°]
    min_radius_m : float
        Smallest radius of curvature of the pitch curve. [m]
    contact_stress_pa : float
        Largest between roller and cam. [Pa]
    float_speed_rpm : float
        Cam speed above which the roller leaves the cam. [rpm]
    roller_speed_rpm : float
        Largest speed of the roller about its pin. [rpm]
    """

    law: str
    lobes: int
    base_radius_m: float
    lift_m: float
    rise_deg: float
    dwell_deg: float
    low_dwell_deg: float
    pressure_angle_deg: float
    min_radius_m: float
    contact_stress_pa: float
    float_speed_rpm: float
    roller_speed_rpm: float


@dataclass(frozen=True, slots=True)
class ShownTiming:
    """What the lamp shows: when the rounds of a gun line pass at one speed, in propeller angles.

    Attributes
    ----------
    powerplant : str
        Whose propeller.
    rpm : float
        Its full speed.
    lead_deg : float
        Turn of the propeller from cam to passage. [°]
    lamp_on_deg, lamp_off_deg : float
        Where the lamp is lit first in a turn, 0 with blade 1 on the bore line, the lead plate at no lead. [°]
    clearance_deg : float
        Angle by which the nearest of those rounds clears blade and margin; negative where one meets them. [°]
    impulses : bool
        Whether the cam gives impulses; the lamp is then lit as long before as after each, by the clearance.
    cam : CamUsed
        The cam of the gun line.
    """

    powerplant: str
    rpm: float
    lead_deg: float
    lamp_on_deg: float
    lamp_off_deg: float
    clearance_deg: float
    impulses: bool
    cam: CamUsed


@dataclass(frozen=True, slots=True)
class Exhibit(Answer):
    """A display, sized and checked.

    Attributes
    ----------
    shown : ShownTiming
        What its lamp shows.
    cam : ExhibitCam
        The cam.
    spring : Spring
        The spring, as ordered and under load.
    drive : Drive
        What hand or motor has to give.
    worst_hand : WorstHand
        What it does at the hardest hand.
    checks : tuple of Check
        Every limit, with what would correct a failure.
    inert : bool
        Always true.
    parts : tuple of Part
        Every part in its place, in the order of assembly.
    fasteners : tuple of Fastener
        Every screw in its place.
    assembly : Assembly or None
        The same, with what moves; None where an arm reaches no cam. Not in JSON.
    display : Display
        What the builder specified; not in JSON.
    found : FoundCam
        The result of the search, with the limits that exclude a smaller cam; not in JSON.
    """

    main: ClassVar[str] = "checks"

    shown: ShownTiming
    cam: ExhibitCam
    spring: Spring
    drive: Drive
    worst_hand: WorstHand
    checks: tuple[Check, ...]
    inert: bool
    parts: tuple[Part, ...]
    fasteners: tuple[Fastener, ...]
    assembly: Assembly | None = field(metadata=ASIDE)
    display: Display = field(metadata=ASIDE)
    found: FoundCam = field(metadata=ASIDE)

    @property
    def failures(self) -> tuple[Check, ...]:
        """The checks that fail."""
        return tuple(check for check in self.checks if not check.passes)

    def flat_parts(self) -> tuple[FlatPart, ...]:
        """Return the flat parts to cut: cam, follower, lead plate and base.

        Raises
        ------
        NoAnswerError
            When a check fails: nothing is cut for a display that fails one.
        """
        from sim.display.parts import cam_part, follower_part
        from sim.display.plates import base_plate, lead_plate

        if self.failures:
            failed = "; ".join(f"{check.name}: {check.cure}" for check in self.failures)
            message = f"nothing is written to cut from while a check fails ({failed})"
            raise NoAnswerError(message)
        display, found = self.display, self.found
        return cam_part(display, found), follower_part(display), lead_plate(display, found), base_plate(display, found)

    def revolution(self) -> Revolution:
        """Return one turn of the propeller at hand speed."""
        from sim.display.revolution import revolution

        return revolution(self.display, self.found, self.spring)


def exhibit(model: Model | DisplayModel, *, ideal: bool = False, progress: Progress = iter) -> Exhibit:
    """Return the smallest display that shows the firing windows of the cam and passes every check it can.

    Parameters
    ----------
    model : Model or DisplayModel
        The airplane whose firing windows are shown, and what the builder of the display specifies; or a display alone.
    ideal : bool
        Whether it shows the ideal cam, fitted to full speed and open for the whole clear arc, in place of the
        scenario's.
    progress : callable
        Returns an iterator over the base circles of the search, and may show how far it is.

    Raises
    ------
    InputError
        When a value is beyond what an inert display needs, or the gear ratio beyond that of any pulleys sold.
    NoAnswerError
        When the scenario has no display, its blades leave no firing window, or equal lobes and a lamp cannot show the
        windows of the cam.

    Notes
    -----
    A failed check is part of the answer, with its cure; files to cut are not written until none fails.
    """
    line, display = model.display_line(ideal=ideal), model.display(ideal=ideal)
    refused = refused_values(display)
    if refused:
        raise InputError(refused)
    _demand_pulleys(display)
    spring = choose(display.spring)
    display = replace(display, follower_kg=follower_mass(display, spring))
    built = cache(lambda cam: put_together(display, cam, spring))  # that of the smallest is asked for once more
    found = smallest_cam(display, spring, progress, lambda cam: built(cam).unfit)
    rise, base = found.rise_rad, found.base_radius_m
    properties = evaluate(display, spring, found.law, rise_rad=np.asarray(rise), base_radius_m=np.asarray(base))
    reached = bool(np.isfinite(properties.pressure_angle_rad))
    made = built(found) if reached else None
    checks = cam_checks(display, spring, found.law, rise_rad=rise, base_radius_m=base)
    worst = worst_hand(display, found, spring) if reached else WorstHand(math.nan, math.nan, math.nan, math.nan)
    fits = tuple(map(check, fit_checks(made.assembly, made.plan, made.met, made.lost))) if made else ()
    return Exhibit(
        shown=_shown(line, display),
        cam=_cam(display, found, properties),
        spring=spring,
        drive=driven(display, spring, float(properties.cam_torque_n_m)),
        worst_hand=worst,
        checks=(*checks, *safety_checks(display, spring), *hand_checks(display, worst), *fits),
        inert=True,
        parts=made.assembly.parts if made else (),
        fasteners=made.assembly.fasteners if made else (),
        assembly=made.assembly if made else None,
        display=display,
        found=found,
    )


def _demand_pulleys(display: Display) -> None:
    """Raise an error where the gear ratio lies beyond that of all pulleys: every speed told would be another's."""
    asked, sold = display.handle.gear, crank_ratio(display)
    if abs(sold / asked - 1.0) > OUT_OF_REACH:
        refuse("exhibit.gear_ratio", f"no two pulleys sold give {asked:g}; write a gear ratio of {brief('gear', sold)}")


def _shown(line: GunLine, display: Display) -> ShownTiming:
    (released,), window, used = release_windows(line), display.window, cam_used(line)
    return ShownTiming(
        powerplant=line.powerplant,
        rpm=line.rpm[0],
        lead_deg=_degrees(window.lead_rad),
        lamp_on_deg=_degrees(window.from_rad),
        lamp_off_deg=_degrees(window.to_rad),
        clearance_deg=round(degrees(min(each.clearance_rad for each in released.windows)), 9) + 0.0,
        impulses=used.dwell_deg == 0.0,
        cam=used,
    )


def _cam(display: Display, found: FoundCam, properties: CamProperties) -> ExhibitCam:
    return ExhibitCam(
        law=found.law,
        lobes=display.cam.lobes,
        base_radius_m=found.base_radius_m,
        lift_m=display.cam.lift_m,
        rise_deg=_degrees(found.rise_rad),
        dwell_deg=_degrees(float(properties.high_dwell_rad)),
        low_dwell_deg=_degrees(float(properties.low_dwell_rad)),
        pressure_angle_deg=degrees(float(properties.pressure_angle_rad)),
        min_radius_m=float(properties.pitch_radius_m),
        contact_stress_pa=float(properties.contact_stress_pa),
        float_speed_rpm=rpm(float(properties.float_rad_s)),
        roller_speed_rpm=rpm(float(properties.roller_rad_s)),
    )


def _degrees(angle_rad: float) -> float:
    """Return an angle in degrees without the rounding error of the conversion."""
    return float(f"{degrees(angle_rad):.12g}")
