"""Rate of fire against propeller speed: a staircase of plateaus on which rounds and blades are in a fixed ratio."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from sim.errors import InputError, NoAnswerError, refuse, whole_faults
from sim.model.gun_options import GunOptions, gun_lines
from sim.studies.cam_answer import cams_used
from sim.studies.rate_answer import RateAnswer, RateMap, RatePoint, RateStep, Staircase
from sim.studies.windows import in_blade_intervals
from sim.synchronizer.gun_line import neat
from sim.synchronizer.plateaus import impulse_plateaus, interrupter_plateaus
from sim.synchronizer.rate import exact_windows, steady_rate
from sim.synchronizer.steady import steady_interval_s
from sim.synchronizer.timed_gun import Scatter, timed
from sim.synchronizer.uneven_plateaus import count_of_advances, uneven_plateaus
from sim.units.convert import ms, per_min, per_s

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.cam import Cam
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.plateaus import Plateau

SPEED_STEPS = 240
"""Steps from idle to full speed where no speeds are given."""
RATE_STEPS = 100
"""Steps of the gun's own rate in a map."""
MOST_PLATEAUS = 100_000
"""Largest number of plateaus listed."""
MOST_SCATTERED = 5000
"""Largest number of speeds at which the rate with scatter is computed: about a second."""


def rate(
    model: Model | None = None,
    *,
    powerplant: str | None = None,
    spin_rad_s: Sequence[float] = (),
    blades: float | None = None,
    blocked_deg: float | None = None,
    margin_deg: float | None = None,
    delay_s: float | None = None,
    natural_rate_per_s: float | None = None,
    action: Action | None = None,
    impulses_per_rev: float | None = None,
    dwell_deg: float | None = None,
    opens_deg: float | None = None,
    ideal: bool = False,
    longest: float = 12,
    cycle_sd_s: float | None = None,
    over_rates: bool = False,
) -> RateAnswer:
    """Return the staircase of the rate of fire behind each powerplant of a model, or of a gun line of options alone.

    Parameters
    ----------
    model : Model or None
        The airplane; None for a gun line of options alone, which then need speeds, blades, the blocked arc and the
        gun's own rate.
    powerplant, spin_rad_s, blades, blocked_deg, margin_deg, delay_s, natural_rate_per_s, action, impulses_per_rev
    dwell_deg, opens_deg, ideal
        As in `sim.model.gun_options.GunOptions`, in place of the model's; without speeds: from idle to full speed.
    longest : int
        Rounds of the longest pattern listed among the plateaus, 1 or more.
    cycle_sd_s : float or None
        Standard deviation of the gun's cycle, for the rate with scatter beside the exact one, 0 for none; None for
        the model's. [s]
    over_rates : bool
        Whether to map the rate over half to one and a half of the gun's own as well.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.
    NoAnswerError
        When no window is left between the blades, or the plateaus are too many to list.

    Examples
    --------
    >>> from math import pi
    >>> found = rate(
    ...     spin_rad_s=[30.0 * pi, 50.0 * pi], blades=2, blocked_deg=45.0, natural_rate_per_s=500.0 / 60.0, longest=1
    ... )
    >>> step = found.staircases[0].plateaus[0]
    >>> step.intervals_per_pattern, step.from_rpm, step.to_rpm
    (4, 937.5, 1000.0)
    """
    options = GunOptions(
        powerplant=powerplant,
        spin_rad_s=tuple(spin_rad_s),
        blades=blades,
        blocked_deg=blocked_deg,
        margin_deg=margin_deg,
        delay_s=delay_s,
        natural_rate_per_s=natural_rate_per_s,
        action=action,
        impulses_per_rev=impulses_per_rev,
        dwell_deg=dwell_deg,
        opens_deg=opens_deg,
        ideal=ideal,
    )
    faults = list(whole_faults({"longest": longest}))
    if faults:
        raise InputError(faults)
    lines = gun_lines(model, options, with_rate=True)
    if not options.spin_rad_s:
        lines = tuple(line.swept(SPEED_STEPS) for line in lines)
    if cycle_sd_s is None:
        cycle_sd_s = model.scatter.cycle_sd_s if model else 0.0
    if cycle_sd_s and any(len(line.spin_rad_s) > MOST_SCATTERED for line in lines):
        refuse("spin_rad_s", f"must be at most {MOST_SCATTERED} speeds where the cycle scatters; give `cycle_sd_s` 0")
    found = tuple(_staircase(line, int(longest), cycle_sd_s, over_rates) for line in lines)
    cams = cams_used(lines)
    return RateAnswer(found, cams[lines[0].powerplant], cams, model.which_gun if model else "")


def _staircase(line: GunLine, most_rounds: int, cycle_sd_s: float, over_rates: bool) -> Staircase:
    line.must_leave_a_window("no rate")
    line.leak.must_trip(min(line.spin_rad_s))
    steps = _steps(line, most_rounds)
    span = max(line.rpm) - min(line.rpm)
    return Staircase(
        powerplant=line.powerplant,
        action=line.action,
        gun_rounds_per_min=line.gun_rounds_per_min,
        rows=tuple(_points(line, cycle_sd_s)),
        plateaus=steps,
        longest=most_rounds
        if line.action == "interrupter" or (line.cam is not None and not line.cam.is_even)
        else None,
        covered_share=sum(step.to_rpm - step.from_rpm for step in steps) / span if span else 0.0,
        cycle_scatter_ms=ms(cycle_sd_s),
        over_rates=_map(line) if over_rates else None,
    )


def _points(line: GunLine, cycle_sd_s: float) -> Iterator[RatePoint]:
    found = steady_rate(line)
    patterns = zip(found.rounds_per_pattern.tolist(), found.intervals_per_pattern.tolist(), strict=True)
    speeds = zip(line.rpm, line.spin_rad_s, strict=True)
    for (rpm, spin), rounds_per_min, (rounds, intervals) in zip(
        speeds, found.rounds_per_min.tolist(), patterns, strict=True
    ):
        scattered = _scattered(line, spin, cycle_sd_s)
        yield RatePoint(rpm, rounds_per_min, scattered, *in_blade_intervals(line, rounds, intervals))


def _scattered(line: GunLine, spin_rad_s: float, cycle_sd_s: float) -> float | None:
    """Return the exact mean rate with a cycle that scatters, rounds a minute; None where there is none."""
    if cycle_sd_s == 0.0:
        return None
    gun = timed(line, spin_rad_s, Scatter(cycle_sd_s=cycle_sd_s))
    try:
        return per_min(1.0 / steady_interval_s(gun))
    except NoAnswerError:
        return None


def _map(line: GunLine) -> RateMap:
    own = line.gun_rounds_per_min
    rates = [neat(own * (0.5 + step / RATE_STEPS)) for step in range(RATE_STEPS + 1)]
    kept = (steady_rate(replace(line, natural_rate_per_s=per_s(each))).rounds_per_min / each for each in rates)
    return RateMap(line.rpm, tuple(rates), tuple(tuple(row.tolist()) for row in kept))


def _steps(line: GunLine, most_rounds: int) -> tuple[RateStep, ...]:
    if line.cam is not None and not line.cam.is_even:
        return _uneven_steps(line, line.cam, most_rounds)
    closed, interval = (Fraction(str(part)) for part in line.closed_part())
    rpm_per_cycle = Fraction(str(line.gun_rounds_per_min)) / line.openings
    start, end = (Fraction(str(edge(line.rpm))) / rpm_per_cycle for edge in (min, max))
    if start == end or closed == 0:
        return ()
    locked = line.action == "impulse" or closed == interval
    a_window = 1.0 if locked else most_rounds * min(float(interval / closed), float(most_rounds))
    _must_be_few(float(end - start) * a_window, start, end)
    steps = (
        impulse_plateaus(start, end)
        if locked
        else interrupter_plateaus(closed / interval, start, end, most_rounds=most_rounds)
    )
    return tuple(_step(step, rpm_per_cycle, line) for step in steps)


def _must_be_few(plateaus: float, start: Fraction, end: Fraction) -> None:
    """Raise `NoAnswerError` where the plateaus between two values of the gun's cycle may be too many to list."""
    if plateaus > MOST_PLATEAUS:
        passing = f"{float(start):.3g} to {float(end):.3g} windows pass while the gun cycles once"
        message = f"no list of plateaus: {passing}; narrow the range of speeds, shorten the patterns or quicken the gun"
        raise NoAnswerError(message)


def _uneven_steps(line: GunLine, cam: Cam, most_rounds: int) -> tuple[RateStep, ...]:
    windows, period = exact_windows(cam)
    rpm_per_cycle = Fraction(str(line.gun_rounds_per_min)) / line.openings
    start, end = (Fraction(str(edge(line.rpm))) / rpm_per_cycle for edge in (min, max))
    if start == end:
        return ()
    _must_be_few(count_of_advances(len(windows), float(end - start) / len(windows), most_rounds), start, end)
    steps = uneven_plateaus(windows, period, start, end, most_rounds=most_rounds)
    return tuple(_step(step, rpm_per_cycle, line) for step in steps)


def _step(step: Plateau, rpm_per_cycle: Fraction, line: GunLine) -> RateStep:
    from_rpm, to_rpm = step.start * rpm_per_cycle, step.end * rpm_per_cycle
    rounds_per_turn = step.rounds * line.openings / step.intervals
    rounds, intervals = in_blade_intervals(line, step.rounds, step.intervals)
    return RateStep(
        rounds_per_pattern=rounds or 0,
        intervals_per_pattern=intervals or 0,
        from_rpm=float(from_rpm),
        to_rpm=float(to_rpm),
        from_rounds_per_min=float(from_rpm * rounds_per_turn),
        to_rounds_per_min=float(to_rpm * rounds_per_turn),
    )
