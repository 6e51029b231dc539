"""The matrix of small motions: exact facts with a rotor in it, the full motion, names by participation."""

import math

import numpy as np
import pytest
from scipy.linalg import expm
from scipy.optimize import linear_sum_assignment

from sim.flight.modes import STATES, _best_columns, modes, participation, system_matrix
from sim.flight.motion import Airplane, Body, Controls, motion, right_hand_side
from sim.flight.trim import steady_turns
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor

SPIN = 130.0


def upright(spin_rad_s=SPIN, speed_m_s=36.0, down_m_s=1.5):
    """Nose, wings and flight path in the plane of symmetry."""
    return (0.0, 0.0, -300.0, 1.0, 0.0, 0.0, 0.0, speed_m_s, 0.0, down_m_s, 0.0, 0.0, 0.0, spin_rad_s)


def in_turn(airplane, bank_deg):
    turns = steady_turns(airplane, speed_m_s=36.0, bank_rad=math.radians(bank_deg))
    return tuple(turns.state[:, 0].tolist()), turns.controls(0)


def sorted_roots(matrix):
    return np.sort_complex(np.linalg.eigvals(matrix))


def test_without_air_and_weight_pitch_and_yaw_nutate():
    """±i h/√(Jy Jz) and nothing else."""
    free = Airplane(Body(600.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(16.0),), gravity_m_s2=0.0)
    matrix = system_matrix(free, upright(speed_m_s=0.0, down_m_s=0.0), Controls())
    block = matrix[np.ix_([2, 6], [2, 6])]
    nutation = 16.0 * SPIN / math.sqrt(1000.0 * 1500.0)
    assert np.sort(np.linalg.eigvals(block).imag) == pytest.approx([-nutation, nutation], rel=1e-9)
    assert np.trace(matrix) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("bank", [0.0, 50.0])
def test_the_trace_does_not_depend_on_the_spin_momentum(biplane, bank):
    state, controls = in_turn(biplane(), bank)
    geared = [biplane(rotors=(Rotor(8.0, ratio),)) for ratio in (0.01, 1.0, 4.0, -9.0)]
    traces = [np.trace(system_matrix(airplane, state, controls)) for airplane in geared]
    assert traces == pytest.approx([traces[0]] * 4, rel=1e-9)


def test_either_sense_of_spin_has_the_same_roots_where_the_blocks_are_apart(biplane, unpowered):
    airplane = unpowered(biplane())
    one, other = (sorted_roots(system_matrix(airplane, upright(spin), Controls(0.02))) for spin in (SPIN, -SPIN))
    still = sorted_roots(system_matrix(airplane, upright(0.0), Controls(0.02)))
    assert np.abs(one - other).max() < 1e-9
    assert np.abs(one - still).max() > 1e-3, "and the spin does change them"


def test_without_spin_a_symmetric_airplane_has_two_blocks(biplane, unpowered):
    matrix = system_matrix(unpowered(biplane()), upright(0.0), Controls(0.02))
    assert np.abs(matrix[:4, 4:]).max() == 0.0
    assert np.abs(matrix[4:, :4]).max() == 0.0
    assert all(mode.coupling_share < 1e-12 for mode in modes(matrix))


def test_the_rotor_couples_pitch_and_yaw_and_nothing_else(biplane, unpowered):
    airplane = unpowered(biplane())
    spun, still = (system_matrix(airplane, upright(spin), Controls(0.02)) for spin in (SPIN, 0.0))
    changed = {(STATES[i], STATES[j]) for i, j in np.argwhere(np.abs(spun - still) > 1e-12)}
    assert changed == {("q", "r"), ("r", "q"), ("p", "q")}, "p follows r through the product of inertia"
    assert spun[2, 6] == pytest.approx(-16.0 * SPIN / 1060.0, abs=0.02)


@pytest.mark.parametrize("bank", [0.0, -45.0])
def test_the_complex_step_is_the_slope_of_the_motion(biplane, bank):
    """Against central differences of the same equations on floats."""
    airplane = biplane()
    state, controls = in_turn(airplane, bank)
    rates = motion(airplane)
    matrix = system_matrix(airplane, state, controls)
    for column, place in ((0, 7), (1, 9), (2, 11), (4, 8), (5, 10), (6, 12)):
        step = [0.0] * 14
        step[place] = 1e-4
        ahead, behind = (
            rates(tuple(x + sign * s for x, s in zip(state, step, strict=True)), controls) for sign in (1, -1)
        )
        slope = (np.array(ahead) - np.array(behind))[[7, 9, 11, 8, 10, 12]] / 2e-4
        assert matrix[[0, 1, 2, 4, 5, 6], column] == pytest.approx(slope, abs=1e-6, rel=1e-6)


def euler(state):
    e0, e1, e2, e3 = state[3:7]
    return math.asin(2.0 * (e0 * e2 - e3 * e1)), math.atan2(2.0 * (e0 * e1 + e2 * e3), 1.0 - 2.0 * (e1**2 + e2**2))


def eight(state):
    pitch, bank = euler(state)
    return np.array([state[7], state[9], state[11], pitch, state[8], state[10], state[12], bank])


@pytest.mark.parametrize("bank", [0.0, 45.0])
def test_a_small_disturbance_follows_the_matrix_exponential(biplane, bank):
    """To first order: what is left falls by four where the disturbance halves. The shaft is held to its speed."""
    airplane = biplane(sea_level_density_kg_m3=1.225)
    state, controls = in_turn(airplane, bank)
    full = right_hand_side(airplane, controls)
    held = lambda t, y: (*(0.0, 0.0, 0.0), *full(t, y)[3:13], 0.0)  # noqa: E731
    matrix = system_matrix(airplane, state, controls)
    push = np.array([0.4, 0.2, 0.02, 0.0, 0.3, 0.03, -0.02, 0.0])
    left = []
    for size in (1.0, 0.5, 0.25):
        start = list(state)
        for place, change in zip((7, 9, 11, 8, 10, 12), size * push[[0, 1, 2, 4, 5, 6]], strict=True):
            start[place] += change
        end = solve(held, start, (0.0, 2.0), rtol=1e-12, atol=1e-12).states[-1]
        left.append(np.abs(eight(end) - eight(state) - expm(2.0 * matrix) @ (size * push)).max())
    assert left[0] / left[1] == pytest.approx(4.0, rel=0.1)
    assert left[1] / left[2] == pytest.approx(4.0, rel=0.05)


@pytest.mark.parametrize("bank", [-45.0, 0.0, 45.0])
def test_a_phugoid_at_a_fixed_throttle_is_damped_less_than_at_a_held_shaft_speed(biplane, bank):
    """Nine states by central differences: the shaft, which settles sooner than the phugoid turns, joins the eight.

    Thrust at a held speed of rotation falls faster with airspeed than at a held throttle, and that slope damps it.
    """
    airplane = biplane()
    state, controls = in_turn(airplane, bank)
    rates = motion(airplane)

    def change(x):
        u, w, q, pitch, v, p, r, roll, spin = x
        half_b, half_p = 0.5 * roll, 0.5 * pitch
        attitude = (
            math.cos(half_b) * math.cos(half_p),
            math.sin(half_b) * math.cos(half_p),
            math.cos(half_b) * math.sin(half_p),
            -math.sin(half_b) * math.sin(half_p),
        )
        found = rates((0.0, 0.0, state[2], *attitude, u, v, w, p, q, r, spin), controls)
        pitch_rate = q * math.cos(roll) - r * math.sin(roll)
        roll_rate = p + math.tan(pitch) * (q * math.sin(roll) + r * math.cos(roll))
        return np.array([*found[7:12:2], pitch_rate, *found[8:13:2], roll_rate, found[13]])

    steady = np.array([*eight(state), state[13]])
    assert np.abs(change(steady)).max() < 1e-9
    slopes = np.array([(change(steady + step) - change(steady - step)) / 2e-5 for step in 1e-5 * np.eye(9)]).T
    held = np.linalg.eigvals(slopes[:8, :8])
    assert np.sort_complex(held) == pytest.approx(sorted_roots(system_matrix(airplane, state, controls)), abs=1e-5)
    slow = lambda roots: min((root for root in roots if root.imag > 0.05), key=abs)  # noqa: E731
    follows = slow(np.linalg.eigvals(slopes))
    assert slopes[8, 8] < -2.0 * abs(slow(held))
    assert 0.005 < follows.real - slow(held).real < 0.06


def test_participation_adds_up_to_one_and_no_unit_changes_it(biplane):
    matrix = system_matrix(biplane(), *in_turn(biplane(), 30.0))
    scale = np.diag([3.28, 3.28, 57.3, 57.3, 1.94, 57.3, 57.3, 57.3])
    roots, share = participation(matrix)
    other_roots, other = participation(scale @ matrix @ np.linalg.inv(scale))
    order, other_order = (
        np.lexsort((roots.imag, roots.real.round(8))),
        np.lexsort((other_roots.imag, other_roots.real.round(8))),
    )
    assert share.sum(axis=0) == pytest.approx(np.ones(8))
    assert share[:, order] == pytest.approx(other[:, other_order], abs=1e-9)


def test_names_come_from_who_takes_part_not_from_the_order_of_the_roots():
    """A slow short period and a fast spiral keep their names."""
    lateral = np.diag([-0.3, -9.0, -0.3, -1.5])
    lateral[0, 2], lateral[2, 0] = -2.0, 2.0
    longitudinal = np.diag([-0.02, -0.4, -0.4, -0.02])
    longitudinal[1, 2], longitudinal[2, 1] = 0.3, -0.3
    longitudinal[0, 3], longitudinal[3, 0] = -0.2, 0.2
    matrix = np.block([[longitudinal, np.zeros((4, 4))], [np.zeros((4, 4)), lateral]])
    found = {mode.name: mode for mode in modes(matrix)}
    assert list(found) == ["short period", "phugoid", "Dutch roll", "roll", "spiral"]
    assert found["short period"].natural_frequency_rad_s == pytest.approx(0.5)
    assert found["spiral"].time_to_half_s == pytest.approx(math.log(2.0) / 1.5)
    assert found["roll"].real_per_s == pytest.approx(-9.0)
    assert found["Dutch roll"].damping_ratio == pytest.approx(0.3 / math.hypot(0.3, 2.0))


def test_roll_and_spiral_that_join_bear_both_names():
    matrix = np.diag([-0.02, -2.0, -2.0, -0.02, -0.3, -0.2, -0.3, -0.2])
    matrix[5, 7], matrix[7, 5] = -0.5, 0.5
    matrix[4, 6], matrix[6, 4] = -2.0, 2.0
    matrix[1, 2], matrix[2, 1] = 2.0, -2.0
    matrix[0, 3], matrix[3, 0] = -0.2, 0.2
    joined = next(mode for mode in modes(matrix) if "and" in mode.name)
    assert joined.name == "roll and spiral"
    assert joined.imag_rad_s == pytest.approx(0.5)


@pytest.mark.parametrize("bank", [-60.0, -45.0, -30.0, 0.0, 30.0, 60.0])
def test_no_turn_gives_a_pair_two_names_that_do_not_belong_together(biplane, bank):
    """In a left turn the rotor brings phugoid and spiral close: each keeps its own name."""
    airplane = biplane()
    names = [mode.name for mode in modes(system_matrix(airplane, *in_turn(airplane, bank)))]
    assert [name for name in names if name != "short period"] == ["phugoid", "Dutch roll", "roll", "spiral"]


def test_a_growing_root_doubles_and_a_neutral_one_does_neither():
    matrix = np.diag([-0.02, -2.0, -3.0, 0.0, -0.3, -5.0, -0.4, 0.1])
    found = {mode.real_per_s: mode for mode in modes(matrix)}
    assert found[0.1].time_to_double_s == pytest.approx(10.0 * math.log(2.0))
    assert found[0.1].time_to_half_s is None
    assert (found[0.0].time_to_half_s, found[0.0].time_to_double_s) == (None, None)


def test_more_momentum_couples_more(biplane):
    shares = []
    for inertia in (1.0, 8.0, 16.0):
        airplane = biplane(inertia_kg_m2=inertia)
        shares.append(
            [mode for mode in modes(system_matrix(airplane, *in_turn(airplane, 0.0))) if mode.name == "Dutch roll"]
        )
    first, second, third = (found[0].coupling_share for found in shares)
    assert first < second < third


def test_a_counter_turning_rotor_gives_the_roots_of_none(biplane):
    two = biplane(rotors=(Rotor(8.0, 1.0), Rotor(8.0, -1.0)), engine=Engine(), propeller=Propeller())
    body = Body(635.0, 870.0 + 16.0, 1060.0, 1750.0, 20.0)
    none = biplane(rotors=(), body=body, engine=Engine(), propeller=Propeller())
    pair = [sorted_roots(system_matrix(a, upright(), Controls(0.02))) for a in (two, none)]
    assert np.abs(pair[0] - pair[1]).max() < 1e-9


@pytest.mark.parametrize("count", range(1, 9))
def test_the_best_order_is_that_of_an_independent_solver(count):
    """Against the shortest augmenting paths of scipy, on matrices of which no two orders are alike."""
    value = np.random.default_rng(count).random((count, count))
    rows, columns = linear_sum_assignment(value, maximize=True)
    assert rows.tolist() == list(range(count))
    assert _best_columns(value).tolist() == columns.tolist()


def test_no_single_modes_take_no_order():
    assert _best_columns(np.empty((0, 0))).tolist() == []


def test_no_root_has_a_name_whose_states_do_not_move_in_it():
    """Of coupled systems of any kind: else a growing phugoid is told as a growing roll."""
    participants = {
        "short period": ("w", "q"),
        "phugoid": ("u", "theta"),
        "Dutch roll": ("v", "r"),
        "roll": ("p",),
        "spiral": ("phi",),
    }
    rng = np.random.default_rng(5)
    for _ in range(200):
        matrix = rng.normal(size=(8, 8))
        eigenvalues, factors = participation(matrix)
        for mode in modes(matrix):
            root = complex(mode.real_per_s, mode.imag_rad_s)
            column = factors[:, int(np.argmin(np.abs(eigenvalues - root)))]
            moved = {name: sum(column[STATES.index(x)] for x in own) for name, own in participants.items()}
            for part in mode.name.split(" and "):
                assert moved[part] >= 0.1 or moved[part] == max(moved.values())
