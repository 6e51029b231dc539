"""Bursts fired and reported: what was counted beside what is exact."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.errors import NoAnswerError
from sim.studies.burst_answer import (
    BINS,
    BurstAnswer,
    ExactBurst,
    FirstRound,
    GunFigures,
    PassageAngles,
    RoundIntervals,
    SpeedRipple,
    StrikeChance,
)
from sim.studies.cam_answer import cam_used
from sim.synchronizer.counted_burst import Tally, fire_bursts
from sim.synchronizer.exact_burst import exact_burst, settled
from sim.synchronizer.gun_line import neat
from sim.synchronizer.shared_gaps import SharedGaps, shared_gaps
from sim.synchronizer.strike_chance import untimed_chance
from sim.units.convert import ms, per_min, rpm

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from sim.synchronizer.steady import Steady
    from sim.synchronizer.timed_gun import TimedGun


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How much is fired.

    Attributes
    ----------
    rounds : int
        Least number of rounds, over all bursts and guns.
    seed : int
        Random seed.
    rounds_per_burst, rounds_per_sortie : int
        Rounds of one gun in a burst and in a sortie.
    """

    rounds: int
    seed: int
    rounds_per_burst: int
    rounds_per_sortie: int


@dataclass(frozen=True, slots=True)
class _Fired:
    """One gun, its bursts counted, and what is exact of them, or why nothing is."""

    gun: TimedGun
    tally: Tally
    exact: ExactBurst | None
    note: str

    @property
    def rounds_per_min(self) -> float:
        """Its rate within bursts, in rounds a minute."""
        tally = self.tally
        return per_min((tally.rounds - tally.bursts) / (tally.interval_sum * self.gun.interval_s))


def fire(guns: Sequence[TimedGun], asked: Asked, progress: Callable[[Iterable[int]], Iterable[int]]) -> BurstAnswer:
    """Simulate so many rounds and report them beside the exact statistics; `progress` wraps the numbers of blocks."""
    bursts = -(-asked.rounds // (asked.rounds_per_burst * len(guns)))
    exact = {gun: _exact(gun, asked.rounds_per_burst) for gun in guns}
    fired = [
        _Fired(
            gun,
            fire_bursts(
                gun,
                bursts=bursts,
                rounds_per_burst=asked.rounds_per_burst,
                seed=int(np.random.SeedSequence([asked.seed, number]).generate_state(1, np.uint64)[0]),
                bins=BINS,
                progress=progress,
            ),
            *exact[gun],
        )
        for number, gun in enumerate(guns)
    ]
    return _report(fired, asked)


def _together(fired: Sequence[_Fired]) -> ExactBurst | None:
    """Return what is exact of all guns together: their rates added, their shares the mean; they fire as many rounds."""
    parts = [each.exact for each in fired if each.exact is not None]
    if len(parts) < len(fired):
        return None
    names = [field.name for field in fields(ExactBurst) if field.name != "method"]
    columns = {name: [getattr(part, name) for part in parts] for name in names}
    sums = {name: None if None in column else math.fsum(column) for name, column in columns.items()}
    added = {"rounds_per_min", "settled_rounds_per_min"}
    whole: dict[str, Any] = {
        name: each if each is None or name in added else each / len(parts) for name, each in sums.items()
    }
    return ExactBurst(**whole, method=parts[0].method)


def _each(fired: Sequence[_Fired]) -> Iterator[GunFigures]:
    """Yield the figures of each gun."""
    for name, each in zip(("first", "second"), fired, strict=False):
        gun, tally = each.gun, each.tally
        yield GunFigures(
            gun=name,
            rounds=tally.rounds,
            strikes_per_1000=1e3 * tally.strikes / tally.rounds,
            exact_strikes_per_1000=each.exact.strikes_per_1000 if each.exact else None,
            rounds_per_min=each.rounds_per_min,
            opens_deg=cam_used(gun.line).opens_deg[0],
            delay_ms=ms(gun.line.whole_delay_s(gun.spin_rad_s)),
            bore_turn_deg=neat(math.degrees(gun.line.bore_turn_rad)),
        )


def _exact(gun: TimedGun, rounds_per_burst: int) -> tuple[ExactBurst | None, str]:
    """Return the exact statistics, or None, and why there are none, of the burst or of continuous fire."""
    try:
        found, note = exact_burst(gun, rounds_per_burst), ""
    except NoAnswerError as error:
        return None, str(error)
    try:
        endless: Steady | None = settled(gun).mean
    except NoAnswerError as error:
        endless, note = None, str(error)
    whole = found.mean
    return (
        ExactBurst(
            strikes_per_1000=1e3 * whole.strike_share,
            rounds_per_min=per_min(1.0 / whole.interval_s),
            clear_share=1.0 - whole.strike_share,
            margin_kept_share=1.0 - whole.strike_share - whole.near_share,
            settled_strikes_per_1000=1e3 * endless.strike_share if endless else None,
            settled_rounds_per_min=per_min(1.0 / endless.interval_s) if endless else None,
            error_per_1000=1e3 * found.error_share,
            method=_method(gun),
        ),
        note,
    )


def _method(gun: TimedGun) -> str:
    if gun.never_shuts:
        return "even passage"
    return "transfer operator on the circle" if gun.scatter.cycle_sd_s > 0.0 else "rotation of the circle"


def _report(fired: Sequence[_Fired], asked: Asked) -> BurstAnswer:
    gun, tally, exact = fired[0].gun, sum((each.tally for each in fired[1:]), start=fired[0].tally), _together(fired)
    line, share, error = gun.line, tally.strikes / tally.rounds, _standard_error(tally)
    confidence = _confidence(share, error, tally.rounds)
    return BurstAnswer(
        rounds=tally.rounds,
        strikes=tally.strikes,
        strikes_per_1000=1e3 * share,
        standard_error_per_1000=1e3 * error,
        interval_95_per_1000=confidence,
        rounds_per_min=math.fsum(each.rounds_per_min for each in fired),
        interval_ms=_intervals(gun, tally),
        pass_angle_deg=_angles(gun, tally),
        clear_share=1.0 - share,
        margin_kept_share=1.0 - (tally.strikes + tally.near) / tally.rounds,
        method="Monte Carlo",
        seed=asked.seed,
        powerplant=line.powerplant,
        rpm=neat(rpm(gun.spin_rad_s)),
        blades=line.blades,
        guns=len(fired),
        rounds_per_burst=asked.rounds_per_burst,
        blocked_deg=neat(math.degrees(line.blocked_rad)),
        margin_deg=neat(math.degrees(line.margin_rad)),
        opens_deg=neat(math.degrees(gun.opens_rad)),
        dwell_deg=neat(math.degrees(gun.cam.dwell_rad)),
        cam=cam_used(line),
        passed_share=tuple((tally.passages / tally.rounds).tolist()),
        exact=exact,
        exact_note=next((each.note for each in fired if each.note), ""),
        chance=_chance(tally, exact, confidence[1], rounds_per_sortie=asked.rounds_per_sortie, guns=len(fired)),
        rotation=line.rotation,
        ripple=SpeedRipple(gun.ripple.depth, gun.ripple.per_rev, neat(math.degrees(gun.ripple.peak_rad))),
        untimed=gun.never_shuts,
        untimed_strikes_per_1000=1e3 * math.fsum(untimed_chance(each.gun) for each in fired) / len(fired),
        untimed_rounds_per_min=len(fired) * line.gun_rounds_per_min,
        first_round_ms=_first_round(gun),
        each_gun=tuple(_each(fired)) if len(fired) > 1 else (),
        shared_gaps=_shared(fired, asked),
        at_once_share=min(1.0, gun.open_share),
    )


def _shared(fired: Sequence[_Fired], asked: Asked) -> SharedGaps | None:
    if len(fired) < 2:
        return None
    return shared_gaps([each.gun for each in fired], asked.rounds_per_burst, seed=asked.seed)


def _intervals(gun: TimedGun, tally: Tally) -> RoundIntervals:
    mean, sd = _mean_sd(tally.interval_sum, tally.interval_squares, tally.rounds - tally.bursts)
    period_ms = ms(gun.interval_s)
    return RoundIntervals(*(period_ms * each for each in (mean, sd, tally.interval_least, tally.interval_most)))


def _angles(gun: TimedGun, tally: Tally) -> PassageAngles:
    mean, sd = _mean_sd(tally.passage_sum, tally.passage_squares, tally.rounds)
    return PassageAngles(gun.line.spacing_deg * mean, gun.line.spacing_deg * sd)


def _first_round(gun: TimedGun) -> FirstRound:
    windows, period_ms = gun.windows, ms(gun.interval_s)
    nexts = (*(opens for opens, _ in windows[1:]), 1.0)
    shut = [max(0.0, opens - shuts) for (_, shuts), opens in zip(windows, nexts, strict=True)]
    return FirstRound(period_ms * sum(each**2 for each in shut) / 2.0, period_ms * max(shut))


def _chance(
    tally: Tally, exact: ExactBurst | None, limit_per_1000: float, *, rounds_per_sortie: int, guns: int
) -> StrikeChance:
    is_limit = exact is None and not tally.strikes
    share = 1e-3 * limit_per_1000 if is_limit else tally.strikes / tally.rounds
    if exact is not None:
        share = 1e-3 * exact.strikes_per_1000
    sortie = 1.0 if share >= 1.0 else -math.expm1(guns * rounds_per_sortie * math.log1p(-share))
    return StrikeChance(share, is_limit, rounds_per_sortie, sortie, guns)


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
