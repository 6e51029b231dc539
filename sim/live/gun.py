"""The timed gun for the viewer: rounds released by the cam, one after another, and whether they meet a blade."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.flight.pilot_functions import ONE
from sim.synchronizer.leak import TIGHT
from sim.units.convert import MINUTE_S

if TYPE_CHECKING:
    from random import Random

    from sim.flight.pilot_functions import PilotFunctions
    from sim.numerics.number import Number
    from sim.synchronizer.timed_gun import TimedGun

_ROUNDING_RAD = 1e-9  # a release this little past its angle is on it


@dataclass(frozen=True, slots=True)
class Round:
    """One round on its way, or gone.

    Attributes
    ----------
    release_s, muzzle_s, pass_s : float
        When it is released, leaves the muzzle and crosses the disc. [s]
    release_rad, pass_rad : float
        Propeller angle at release, and when it crossed; the second is 0 until it has. [rad]
    struck : bool
        Whether it met a blade.
    """

    release_s: float
    muzzle_s: float
    pass_s: float
    release_rad: float
    pass_rad: float = 0.0
    struck: bool = False


@dataclass(frozen=True, slots=True)
class GunState:
    """The gun at one moment.

    Attributes
    ----------
    time_s, angle_rad : float
        Since the start [s]; propeller angle, 0 with blade 1 on the bore line, within the period of the cam [rad].
    ready_s : float
        When the gun is, or will be, ready for the next round. [s]
    holding : bool
        Whether a ready gun waits for the gear.
    flying, passed : tuple of Round
        Released and not yet through; gone through during the last step.
    first_s, latest_s : float
        When the first and the latest round were released. [s]
    rounds, holds, strikes : int
        Counted so far: released, made to wait, and through a blade.
    """

    time_s: float = 0.0
    angle_rad: float = 0.0
    ready_s: float = 0.0
    holding: bool = False
    flying: tuple[Round, ...] = ()
    passed: tuple[Round, ...] = ()
    first_s: float = 0.0
    latest_s: float = 0.0
    rounds: int = 0
    holds: int = 0
    strikes: int = 0


def touches(gun: TimedGun, pass_rad: Number) -> bool:
    """Return whether a round that crosses the disc at a propeller angle meets a blade [rad]."""
    spacing_rad = math.tau / gun.line.blades
    off_rad = 0.5 * spacing_rad - abs(pass_rad % spacing_rad - 0.5 * spacing_rad)
    return off_rad < gun.half_blocked() * spacing_rad  # type: ignore[no-any-return] # recorded, not a bool


def trips_no_cam(gun: TimedGun) -> bool:
    """Return whether the link leaks all that a cam delivers at this speed, so that it never frees the gun."""
    return gun.line.leak.counts and gun.spin_rad_s <= gun.line.leak.leak_speed_rad_s


def wait_rad(gun: TimedGun, angle_rad: Number, functions: PilotFunctions = ONE) -> Number:
    """Return how far the propeller must turn until the cam releases a ready gun; infinite where it never does.

    An interrupter releases anywhere in an opening. An impulse comes once, in the middle of each opening.
    """
    wait, period_rad = math.inf, gun.cam.period_rad
    if trips_no_cam(gun) and not gun.never_shuts:
        return wait
    for opens, closes in gun.windows_rad:
        at = opens if gun.line.action == "interrupter" else 0.5 * (opens + closes)
        ahead_rad = (at - angle_rad) % period_rad
        ahead_rad = functions.either(ahead_rad > period_rad - _ROUNDING_RAD, 0.0, ahead_rad)
        if gun.line.action == "interrupter":
            open_now = (angle_rad - opens) % period_rad < closes - opens - _ROUNDING_RAD
            ahead_rad = functions.either(open_now, 0.0, ahead_rad)
        wait = functions.smaller(wait, ahead_rad)
    return wait


def passage(
    gun: TimedGun, release_rad: Number, normal: Number, functions: PilotFunctions = ONE
) -> tuple[Number, Number, Number]:
    """Return when a round passes after its release [s], at which propeller angle [rad], and whether it meets a blade.

    Parameters
    ----------
    gun : TimedGun
        Gun and speed; of its scatter only that of the delay counts.
    release_rad : float
        Propeller angle at its release. [rad]
    normal : float
        Deviation of its delay from the mean, in standard deviations.
    functions : PilotFunctions
        `ONE`, or those of a recorder (`sim.numerics.trace`).
    """
    whole_s = functions.larger(gun.line.flight_s, _mean_delay_s(gun) + gun.delay_sd_s * normal)
    pass_rad = release_rad + gun.spin_rad_s * whole_s
    return whole_s, pass_rad, touches(gun, pass_rad)


def delay_s(gun: TimedGun) -> float:
    """Return the mean time from release to passage [s]; a gun whose cam never shuts waits for no link."""
    return max(gun.line.flight_s, _mean_delay_s(gun))


def _mean_delay_s(gun: TimedGun) -> float:
    line = replace(gun.line, leak=TIGHT) if gun.never_shuts else gun.line
    return line.whole_delay_s(gun.spin_rad_s)


def advance(state: GunState, gun: TimedGun, elapsed_s: float, random: Random, *, trigger: bool = True) -> GunState:
    """Return the gun after a step in which the propeller turns steadily.

    Parameters
    ----------
    state : GunState
        State before the step.
    gun : TimedGun
        Gun, cam and speed during the step; of its scatter only that of the delay counts.
    elapsed_s : float
        Length of the step, 0 or more. [s]
    random : random.Random
        Source of the scatter.
    trigger : bool
        Whether it is pulled. A gun whose trigger is not makes ready for the next round and lets none go.
    """
    end_s = state.time_s + elapsed_s
    here = replace(state, passed=(), holding=state.holding and trigger)
    while trigger:
        begin_s = max(here.ready_s, state.time_s)
        if begin_s > end_s:
            break
        angle_rad = state.angle_rad + gun.spin_rad_s * (begin_s - state.time_s)
        release_s = begin_s + wait_rad(gun, angle_rad) / gun.spin_rad_s
        waits = release_s > begin_s + _ROUNDING_RAD / gun.spin_rad_s and not here.holding
        here = replace(here, holding=release_s > end_s, holds=here.holds + (waits and here.rounds > 0))
        if here.holding:
            break
        release_rad = state.angle_rad + gun.spin_rad_s * (release_s - state.time_s)
        here = _released(here, gun, release_s, release_rad=release_rad % math.tau, random=random)
    here = _through(here, state, gun, end_s)
    end_rad = (state.angle_rad + gun.spin_rad_s * elapsed_s) % gun.cam.period_rad
    return replace(here, time_s=end_s, angle_rad=end_rad)


def reached_rounds_per_min(state: GunState) -> float:
    """Return the rate between the first and the latest round, 0 before there are two [1/min]."""
    return MINUTE_S * (state.rounds - 1) / (state.latest_s - state.first_s) if state.rounds > 1 else 0.0


def _released(here: GunState, gun: TimedGun, release_s: float, *, release_rad: float, random: Random) -> GunState:
    line = gun.line
    whole_s, *_ = passage(gun, release_rad, random.gauss(0.0, 1.0) if gun.delay_sd_s > 0.0 else 0.0)
    fired = Round(release_s, release_s + whole_s - line.flight_s, release_s + whole_s, release_rad)
    ready_s = release_s + line.cycle_s
    return replace(
        here,
        ready_s=ready_s,
        flying=(*here.flying, fired),
        rounds=here.rounds + 1,
        first_s=here.first_s if here.rounds else release_s,
        latest_s=release_s,
    )


def _through(here: GunState, before: GunState, gun: TimedGun, end_s: float) -> GunState:
    passed = []
    for fired in (fired for fired in here.flying if fired.pass_s <= end_s):
        pass_rad = (before.angle_rad + gun.spin_rad_s * (fired.pass_s - before.time_s)) % math.tau
        passed.append(replace(fired, pass_rad=pass_rad, struck=touches(gun, pass_rad)))
    flying = tuple(fired for fired in here.flying if fired.pass_s > end_s)
    strikes = here.strikes + sum(fired.struck for fired in passed)
    return replace(here, flying=flying, passed=tuple(passed), strikes=strikes)
