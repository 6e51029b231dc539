"""Many bursts through the propeller: strikes, rate, times between rounds and where rounds passed; counted and exact."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import InputError, NoAnswerError, refuse, whole_faults
from sim.model.gun_options import GunOptions, delay_stages, gun_lines
from sim.studies.burst_answer import BINS, BurstAnswer, ExactBurst, PassageAngles, RoundIntervals
from sim.synchronizer.cam import Cam, even
from sim.synchronizer.counted_burst import Tally, fire_bursts
from sim.synchronizer.exact_burst import exact_burst, settled
from sim.synchronizer.gun_line import neat
from sim.synchronizer.link import spread
from sim.synchronizer.safe_range import CamWindow, best_opening
from sim.synchronizer.timed_gun import NO_SCATTER, TimedGun
from sim.units.convert import ms, per_min, rpm

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.model.model import Model
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.timed_gun import Scatter

ROUNDS = 1_000_000
"""Rounds simulated where nothing else is asked for."""
ROUNDS_PER_BURST = 20
"""Rounds in a burst where nothing else gives them."""


def burst(
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
    cycle_sd_s: float | None = None,
    scatter_s: float | None = None,
    hang_share: float | None = None,
    hang_s: float | None = None,
    speed_sd: float | None = None,
    drift_per_s: float | None = None,
    dwell_deg: float | None = None,
    opens_deg: float | None = None,
    fitted: bool = False,
    guns: float | None = None,
    rounds_per_burst: float | None = None,
    rounds: float = ROUNDS,
    seed: float = 1,
    progress: Callable[[Iterable[int]], Iterable[int]] = lambda numbers: numbers,
) -> BurstAnswer:
    """Return simulated bursts behind the first powerplant of a model, or of a gun line of options alone.

    Parameters
    ----------
    model : Model or None
        The airplane; None for a gun line of options alone, which then need a speed, blades, the blocked arc and the
        gun's own rate.
    powerplant, spin_rad_s, blades, blocked_deg, margin_deg, delay_s, natural_rate_per_s, action, impulses_per_rev
        As in `sim.model.gun_options.GunOptions`, in place of the model's, with one speed; without it: full speed.
    cycle_sd_s, scatter_s, hang_share, hang_s, speed_sd, drift_per_s
        As in `sim.synchronizer.timed_gun.Scatter`, in place of the model's; `scatter_s` is the standard deviation of
        the whole delay.
    dwell_deg, opens_deg : float or None
        Turn of the propeller for which the cam is open, 0 to 360, and the angle at which it opens; without a dwell
        the whole clear arc, without an angle the best one. [°]
    fitted : bool
        Whether the cam is fitted to the speed, in place of the model's cam, which is cut once for its first
        powerplant; so too where there is no cam.
    guns, rounds_per_burst : int or None
        Number of synchronized guns, and rounds of one gun in a burst, 2 or more; in place of the model's.
    rounds, seed : int
        Least number of rounds simulated, over all bursts and guns; random seed, 0 or more.
    progress : callable
        Wraps the numbers of the blocks of bursts, to show progress.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.
    NoAnswerError
        When no window is left between the blades.
    """
    counts = {"rounds": rounds, "rounds_per_burst": rounds_per_burst, "guns": guns, "seed": seed}
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
    )
    if fitted and not (dwell_deg is None and opens_deg is None):
        refuse("fitted", "fits the cam to the speed; leave out `dwell_deg` and `opens_deg`, or `fitted`")
    line = _line(model, options, counts)
    stages = delay_stages(model, line, delay_s=delay_s, scatter_s=scatter_s)
    given = {
        "delay_sd_s": spread(stages, 1.0).root_sum_square_s,
        "cycle_sd_s": cycle_sd_s,
        "hang_share": hang_share,
        "hang_s": hang_s,
        "speed_sd": speed_sd,
        "drift_per_s": drift_per_s,
    }
    scatter = _scatter(model, given)
    cut_once = model and not fitted and dwell_deg is None and opens_deg is None
    cam = _cut(line, dwell_deg, opens_deg, model if cut_once else None)
    return _fire(
        TimedGun(replace(line, cam=cam), line.spin_rad_s[-1], scatter),
        rounds=int(rounds),
        seed=int(seed),
        guns=int(guns or (model and model.guns) or 1),
        rounds_per_burst=int(rounds_per_burst or (model and model.rounds_per_burst) or ROUNDS_PER_BURST),
        progress=progress,
    )


def _line(model: Model | None, options: GunOptions, counts: dict[str, float | None]) -> GunLine:
    """Return the first gun line asked for, or raise what is wrong with the options."""
    faults = list(whole_faults(counts))
    if faults:
        raise InputError(faults)
    line = gun_lines(model, options, with_rate=True)[0]
    if len(options.spin_rad_s) > 1:
        refuse("spin_rad_s", f"must be one speed, got {len(options.spin_rad_s)}")
    line.must_leave_a_window("no burst")
    return line


def _scatter(model: Model | None, given: dict[str, float | None]) -> Scatter:
    """Return the scatter of the model, or none, with what is given in place of its values."""
    values = {name: value for name, value in given.items() if value is not None}
    return replace(model.scatter if model else NO_SCATTER, **values)


def _cut(line: GunLine, dwell_deg: float | None, opens_deg: float | None, model: Model | None) -> Cam:
    """Return the cam: as given, or that of a model, or the ideal one."""
    over = replace(line, spin_rad_s=line.spin_rad_s[-1:])
    dwell_rad, opens_rad = (None if angle is None else math.radians(angle) for angle in (dwell_deg, opens_deg))
    if model and model.cam:
        dwell_rad, opens_rad, over = model.cam.dwell_rad, model.cam.opens_rad, model.gun_line()
    if line.action == "impulse":
        dwell_rad = 0.0
    elif dwell_rad is None:
        ideal = line.cam_at(line.spin_rad_s[-1])
        return ideal if opens_rad is None else even(opens_rad, line.clear_rad, line.openings)
    if opens_rad is None:
        opens_rad = best_opening(CamWindow(over, dwell_rad, 0.0), min(over.spin_rad_s), max(over.spin_rad_s))[0]
    return even(opens_rad, dwell_rad, line.openings)


def _fire(
    gun: TimedGun,
    *,
    rounds: int,
    seed: int,
    guns: int,
    rounds_per_burst: int,
    progress: Callable[[Iterable[int]], Iterable[int]],
) -> BurstAnswer:
    """Simulate at least so many rounds and report them beside the exact statistics."""
    bursts = -(-rounds // (rounds_per_burst * guns))
    tallies = [
        fire_bursts(
            gun,
            bursts=bursts,
            rounds_per_burst=rounds_per_burst,
            seed=int(np.random.SeedSequence([seed, number]).generate_state(1, np.uint64)[0]),
            bins=BINS,
            progress=progress,
        )
        for number in range(guns)
    ]
    exact = _exact(gun, rounds_per_burst, guns)
    return _report(gun, sum(tallies[1:], start=tallies[0]), seed=seed, guns=guns, exact=exact)


def _exact(gun: TimedGun, rounds_per_burst: int, guns: int) -> tuple[ExactBurst | None, str]:
    """Return the exact statistics, or None, and what they leave out or why there are none."""
    try:
        endless, whole = settled(gun), exact_burst(gun, rounds_per_burst)
    except NoAnswerError as error:
        return None, str(error)
    scatters = gun.scatter.cycle_sd_s > 0.0
    note = (
        ""
        if scatters
        else "Without scatter of the cycle the exact values are those of the locked pattern, in which rounds may "
        "graze the edge of a blade; simulated bursts begin at any angle and reach it after some rounds. Give the cycle "
        "some scatter to compare the two."
    )
    return (
        ExactBurst(
            strikes_per_1000=1e3 * whole.strike_share,
            rounds_per_min=per_min(guns / whole.interval_s),
            clear_share=1.0 - whole.strike_share,
            margin_kept_share=1.0 - whole.strike_share - whole.near_share,
            settled_strikes_per_1000=1e3 * endless.strike_share,
            settled_rounds_per_min=per_min(guns / endless.interval_s),
            method="transfer operator on the circle" if scatters else "pattern without scatter",
        ),
        note,
    )


def _report(gun: TimedGun, tally: Tally, *, seed: int, guns: int, exact: tuple[ExactBurst | None, str]) -> BurstAnswer:
    line, share, error = gun.line, tally.strikes / tally.rounds, _standard_error(tally)
    interval_ms = ms(gun.interval_s)
    mean, sd = _mean_sd(tally.interval_sum, tally.interval_squares, tally.rounds - tally.bursts)
    angle, angle_sd = _mean_sd(tally.passage_sum, tally.passage_squares, tally.rounds)
    return BurstAnswer(
        rounds=tally.rounds,
        strikes=tally.strikes,
        strikes_per_1000=1e3 * share,
        standard_error_per_1000=1e3 * error,
        interval_95_per_1000=_confidence(share, error, tally.rounds),
        rounds_per_min=per_min(guns / (mean * gun.interval_s)),
        interval_ms=RoundIntervals(
            *(interval_ms * each for each in (mean, sd, tally.interval_least, tally.interval_most))
        ),
        pass_angle_deg=PassageAngles(line.spacing_deg * angle, line.spacing_deg * angle_sd),
        clear_share=1.0 - share,
        margin_kept_share=1.0 - (tally.strikes + tally.near) / tally.rounds,
        method="Monte Carlo",
        seed=seed,
        powerplant=line.powerplant,
        rotation=line.rotation,
        rpm=neat(rpm(gun.spin_rad_s)),
        blades=line.blades,
        guns=guns,
        rounds_per_burst=tally.rounds // tally.bursts,
        blocked_deg=neat(math.degrees(line.blocked_rad)),
        margin_deg=neat(math.degrees(line.margin_rad)),
        opens_deg=neat(math.degrees(gun.opens_rad)),
        dwell_deg=neat(math.degrees(gun.cam.windows[0].dwell_rad)),
        passed_share=tuple((tally.passages / tally.rounds).tolist()),
        exact=exact[0],
        exact_note=exact[1],
    )


def _mean_sd(total: float, squares: float, count: int) -> tuple[float, float]:
    mean = total / count
    return mean, math.sqrt(max(0.0, squares / count - mean * mean))


def _standard_error(tally: Tally) -> float:
    """Return the standard error of the strike share, from how it differs from burst to burst."""
    per_burst = tally.rounds / tally.bursts
    mean = tally.strikes / tally.bursts
    between = max(0.0, tally.strikes_squared / tally.bursts - mean * mean)
    return math.sqrt(between / tally.bursts) / per_burst


def _confidence(share: float, error: float, rounds: int) -> tuple[float, float]:
    """Return the 95 % score interval in strikes per 1000, for the number of independent rounds with that error."""
    count = share * (1.0 - share) / error**2 if error > 0.0 else float(rounds)
    squared = 1.96**2 / count
    middle = (share + squared / 2.0) / (1.0 + squared)
    reach = math.sqrt(squared * (share * (1.0 - share) + squared / 4.0)) / (1.0 + squared)
    return 1e3 * max(0.0, middle - reach), 1e3 * min(1.0, middle + reach)
