"""Foremost centre of gravity: at it glide and level flight near the stall take the whole elevator, no more."""

import math
from dataclasses import replace

import numpy as np
import pytest
from flights import density, glide, margins, without_slipstream
from scipy.optimize import brentq

from sim.aerodynamics.forces import air_loads, bounded_lift
from sim.flight.cg_shift import with_cg_moved
from sim.flight.forward_limits import FullUpElevator, limit_in_level_flight
from sim.flight.speeds import LIFT_OFF
from sim.flight.trim import steady_turns
from sim.propulsion.thrust import thrust_n


def test_a_glide_at_the_forward_limit_takes_the_whole_elevator(flying):
    found = margins(flying)
    moved = with_cg_moved(flying.airplane, found.forward_limit_by_elevator_m)
    state, controls = glide(moved, found.flare_m_s, flying.altitude_m)
    assert controls.elevator_rad == pytest.approx(-flying.travel.elevator_up_rad, rel=1e-8)
    d, polar = flying.airplane.derivatives, flying.airplane.polar
    alpha = math.atan2(state[9], state[7])
    lift = polar.lift_zero + d.lift_alpha * alpha + d.lift_elevator * controls.elevator_rad
    assert lift == pytest.approx(polar.lift_max, rel=1e-7), "the linear lift curve reaches CLmax"
    weight = flying.airplane.body.mass_kg * flying.airplane.gravity_m_s2
    stall = polar.stall_m_s(weight, density(flying.airplane, flying.altitude_m))
    assert found.flare_m_s / stall == pytest.approx(2.0 ** (1.0 / 16.0), rel=0.02), "4 % above, less what drag carries"


def test_level_flight_at_the_forward_limit_takes_the_whole_elevator(flying):
    found = margins(flying)
    moved = with_cg_moved(without_slipstream(flying.airplane), found.forward_limit_by_trim_m)
    turns = steady_turns(moved, speed_m_s=found.slowest_level_m_s, bank_rad=0.0, altitude_m=flying.altitude_m)
    assert turns.found[0]
    assert turns.elevator_rad[0] == pytest.approx(-flying.travel.elevator_up_rad, rel=1e-8)
    assert turns.throttle[0] < 1.0
    assert found.slowest_level_by == "lift"
    assert found.slowest_level_m_s < found.flare_m_s, "thrust carries part of the weight"
    farther = with_cg_moved(without_slipstream(flying.airplane), found.forward_limit_by_trim_m - 0.01)
    turns = steady_turns(farther, speed_m_s=found.slowest_level_m_s, bank_rad=0.0, altitude_m=flying.altitude_m)
    assert turns.elevator_rad[0] < -flying.travel.elevator_up_rad, "a centimetre farther ahead takes more"


def test_with_the_slipstream_on_the_tail_the_same_flight_takes_less_than_the_whole_elevator(flying):
    found = margins(flying)
    moved = with_cg_moved(flying.airplane, found.forward_limit_by_trim_m)
    turns = steady_turns(moved, speed_m_s=found.slowest_level_m_s, bank_rad=0.0, altitude_m=flying.altitude_m)
    assert turns.found[0]
    assert -0.95 * flying.travel.elevator_up_rad < turns.elevator_rad[0] < 0.0


def test_a_thrust_line_below_the_centre_of_gravity_moves_the_limit_ahead_and_one_above_aft(flying):
    low, through, high = (
        margins(flying, replace(flying.airplane, thrust_arm_m=arm, shaft_tilt_rad=0.0)) for arm in (0.1, 0.0, -0.1)
    )
    assert low.forward_limit_by_trim_m < through.forward_limit_by_trim_m < high.forward_limit_by_trim_m
    assert through.forward_limit_by_trim_m == pytest.approx(through.forward_limit_by_elevator_m, rel=1e-12)
    assert low.forward_limit_by_elevator_m == through.forward_limit_by_elevator_m


def weakened(airplane, share):
    return replace(
        airplane, engine=replace(airplane.engine, firing_torque_n_m=share * airplane.engine.firing_torque_n_m)
    )


def test_where_power_sets_the_lowest_speed_the_trim_at_the_limit_is_at_full_throttle(flying):
    """The engine is weakened to 99.7 % of what the stall's angle of attack needs, its speed not limited."""
    whole, rho = margins(flying), density(flying.airplane, flying.altitude_m)
    near_stall = with_cg_moved(without_slipstream(flying.airplane), whole.forward_limit_by_trim_m)
    needs = steady_turns(near_stall, speed_m_s=whole.slowest_level_m_s, bank_rad=0.0, altitude_m=flying.altitude_m)
    weak = weakened(without_slipstream(flying.airplane), 0.997 * float(needs.throttle[0]))
    thrust = thrust_n(weak.engine, weak.propeller, rho, 1e3)
    found = limit_in_level_flight(FullUpElevator(weak, flying.travel.elevator_up_rad, rho), thrust)
    assert found.set_by == "power"
    assert found.limit_speed_m_s > whole.slowest_level_m_s
    turns = steady_turns(
        with_cg_moved(weak, found.limit_m),
        speed_m_s=np.array([1.0, 0.998]) * found.limit_speed_m_s,
        bank_rad=0.0,
        altitude_m=flying.altitude_m,
    )
    assert turns.found.all()
    assert turns.elevator_rad[0] == pytest.approx(-flying.travel.elevator_up_rad, rel=1e-7)
    assert turns.throttle[0] == pytest.approx(1.0, rel=1e-4), "a little slip from the torque is left"
    assert turns.throttle[1] > turns.throttle[0], "slower takes more"


def test_without_power_for_level_flight_there_is_no_limit_by_trim(flying):
    found = margins(flying, full_thrust_n=lambda speed_m_s: 50.0)
    assert (found.forward_limit_by_trim_m, found.forward_limit_by_trim_error_m) == (None, None)
    assert found.slowest_level_m_s is None
    assert found.slowest_level_by == "power"
    assert found.forward_limit_by_elevator_m is not None


def test_a_limit_whose_flight_ends_within_a_standard_deviation_has_no_error(banded):
    """Thrust for level flight as it is, and not with a lift slope a little other: it tells the two by the airspeed."""
    whole = margins(banded)
    own = banded.airplane
    full_up = FullUpElevator(own, banded.travel.elevator_up_rad, density(own, banded.altitude_m))
    along = whole.slowest_level_m_s * math.cos(full_up.alpha_rad(1.0) + own.shaft_tilt_rad)
    found = margins(banded, full_thrust_n=lambda speed: 1e4 if abs(speed / along - 1.0) < 1e-9 else 0.0)
    assert found.forward_limit_by_trim_m == whole.forward_limit_by_trim_m
    assert found.forward_limit_by_trim_error_m is None


def test_a_limit_more_than_a_chord_ahead_limits_nothing(flying):
    strong = replace(flying.airplane.derivatives, pitch_elevator=-4.0)
    found = margins(flying, replace(flying.airplane, derivatives=strong))
    assert (found.forward_limit_by_elevator_m, found.forward_limit_by_elevator_error_m) == (None, None)
    assert found.forward_limit_by_trim_m is None
    assert found.slowest_level_m_s is not None


def test_a_weak_elevator_has_its_limit_behind_the_centre_of_gravity(flying):
    weak = replace(flying.airplane.derivatives, pitch_elevator=-0.05, pitch_0=-0.02)
    assert margins(flying, replace(flying.airplane, derivatives=weak)).forward_limit_by_elevator_m > 0.0


def test_a_lift_slope_that_puts_the_stall_across_the_path_leaves_the_power_to_set_the_speed(flying):
    shallow = replace(flying.airplane, derivatives=replace(flying.airplane.derivatives, lift_alpha=0.6))
    assert margins(flying, shallow).slowest_level_by == "power"


def test_the_differences_that_the_docstrings_tell(flying):
    """Normal force against linear lift; the limit at 1.1 times the stalling speed against that at the stall's angle."""
    found, polar = margins(flying), flying.airplane.polar
    moved = with_cg_moved(flying.airplane, found.forward_limit_by_elevator_m)
    state, controls = glide(moved, found.flare_m_s, flying.altitude_m)
    rho = density(flying.airplane, flying.altitude_m)
    force = -air_loads(polar, moved.derivatives)(state[7:13], rho, controls).z
    normal = force / (0.5 * rho * found.flare_m_s**2 * polar.area_m2)
    assert 0.07 - 0.005 < 1.0 - normal / polar.lift_max < 0.10 + 0.005
    full_up = FullUpElevator(flying.airplane, flying.travel.elevator_up_rad, rho)
    linear = brentq(lambda x: bounded_lift(x, 1.0, math.sqrt) - 1.0 / LIFT_OFF**2, 0.5, 1.0)
    ahead_m = found.forward_limit_by_elevator_m - full_up.gliding(full_up.alpha_rad(linear))
    assert 0.03 < ahead_m / polar.chord_m < 0.065
