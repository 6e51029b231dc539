"""Manoeuvres: mirrored by a mirrored rotor, signs in the pilot's words, within travel and rate, held by a pilot."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from flights import without_slipstream

from sim.errors import NoAnswerError
from sim.flight.actuation import STOP_TO_STOP_S, fly
from sim.flight.autopilot import gains
from sim.flight.maneuver import BEGIN_S, MANEUVERS, adjusted, plan
from sim.flight.momentum_fraction import NO_ROTOR, with_momentum_fraction
from sim.flight.motion import right_hand_side
from sim.flight.trim import steady_turns
from sim.model.model import model
from sim.numerics.ode import solve
from sim.studies.turns import turns

BANK = math.radians(45.0)


def flown(airplane, travel, name, sign, **changes):
    kind = replace(MANEUVERS[name], **changes)
    start = -sign * BANK if kind.begins_banked else 0.0
    throttle = 0.15 if name == "slam" else None
    turns = steady_turns(airplane, speed_m_s=36.0, bank_rad=start, altitude_m=300.0, throttle=throttle)
    state, controls = tuple(turns.state[:, 0].tolist()), turns.controls(0)
    ready = plan(name, airplane, travel, maneuver=kind, sign=sign, bank_rad=BANK, state=state, controls=controls)
    times = np.arange(0.0, kind.flown_s + 0.025, 0.05)
    return fly(
        airplane,
        travel,
        ready.control_law,
        state=state,
        controls=controls,
        times_s=times,
        breakpoints_s=ready.breakpoints_s,
    )


def attitude(history):
    e0, e1, e2, e3 = history.state[3:7]
    pitch = np.degrees(np.arcsin(2.0 * (e0 * e2 - e1 * e3)))
    bank = np.degrees(np.arctan2(2.0 * (e2 * e3 + e0 * e1), 1.0 - 2.0 * (e1**2 + e2**2)))
    heading = np.degrees(np.unwrap(np.arctan2(2.0 * (e1 * e2 + e0 * e3), 1.0 - 2.0 * (e2**2 + e3**2))))
    return pitch - pitch[0], bank, heading - heading[0]


@pytest.mark.parametrize("name", ["rudder-kick", "roll-in", "turn", "reversal"])
def test_right_with_a_clockwise_rotor_mirrors_left_with_an_anticlockwise_one(biplane, travel, name):
    right = attitude(flown(biplane(sense=1.0), travel, name, 1.0, flown_s=5.0))
    left = attitude(flown(biplane(sense=-1.0), travel, name, -1.0, flown_s=5.0))
    assert left[0] == pytest.approx(right[0], abs=1e-4)
    assert left[1] == pytest.approx(-right[1], abs=1e-4)
    assert left[2] == pytest.approx(-right[2], abs=1e-4)


@pytest.mark.parametrize(("sign", "side"), [(1.0, "down"), (-1.0, "up")])
def test_a_rudder_kick_to_the_right_with_a_clockwise_rotor_drops_the_nose(biplane, travel, sign, side):
    with_it, without = (
        attitude(flown(a, travel, "rudder-kick", sign, flown_s=3.0))[0]
        for a in (biplane(), with_momentum_fraction(biplane(), NO_ROTOR))
    )
    spun = (with_it - without)[-20]
    assert spun < -1.0 if side == "down" else spun > 1.0


def test_a_pull_with_a_clockwise_rotor_swings_the_nose_right_and_a_push_left(biplane, travel):
    ends = []
    for sign in (1.0, -1.0):
        with_it, without = (
            attitude(flown(a, travel, "pull", sign, flown_s=3.0))[2]
            for a in (biplane(), with_momentum_fraction(biplane(), NO_ROTOR))
        )
        ends.append((with_it - without)[-1])
    assert ends[0] > 2.0
    assert ends[1] < -2.0


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_the_pilot_holds_bank_height_ball_and_speed(biplane, travel, sign):
    history = flown(biplane(), travel, "turn", sign, flown_s=60.0)
    _, bank, heading = attitude(history)
    late = history.time_s > 45.0
    assert bank[late] == pytest.approx(np.full(late.sum(), 45.0 * sign), abs=0.5)
    assert -history.state[2][late] == pytest.approx(np.full(late.sum(), 300.0), abs=5.0)
    assert np.abs(history.side_load_factor[late]).max() < 0.01
    assert np.sqrt((history.state[7:10] ** 2).sum(axis=0))[late] == pytest.approx(np.full(late.sum(), 36.0), abs=1.0)
    assert sign * heading[-1] > 360.0


def test_the_pilot_s_turn_ends_in_the_steady_turn(biplane, travel):
    """He ends with the controls that the trim finds, though he knows nothing of it."""
    history = flown(biplane(), travel, "turn", 1.0, flown_s=120.0)
    trim = steady_turns(biplane(), speed_m_s=36.0, bank_rad=BANK, altitude_m=300.0)
    assert history.rudder_rad[-1] == pytest.approx(trim.rudder_rad[0], abs=0.01)
    assert history.elevator_rad[-1] == pytest.approx(trim.elevator_rad[0], abs=0.01)


@pytest.mark.parametrize("name", ["rudder-kick", "pull", "roll-in", "blip", "slam"])
def test_what_is_not_moved_stays_frozen(biplane, travel, name):
    history = flown(biplane(), travel, name, 1.0, flown_s=4.0)
    moved = {"rudder-kick": "rudder_rad", "pull": "elevator_rad", "roll-in": "aileron_rad"}.get(name, "throttle")
    for control in ("elevator_rad", "aileron_rad", "rudder_rad", "throttle"):
        swing = np.ptp(getattr(history, control))
        assert swing > 0.05 if control == moved else swing < 1e-12


def test_nothing_moves_before_it_begins(biplane, travel):
    history = flown(biplane(), travel, "rudder-kick", 1.0, flown_s=3.0)
    before = history.time_s <= BEGIN_S
    assert np.abs(history.state[7:13, before] - history.state[7:13, :1]).max() < 1e-6
    assert history.load_factor[0] == pytest.approx(1.0, abs=1e-3)


def test_hands_meet_stops_and_rates(biplane, travel):
    history = flown(biplane(), travel, "rudder-kick", 1.0, share=5.0, held_s=2.0, flown_s=4.0)
    fastest = 2.0 * travel.rudder_rad / STOP_TO_STOP_S
    assert np.abs(history.rudder_rad).max() <= travel.rudder_rad + 1e-9
    assert np.abs(history.rudder_rad).max() == pytest.approx(travel.rudder_rad, rel=1e-3)
    assert np.abs(np.diff(history.rudder_rad)).max() <= fastest * 0.05 + 1e-6
    assert history.rate_limited_s > 0.2


def test_an_ignition_cut_costs_thrust_and_height_and_a_slam_gives_speed_of_shaft(biplane, travel):
    blip = flown(biplane(), travel, "blip", 1.0)
    cut = (blip.time_s > BEGIN_S + 0.2) & (blip.time_s < BEGIN_S + 0.9)
    assert np.abs(blip.throttle[cut]).max() < 2e-4 * blip.throttle[0]
    assert blip.state[13][cut][-1] < blip.state[13][0] - 5.0
    assert (-blip.state[2]).min() < 299.0
    slam = flown(biplane(), travel, "slam", 1.0)
    assert slam.throttle[-1] == pytest.approx(1.0)
    assert slam.state[13][-1] > 1.3 * slam.state[13][0]


def test_a_kind_is_changed_where_something_is_given():
    kind = adjusted(MANEUVERS["pull"], share=0.9, held_s=None, flown_s=3.0)
    assert (kind.share, kind.held_s, kind.flown_s) == (0.9, MANEUVERS["pull"].held_s, 3.0)


def test_gains_fall_with_the_square_of_speed_where_the_controls_gain_by_it(biplane):
    slow, fast = (gains(biplane(), speed_m_s=speed, altitude_m=0.0) for speed in (30.0, 60.0))
    assert slow.yaw_gain / fast.yaw_gain == pytest.approx(4.0)
    assert slow.aileron_gain / fast.aileron_gain == pytest.approx(2.0)


def test_a_control_that_moves_nothing_is_no_answer(biplane):
    with pytest.raises(NoAnswerError) as caught:
        gains(biplane(derivatives={"roll_aileron": 0.0, "yaw_rudder": 0.01}), speed_m_s=36.0, altitude_m=0.0)
    assert str(caught.value) == (
        "the pilot cannot hold a turn: aileron and rudder have no effect or the wrong sign; see derivatives"
    )


def test_a_wing_without_roll_damping_is_flown_as_if_it_had_a_little(biplane):
    pair = [gains(biplane(derivatives={"roll_p": p}), speed_m_s=36.0, altitude_m=0.0) for p in (0.0, -0.05)]
    assert pair[0] == pair[1]


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
@pytest.mark.parametrize(("power", "throttle", "sense"), [("idle", 1.0, -1.0), ("full", 0.0, 1.0)])
def test_throttle_opened_swings_the_nose_of_a_clockwise_engine_left_by_its_slipstream_and_cut_right(
    name, power, throttle, sense
):
    flying = model(BIPLANE).airplane(name)

    def yaw_rate(plane):
        found = turns(replace(flying, airplane=plane), [0.0], power=power)
        rates = right_hand_side(plane, found.controls(0)._replace(throttle=throttle))
        return math.degrees(solve(rates, found.state[:, 0].tolist(), (0.0, 1.0), step_s=0.01).states[-1][12])

    with_it, without = yaw_rate(flying.airplane), yaw_rate(without_slipstream(flying.airplane))
    assert sense * with_it > 1.0
    assert sense * (with_it - without) > 0.8
