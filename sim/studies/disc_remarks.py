"""What is to be known of an answer about a test disc: what was not tested and why, and what the ± rest on."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.synchronizer.disc_guesses import LEAST_REPEATS, LEAST_SPEEDS
from sim.synchronizer.leak import TIGHT
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.synchronizer.disc_causes import StatedLine
    from sim.synchronizer.disc_fit import DiscFit
    from sim.synchronizer.disc_marks import DiscMarks
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.leak import Leak


@dataclass(frozen=True, slots=True)
class Stated:
    """What cam and delay are said to be, what is drawn of the propeller, and what leaks of its link."""

    line: StatedLine
    openings: int = 1
    gun: GunLine | None = None
    leak: Leak = TIGHT


def disc_remarks(marks: DiscMarks, fit: DiscFit, stated: Stated, reading_deg: float) -> Iterator[str]:
    """Yield what was not tested and why, and what the ± rest on."""
    several = int(marks.speeds.max()) + 1
    if stated.leak.counts:
        yield _taken_off(marks, stated.leak)
    if several < 2:
        yield (
            "All marks are at one speed: delay and cam error cannot be told apart, nor kinds of scatter; mark the disc "
            "at one more speed at least, far from this one."
        )
        yield from _one_speed(marks, fit, stated.line)
        return
    if fit.scatters and math.degrees(fit.scatter_rad) < reading_deg:
        yield (
            "The scatter is no larger than that of reading the angles: it tells little of gear and ammunition; read "
            "them closer."
        )
    if not fit.scatters:
        yield "All marks lie on one line: no scatter tells of a cause, and the ± are those of reading the angles."
    if several < LEAST_SPEEDS or len(marks.spin_rad_s) < LEAST_REPEATS * several:
        yield (
            f"Errors of the speed reading are not tested: that needs {LEAST_SPEEDS} speeds or more, with two marks or "
            "more at each."
        )
    if stated.line.delay_s is None:
        yield (
            "Whether the slope is right is not tested: a speed that is read wrong by a factor changes the delay by "
            "that factor, which only a stated delay shows."
        )
    if stated.line.opens_rad is None:
        yield (
            "No opening of the cam is stated: the cam error is the whole angle at which rounds of no delay would pass."
        )
    if stated.gun and stated.gun.cam and not stated.gun.cam.is_even:
        yield (
            "The windows of the scenario's cam are uneven, so that each makes a line of its own: give the marks of its "
            "first window alone."
        )
    if stated.gun and stated.gun.cam is None:
        yield (
            "The scenario cuts no cam: the ideal one, fitted to each speed, has no angle of its own to compare with."
        )


def _taken_off(marks: DiscMarks, leak: Leak) -> str:
    """Return what of each mark is the leak's, and not of the line."""
    ends = (float(marks.spin_rad_s.min()), float(marks.spin_rad_s.max()))
    most, least = (fixed("leak_deg", math.degrees(leak.extra_rad(spin)), "si", 1) for spin in ends)
    return (
        f"The leak of the oil, as the scenario has it, is taken off each mark: {most} at the lowest speed, {least} at "
        "the highest; its own error is not in the ±."
    )


def _one_speed(marks: DiscMarks, fit: DiscFit, line: StatedLine) -> Iterator[str]:
    """Yield what marks at one speed tell where one of cam and delay is known."""
    spin_rad_s, mean_rad, error_rad = marks.spin_rad_s[0], fit.values[0], fit.half_widths[0]
    if line.opens_rad is not None:
        delay_s = (mean_rad - line.opens_rad) % marks.period_rad / spin_rad_s
        found = _both("delay_s", delay_s, error_rad / spin_rad_s, 2)
        yield f"If the cam opens where stated, the delay is {found}."
    if line.delay_s is not None:
        opens_deg = math.degrees((mean_rad - line.delay_s * spin_rad_s) % marks.period_rad)
        found = _both(
            "opens_deg", opens_deg, math.degrees(math.hypot(error_rad, 1.96 * line.delay_sd_s * spin_rad_s)), 1
        )
        yield f"If the delay is as stated, the cam opens at {found}."


def _both(name: str, value: float, error: float, decimals: int) -> str:
    """Return a value and half its interval, whose unit is that of either system."""
    return f"{fixed(name, value, 'si', decimals)} ± {fixed(name, error, 'si', decimals)}"
