"""What a flight takes: nothing flown straight, the mirror image with the engine turned round, and other integrals."""

import math
from itertools import pairwise

import numpy as np
import pytest
from airplanes import BIPLANE
from scipy.integrate import simpson
from shared import built

from sim.live.assisted import assisted
from sim.live.effort import Effort, further
from sim.live.flight import flyer, pilot_step, reading
from sim.model.model import model

STEP_S = 1.0 / 60.0
ENGINES = ("rotary", "flat_four")


@pytest.fixture(scope="module")
def flyers():
    return {name: flyer(built(BIPLANE).airplane(name)) for name in ENGINES}


def flown(who, bank_rad, seconds, step_s=STEP_S):
    """Return the states of a flight whose bank is a function of time [s, rad]."""
    now = [0.0]
    step, states = pilot_step(who, assisted(who, lambda: bank_rad(now[0])), step_s), [who.start]
    for count in range(round(seconds / step_s)):
        now[0] = count * step_s
        states.append(step(now[0], states[-1]))
    return states


def effort(who, states, step_s=STEP_S):
    done = Effort()
    for before, after in pairwise(states):
        done = further(done, who, before, after, step_s=step_s)
    return done


def left_then_right(time_s):
    return -0.5 if time_s < 8.0 else 0.6


@pytest.mark.parametrize("name", ENGINES)
def test_a_straight_flight_takes_nothing(flyers, name):
    """The start is level flight to the last bit that a solver leaves: what its rounding takes is below a millionth."""
    straight = effort(flyers[name], flown(flyers[name], lambda _: 0.0, 10.0))
    turning = effort(flyers[name], flown(flyers[name], left_then_right, 16.0))
    for part in ("feet_left_share", "feet_right_share", "hand_share", "wander_rad"):
        assert getattr(straight, part) < 2e-4
        assert getattr(turning, part) > 0.01


def test_before_it_begins_a_flight_took_nothing_and_one_step_is_its_own_mean(flyers):
    none = Effort()
    assert (none.feet_left_share, none.feet_right_share, none.hand_share, none.wander_rad) == (0.0, 0.0, 0.0, 0.0)
    who = flyers["rotary"]
    held = (*who.start[:14], who.start[14] - 0.1, who.start[15], who.start[16] + 0.2, *who.start[17:])
    once = further(none, who, held, held, step_s=0.5)
    travel = who.flying.travel
    assert once.hand_share == pytest.approx(0.1 / travel.elevator_up_rad)
    assert once.feet_left_share + once.feet_right_share == pytest.approx(0.2 / travel.rudder_rad)
    assert (once.left_s + once.right_s, once.wander_rad) == (0.5, 0.0)


@pytest.mark.parametrize("name", ENGINES)
def test_an_engine_the_other_way_round_changes_left_for_right(flyers, name):
    turned = model(BIPLANE, [f"powerplant.{one}.rotation='anticlockwise'" for one in ENGINES])
    other = flyer(turned.airplane(name))
    ours = effort(flyers[name], flown(flyers[name], left_then_right, 16.0))
    theirs = effort(other, flown(other, lambda time_s: -left_then_right(time_s), 16.0))
    assert theirs.hand_s == pytest.approx(ours.hand_s, rel=1e-6)
    assert theirs.wander_rad == pytest.approx(ours.wander_rad, rel=1e-6)
    assert (theirs.left_s, theirs.right_s) == pytest.approx((ours.right_s, ours.left_s), abs=2.1 * STEP_S)
    feet = (theirs.feet_right_share, theirs.feet_left_share)
    assert feet == pytest.approx((ours.feet_left_share, ours.feet_right_share), rel=5e-3)


@pytest.mark.parametrize("name", ENGINES)
def test_the_sums_are_those_of_another_rule_on_a_finer_flight(flyers, name):
    """Simpson's rule on where stick and pedals are, and the way of the nose from the velocity seen in its axes."""
    who = flyers[name]
    done = effort(who, flown(who, left_then_right, 16.0))
    states = flown(who, left_then_right, 16.0, 0.25 * STEP_S)
    seen, rest = [reading(who, state) for state in states], reading(who, who.start)
    pulled = np.array(states)[:, 14] - who.start[14]
    travel = who.flying.travel
    hand = np.maximum(-pulled / travel.elevator_up_rad, pulled / travel.elevator_down_rad)
    feet = np.array([abs(one.rudder_share - rest.rudder_share) for one in seen])
    assert done.feet_left_s + done.feet_right_s == pytest.approx(simpson(feet, dx=0.25 * STEP_S), rel=2e-3)
    assert done.hand_s == pytest.approx(simpson(hand, dx=0.25 * STEP_S), rel=2e-3)
    air = np.array(states)[:, 7:10]
    air /= np.linalg.norm(air, axis=1)[:, None]
    swept = np.arccos(np.clip(np.einsum("ij,ij->i", air[4::4], air[:-4:4]), -1.0, 1.0)).sum()
    assert done.wander_rad == pytest.approx(swept, rel=0.02)


def test_the_rotary_asks_more_of_the_feet_on_one_side_and_its_nose_wanders_farther(flyers):
    """In a left turn its nose is pushed up, in a right one down: rudder adds to that of the roll, or saves it."""
    taken = {
        name: effort(who, flown(who, lambda time_s: math.copysign(0.5, time_s - 9.0), 18.0))
        for name, who in flyers.items()
    }
    ratio = {name: done.feet_left_share / done.feet_right_share for name, done in taken.items()}
    assert ratio["rotary"] > 1.3 * ratio["flat_four"]
    assert taken["rotary"].wander_rad > 1.1 * taken["flat_four"].wander_rad
