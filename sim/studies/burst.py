"""Many bursts through the propeller: strikes, rate, times between rounds and where rounds passed; counted and exact."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.errors import NoAnswerError, refuse
from sim.model.delays import chain_asked
from sim.model.gun_line import neat, setup_of
from sim.model.gun_options import setups, source
from sim.studies.burst_answer import BINS, Angles, BurstAnswer, ExactBurst, Times
from sim.synchronizer.burst import Tally, fire_bursts
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.link import spread
from sim.synchronizer.safe_range import FixedCam, best_opening
from sim.synchronizer.settled import exact_burst, settled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from sim.model.gun_line import Setup
    from sim.scenario.tables import Scenario
    from sim.scenario.timing import BurstTable

SCATTER = {
    "cycle_sd_s": "cycle_scatter_s",
    "hang_share": "hang_share",
    "hang_s": "hang_time_s",
    "speed_sd": "speed_scatter",
    "drift_per_s": "speed_drift_per_s",
}
"""Field of a gun line -> key of the scenario's table burst."""


def asked_burst(
    *,
    rounds: int,
    seed: int,
    loaded: Scenario | None = None,
    guns: int | None = None,
    rounds_per_burst: int | None = None,
    scatter_s: float | None = None,
    fitted: bool = False,
    dwell_rad: float | None = None,
    opens_rad: float | None = None,
    progress: Callable[[Iterable[int]], Iterable[int]] = lambda numbers: numbers,
    **given: Any,  # noqa: ANN401
) -> BurstAnswer:
    """Return the bursts that a command asks for: a scenario's gun, scatter and speed, changed by options, or options.

    Parameters
    ----------
    rounds : int
        To be fired at least, over all bursts and guns.
    seed : int
        0 or more.
    loaded : Scenario, optional
        One that is read already; without it the one that is named is read.
    guns, rounds_per_burst, scatter_s, dwell_rad, opens_rad : optional
        In the place of the scenario's; `scatter_s` is that of the whole delay [s], `dwell_rad` and `opens_rad` are the
        cam's [rad].
    fitted : bool
        Leave the scenario's cam, which is cut once for its first powerplant, and open the whole window at the speed
        asked for; so too where there is no cam.
    progress : callable
        Wraps the numbers of the blocks of bursts.
    given : object
        As for `sim.model.gun_options.setups`, and the names of `SCATTER`.

    Raises
    ------
    InputError, NoAnswerError
        Every fault at once; no window between the blades.
    """
    loaded = loaded or source(given)
    found = setups(loaded=loaded, **{name: value for name, value in given.items() if name not in SCATTER})
    setup = found[0]
    if len(given.get("spin_rad_s") or ()) > 1:
        refuse("--rpm", f'must be one speed for bursts, got "{len(given["spin_rad_s"])}"')
    burst = loaded.burst if loaded else None
    spin = setup.spin_rad_s[-1]
    stages = chain_asked(loaded, delay_s=given.get("delay_s"), scatter_s=scatter_s, whole_s=setup.delay_s)
    cut = _cut(loaded, setup, spin, fitted=fitted, dwell_rad=dwell_rad, opens_rad=opens_rad)
    line = GunLine(
        spin_rad_s=spin,
        blades=setup.blades,
        openings=setup.openings,
        opens_rad=cut[0],
        window_rad=cut[1],
        blocked_rad=setup.blocked_rad,
        margin_rad=setup.margin_rad,
        delay_s=setup.delay_s,
        cycle_s=60.0 / setup.gun_rounds_per_min,
        delay_sd_s=spread(stages, 1.0).root_sum_square_s,
        **_scatter(burst, given),
    )
    return fire(
        line,
        rounds=rounds,
        seed=seed,
        guns=guns or (burst.guns if burst else 1),
        rounds_per_burst=rounds_per_burst or (burst.rounds_per_burst if burst else 20),
        setup=setup,
        progress=progress,
    )


def _scatter(burst: BurstTable | None, given: dict[str, Any]) -> dict[str, float]:
    """Return what scatters besides the delay: as options say, else the scenario, else nothing."""
    said = {name: given.get(name) for name in SCATTER}
    return {
        name: value if value is not None else float(getattr(burst, SCATTER[name], 0.0)) for name, value in said.items()
    }


def _cut(
    loaded: Scenario | None,
    setup: Setup,
    spin_rad_s: float,
    *,
    fitted: bool,
    dwell_rad: float | None,
    opens_rad: float | None,
) -> tuple[float, float]:
    """Return where the cam opens and for how long, in radians of the propeller."""
    shut_rad = math.radians(setup.shut_deg)
    open_rad = math.tau / setup.blades - shut_rad
    if open_rad < 0.0:
        message = f"no burst: each blade blocks {setup.shut_deg:g}° with its margins and the blades are "
        raise NoAnswerError(message + f"{360.0 / setup.blades:g}° apart; narrow the arc or take fewer blades")
    master = setup
    cam = loaded.cam if loaded and not fitted and dwell_rad is None and opens_rad is None else None
    if loaded and cam:
        dwell_rad, opens_rad = cam.dwell_rad, cam.opens_rad
        master = setup_of(loaded, next(iter(loaded.powerplant)))
    if setup.action == "impulse":
        dwell_rad = 0.0
    elif dwell_rad is None:
        return (0.5 * shut_rad - spin_rad_s * setup.delay_s if opens_rad is None else opens_rad), open_rad
    if opens_rad is None:
        window = FixedCam(dwell_rad, master.blades, math.radians(master.shut_deg), master.delay_s, 0.0)
        speeds = master.spin_rad_s if cam else (spin_rad_s,)
        opens_rad = best_opening(window, min(speeds), max(speeds))[0]
    return opens_rad, dwell_rad


def fire(
    line: GunLine,
    *,
    rounds: int,
    seed: int,
    guns: int,
    rounds_per_burst: int,
    setup: Setup,
    progress: Callable[[Iterable[int]], Iterable[int]],
) -> BurstAnswer:
    """Fire at least so many rounds and report them beside the exact statistics.

    Parameters
    ----------
    line : GunLine
        Propeller, cam, gun and scatter.
    rounds, seed, guns, rounds_per_burst : int
        As in `asked_burst`.
    setup : Setup
        For the headings.
    progress : callable
        Wraps the numbers of the blocks of bursts.
    """
    bursts = -(-rounds // (rounds_per_burst * guns))
    tallies = [
        fire_bursts(
            line,
            bursts=bursts,
            rounds_per_burst=rounds_per_burst,
            seed=int(np.random.SeedSequence([seed, gun]).generate_state(1, np.uint64)[0]),
            bins=BINS,
            progress=progress,
        )
        for gun in range(guns)
    ]
    tally = sum(tallies[1:], start=tallies[0])
    exact, note = _exact(line, rounds_per_burst, guns)
    return _report(line, tally, setup=setup, seed=seed, guns=guns, exact=(exact, note))


def _exact(line: GunLine, rounds_per_burst: int, guns: int) -> tuple[ExactBurst | None, str]:
    try:
        endless, whole = settled(line), exact_burst(line, rounds_per_burst)
    except NoAnswerError as error:
        return None, str(error)
    note = (
        "" if line.cycle_sd_s > 0.0 else "Without scatter of the cycle the exact form holds from the second pattern on."
    )
    per_min = 60.0 * guns
    return (
        ExactBurst(
            strikes_per_1000=1e3 * whole.strike_share,
            rounds_per_min=per_min / whole.interval_s,
            clear_share=1.0 - whole.strike_share,
            margin_kept_share=1.0 - whole.strike_share - whole.near_share,
            settled_strikes_per_1000=1e3 * endless.strike_share,
            settled_rounds_per_min=per_min / endless.interval_s,
            method="transfer operator on the circle" if line.cycle_sd_s > 0.0 else "pattern without scatter",
        ),
        note,
    )


def _report(
    line: GunLine, tally: Tally, *, setup: Setup, seed: int, guns: int, exact: tuple[ExactBurst | None, str]
) -> BurstAnswer:
    share = tally.strikes / tally.rounds
    error = _standard_error(tally)
    pairs = tally.rounds - tally.bursts
    interval_ms = 1e3 * line.interval_s
    mean, sd = _mean_sd(tally.interval_sum, tally.interval_squares, pairs)
    angle, angle_sd = _mean_sd(tally.passage_sum, tally.passage_squares, tally.rounds)
    between_deg = 360.0 / line.blades
    return BurstAnswer(
        rounds=tally.rounds,
        strikes=tally.strikes,
        strikes_per_1000=1e3 * share,
        standard_error_per_1000=1e3 * error,
        interval_95_per_1000=_confidence(share, error, tally.rounds),
        rounds_per_min=60e3 * guns / (mean * interval_ms),
        interval_ms=Times(*(interval_ms * each for each in (mean, sd, tally.interval_least, tally.interval_most))),
        pass_angle_deg=Angles(between_deg * angle, between_deg * angle_sd),
        clear_share=1.0 - share,
        margin_kept_share=1.0 - (tally.strikes + tally.near) / tally.rounds,
        method="Monte Carlo",
        seed=seed,
        powerplant=setup.powerplant,
        rpm=neat(line.spin_rad_s * 30.0 / math.pi),
        blades=line.blades,
        guns=guns,
        rounds_per_burst=tally.rounds // tally.bursts,
        blocked_deg=neat(math.degrees(line.blocked_rad)),
        margin_deg=neat(math.degrees(line.margin_rad)),
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
    """Return the 95 % score interval in strikes per 1000, for as many independent rounds as the error speaks for."""
    count = share * (1.0 - share) / error**2 if error > 0.0 else float(rounds)
    squared = 1.96**2 / count
    middle = (share + squared / 2.0) / (1.0 + squared)
    reach = math.sqrt(squared * (share * (1.0 - share) + squared / 4.0)) / (1.0 + squared)
    return 1e3 * max(0.0, middle - reach), 1e3 * min(1.0, middle + reach)
