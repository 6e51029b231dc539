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
    floated = free_controls(flying.airplane, flying.controls, state, controls)(other[:, None])
    weightless = replace(flying.controls, elevator_weight_n_m=0.0)
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
    floated = system_matrix(airplane, state, free_controls(airplane, flying.controls, state, controls))
    derived = system_matrix(with_free_elevator(airplane, flying.controls.elevator), state, controls)
    ours, theirs = (np.sort_complex(np.linalg.eigvals(one[np.ix_(fast, fast)])) for one in (floated, derived))
    assert np.abs(ours - theirs).max() < 0.02 * np.abs(theirs).max()
    held = np.sort_complex(np.linalg.eigvals(system_matrix(airplane, state, controls)[np.ix_(fast, fast)]))
    assert np.abs(ours - held).max() > 0.05 * np.abs(held).max(), "and it is not that of controls held"


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
