"""One finger and two pilots: nothing crashes, what is told is flown, and what goes astray comes back in view."""

import math
import random
import re
from itertools import pairwise

import pytest
from stage_shapes import later, shapes

from sim.live.assisted import BANK_RATE_RAD_S, MOST_TOGETHER_RAD
from viz.stage.actions import Action
from viz.stage.attitude import axes, bank, on_picture
from viz.stage.shapes import texts
from viz.stage.worlds.flown import Hand
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.narrator import still
from viz.stage.worlds.turning import LET_GO_S, NAMES
from viz.stage.worlds.world import STEP_S

FRAME_S = 1.0 / 60.0
HEIGHT_M = 15.0
"""Kept by the pilots in ten minutes of a random finger."""
BALL_DEG = 8.0
BANK_DEG = 8.0
"""Within which both fly what was told 1.5 s ago and since."""


def ball_deg(flown):
    """Return the angle of the ball, from the change of velocity over the last step [deg]."""
    (v0, w0), (u, v, w), (p, q, r) = flown.before[8:10], flown.state[7:10], flown.state[10:13]
    gravity = flown._flyer.flying.airplane.gravity_m_s2
    _, right, down = axes(flown.state[3:7])
    side = ((v - v0) / STEP_S - p * w + r * u) / gravity - right[2]
    return math.degrees(math.atan2(side, down[2] - ((w - w0) / STEP_S + p * v - q * u) / gravity))


def wander(session, seed, seconds, move):
    """Yield after every frame in which `move` has had its turn every 2 s."""
    chance = random.Random(seed)
    for frame in range(round(seconds / FRAME_S)):
        if frame % 120 == 0:
            move(session.turning, chance)
        session.tick(FRAME_S)
        yield frame


def finger(world, chance):
    """Hold one random direction."""
    world.stick(chance.uniform(-1.0, 1.0), chance.uniform(-1.0, 1.0))


def fists(world, chance):
    """Throw stick, pedals and throttle to their stops."""
    world.stick(chance.choice((-1.0, 0.0, 1.0)), chance.choice((-1.0, 0.0, 1.0)))
    world.set("rudder", chance.choice((0.0, 0.5, 1.0)))
    world.set("throttle", chance.choice((0.0, 0.5, 1.0)))


def fly_with_a_finger(session, seed, seconds):
    """Fly with a random finger; the worst of height, ball, bank and headings is within its band in every frame."""
    world, steps, told = session.turning, 0, []
    for _ in wander(session, seed, seconds, finger):
        assert world._steps > steps  # never begun again
        steps = world._steps
        assert world.hand is Hand.PILOT
        told.append(world._told_rad)
        for flown in world._pair:
            assert abs(flown.state[2] - flown._flyer.start[2]) < HEIGHT_M
            assert abs(ball_deg(flown)) < BALL_DEG
            if len(told) > 90 and min(told[-90:]) == max(told[-90:]):
                assert abs(bank(flown.state[3:7]) - told[-1]) < math.radians(BANK_DEG)
        gap_rad = math.remainder(world._pair[0].heading_rad - world._pair[1].heading_rad, math.tau)
        assert abs(gap_rad) < math.radians(12.0)
    assert max(told) - min(told) > 1.0


def test_a_random_finger_flies_a_minute(session):
    fly_with_a_finger(session, 1, 60.0)


@pytest.mark.slow
def test_a_random_finger_flies_ten_minutes(session):
    fly_with_a_finger(session, 2, 600.0)


def throw_about(session, seed, seconds):
    """Fly with full control thrown to its stops: no jump from frame to frame, and back in the visitor's hands."""
    session.act(Action.FULL_CONTROL)
    world, steps, hands = session.turning, 0, []
    before = [flown.state for flown in world._pair]
    for _ in wander(session, seed, seconds, fists):
        assert world._steps > steps
        steps = world._steps
        hands.append(world.hand)
        for flown, then in zip(world._pair, before, strict=True):
            state = flown.state
            quickest = max(math.hypot(*state[7:10]), math.hypot(*then[7:10])) + 1.0
            assert math.dist(state[:3], then[:3]) < quickest * FRAME_S * 1.1
            half_turn = math.acos(min(1.0, abs(sum(a * b for a, b in zip(state[3:7], then[3:7], strict=True)))))
            assert half_turn < math.radians(7.0)
            assert max(abs(a - b) for a, b in zip(state[14:17], then[14:17], strict=True)) < 0.05
            assert -state[2] > 10.0
        before = [flown.state for flown in world._pair]
    changes = [after for was, after in pairwise(hands) if was is not after]
    assert changes[:2] == [Hand.RECOVERY, Hand.VISITOR]
    assert set(changes) == {Hand.RECOVERY, Hand.VISITOR}


def test_full_control_thrown_about_recovers_in_view(session):
    throw_about(session, 1, 60.0)


@pytest.mark.slow
def test_full_control_thrown_about_for_ten_minutes(session):
    throw_about(session, 2, 600.0)


def test_full_control_held_into_the_ground_does_not_reach_it(session):
    session.act(Action.FULL_CONTROL)
    session.turning.stick(0.0, -1.0)
    seen = set()
    for _ in range(2700):
        session.tick(FRAME_S)
        seen.add(session.turning.hand)
        assert min(-flown.state[2] for flown in session.turning._pair) > 10.0
    assert seen == {Hand.VISITOR, Hand.RECOVERY}


def test_given_back_from_a_dive_the_pilots_recover_and_climb_back(session):
    world = session.turning
    session.act(Action.FULL_CONTROL)
    world.stick(1.0, -1.0)
    later(session, 2.5)
    session.act(Action.FULL_CONTROL)
    assert not world.full
    later(session, 0.2)
    assert world.hand is Hand.RECOVERY
    assert session.turning.caption().key == "caption.recovery"
    later(session, 60.0)
    assert world.hand is Hand.PILOT
    for flown in world._pair:
        assert abs(flown.state[2] - flown._flyer.start[2]) < 3.0
        assert abs(bank(flown.state[3:7])) < math.radians(3.0) + MOST_TOGETHER_RAD


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_hands_off_parts_the_noses_as_the_spin_pushes_and_the_pilots_take_them_back(session, side):
    """To the right the rotary's nose falls below the other, to the left it stays above; then both come together."""
    world = session.turning
    world.stick(side, 0.0)
    later(session, 12.0)

    def up_deg():
        return [math.degrees(math.asin(-axes(flown.state[3:7])[0][2])) for flown in world._pair]

    before = up_deg()
    session.act(Action.LET_GO)
    later(session, LET_GO_S - 0.1)
    assert world.hand is Hand.NOBODY
    for flown in world._pair:
        assert flown.state[14:18] == pytest.approx(flown._flyer.trim[:4], abs=1e-3)
    (rotary, fixed) = (now - then for now, then in zip(up_deg(), before, strict=True))
    assert side * (rotary - fixed) < -1.5
    later(session, 0.2)
    assert world.hand is Hand.PILOT
    heights = []
    for _ in range(1200):
        session.tick(FRAME_S)
        heights += [abs(flown.state[2] - flown._flyer.start[2]) for flown in world._pair]
    assert max(heights) < 30.0
    assert max(heights[-2:]) < 5.0
    assert world.hand is Hand.PILOT


@pytest.mark.parametrize("script", NAMES)
def test_a_finger_takes_over_from_a_maneuver_without_a_jump(session, script):
    session.turning.perform(script)
    later(session, 2.0)
    before = [flown.state[:18] for flown in session.turning._pair]
    session.turning.stick(0.5, 0.0)
    assert [flown.state[:18] for flown in session.turning._pair] == before
    later(session, 15.0)
    assert session.turning.hand is Hand.PILOT
    for flown in session.turning._pair:
        assert bank(flown.state[3:7]) == pytest.approx(session.turning._told_rad, abs=math.radians(5.0))


def test_the_bank_told_moves_no_quicker_than_a_pilot_follows(session):
    frames = wander(session, 5, 10.0, lambda world, chance: world.stick(chance.choice((-1.0, 1.0)), 0.0))
    told = [session.turning._told_rad for _ in frames]
    quickest = max(abs(b - a) for a, b in pairwise(told))
    assert quickest == pytest.approx(BANK_RATE_RAD_S * FRAME_S)


def test_the_ghost_comes_back_from_where_it_had_been_left(session):
    world = session.turning
    world.perform("turn-left")
    later(session, 6.0)
    rotary, fixed = (flown.state[:3] for flown in world._pair)
    assert math.dist(world._apart_m, [b - a for a, b in zip(rotary, fixed, strict=True)]) < math.dist(rotary, fixed)
    assert math.hypot(*world._apart_m) > 0.5
    world.stick(0.0, 0.0)
    later(session, 60.0)
    assert math.hypot(*session.snapshot().view.apart_m) < 2.0


@pytest.mark.parametrize("full", [False, True])
def test_words_are_true_in_every_frame_and_stand_long_enough(session, full):
    if full:
        session.act(Action.FULL_CONTROL)
    said = []
    chance = random.Random(8)

    def move(world, dice):
        world.stick(dice.uniform(-0.9, 0.9), dice.uniform(-0.4, 0.4) if full else 0.0)
        if not full and chance.random() < 0.2:
            session.act(Action.LET_GO)

    for _ in wander(session, 7, 90.0, move):
        caption, view = session.turning.caption(), session.turning.view()
        if caption.words:
            plane = view.rotary
            push = on_picture(plane.attitude, view.camera_heading_rad, up=plane.pitch_n_m, right=plane.yaw_n_m)
            assert still(caption.words["effect"].split(".")[1], push)
            assert view.hand in {"pilot", "visitor"}
        elif caption.key == "caption.nobody":
            assert view.hand == "nobody"
        said.append((caption, view.hand))
    kinds = {caption.key for caption, _ in said}
    assert kinds >= ({"caption.visitor"} if full else {"caption.pilot", "caption.nobody", "caption.push"})
    changed = [frame for frame, ((a, _), (b, _)) in enumerate(pairwise(said)) if a != b]
    for start, end in pairwise(changed):
        (caption, hand), (_, after) = said[end], said[end + 1]
        assert end - start >= 60 * HOLD_S - 2 or caption.words or after != hand  # else it had become false


def test_hands_off_in_level_flight_says_that_nothing_parts(session):
    session.act(Action.LET_GO)
    later(session, 1.9)
    assert session.turning.caption().key == "caption.nobody_level"
    noses = [axes(flown.state[3:7])[0] for flown in session.turning._pair]
    assert math.degrees(math.dist(*noses)) < 0.5


def test_few_numbers_stand_on_the_screen(session, stage):
    """In a turn: the speed of both, and the ratio in the sentence."""
    session.turning.perform("turn-left")
    for _ in range(5):
        later(session, 1.3)
        assert sum(bool(re.search(r"\d", text.text)) for text in texts(shapes(session, stage))) <= 3
