"""Without air, weight and engine the airplane and its rotors keep momentum and energy."""

from dataclasses import replace

import numpy as np
import pytest

from sim.flight.motion import Controls, right_hand_side
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Rotor


def matrix(e0, e1, e2, e3):
    """Turn body into earth components, by the textbook formula."""
    x = np.array([[0, -e3, e2], [e3, 0, -e1], [-e2, e1, 0]])
    return np.eye(3) + 2.0 * e0 * x + 2.0 * x @ x


def parts(airplane, state):
    """Return rates of turn, inertia, shaft direction and the rotors' axial momenta and speeds."""
    body, tilt = airplane.body, airplane.shaft_tilt_rad
    inertia = np.diag([body.inertia_roll_kg_m2, body.inertia_pitch_kg_m2, body.inertia_yaw_kg_m2])
    inertia[0, 2] = inertia[2, 0] = -body.inertia_product_kg_m2
    rates, along = np.array(state[10:13]), np.array([np.cos(tilt), 0.0, -np.sin(tilt)])
    speeds = [rotor.ratio * state[13] + rates @ along for rotor in airplane.rotors]
    return rates, inertia, along, speeds


def momentum(airplane, state):
    rates, inertia, along, speeds = parts(airplane, state)
    rotors = sum(r.polar_inertia_kg_m2 * s for r, s in zip(airplane.rotors, speeds, strict=True))
    return matrix(*state[3:7]) @ (inertia @ rates + rotors * along)


def energy(airplane, state):
    rates, inertia, _, speeds = parts(airplane, state)
    rotors = sum(r.polar_inertia_kg_m2 * s**2 for r, s in zip(airplane.rotors, speeds, strict=True))
    return 0.5 * (rates @ inertia @ rates + rotors + airplane.body.mass_kg * np.dot(state[7:10], state[7:10]))


@pytest.mark.parametrize(
    "rotors", [(Rotor(12.0),), (Rotor(1.0, -1.0), Rotor(3.0, 0.5)), (Rotor(5.0), Rotor(5.0, -1.0))]
)
def test_momentum_and_energy_are_kept_for_a_minute(free, tumbling, rotors):
    airplane = replace(free, rotors=rotors)
    f = right_hand_side(airplane, Controls())
    states = solve(f, tumbling, np.linspace(0.0, 60.0, 13), rtol=1e-13, atol=1e-13).states
    angular = np.array([momentum(airplane, state) for state in states])
    energies = np.array([energy(airplane, state) for state in states])
    linear = np.array([matrix(*state[3:7]) @ state[7:10] for state in states])
    assert np.abs(angular - angular[0]).max() < 1e-9 * np.linalg.norm(angular[0])
    assert np.abs(energies - energies[0]).max() < 1e-9 * energies[0]
    assert np.abs(linear - linear[0]).max() < 1e-9 * np.linalg.norm(linear[0])


def test_a_torque_between_engine_and_airframe_keeps_momentum_and_does_its_work(free, tumbling):
    f = right_hand_side(free, Controls(shaft_torque_n_m=300.0))
    times = np.linspace(0.0, 10.0, 2001)
    states = solve(f, tumbling, times, rtol=1e-12, atol=1e-12).states
    first, last = momentum(free, states[0]), momentum(free, states[-1])
    work = 300.0 * ((states[1:, 13] + states[:-1, 13]) / 2.0 * np.diff(times)).sum()
    assert np.abs(last - first).max() < 1e-9 * np.linalg.norm(first)
    assert energy(free, states[-1]) - energy(free, states[0]) == pytest.approx(work, rel=1e-6)


def test_a_dropped_airplane_keeps_its_energy_in_weight(free, tumbling):
    heavy = replace(free, gravity_m_s2=9.80665)
    first, last = solve(right_hand_side(heavy, Controls()), tumbling, (0.0, 5.0), rtol=1e-12).states

    def total(state):
        return energy(heavy, state) - heavy.body.mass_kg * 9.80665 * state[2]

    assert total(last) == pytest.approx(total(first), rel=1e-10)


def test_a_rotor_at_rest_in_space_is_no_rotor(free, tumbling):
    """Started with no momentum of its own the rotor stays so, and the airframe turns as if it were not there."""
    free = replace(free, rotors=(Rotor(12.0),), shaft_tilt_rad=0.0)
    still = (*tumbling[:13], -tumbling[10])
    times = np.linspace(0.0, 10.0, 11)
    with_rotor = solve(right_hand_side(free, Controls()), still, times, rtol=1e-12, atol=1e-12).states
    without = solve(right_hand_side(replace(free, rotors=()), Controls()), still, times, rtol=1e-12, atol=1e-12).states
    assert np.abs(with_rotor[:, :13] - without[:, :13]).max() < 1e-9


def test_two_equal_rotors_turning_against_each_other_are_dead_weight(free, tumbling):
    """What is left is their inertia about the shaft, carried round with the airframe."""
    pair = replace(free, rotors=(Rotor(6.0), Rotor(6.0, -1.0)), shaft_tilt_rad=0.0)
    loaded = replace(free.body, inertia_roll_kg_m2=free.body.inertia_roll_kg_m2 + 12.0)
    none = replace(free, rotors=(), body=loaded)
    times = np.linspace(0.0, 10.0, 11)
    turning, dead = (
        solve(right_hand_side(x, Controls()), tumbling, times, rtol=1e-12, atol=1e-12).states for x in (pair, none)
    )
    assert np.abs(turning - dead).max() < 1e-9
