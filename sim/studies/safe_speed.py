"""What the rounds of a cam that is cut once do at one propeller speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.studies.safe_range_answer import SpeedRow
from sim.synchronizer.gun_line import neat
from sim.synchronizer.safe_range import clearance_rad
from sim.told import told
from sim.units.text import brief, fixed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.synchronizer.safe_range import CamWindow


CLEARS = "At {speed}, {lead} of lead: every round within the scatter clears blade and margin by {clear} or more."
AMONG = (
    "of {faulty} of the {count} places of its windows among the blades pass within the margin of a blade",
    "of {faulty} of the {count} places of its windows among the blades strike a blade",
)
TOO_LONG = (
    (
        "of this cam pass within the margin of a blade: window and scatter together span {swept}, more than the clear "
        "arc between two blades"
    ),
    "of this cam strike a blade: window and scatter together span {swept}, more than the clear arc between two blades",
)
ILL_TIMED = (
    "of this cam pass within the margin of a blade: with {lead} of lead a blade is near the line when they arrive",
    "of this cam strike a blade: with {lead} of lead a blade is in line when they arrive",
)
"""Whether they strike."""


def speed_row(windows: Sequence[tuple[CamWindow, float]], spin_rad_s: float, turns_per_min: float) -> SpeedRow:
    """Return lead and clearance at a speed, in numbers and in words.

    Parameters
    ----------
    windows : sequence of (CamWindow, float)
        Each window of the cam with the angle at which it opens. [rad]
    spin_rad_s, turns_per_min : float
        The speed of the propeller, above 0, in either unit. [rad/s, rpm]
    """
    cam = windows[0][0]
    clear_deg = neat(round(math.degrees(min(clearance_rad(*window, spin_rad_s) for window in windows)), 9)) + 0.0
    lead_deg = math.degrees(cam.line.lead_rad(spin_rad_s))
    speed, lead = brief("rpm", turns_per_min, digits=6), fixed("lead_deg", lead_deg, "si", 0)
    if clear_deg >= 0.0:
        clear = fixed("clearance_deg", clear_deg, "si", 1)
        says = told(CLEARS, speed=speed, lead=lead, clear=clear)
        return SpeedRow(turns_per_min, lead_deg, clear_deg, strikes=False, says=says)
    strikes = clear_deg < -math.degrees(cam.line.margin_rad)
    says = told("At {speed} some rounds {which}.", speed=speed, which=_faulty(windows, spin_rad_s, strikes=strikes))
    return SpeedRow(turns_per_min, lead_deg, clear_deg, strikes, says)


def _faulty(windows: Sequence[tuple[CamWindow, float]], spin_rad_s: float, *, strikes: bool) -> str:
    """Return which rounds meet a blade or its margin, and why."""
    cam = windows[0][0]
    if len(windows) > 1:
        faulty = sum(clearance_rad(*window, spin_rad_s) < 0.0 for window in windows)
        return told(AMONG[strikes], faulty=faulty, count=len(windows))
    least_rad, most_rad = cam.leads_rad(spin_rad_s)
    swept_deg = math.degrees(cam.dwell_rad + most_rad - least_rad)
    if swept_deg > cam.line.clear_deg:
        swept = fixed("open_deg", swept_deg, "si", 0)
        return told(TOO_LONG[strikes], swept=swept)
    lead = fixed("lead_deg", math.degrees(cam.line.lead_rad(spin_rad_s)), "si", 0)
    return told(ILL_TIMED[strikes], lead=lead)
