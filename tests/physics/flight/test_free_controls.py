"""Controls that float: modes at the free neutral point, forces that stay, and limits."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from flights import glide, unpowered
from shared import built

from sim.flight.cg_shift import with_cg_moved
from sim.flight.control_forces import control_forces
from sim.flight.control_system import SURFACES
from sim.flight.free_controls import free_controls
from sim.flight.modes import system_matrix
from sim.flight.motion import motion
from sim.flight.stick_free import stick_free, with_free_elevator
from sim.flight.trim import steady_turns
from sim.studies.handling import handling
from sim.studies.turns import turns

CASES = [(BIPLANE, "rotary"), (TRIPLANE, "geared_six"), (PARASOL, "upright_four")]


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0].stem}-{case[1]}")
def flying(request):
    return built(request.param[0]).airplane(request.param[1])


def level(flying):
    found = turns(flying, [0.0])
    return found.state[:, 0].tolist(), found.controls(0)


def test_in_the_steady_flight_they_are_where_they_were(flying):
    state, controls = level(flying)
    floating = free_controls(flying.airplane, flying.controls, state, controls)
    assert tuple(map(float, floating(np.array(state)))) == pytest.approx(tuple(controls), abs=1e-12)


def test_the_air_s_moments_stay_as_the_flight_changes(flying):
    """By the forces at stick and pedals of another flight with the deflections that float there."""
    found = turns(flying, [0.0])
    state, controls = found.state[:, 0], found.controls(0)
    other = state.copy()
    other[7:13] += [1.3, 0.8, 2.0, 0.05, 0.14, -0.03]
    weightless = replace(flying.controls, elevator_weight_n_m=0.0)
    floated = free_controls(flying.airplane, weightless, state, controls)(other[:, None])
    moved = replace(
        found,
        state=other[:, None],
        elevator_rad=np.ravel(floated.elevator_rad),
        rudder_rad=np.ravel(floated.rudder_rad),
    )
    before, after = (control_forces(flying.airplane, weightless, one) for one in (found, moved))
    assert after.stick_n == pytest.approx(before.stick_n, rel=1e-9)
    assert after.pedal_n == pytest.approx(before.pedal_n, rel=1e-9)
    assert abs(floated.elevator_rad - controls.elevator_rad) > 1e-3
    assert abs(floated.rudder_rad - controls.rudder_rad) > 1e-3


def test_trimmed_by_a_tab_a_glide_turns_unstable_behind_the_free_neutral_point(flying):
    """The product of the longitudinal roots, with the floating elevator in the derivatives, changes its sign there."""
    rho, law = 1.15, flying.controls.elevator
    point_m = stick_free(flying.airplane, flying.derivatives, law, rho).neutral_point_free_m
    signs = []
    for aft_m in (point_m - 0.03, point_m + 0.03):
        airplane = with_free_elevator(unpowered(with_cg_moved(flying.airplane, aft_m)), law)
        state, controls = glide(airplane, 41.0, 640.0)
        signs.append(np.sign(np.linalg.det(system_matrix(airplane, state, controls)[:4, :4])))
    assert signs == [1.0, -1.0]


def test_the_short_period_is_that_of_the_derivatives_that_float(flying):
    """At one speed, where a spring and a tab are the same: the roots of incidence and pitch rate."""
    airplane = unpowered(flying.airplane)
    state, controls = glide(flying.airplane, 41.0, 640.0)
    fast = [1, 2]
    weightless = replace(flying.controls, elevator_weight_n_m=0.0)
    floated = system_matrix(airplane, state, free_controls(airplane, weightless, state, controls))
    derived = system_matrix(with_free_elevator(airplane, flying.controls.elevator), state, controls)
    ours, theirs = (np.sort_complex(np.linalg.eigvals(one[np.ix_(fast, fast)])) for one in (floated, derived))
    assert np.abs(ours - theirs).max() < 0.02 * np.abs(theirs).max()
    held = np.sort_complex(np.linalg.eigvals(system_matrix(airplane, state, controls)[np.ix_(fast, fast)]))
    assert np.abs(ours - held).max() > 0.05 * np.abs(held).max(), "and it is not that of controls held"


@pytest.mark.parametrize("heavier", [0.0, 1.0, -0.5, 2.0])
def test_the_weight_of_the_elevator_is_a_bob_weight(flying, heavier):
    """A with the controls held, plus B times the gain that keeps pull and foot as they were: by differences throughout.

    The pull with the weight of the elevator at the load factor of the tail, by the rates of the equations of motion;
    ahead of the hinge, negative, too.
    """
    system = replace(flying.controls, elevator_weight_n_m=heavier * flying.controls.elevator_weight_n_m)
    found, rates, airplane = turns(flying, [0.0]), motion(flying.airplane), flying.airplane
    state, controls = found.state[:, 0].copy(), found.controls(0)

    def rate_and_force(x):
        """Return the rates of u, w, q, v, p, r and the forces at stick and pedal, of their changes and deflections."""
        moved = state.copy()
        moved[[7, 9, 11, 8, 10, 12]] += x[:6]
        own = controls._replace(elevator_rad=controls.elevator_rad + x[6], rudder_rad=controls.rudder_rad + x[7])
        rate = np.array(rates(tuple(moved.tolist()), own))
        e0, e1, e2, e3, u, v, _, p, q, _ = moved[3:13]
        up = q * u - p * v - rate[9] - airplane.slipstream.tail_arm_m * rate[11]
        load = e0**2 - e1**2 - e2**2 + e3**2 + up / airplane.gravity_m_s2
        one = replace(found, state=moved[:, None], elevator_rad=np.array([own.elevator_rad]))
        one = replace(one, rudder_rad=np.array([own.rudder_rad]), load_factor=np.array([load]))
        forces = control_forces(airplane, system, one)
        return np.array([*rate[[7, 9, 11, 8, 10, 12]], float(forces.stick_n[0]), float(forces.pedal_n[0])])

    steps = 1e-5 * np.eye(8)
    jacobian = np.array([(rate_and_force(step) - rate_and_force(-step)) / 2e-5 for step in steps]).T
    gain = -np.linalg.solve(jacobian[6:, 6:], jacobian[6:, :6])
    expected = jacobian[:6, :6] + jacobian[:6, 6:] @ gain
    order = [0, 1, 2, 4, 5, 6]
    ours = system_matrix(airplane, state.tolist(), free_controls(airplane, system, state.tolist(), controls))
    assert ours[np.ix_(order, order)] == pytest.approx(expected, rel=1e-5, abs=1e-6)


def test_an_elevator_as_heavy_as_the_air_is_stiff_does_not_centre(flying):
    system = replace(flying.controls, elevator_weight_n_m=1000.0)
    state, controls = level(flying)
    assert free_controls(flying.airplane, system, state, controls) is None


def test_surfaces_that_only_feel_their_deflection_leave_the_modes_of_controls_held(flying):
    """Deaf to incidence, with an enormous spring of the air about neutral."""
    stiff = replace(
        flying.controls,
        **{
            name: replace(law, plain_deflection_per_rad=-1e9)
            for name, law in ((one, getattr(flying.controls, one)) for one in SURFACES)
        },
    )
    airplane = unpowered(flying.airplane)
    found = steady_turns(flying.airplane, speed_m_s=flying.speed_m_s, bank_rad=[0.0], altitude_m=flying.altitude_m)
    state, controls = found.state[:, 0].tolist(), found.controls(0)._replace(elevator_rad=0.0, rudder_rad=0.0)
    floating = free_controls(airplane, stiff, state, controls)
    held, free = (system_matrix(airplane, state, one) for one in (controls, floating))
    assert free == pytest.approx(held, abs=1e-6)


def test_an_overbalanced_rudder_has_no_free_modes():
    found = handling(built(BIPLANE, "rudder.chord_share=1", "rudder.balance_share=0.5"), banks_deg=(0.0,))
    assert found.powerplants["rotary"].free_modes == ()
    assert handling(built(BIPLANE), banks_deg=(0.0,)).powerplants["rotary"].free_modes != ()
