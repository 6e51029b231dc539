"""The assisted pilot: what he holds, that left is the mirror image of right, and what he recovers from."""

import math
import random
from dataclasses import replace

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

from sim.flight.motion import Controls, motion_of_floats
from sim.live.assisted import MOST_BANK_RAD, assisted, endangered, level, recovery, together, upset
from sim.live.flight import by_stick, flyer, pilot_step
from sim.model.model import model
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor
from viz.stage.attitude import bank

STEP_S = 1.0 / 60.0
ENGINES = ("rotary", "flat_four")
STATE_MIRROR = (1, -1, 1, 1, -1, 1, -1, 1, -1, 1, -1, 1, -1, -1)
"""Signs of a state seen in a mirror: east, roll and yaw turn round, and so does the engine."""


@pytest.fixture(scope="module")
def flyers():
    return {name: flyer(built(BIPLANE).airplane(name)) for name in ENGINES}


def flown(who, law, seconds, state=None):
    """Yield the state after every step."""
    step, state = pilot_step(who, law, STEP_S), state or who.start
    for count in range(round(seconds / STEP_S)):
        state = step(count * STEP_S, state)
        yield state


def ball_deg(who, state):
    """Return the angle of the ball: of apparent gravity from the airplane's plane of symmetry [deg]."""
    rates = motion_of_floats(who.flying.flown)(state[:14], Controls(*state[14:18]))
    gravity = who.flying.airplane.gravity_m_s2
    e0, e1, e2, e3, u, v, w, p, q, r = state[3:13]
    side = (rates[8] - p * w + r * u) / gravity - 2.0 * (e2 * e3 + e0 * e1)
    up = e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3 - (rates[9] + p * v - q * u) / gravity
    return math.degrees(math.atan2(side, up))


@pytest.mark.parametrize("name", ENGINES)
@pytest.mark.parametrize("share", [-1.0, -0.4, 0.7])
def test_a_bank_that_is_told_is_flown_at_its_height_with_the_ball_in_the_middle(flyers, name, share):
    who, told = flyers[name], share * MOST_BANK_RAD
    for count, state in enumerate(flown(who, assisted(who, lambda: told), 20.0)):
        assert abs(state[2] - who.start[2]) < 10.0
        if count * STEP_S > 8.0:
            assert bank(state[3:7]) == pytest.approx(told, abs=math.radians(3.5))
            assert abs(ball_deg(who, state)) < 1.5
    assert math.hypot(*state[7:10]) == pytest.approx(math.hypot(*who.start[7:10]), abs=2.0)


def test_the_rotary_alone_asks_for_another_rudder_to_the_left_than_to_the_right(flyers):
    """In a left turn the nose is pushed up, to the right down: the pilot's feet hold most of it in a bank."""
    rudder = {}
    for name in ENGINES:
        who = flyers[name]
        ends = [list(flown(who, assisted(who, lambda told=told: told), 20.0))[-1] for told in (-0.6, 0.6)]
        rudder[name] = abs(ends[0][16] + ends[1][16] - 2.0 * who.trim.rudder_rad)
    assert rudder["rotary"] > 3.0 * rudder["flat_four"]


@pytest.mark.parametrize("name", ENGINES)
def test_an_engine_the_other_way_round_mirrors_the_flight(name):
    turned = model(BIPLANE, [f"powerplant.{one}.rotation='anticlockwise'" for one in ENGINES])
    ours, theirs = flyer(built(BIPLANE).airplane(name)), flyer(turned.airplane(name))
    one = list(flown(ours, assisted(ours, lambda: 0.5), 10.0))[-1]
    other = list(flown(theirs, assisted(theirs, lambda: -0.5), 10.0))[-1]
    mirrored = [sign * part for sign, part in zip(STATE_MIRROR, other, strict=False)]
    assert one[:14] == pytest.approx(mirrored, rel=1e-7, abs=1e-7)


@pytest.mark.parametrize("rotors", [(), (Rotor(21.0), Rotor(21.0, ratio=-1.0))], ids=["none", "counter-turning"])
@pytest.mark.parametrize("law", ["assisted", "recovery"])
def test_without_rotor_left_is_the_mirror_image_of_right(flyers, rotors, law):
    """A glider, or one whose rotors turn against each other, that starts with its right or its left wing low."""
    who = flyers["rotary"]
    bare = replace(who.flying.flown, rotors=rotors, engine=Engine(), propeller=Propeller())
    rest = who.trim._replace(aileron_rad=0.0, rudder_rad=0.0)
    who = replace(who, flying=replace(who.flying, airplane=bare), trim=rest)
    object.__setattr__(who.flying, "flown", bare) if "flown" in getattr(who.flying, "__dict__", {}) else None
    ends = []
    for side in (1.0, -1.0):
        start = (0.0, 0.0, -800.0, math.cos(0.3), side * math.sin(0.3), 0.0, 0.0, 34.0, 0.0, 2.0, 0.0, 0.0, 0.0, 120.0)
        wanted = assisted(who, lambda side=side: -0.5 * side) if law == "assisted" else recovery(who)
        begun = (*start, rest.elevator_rad, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
        ends.append(list(flown(who, wanted, 5.0, begun))[-1])
    mirrored = [sign * part for sign, part in zip((*STATE_MIRROR[:13], 1), ends[1], strict=False)]
    assert ends[0][:14] == pytest.approx(mirrored, rel=1e-8, abs=1e-8)
    assert abs(ends[0][1]) > 0.1


def thrown(who, chance, seconds):
    """Return a state after random full deflections of every control."""
    held = [0.0] * 4
    law, until, state = by_stick(who, lambda: tuple(held)), 0.0, who.start
    step = pilot_step(who, law, STEP_S)
    for count in range(round(seconds / STEP_S)):
        if count * STEP_S >= until:
            held[:] = [chance.choice((-1.0, 0.0, 1.0)) for _ in range(3)] + [chance.choice((-0.5, 0.0, 0.5))]
            until += chance.uniform(0.3, 3.0)
        state = step(count * STEP_S, state)
    return state


def falls_and_levels(who, chance, seconds):
    """Return how far a thrown airplane fell in its recovery beyond the estimate [m]; it is level in 20 s."""
    begun = thrown(who, chance, seconds)
    height_m = next(h for h in range(-2000, 2000) if not endangered(who, (0.0, 0.0, -float(h), *begun[3:])))
    begun = (*begun[:18], 0.0, 0.0, 0.0, 0.0)
    lowest_m = -begun[2]
    for state in flown(who, recovery(who), 20.0, begun):
        lowest_m = min(lowest_m, -state[2])
        if level(who, state):
            return -begun[2] - lowest_m - height_m
    pytest.fail("it never flew level")


@pytest.mark.parametrize("name", ENGINES)
def test_what_was_thrown_about_is_level_again_above_the_ground(flyers, name):
    chance = random.Random(5)
    assert max(falls_and_levels(flyers[name], chance, 1.0 + count) for count in range(6)) < 0.0


@pytest.mark.slow
@pytest.mark.parametrize("path", [BIPLANE, PARASOL, TRIPLANE])
def test_dozens_of_recoveries_end_above_the_ground(path):
    chance = random.Random(11)
    for flying in built(path).airplanes():
        who = flyer(flying)
        assert max(falls_and_levels(who, chance, 1.0 + 0.4 * count) for count in range(25)) < 0.0


def test_level_flight_is_level_and_a_dive_a_stall_and_a_steep_bank_are_upset(flyers):
    who = flyers["rotary"]
    assert level(who, who.start)
    assert not upset(who, who.start)
    assert not endangered(who, who.start)

    def at(*, roll=0.0, pitch=0.0, alpha=0.05):
        half = (math.cos(roll / 2), math.sin(roll / 2), 0.0, 0.0)
        c, s = math.cos(pitch / 2), math.sin(pitch / 2)
        turn = (half[0] * c, half[1] * c, s * half[0], s * half[1])
        return (*who.start[:3], *turn, 36.0 * math.cos(alpha), 0.0, 36.0 * math.sin(alpha), *who.start[10:])

    for state in (at(roll=1.2), at(pitch=-0.6), at(alpha=0.5), at(roll=math.pi)):
        assert upset(who, state)
        assert not level(who, state)
    low = at(pitch=-1.4)
    assert endangered(who, (*low[:2], -200.0, *low[3:]))
    assert not endangered(who, (*who.start[:2], -200.0, *who.start[3:]))
    assert endangered(who, (*who.start[:2], -200.0, *who.start[3:]), spare_m=95.0)
    assert not upset(who, at(roll=MOST_BANK_RAD))


def test_noses_that_parted_come_together_by_the_short_way():
    assert together(0.1, 0.2) == pytest.approx(-together(0.2, 0.1)) == pytest.approx(0.05)
    assert together(3.1, -3.1) > 0.0 > together(-3.1, 3.1)
    assert together(1.0, 1.0) == 0.0
    assert together(0.0, 1.0) == together(0.0, 2.0) < math.radians(3.1)
