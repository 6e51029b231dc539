"""The assisted pilot of the viewer: a visitor says a bank, he flies it, and recovers an airplane gone astray."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.flight.autopilot import HEIGHT_PER_S, pilot_law
from sim.flight.pilot_functions import ONE
from sim.flight.spin_pilot import spin_recovery

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.flight.actuation import ControlLaw
    from sim.flight.pilot_functions import PilotFunctions
    from sim.live.flight import Flyer
    from sim.numerics.number import Number

    State = tuple[float, ...]

MOST_BANK_RAD: Final = math.radians(45.0)
"""Largest bank that a visitor may ask for. [rad]"""
BANK_RATE_RAD_S: Final = math.radians(40.0)
"""Rate at which the bank that is told to the pilot follows the visitor's wish. [rad/s]"""
CLIMB_M_S: Final = 3.0
"""Fastest climb or descent with which the pilot goes back to his height. [m/s]"""
INTEGRATED_M_S: Final = 2.0
"""No more of an error in climb is integrated: the airplane is on its way back. [m/s]"""
PULL_OUT: Final = 2.0
"""Load factor beyond 1 in the pull-out of a recovery, at most: common practice, no source."""
TOGETHER_PER_RAD: Final = 0.5
"""Bank with which each of two pilots closes the gap between their headings. [rad/rad]"""
MOST_TOGETHER_RAD: Final = math.radians(3.0)
"""Largest bank of that kind. [rad]"""
UPSET_BANK_RAD: Final = math.radians(65.0)
LEVEL_BANK_RAD: Final = math.radians(12.0)
UPSET_PATH_SINE: Final = 0.35
"""Sine of the flight path, up or down, beyond which the pilot recovers before he holds anything."""
LEVEL_DESCENT_M_S: Final = 4.0
"""Descent or climb below which a recovery is over. [m/s]"""
UPSET_ALPHA_RAD: Final = 0.03
"""Angle of attack beyond that of the greatest lift, at which the wing is stalled. [rad]"""
RESERVE_M: Final = 150.0
"""Height kept for what the estimate of a recovery's height leaves out. [m]"""
DESCENT_S: Final = 4.0
"""Time for which the descent of the moment goes on in a recovery. [s]"""
STALLED_M: Final = 40.0
"""Height that a stalled or inverted airplane loses more. [m]"""
SPINNING_M: Final = 110.0
"""Height that one loses more instead whose angle of attack is beyond `SPINNING_RAD`. [m]"""
SPINNING_RAD: Final = math.radians(40.0)


def assisted(who: Flyer, bank_rad: Callable[[], Number], functions: PilotFunctions = ONE) -> ControlLaw:
    """Return the law of a pilot who flies a bank and holds height, ball and speed of the start.

    Parameters
    ----------
    who : Flyer
        The airplane, whose level flight is held.
    bank_rad : function
        Returns the bank told to him now, right wing down positive, up to `MOST_BANK_RAD` either way. [rad]
    functions : PilotFunctions
        `ONE`, or those of a recorder (`sim.numerics.trace`).

    Notes
    -----
    The pilot model of `sim.flight.autopilot`. He is told no more of an error in height than what he closes with
    `CLIMB_M_S`, so that he flies back from far below as well, and integrates no more than `INTEGRATED_M_S`.
    """
    flying, start = who.flying, who.start[:14]
    larger, smaller = functions.larger, functions.smaller
    hold = pilot_law(
        flying.airplane,
        lambda t: bank_rad(),  # noqa: ARG005
        start=start,
        controls=who.trim,
        functions=functions,
    )
    most_m = CLIMB_M_S / HEIGHT_PER_S

    def law(t: float, state: State, rates: State, integrals: State) -> tuple[State, State]:
        below_m = smaller(larger(state[2] - start[2], -most_m), most_m)
        aims, (climb, *others) = hold(t, (*state[:2], start[2] + below_m, *state[3:]), rates, integrals)
        return aims, (smaller(larger(climb, -INTEGRATED_M_S), INTEGRATED_M_S), *others)

    return law


def recovery(who: Flyer, functions: PilotFunctions = ONE) -> ControlLaw:
    """Return the law of a pilot who stops a rotation, unloads, levels the wings and pulls out, from any attitude.

    Notes
    -----
    The recovery of `sim.flight.spin_pilot`, with a load factor of at most 1 + `PULL_OUT`.
    """
    flying = who.flying
    recover = spin_recovery(
        flying.airplane,
        flying.travel,
        start=who.start[:14],
        controls=who.trim,
        pull_out=PULL_OUT,
        functions=functions,
    )

    def law(t: float, state: State, rates: State, integrals: State) -> tuple[State, State]:  # noqa: ARG001
        done = recover(state, rates, integrals)
        return done.settings, done.integrals

    return law


def together(own_heading_rad: float, other_heading_rad: float) -> float:
    """Return the bank that a pilot adds to the wish, so that two noses that parted come together again [rad]."""
    gap_rad = math.remainder(other_heading_rad - own_heading_rad, math.tau)
    return min(max(TOGETHER_PER_RAD * gap_rad, -MOST_TOGETHER_RAD), MOST_TOGETHER_RAD)


class Outlook(NamedTuple):
    """What a pilot goes by who looks whether his airplane has gone astray.

    Attributes
    ----------
    bank_rad : float
        Right wing down positive. [rad]
    descent_m_s, speed_m_s : float
        [m/s]
    alpha_rad : float
        Angle of attack. [rad]
    beyond_rad : float
        By how much that is beyond the one at which the wing counts as stalled, upright or inverted; above 0 it does.
        [rad]
    """

    bank_rad: Number
    descent_m_s: Number
    speed_m_s: Number
    alpha_rad: Number
    beyond_rad: Number


def outlook(who: Flyer, state: Sequence[Number], functions: PilotFunctions = ONE) -> Outlook:
    """Return the outlook of an airplane in a state."""
    e0, e1, e2, e3, u, v, w = state[3:10]
    up = e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
    alpha = functions.atan2(w, u)
    airplane = who.flying.airplane
    breaks = airplane.polar.attached_to_rad(airplane.derivatives.lift_alpha)
    return Outlook(
        bank_rad=functions.atan2(2.0 * (e2 * e3 + e0 * e1), up),
        descent_m_s=2.0 * (e1 * e3 - e0 * e2) * u + 2.0 * (e2 * e3 + e0 * e1) * v + up * w,
        speed_m_s=functions.sqrt(u * u + v * v + w * w),
        alpha_rad=alpha,
        beyond_rad=abs(alpha) - (breaks + UPSET_ALPHA_RAD),
    )


def upset(who: Flyer, state: State) -> bool:
    """Tell whether an airplane must be recovered before a bank can be held: steep, stalled, or banked far over."""
    now = outlook(who, state)
    steep = abs(now.descent_m_s) > UPSET_PATH_SINE * now.speed_m_s
    return bool(abs(now.bank_rad) > UPSET_BANK_RAD or steep or now.beyond_rad > 0.0)


def level(who: Flyer, state: State) -> bool:
    """Tell whether a recovery is over: wings and path nearly level, the wing flying."""
    now = outlook(who, state)
    calm = abs(now.descent_m_s) < LEVEL_DESCENT_M_S
    return bool(abs(now.bank_rad) < LEVEL_BANK_RAD and calm and now.beyond_rad <= 0.0)


def endangered(who: Flyer, state: State, spare_m: float = 0.0) -> bool:
    """Tell whether an airplane in a visitor's hands must be recovered now, to stay above the ground.

    Parameters
    ----------
    who, state : Flyer, tuple of float
        The airplane, and its state.
    spare_m : float
        Height that must be left beyond what the recovery takes. [m]

    Notes
    -----
    A recovery is taken to lose `DESCENT_S` of the descent of the moment, and more when stalled, inverted or spinning.
    Of 360 recoveries of six airplanes from random full deflections the worst lost 146 m more than that, which
    `RESERVE_M` covers. An airplane whose flight begins lower than twice that reserve keeps half of its height.
    """
    now = outlook(who, state)
    reserve_m = min(RESERVE_M, -0.5 * who.start[2]) + spare_m
    lost_m = STALLED_M if now.beyond_rad > 0.0 or abs(now.bank_rad) > math.pi / 2 else 0.0
    if abs(now.alpha_rad) > SPINNING_RAD:
        lost_m = SPINNING_M
    return bool(-state[2] < reserve_m + DESCENT_S * max(now.descent_m_s, 0.0) + lost_m)
