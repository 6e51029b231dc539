"""Which limit a turn meets first, and how steep it may be."""

import math
from dataclasses import replace

import numpy as np
import pytest

from sim.flight.control_travel import Travel
from sim.flight.trim import steady_turns
from sim.flight.turn_limits import MAX_LIFT_RATIO, limits_met, steepest_bank

WIDE = Travel(elevator_up_rad=9.0, elevator_down_rad=9.0, aileron_rad=9.0, rudder_rad=9.0)


def turning(airplane, speed_m_s):
    return lambda bank: steady_turns(airplane, speed_m_s=speed_m_s, bank_rad=bank)


def strong(biplane):
    """Power without end."""
    airplane = biplane()
    return replace(airplane, engine=replace(airplane.engine, firing_torque_n_m=1e6))


@pytest.mark.parametrize(
    ("narrow", "limit"),
    [
        ({"elevator_up_rad": 0.02}, "elevator travel"),
        ({"rudder_rad": 0.05}, "rudder travel"),
        ({"aileron_rad": 0.005}, "aileron travel"),
        ({}, "power"),
    ],
)
def test_the_narrowest_limit_is_named(biplane, narrow, limit):
    turns = turning(biplane(), 36.0)(np.radians([66.0]))
    assert limits_met(turns, replace(WIDE, **narrow)) == [limit]


def test_lift_is_named_before_all_else(biplane, travel):
    assert limits_met(turning(biplane(), 24.0)(np.radians([0.0, 70.0])), travel) == ["", "CLmax"]


def test_a_windmilling_engine_cannot_be_throttled_further(biplane, travel):
    turns = steady_turns(biplane(), speed_m_s=60.0, bank_rad=[0.0], spin_rad_s=60.0)
    assert limits_met(turns, travel) == ["idling"]


def test_an_engine_above_its_full_speed_is_a_limit_of_what_else_holds(biplane, travel):
    """Steeper takes more thrust at one airspeed, and more thrust a faster propeller."""
    fly = turning(biplane(), 36.0)
    level, steep = np.abs(fly(np.radians([0.0, 40.0])).spin_rad_s)
    assert level < steep
    between = 0.5 * (level + steep)
    assert limits_met(fly(np.radians([0.0, 40.0])), travel, between) == ["", "overspeed"]
    assert limits_met(fly(np.radians([70.0])), travel, between) == limits_met(fly(np.radians([70.0])), travel)
    bank, limit = steepest_bank(fly, travel, 1.0, most_rad_s=between)
    assert (limit, abs(fly(np.array([bank])).spin_rad_s[0])) == ("overspeed", pytest.approx(between, rel=1e-4))


def test_with_travel_and_power_enough_the_wing_gives_out(biplane):
    """At the steepest bank the lift is at its greatest; without thrust along it that is 1/cos φ = CLmax q S / W."""
    fly = turning(strong(biplane), 24.0)
    bank, limit = steepest_bank(fly, WIDE, 1.0)
    assert limit == "CLmax"
    assert fly(np.array([bank])).lift_ratio[0] == pytest.approx(MAX_LIFT_RATIO, abs=1e-3)
    assert 1.0 / math.cos(bank) > MAX_LIFT_RATIO * 1.45 * 0.5 * 1.225 * 24.0**2 * 23.5 / (635.0 * 9.80665)


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_the_steepest_bank_holds_and_a_hundredth_of_a_degree_more_does_not(biplane, travel, side):
    fly = turning(biplane(), 36.0)
    bank, limit = steepest_bank(fly, travel, side)
    beyond = bank + side * math.radians(0.011)
    assert limits_met(fly(np.array([bank, beyond])), travel) == ["", limit]


def test_the_steepest_banks_of_a_mirrored_rotor_are_mirrored(biplane, travel):
    right, _ = steepest_bank(turning(biplane(sense=1.0), 36.0), travel, 1.0)
    left, _ = steepest_bank(turning(biplane(sense=-1.0), 36.0), travel, -1.0)
    assert left == pytest.approx(-right, abs=1e-12)


def test_straight_flight_that_does_not_hold_leaves_no_bank(biplane, travel):
    assert steepest_bank(turning(biplane(), 60.0), travel, 1.0) == (0.0, "power")


def test_shares_are_of_the_travel_to_that_side(biplane, travel):
    turns = turning(biplane(), 36.0)(np.radians([0.0, 65.0]))
    shares = travel.shares(turns)["elevator"]
    assert turns.elevator_rad[0] > 0.0 > turns.elevator_rad[1]
    assert shares == pytest.approx([turns.elevator_rad[0] / 0.44, turns.elevator_rad[1] / 0.49])


def test_a_dive_steeper_than_straight_down_is_a_want_of_power(biplane, travel):
    """At 150 m/s and idle the drag is more than the weight."""
    turns = steady_turns(biplane(), speed_m_s=150.0, bank_rad=[0.0], throttle=0.1)
    assert not turns.found[0]
    assert limits_met(turns, travel) == ["power"]
