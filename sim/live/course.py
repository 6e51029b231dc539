"""A course of rings in the air: along a left turn and a right one, at the height of the start."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from sim.live.flight import Flyer

    State = tuple[float, ...]
    Place = tuple[float, float, float]

BANK_RAD: Final = math.radians(25.0)
"""Bank of the turns that the course is laid along. [rad]"""
LEGS: Final = ((3.0, 0.0), (9.0, -1.0), (9.0, 1.0), (4.0, 0.0))
"""Duration of each leg [s], and its bank over `BANK_RAD`, right positive."""
RINGS_S: Final = (6.5, 10.5, 15.5, 19.5, 24.5)
"""When who flies the legs comes to each ring. [s]"""
ROLL_RAD_S: Final = math.radians(15.0)
"""Rate of roll between two legs. [rad/s]"""
RADIUS_SPANS: Final = 1.8
"""Radius of a ring over the span: a wing tip has more than half a span to spare in its middle."""
STEP_S: Final = 0.02
LEAST_M: Final = 60.0
"""Nearer than this to a ring nobody turns any harder for it. [m]"""


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring that stands upright across the way.

    Attributes
    ----------
    north_m, east_m, altitude_m : float
        Its middle. [m]
    heading_rad : float
        In which it is flown through, from north, right positive. [rad]
    radius_m : float
        Above 0. [m]
    due_s : float
        When who flies the legs of the course comes to it, after the start. [s]
    """

    north_m: float
    east_m: float
    altitude_m: float
    heading_rad: float
    radius_m: float
    due_s: float


def course(who: Flyer, span_m: float) -> tuple[Ring, ...]:
    """Return the rings of the course, in the order in which they are flown.

    Parameters
    ----------
    who : Flyer
        From whose level flight, with whose speed and at whose height the course begins.
    span_m : float
        Of the airplane, above 0. [m]

    Notes
    -----
    The path of a point in level coordinated turns: the heading turns at g tan(bank) / speed.
    """
    north_m, east_m, down_m = who.start[:3]
    speed_m_s = math.hypot(*who.start[7:10])
    heading_rad = _heading_rad(who.start)
    found: list[Ring] = []
    bank_rad, step = 0.0, 0
    for due_s in RINGS_S:
        while step * STEP_S < due_s:
            wanted_rad = _leg(step * STEP_S) * BANK_RAD
            bank_rad += min(max(wanted_rad - bank_rad, -ROLL_RAD_S * STEP_S), ROLL_RAD_S * STEP_S)
            turned_rad = GRAVITY_M_S2 * math.tan(bank_rad) / speed_m_s * STEP_S
            middle_rad = heading_rad + 0.5 * turned_rad
            north_m += speed_m_s * STEP_S * math.cos(middle_rad)
            east_m += speed_m_s * STEP_S * math.sin(middle_rad)
            heading_rad += turned_rad
            step += 1
        found.append(Ring(north_m, east_m, -down_m, heading_rad, RADIUS_SPANS * span_m, due_s))
    return tuple(found)


def _leg(time_s: float) -> float:
    """Return the share of the bank that is due at a time; after the last leg none."""
    for lasts_s, share in LEGS:
        if time_s < lasts_s:
            return share
        time_s -= lasts_s
    return 0.0


def crossed(ring: Ring, before: State, after: State) -> bool | None:
    """Tell whether a step went through a ring: True through it, False past it, None where it crosses no plane of it.

    Parameters
    ----------
    ring : Ring
        The ring.
    before, after : tuple of float
        States of the airplane at both ends of the step, of which the places count; the way between is straight.
    """
    (ahead, *here), (beyond, *there) = _from(ring, before), _from(ring, after)
    if not ahead < 0.0 <= beyond:
        return None
    share = ahead / (ahead - beyond)
    aside_m, above_m = (one + share * (other - one) for one, other in zip(here, there, strict=True))
    return math.hypot(aside_m, above_m) <= ring.radius_m


def _from(ring: Ring, state: State) -> Place:
    """Return how far a place is beyond the plane of a ring, to the right of its middle and above it [m]."""
    north_m, east_m = state[0] - ring.north_m, state[1] - ring.east_m
    cosine, sine = math.cos(ring.heading_rad), math.sin(ring.heading_rad)
    return cosine * north_m + sine * east_m, cosine * east_m - sine * north_m, -state[2] - ring.altitude_m


def towards_rad(ring: Ring, state: State) -> float:
    """Return the bank of the turn that leads to the middle of a ring and through it in its heading [rad].

    Parameters
    ----------
    ring : Ring
        The ring.
    state : tuple of float
        Of the airplane, of which place, heading and speed count.

    Notes
    -----
    Right positive, no more than a right angle. The curvature at its beginning of the cubic line that leaves in the
    heading of the airplane and arrives in that of the ring.
    """
    north_m, east_m = ring.north_m - state[0], ring.east_m - state[1]
    away_m = max(math.hypot(north_m, east_m), LEAST_M)
    sight_rad = math.atan2(east_m, north_m)
    off_rad = math.remainder(sight_rad - _heading_rad(state), math.tau)
    turn_rad = math.remainder(ring.heading_rad - sight_rad, math.tau)
    speed_m_s = math.hypot(*state[7:10])
    return math.atan(speed_m_s * speed_m_s * (4.0 * off_rad - 2.0 * turn_rad) / (away_m * GRAVITY_M_S2))


def _heading_rad(state: State) -> float:
    e0, e1, e2, e3 = state[3:7]
    return math.atan2(2.0 * (e1 * e2 + e0 * e3), 1.0 - 2.0 * (e2 * e2 + e3 * e3))
