"""The marks of single rounds on a disc that turned with the propeller, read backwards to delay, scatter and cam."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError, whole_faults
from sim.studies.disc_answer import DiscAnswer, DiscLine, MarkRow
from sim.studies.disc_remarks import Stated, disc_remarks
from sim.synchronizer.disc_causes import LIKELY, StatedLine, causes
from sim.synchronizer.disc_fit import disc_fit
from sim.synchronizer.disc_marks import DiscMarks, wrapped
from sim.synchronizer.gun_line import neat
from sim.synchronizer.leak import TIGHT
from sim.units.convert import ms, rpm
from sim.units.parsing import Measured

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from sim.model.model import Model
    from sim.synchronizer.disc_fit import DiscFit
    from sim.synchronizer.gun_line import GunLine

LEAST_MARKS = 3
MOST_MARKS = 500
LONGEST_S = 0.03
"""Longest delay that is tried where nothing is said: that of a gun, with half again."""
READING_DEG = 0.5
"""Standard deviation of an angle read off a disc with a protractor; common practice, no source."""
POINTS = 22
NEARBY, ABOVE = 0.9, 1.01
"""Speed from which the line of a link that leaks is drawn, over the lowest marked, and over that of no trip."""


def disc(
    model: Model | None = None,
    *,
    spin_rad_s: Sequence[float],
    angle_deg: Sequence[float],
    powerplant: str | None = None,
    openings: float | None = None,
    stated_opens_deg: float | None = None,
    stated_delay_s: Measured | float | None = None,
    reading_deg: float = READING_DEG,
    longest_delay_s: float = LONGEST_S,
) -> DiscAnswer:
    """Return delay, scatter and cam error that marks on a disc tell, and the causes they speak for.

    Parameters
    ----------
    model : Model or None
        An airplane whose cam and delay are stated; None for marks alone.
    spin_rad_s : sequence of float
        Propeller speed at each mark, above 0. [rad/s]
    angle_deg : sequence of float
        Propeller angle at passage: on the disc, from the line of blade 1 against the direction of rotation. [°]
    powerplant : str or None
        Powerplant of the model; None for its first.
    openings : int or None
        Openings of the cam in a turn, if any of them may have let a round go; None for those of the model, or 1.
    stated_opens_deg : float or None
        Stated propeller angle at which the cam opens, 0 with blade 1 on the bore line, in place of the model's. [°]
    stated_delay_s : Measured or float or None
        Stated delay from cam to passage, in place of the model's; with its standard deviation. [s]
    reading_deg : float
        Standard deviation of reading an angle off the disc. [°]
    longest_delay_s : float
        Longest delay that is tried. [s]

    Raises
    ------
    InputError
        Fewer than three marks, speeds not above 0, lists of unequal length, all at once.
    NoAnswerError
        Where the laps between speeds cannot be counted; marks at a speed at which the model's link never trips.

    Notes
    -----
    angle = opening + speed · delay, by generalised least squares, mixed over what may scatter the marks (a time, an
    angle, errors of a speed) and over which of them hung fire or were misread. Each round must be let go as the cam
    opens: the trigger is held before. What leaks of the oil column of a model bends the line; it is taken off each mark
    at its own speed, as the model has it.

    Examples
    --------
    >>> from math import pi
    >>> spins = [pi * speed / 30.0 for speed in (600, 800, 1000, 1200)]
    >>> found = disc(spin_rad_s=spins, angle_deg=[41.0, 49.0, 57.0, 65.0])
    >>> round(found.delay_ms, 3), round(found.cam_error_deg, 3)
    (6.667, 17.0)
    """
    faults = list(_faults(spin_rad_s, angle_deg, openings))
    if faults:
        raise InputError(faults)
    stated = _stated(model, powerplant, openings, (stated_opens_deg, stated_delay_s))
    leaked_rad = stated.leak.extra_rad(np.array(spin_rad_s))
    marks = DiscMarks(np.array(spin_rad_s), np.radians(angle_deg) - leaked_rad, math.tau / stated.openings)
    fit = disc_fit(marks, longest_delay_s, math.radians(reading_deg))
    several = len(set(spin_rad_s))
    found = causes(
        fit, stated.line, speeds=several, period_rad=marks.period_rad, reading_sd_rad=math.radians(reading_deg)
    )
    values = _values(fit, stated, marks.period_rad) if several > 1 else dict.fromkeys(_VALUES)
    scatter_s = fit.scatter_rad / fit.middle_rad_s
    return DiscAnswer(
        **values,
        scatter_ms=ms(scatter_s),
        scatter_error_ms=ms(fit.scatter_error_rad / fit.middle_rad_s),
        scatter_deg=math.degrees(fit.scatter_rad),
        scatter_rpm=neat(rpm(fit.middle_rad_s)),
        stated_opens_deg=None if stated.line.opens_rad is None else _turn(stated.line.opens_rad),
        stated_delay_ms=None if stated.line.delay_s is None else ms(stated.line.delay_s),
        openings=stated.openings,
        causes=tuple(cause for cause in found if cause.probability >= LIKELY),
        candidates=found,
        marks=tuple(_rows(marks, fit, leaked_rad)),
        remarks=tuple(disc_remarks(marks, fit, stated, reading_deg)),
        powerplant=stated.gun.powerplant if stated.gun else "",
        fitted=_fitted(marks, fit, stated) if several > 1 else None,
        rotation=stated.gun.rotation if stated.gun else "",
        blades=stated.gun.blades if stated.gun else 0,
        blocked_deg=math.degrees(stated.gun.blocked_rad) if stated.gun else 0.0,
    )


_VALUES = ("delay_ms", "delay_error_ms", "cam_error_deg", "cam_error_error_deg", "delay_difference_ms")


def _values(fit: DiscFit, stated: Stated, period_rad: float) -> dict[str, float | None]:
    """Return delay and cam error with their ±, and how far the delay is from the stated one."""
    opens_rad, delay_s = fit.values
    opens_error_rad, delay_error_s = fit.half_widths
    cam_error_rad = wrapped(np.array([opens_rad - (stated.line.opens_rad or 0.0)]), period_rad)[0]
    told = stated.line.delay_s
    found = (
        ms(delay_s),
        ms(delay_error_s),
        math.degrees(cam_error_rad),
        math.degrees(opens_error_rad),
        None if told is None else ms(delay_s - told),
    )
    return {name: None if value is None else float(value) for name, value in zip(_VALUES, found, strict=True)}


def _faults(spin_rad_s: Sequence[float], angle_deg: Sequence[float], openings: float | None) -> Iterator[Fault]:
    """Yield what is wrong with the marks taken together."""
    yield from whole_faults({"openings": openings})
    if len(spin_rad_s) != len(angle_deg):
        yield Fault("angle_deg", f"must be as many as the speeds, {len(spin_rad_s)}, got {len(angle_deg)}")
    if any(not (math.isfinite(spin) and spin > 0.0) for spin in spin_rad_s):
        yield Fault("spin_rad_s", "must be above 0 at every mark")
    if any(not math.isfinite(angle) for angle in angle_deg):
        yield Fault("angle_deg", "must be a finite number at every mark")
    if not LEAST_MARKS <= len(spin_rad_s) <= MOST_MARKS:
        allowed = f"must be {LEAST_MARKS} to {MOST_MARKS} marks, so that a line and what scatters about it can be told"
        yield Fault("marks", f"{allowed}, got {len(spin_rad_s)}")


def _stated(
    model: Model | None,
    powerplant: str | None,
    openings: float | None,
    given: tuple[float | None, Measured | float | None],
) -> Stated:
    """Return what options and model state; options go first."""
    gun = model.gun_line(powerplant) if model else None
    opens_deg, delay_s = given
    cam = gun.cam if gun else None
    opens_rad = cam.windows[0].opens_rad if cam and cam.windows else None
    delay = delay_s if isinstance(delay_s, Measured) else None if delay_s is None else Measured(delay_s)
    leak = gun.leak if delay is None and gun else TIGHT
    if delay is None and gun:
        delay = Measured(gun.delay_s)
        if opens_rad is not None:
            opens_rad += gun.delay_rad
    line = StatedLine(
        opens_rad if opens_deg is None else math.radians(opens_deg),
        delay.value if delay else None,
        delay.tolerance if delay else 0.0,
    )
    return Stated(line, int(openings or (_alike(gun) if gun else 1)), gun, leak)


def _alike(gun: GunLine) -> int:
    """Return the angles on the disc at which rounds of an even cam may pass alike; 1 for an uneven one."""
    return Fraction(gun.openings).numerator if gun.cam is None or gun.cam.is_even else 1


def _turn(angle_rad: float) -> float:
    """Return an angle in [0, 360), without the rounding error of its conversion."""
    return round(math.degrees(angle_rad), 9) % 360.0


def _rows(marks: DiscMarks, fit: DiscFit, leaked_rad: NDArray[np.float64]) -> Iterator[MarkRow]:
    """Yield the marks as they are on the disc, beside the line with what leaks put back to it."""
    line_rad = np.vander(marks.spin_rad_s, len(fit.values), increasing=True) @ fit.values
    off_rad, angle_rad = fit.angle_rad - line_rad, marks.angle_rad + leaked_rad
    line_rad += leaked_rad
    for place, (spin, angle, line, off) in enumerate(zip(marks.spin_rad_s, angle_rad, line_rad, off_rad, strict=True)):
        odd = fit.probability(lambda guess, place=place: float(place in guess.odd))  # type: ignore[misc]
        yield MarkRow(
            rpm=neat(rpm(float(spin))),
            angle_deg=_turn(angle),
            line_deg=_turn(line),
            lapped_deg=math.degrees(line + off),
            off_deg=math.degrees(off),
            off_ms=ms(float(off / spin)),
            odd_probability=odd,
        )


def _fitted(marks: DiscMarks, fit: DiscFit, told: Stated) -> DiscLine:
    """Return the line from standstill to the highest speed, its band, the scatter of marks about it, and the stated.

    Where the link leaks, from a little below the lowest speed that was marked: further down the gun may never trip.
    """
    stated, leak = told.line, told.leak
    lowest = max(NEARBY * float(marks.spin_rad_s.min()), ABOVE * leak.leak_speed_rad_s) if leak.counts else 0.0
    spins = np.linspace(lowest, 1.05 * float(marks.spin_rad_s.max()), POINTS)
    line_rad, error_rad = fit.band_rad(spins)
    leaked_rad = leak.extra_rad(spins)
    relative = spins / fit.middle_rad_s
    time_share = fit.probability(lambda guess: guess.time_share)
    scatter_rad = fit.scatter_rad * np.sqrt(time_share * relative**2 + 1.0 - time_share)
    stated_deg: tuple[float, ...] = ()
    if stated.opens_rad is not None and stated.delay_s is not None:
        opens_rad = fit.values[0] - wrapped(fit.values[:1] - stated.opens_rad, marks.period_rad)[0]
        stated_deg = tuple(np.degrees(opens_rad + stated.delay_s * spins + leaked_rad).tolist())
    parts = (line_rad + leaked_rad, error_rad, scatter_rad)
    line_deg, error_deg, scatter_deg = (np.degrees(part).tolist() for part in parts)
    return DiscLine(
        rpm=tuple(rpm(spins).tolist()),
        line_deg=tuple(line_deg),
        line_error_deg=tuple(error_deg),
        scatter_deg=tuple(scatter_deg),
        stated_deg=stated_deg,
    )
