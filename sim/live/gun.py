"""The timed gun for the viewer: rounds released through the gear and seen through the disc, one after another."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.synchronizer.windows import release_windows
from sim.units.convert import MINUTE_S

if TYPE_CHECKING:
    from random import Random

    from sim.synchronizer.blade import Action

TURN_RAD = 2.0 * math.pi
_ROUNDING_RAD = 1e-9  # a release this little past its angle is on it


@dataclass(frozen=True, slots=True)
class GunSetup:
    """The line of fire, the gun and how it is driven just now.

    Attributes
    ----------
    blades, openings : int
        Blades of the propeller, evenly spaced, and openings of the cam in its turn, which divide them.
    spin_rad_s : float
        Speed of the propeller, above 0. [rad/s]
    blocked_rad, touched_rad : float
        Arc about each blade that the cam keeps shut, margins in it, and the arc in which a round would touch. [rad]
    delay_s, jitter_s : float
        Release to passage through the disc, and its standard deviation. [s]
    flight_s : float
        The part of the delay after the muzzle. [s]
    gun_rounds_per_min : float
        The gun's own rate. [1/min]
    action : str
        ``interrupter`` or ``impulse``.
    bore_radius_m, disc_radius_m, muzzle_to_disc_m : float
        Bore line above the shaft axis at the disc, tip radius, and muzzle to disc along the bore line. [m]
    """

    blades: int
    openings: int
    spin_rad_s: float
    blocked_rad: float
    touched_rad: float
    delay_s: float
    jitter_s: float
    flight_s: float
    gun_rounds_per_min: float
    action: Action
    bore_radius_m: float
    disc_radius_m: float
    muzzle_to_disc_m: float


@dataclass(frozen=True, slots=True)
class Cam:
    """A cam cut for one speed, delay and number of blades: the propeller angles at which it lets go.

    Attributes
    ----------
    from_rad, to_rad : tuple of float
        Where each opening begins, in [0, 2π), and ends, after that. [rad]
    spin_rad_s, delay_s : float
        What it was cut for. [rad/s], [s]
    """

    from_rad: tuple[float, ...]
    to_rad: tuple[float, ...]
    spin_rad_s: float
    delay_s: float


@dataclass(frozen=True, slots=True)
class GunPicture:
    """The gun as it is set, and the cam that drives it."""

    setup: GunSetup
    cam: Cam


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
        Since the start [s]; propeller angle, 0 with blade 1 on the bore line, in [0, 2π) [rad].
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


def cut_cam(setup: GunSetup) -> Cam:
    """Return the cam that passes every round between the blades at the speed and delay of `setup`.

    Where the blocked arcs meet, the cam has no opening.
    """
    found = release_windows(
        setup.spin_rad_s,
        blades=setup.blades,
        blocked_rad=setup.blocked_rad,
        delay_s=setup.delay_s,
        openings=setup.openings,
    )
    return Cam(tuple(found.from_rad[0].tolist()), tuple(found.to_rad[0].tolist()), setup.spin_rad_s, setup.delay_s)


def touches(setup: GunSetup, pass_rad: float) -> bool:
    """Tell whether a round that crosses the disc at a propeller angle meets a blade [rad]."""
    spacing_rad = TURN_RAD / setup.blades
    return abs(math.remainder(pass_rad, spacing_rad)) < 0.5 * setup.touched_rad


def wait_rad(cam: Cam, angle_rad: float, action: Action) -> float:
    """Return how far the propeller must turn until the gear lets a ready gun go; infinite for a cam without opening.

    An interrupter lets go anywhere in an opening. An impulse comes once, in the middle of each opening.
    """
    waits = []
    for opens, shuts in zip(cam.from_rad, cam.to_rad, strict=True):
        if action == "interrupter" and (angle_rad - opens) % TURN_RAD <= shuts - opens:
            return 0.0
        at = opens if action == "interrupter" else 0.5 * (opens + shuts)
        ahead_rad = (at - angle_rad) % TURN_RAD
        waits.append(0.0 if ahead_rad > TURN_RAD - _ROUNDING_RAD else ahead_rad)
    return min(waits, default=math.inf)


def advance(state: GunState, picture: GunPicture, elapsed_s: float, random: Random) -> GunState:
    """Return the gun after a step in which the propeller turns steadily.

    Parameters
    ----------
    state : GunState
        Before.
    picture : GunPicture
        Settings during the step.
    elapsed_s : float
        Length of the step, 0 or more. [s]
    random : random.Random
        Where the jitter comes from.
    """
    setup, end_s = picture.setup, state.time_s + elapsed_s
    here = replace(state, passed=())
    while True:
        begin_s = max(here.ready_s, state.time_s)
        if begin_s > end_s:
            break
        angle_rad = state.angle_rad + setup.spin_rad_s * (begin_s - state.time_s)
        release_s = begin_s + wait_rad(picture.cam, angle_rad % TURN_RAD, setup.action) / setup.spin_rad_s
        waits = release_s > here.ready_s + _ROUNDING_RAD / setup.spin_rad_s and not here.holding
        here = replace(here, holding=release_s > end_s, holds=here.holds + (waits and here.rounds > 0))
        if here.holding:
            break
        release_rad = state.angle_rad + setup.spin_rad_s * (release_s - state.time_s)
        here = _released(here, setup, release_s, release_rad=release_rad % TURN_RAD, random=random)
    here = _through(here, state, setup, end_s)
    return replace(here, time_s=end_s, angle_rad=(state.angle_rad + setup.spin_rad_s * elapsed_s) % TURN_RAD)


def reached_rounds_per_min(state: GunState) -> float:
    """Return the rate between the first and the latest round, 0 before there are two [1/min]."""
    return MINUTE_S * (state.rounds - 1) / (state.latest_s - state.first_s) if state.rounds > 1 else 0.0


def _released(here: GunState, setup: GunSetup, release_s: float, *, release_rad: float, random: Random) -> GunState:
    delay_s = max(setup.flight_s, setup.delay_s + (random.gauss(0.0, setup.jitter_s) if setup.jitter_s > 0.0 else 0.0))
    fired = Round(release_s, release_s + delay_s - setup.flight_s, release_s + delay_s, release_rad)
    ready_s = release_s + MINUTE_S / setup.gun_rounds_per_min
    return replace(
        here,
        ready_s=ready_s,
        flying=(*here.flying, fired),
        rounds=here.rounds + 1,
        first_s=here.first_s if here.rounds else release_s,
        latest_s=release_s,
    )


def _through(here: GunState, before: GunState, setup: GunSetup, end_s: float) -> GunState:
    passed = []
    for fired in (fired for fired in here.flying if fired.pass_s <= end_s):
        pass_rad = (before.angle_rad + setup.spin_rad_s * (fired.pass_s - before.time_s)) % TURN_RAD
        passed.append(replace(fired, pass_rad=pass_rad, struck=touches(setup, pass_rad)))
    flying = tuple(fired for fired in here.flying if fired.pass_s > end_s)
    strikes = here.strikes + sum(fired.struck for fired in passed)
    return replace(here, flying=flying, passed=tuple(passed), strikes=strikes)
