"""Many bursts through the propeller: strikes, rate, times between rounds and where rounds passed; counted and exact."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.errors import InputError, NoAnswerError, WhirlgateError, refuse, whole_faults
from sim.model.gun_options import GunOptions, delay_stages, gun_lines
from sim.studies.burst_report import Asked, fire
from sim.synchronizer.cam import even
from sim.synchronizer.exact_burst import exact_burst
from sim.synchronizer.leak import TIGHT
from sim.synchronizer.link import spread
from sim.synchronizer.pace import shifts
from sim.synchronizer.ripple import STEADY, Ripple
from sim.synchronizer.strike_chance import untimed_chance
from sim.synchronizer.timed_gun import MOST_SPEED_SDS, NO_SCATTER, timed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.model.model import Model
    from sim.studies.burst_answer import BurstAnswer
    from sim.synchronizer.blocked_arc import Action
    from sim.synchronizer.gun_line import GunLine
    from sim.synchronizer.timed_gun import Scatter, TimedGun

NEVER_SHUT = even(0.0, math.tau, 1)
"""In the place of the cam where there is none: a gun that fires whenever it is ready."""
ROUNDS = 1_000_000
"""Rounds simulated where nothing else is asked for."""
ROUNDS_PER_BURST = 20
"""Rounds in a burst where nothing else gives them."""
ROUNDS_PER_SORTIE = 500
"""Rounds in a sortie where nothing else gives them: one belt (common practice, no source)."""
SLOWEST = 0.05
"""Share of its speed below which the propeller of a burst counts as stopping."""


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
    speed_ripple: float | None = None,
    ripple_per_rev: float | None = None,
    ripple_peak_deg: float | None = None,
    dwell_deg: float | None = None,
    opens_deg: float | None = None,
    ideal: bool = False,
    untimed: bool = False,
    guns: float | None = None,
    rounds_per_burst: float | None = None,
    rounds_per_sortie: float | None = None,
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
    dwell_deg, opens_deg, ideal, scatter_s
        As in `sim.model.gun_options.GunOptions`, in place of the model's, with one speed; without it: full speed.
    cycle_sd_s, hang_share, hang_s, speed_sd, drift_per_s
        As in `sim.synchronizer.timed_gun.Scatter`, in place of the model's.
    speed_ripple, ripple_per_rev, ripple_peak_deg
        As in `sim.synchronizer.ripple.Ripple`, in place of the model's; at most 0.5 of the speed. [-, -, °]
    untimed : bool
        Whether the gun fires without the gear, whenever it is ready.
    guns, rounds_per_burst, rounds_per_sortie : int or None
        Number of synchronized guns, and rounds of one gun in a burst, 2 or more, and in a sortie; in place of the
        model's.
    rounds, seed : int
        Least number of rounds simulated, over all bursts and guns; random seed, 0 or more.
    progress : callable
        Wraps the numbers of the blocks of bursts, to show progress.

    Raises
    ------
    InputError
        Every fault of the options at once; a model without a gun.
    NoAnswerError
        When no window is left between the blades; when the speed drifts to a standstill within a burst.
    """
    counts = {"rounds": rounds, "guns": guns, "seed": seed, "ripple_per_rev": ripple_per_rev}
    counts |= {"rounds_per_burst": rounds_per_burst, "rounds_per_sortie": rounds_per_sortie}
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
        scatter_s=scatter_s,
    )
    given = {
        "cycle_sd_s": cycle_sd_s,
        "hang_share": hang_share,
        "hang_s": hang_s,
        "speed_sd": speed_sd,
        "drift_per_s": drift_per_s,
    }
    faults = list(whole_faults(counts))
    if faults:
        raise InputError(faults)
    ripple = _ripple(model, speed_ripple, ripple_per_rev, ripple_peak_deg)
    fired = [_gun(each, options, given, untimed=untimed, ripple=ripple) for each in _behind_each_gun(model, guns)]
    asked = Asked(
        rounds=int(rounds),
        seed=int(seed),
        rounds_per_burst=int(rounds_per_burst or (model and model.rounds_per_burst) or ROUNDS_PER_BURST),
        rounds_per_sortie=int(rounds_per_sortie or (model and model.rounds_per_sortie) or ROUNDS_PER_SORTIE),
    )
    _must_turn(fired[0], asked.rounds_per_burst)
    return fire(fired, asked, progress)


def timed_strikes_per_1000(model: Model, powerplant: str, *, ideal: bool = False) -> tuple[float, ...] | None:
    """Return how many rounds of a thousand of each gun strike a blade with the gear, as the scenario fires bursts.

    Parameters
    ----------
    model : Model
        Of a scenario with a gun.
    powerplant : str
        Behind whose propeller, at full speed.
    ideal : bool
        Whether the cam is the ideal one.

    Returns
    -------
    tuple of float or None
        Exact, with all that scatters, the first gun first; None where there is no exact answer, no window, or no rate
        of fire.
    """
    options = GunOptions(powerplant=powerplant, ideal=ideal)
    steady = _ripple(model, None, None, None)
    try:
        fired = [_gun(each, options, {}, untimed=False, ripple=steady) for each in _behind_each_gun(model, None)]
        rounds = model.rounds_per_burst or ROUNDS_PER_BURST
        return tuple(1e3 * exact_burst(gun, rounds).mean.strike_share for gun in fired)
    except WhirlgateError:
        return None


def untimed_strikes_per_1000(model: Model, powerplant: str) -> tuple[float, ...]:
    """Return how many rounds of a thousand of each gun strike a blade without the gear, as a burst has it."""
    options, ripple = GunOptions(powerplant=powerplant), _ripple(model, None, None, None)
    fired = [_gun(each, options, {}, untimed=True, ripple=ripple) for each in _behind_each_gun(model, None)]
    return tuple(1e3 * untimed_chance(gun) for gun in fired)


def _behind_each_gun(model: Model | None, guns: float | None) -> tuple[Model | None, ...]:
    """Return the model as each gun sees it; a second gun that has no line of its own has that of the first."""
    count = int(guns or (model and model.guns) or 1)
    second = model.second_gun if model else None
    return (model, *((second or model,) if count > 1 else ()))


def _gun(
    model: Model | None, options: GunOptions, given: dict[str, float | None], *, untimed: bool, ripple: Ripple
) -> TimedGun:
    """Return the gun with its line, cam and scatter."""
    line = _line(model, options, untimed=untimed)
    stages = delay_stages(model, line, delay_s=options.delay_s, scatter_s=options.scatter_s)
    delay_sd = spread(stages, 1.0).root_sum_square
    own = {**given, "delay_sd_s": delay_sd.time_s, "delay_sd_rad": delay_sd.turn_rad}
    return replace(timed(line, line.spin_rad_s[-1], _scatter(model, own)), ripple=ripple)


def _line(model: Model | None, options: GunOptions, *, untimed: bool) -> GunLine:
    """Return the first gun line asked for, with its cam or without one, or raise what is wrong with the options."""
    line = gun_lines(model, options, with_rate=True)[0]
    if len(options.spin_rad_s) > 1:
        refuse("spin_rad_s", f"must be one speed, got {len(options.spin_rad_s)}")
    if not untimed:
        line.must_leave_a_window("no burst")
        return line
    if options.ideal or options.dwell_deg is not None or options.opens_deg is not None:
        refuse("untimed", "is without a cam; leave out `dwell_deg`, `opens_deg` and `ideal`, or `untimed`")
    return replace(line, cam=NEVER_SHUT, leak=TIGHT)


def _scatter(model: Model | None, given: dict[str, float | None]) -> Scatter:
    """Return the scatter of the model, or none, with what is given in place of its values."""
    values = {name: value for name, value in given.items() if value is not None}
    return replace(model.scatter if model else NO_SCATTER, **values)


def _ripple(model: Model | None, share: float | None, per_rev: float | None, peak_deg: float | None) -> Ripple:
    """Return the ripple of the speed of the model, or none, with what is given in place of its values."""
    own = model.ripple if model else STEADY
    return Ripple(
        depth=own.depth if share is None else share,
        per_rev=own.per_rev if per_rev is None else int(per_rev),
        peak_rad=own.peak_rad if peak_deg is None else math.radians(peak_deg),
    )


def _must_turn(gun: TimedGun, rounds_per_burst: int) -> None:
    """Raise `NoAnswerError` where the slowest propeller of all bursts would stop."""
    slowest = 1.0 - MOST_SPEED_SDS * gun.scatter.speed_sd
    if slowest + min(shifts(gun, rounds_per_burst)) < SLOWEST:
        message = f"no burst: within {rounds_per_burst} rounds the drifting propeller comes to a stop; "
        raise NoAnswerError(message + "shorten the burst, or let the speed drift and scatter less")
    gun.line.leak.must_trip(gun.spin_rad_s * (slowest + min(shifts(gun, rounds_per_burst))))
