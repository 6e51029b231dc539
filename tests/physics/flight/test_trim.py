"""Steady turns: no rate is left, nothing moves for half a minute, left is the mirror of right, closed forms hold."""

import math

import numpy as np
import pytest
from scipy.optimize import fsolve

from sim.aerodynamics.forces import air_loads
from sim.flight.modes import system_matrix
from sim.flight.momentum_fraction import NO_ROTOR, with_momentum_fraction
from sim.flight.motion import Controls, motion, right_hand_side
from sim.flight.trim import steady_turns
from sim.flight.turn_limits import limits_met
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Rotor

SPEED = 36.0
ROTATIONAL = dict.fromkeys(("side_p", "side_r", "roll_p", "roll_r", "yaw_p", "yaw_r", "pitch_q", "lift_q"), 0.0)


def turned(airplane, banks_deg, speed_m_s=SPEED, **given):
    return steady_turns(airplane, speed_m_s=speed_m_s, bank_rad=np.radians(banks_deg), **given)


def residual(airplane, turns, index):
    return motion(airplane)(tuple(turns.state[:, index].tolist()), turns.controls(index))[7:]


@pytest.mark.parametrize("bank", [-60.0, -20.0, 0.0, 45.0])
def test_no_rate_is_left_and_the_height_stays(biplane, bank):
    airplane = biplane()
    turns = turned(airplane, [bank], altitude_m=500.0)
    rates = motion(airplane)(tuple(turns.state[:, 0].tolist()), turns.controls(0))
    assert max(map(abs, rates[7:])) < 1e-9
    assert abs(rates[2]) < 1e-12


@pytest.mark.parametrize("bank", [-50.0, 0.0, 30.0])
def test_the_ball_is_centred_and_the_bank_and_speed_are_those_asked_for(biplane, bank):
    airplane = biplane()
    turns = turned(airplane, [bank])
    e0, e1, e2, e3, u, v, w, p, _q, r = turns.state[3:13, 0]
    side_m_s2 = p * w - r * u + airplane.gravity_m_s2 * 2.0 * (e2 * e3 + e0 * e1)
    assert side_m_s2 == pytest.approx(0.0, abs=1e-12)
    assert math.hypot(u, v, w) == pytest.approx(SPEED, rel=1e-14)
    assert math.degrees(math.atan2(2 * (e0 * e1 + e2 * e3), 1 - 2 * (e1**2 + e2**2))) == pytest.approx(bank, abs=1e-12)


@pytest.mark.parametrize("bank", [-45.0, 0.0, 60.0])
@pytest.mark.parametrize("inertia", [16.0, 1.4])
def test_frozen_controls_stay_in_the_turn_for_half_a_minute(biplane, bank, inertia):
    """An unstable root may enlarge the rounding of the start, as much as it explains."""
    airplane = biplane(inertia_kg_m2=inertia)
    turns = turned(airplane, [bank])
    start, controls = tuple(turns.state[:, 0].tolist()), turns.controls(0)
    flight = solve(right_hand_side(airplane, controls), start, (0.0, 30.0), rtol=1e-11, atol=1e-11)
    growth = math.exp(30.0 * max(0.0, np.linalg.eigvals(system_matrix(airplane, start, controls)).real.max()))
    assert np.abs(flight.states[-1, 7:] - np.array(start[7:])).max() < 1e-6 * growth
    assert abs(flight.states[-1, 2] - start[2]) < 1e-5 * growth


def test_without_damping_the_controls_are_the_closed_form(biplane):
    """Elevator, aileron and rudder balance the couples of the spinning rotor and of the turning body, term by term."""
    airplane = biplane(derivatives=ROTATIONAL)
    d, wing, body = airplane.derivatives, airplane.polar, airplane.body
    turns = turned(airplane, [-50.0, -20.0, 20.0, 50.0])
    for i in range(4):
        p, q, r, spin = turns.state[10:14, i]
        alpha = turns.alpha_rad[i]
        beta = math.atan(turns.state[8, i] / math.hypot(*turns.state[[7, 9], i]))
        force = 0.5 * 1.225 * SPEED**2 * wing.area_m2
        inertia = airplane.rotors[0].polar_inertia_kg_m2
        hx = (body.inertia_roll_kg_m2 + inertia) * p - body.inertia_product_kg_m2 * r + inertia * spin
        hy, hz = body.inertia_pitch_kg_m2 * q, body.inertia_yaw_kg_m2 * r - body.inertia_product_kg_m2 * p
        pitch = (r * hx - p * hz) / (force * wing.chord_m)
        elevator = (pitch - d.pitch_0 - d.pitch_alpha * alpha) / d.pitch_elevator
        assert turns.elevator_rad[i] == pytest.approx(elevator, abs=1e-9), "still air's millimetre is left"
        yaw = (p * hy - q * hx) / (force * wing.span_m)
        rudder_and_aileron = yaw - d.yaw_beta * beta
        got = d.yaw_rudder * turns.rudder_rad[i] + d.yaw_aileron * turns.aileron_rad[i]
        assert got == pytest.approx(rudder_and_aileron, abs=1e-9)


def test_left_with_a_clockwise_rotor_mirrors_right_with_an_anticlockwise_one(biplane):
    banks = np.arange(0.0, 66.0, 5.0)
    right = turned(biplane(sense=1.0), banks)
    left = turned(biplane(sense=-1.0), -banks)
    for name in ("alpha_rad", "pitch_rad", "elevator_rad", "throttle", "load_factor"):
        assert np.abs(getattr(right, name) - getattr(left, name)).max() < 1e-12
    for name in ("sideslip_rad", "aileron_rad", "rudder_rad", "turn_rate_rad_s"):
        assert np.abs(getattr(right, name) + getattr(left, name)).max() < 1e-12


def test_two_counter_turning_rotors_equal_none(biplane):
    """But for their inertia in roll, which turns with the body."""
    two = biplane(rotors=(Rotor(8.0, 1.0), Rotor(8.0, -1.0)))
    body = two.body.__class__(635.0, 870.0 + 16.0, 1060.0, 1750.0, 20.0)
    none = biplane(rotors=(Rotor(NO_ROTOR, 1.0),), body=body)
    banks = [-60.0, -30.0, 0.0, 30.0, 60.0]
    both, bare = turned(two, banks), turned(none, banks)
    for name in ("elevator_rad", "aileron_rad", "rudder_rad", "alpha_rad", "sideslip_rad", "spin_rad_s"):
        assert getattr(both, name) == pytest.approx(getattr(bare, name), abs=1e-8)


def test_a_clockwise_rotor_asks_for_stick_back_in_right_turns_and_forward_in_left_ones(biplane):
    with_it, without = (turned(a, [-45.0, 45.0]) for a in (biplane(), with_momentum_fraction(biplane(), NO_ROTOR)))
    left, right = with_it.elevator_rad - without.elevator_rad
    assert left > 0.01
    assert right < -0.01
    assert (with_it.rudder_rad - without.rudder_rad > 0.02).all(), (
        "left rudder in both: the rotor swings the nose right"
    )


def test_the_rotor_s_share_grows_as_one_over_the_cube_of_speed(biplane):
    """The turn rate goes with 1/V, the controls' power with V²; of each rad/s of spin."""
    pair = (biplane(derivatives=ROTATIONAL), with_momentum_fraction(biplane(derivatives=ROTATIONAL), NO_ROTOR))
    had, bare = (turned(airplane, [30.0, 30.0], speed_m_s=np.array([36.0, 54.0])) for airplane in pair)
    slow, fast = (had.elevator_rad - bare.elevator_rad) / had.spin_rad_s
    assert slow / fast == pytest.approx(1.5**3, rel=0.05)


@pytest.mark.parametrize("inertia", [16.0, 1.4])
def test_every_bank_at_five_speeds_is_found_or_asks_too_much_of_the_wing(biplane, inertia):
    airplane = biplane(inertia_kg_m2=inertia)
    banks = np.arange(-70.0, 71.0)
    for speed in (24.0, 28.0, 36.0, 44.0, 55.0):
        turns = turned(airplane, banks, speed_m_s=speed)
        found = turns.found
        lift = 635.0 * 9.80665 / np.cos(np.radians(banks)) / (0.5 * 1.225 * speed**2 * 23.5) / 1.45
        beyond = np.abs(turns.rudder_rad) > 0.44
        assert (found | beyond)[lift < 0.9].all(), "where the spin leaves no balance the rudder has run out"
        assert not (found & (turns.lift_ratio < 0.98))[lift > 1.35].any()
        assert all(max(map(abs, residual(airplane, turns, i))) < 1e-9 for i in np.flatnonzero(found))
        usual = found & (turns.lift_ratio < 0.9)
        assert np.abs(turns.sideslip_rad[usual]).max() < 0.5
        assert np.abs(turns.alpha_rad[usual]).max() < 0.4
        assert np.abs(np.diff(turns.elevator_rad[usual])).max() < 0.03, "one branch, without a jump"


def test_at_a_throttle_it_climbs_and_at_a_shaft_speed_the_shaft_keeps_it(biplane):
    airplane = biplane()
    full = turned(airplane, [0.0, 45.0], throttle=1.0)
    assert (full.climb_rad > 0.02).all()
    assert full.climb_rad[0] > full.climb_rad[1], "a turn costs climb"
    slow = turned(airplane, [0.0, 45.0], spin_rad_s=90.0)
    assert (slow.spin_rad_s == 90.0).all()
    assert (slow.climb_rad < 0.0).all()
    rates = motion(airplane)(tuple(full.state[:, 1].tolist()), full.controls(1))
    assert -rates[2] == pytest.approx(SPEED * math.sin(full.climb_rad[1]), rel=1e-12)
    assert max(map(abs, rates[7:])) < 1e-9


def test_the_level_turn_lies_where_climb_at_its_throttle_is_nought(biplane):
    airplane = biplane()
    level = turned(airplane, [30.0])
    again = turned(airplane, [30.0], throttle=float(level.throttle[0]))
    assert again.climb_rad[0] == pytest.approx(0.0, abs=1e-10)
    assert again.spin_rad_s[0] == pytest.approx(level.spin_rad_s[0], rel=1e-10)


def test_a_turn_that_the_spin_leaves_no_balance_for_tells_what_ran_out(biplane, travel):
    """Slow, steep and to the left the rotor swings the nose faster than the rudder can hold it."""
    turns = turned(biplane(), [-64.0, 64.0], speed_m_s=28.0)
    assert turns.found.tolist() == [False, True]
    assert 0.5 < turns.momentum_fraction[0] < 1.0
    assert limits_met(turns, travel)[0] == "rudder travel"
    assert np.isnan(turns.only_found().rudder_rad[0])


def test_scipy_finds_the_same_turn(biplane):
    airplane = biplane()
    turns = turned(airplane, [40.0])
    rates = motion(airplane)
    bank = math.radians(40.0)

    def rest(x):
        alpha, beta, pitch, turn, elevator, aileron, rudder, spin, throttle = x
        u, v, w = (
            SPEED * math.cos(alpha) * math.cos(beta),
            SPEED * math.sin(beta),
            SPEED * math.sin(alpha) * math.cos(beta),
        )
        half, lift = 0.5 * bank, 0.5 * pitch
        e = (
            math.cos(half) * math.cos(lift),
            math.sin(half) * math.cos(lift),
            math.cos(half) * math.sin(lift),
            -math.sin(half) * math.sin(lift),
        )
        p, q, r = (
            -turn * math.sin(pitch),
            turn * math.cos(pitch) * math.sin(bank),
            turn * math.cos(pitch) * math.cos(bank),
        )
        got = rates((0, 0, 0, *e, u, v, w, p, q, r, spin), Controls(elevator, aileron, rudder, throttle))
        ball = p * w - r * u + 9.80665 * math.cos(pitch) * math.sin(bank)
        return (*got[7:], got[2], ball)

    x = fsolve(rest, (0.05, 0.0, 0.05, 0.2, 0.0, 0.0, 0.0, 120.0, 0.7), xtol=1e-13)
    ours = (turns.alpha_rad, turns.sideslip_rad, turns.pitch_rad, turns.turn_rate_rad_s)
    ours += (turns.elevator_rad, turns.aileron_rad, turns.rudder_rad, turns.spin_rad_s, turns.throttle)
    assert x == pytest.approx([float(value[0]) for value in ours], rel=1e-8, abs=1e-9)


@pytest.mark.parametrize("bank", [-60.0, 0.0, 45.0])
def test_the_load_factor_is_the_force_of_the_air_across_the_wing_over_the_weight(biplane, bank):
    """Summed from the air's loads and the thrust; in a level ball-centred turn it is 1/cos φ but for the incidence."""
    airplane = biplane()
    turns = turned(airplane, [bank])
    state, controls = turns.state[:, 0].tolist(), turns.controls(0)
    loads = air_loads(airplane.polar, airplane.derivatives)(state[7:13], 1.225, controls)
    weight = airplane.body.mass_kg * airplane.gravity_m_s2
    assert turns.load_factor[0] == pytest.approx(-loads.z / weight, abs=1e-9)
    assert turns.load_factor[0] == pytest.approx(1.0 / math.cos(math.radians(bank)), rel=0.06)
