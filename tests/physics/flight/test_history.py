"""Load factors against steady turns, whose values are known in closed form."""

import math

import numpy as np
import pytest

from sim.flight.history import load_factors
from sim.flight.trim import steady_turns


@pytest.mark.parametrize("bank_deg", [-50.0, 0.0, 35.0])
def test_a_coordinated_turn_has_no_sideways_load_and_the_load_factor_of_its_trim(biplane, bank_deg):
    airplane = biplane()
    turns = steady_turns(airplane, speed_m_s=38.0, bank_rad=math.radians(bank_deg), altitude_m=300.0)
    upward, rightward = load_factors(airplane, turns.state.T, np.array([turns.controls(0)[:4]]))
    assert upward == pytest.approx(turns.load_factor, rel=1e-9)
    assert rightward == pytest.approx([0.0], abs=1e-9)


def test_rudder_in_straight_flight_gives_a_side_load_of_its_force_over_weight(biplane):
    """Y = q S CY δ acts rightward for a positive deflection; the trim without it has no side load."""
    airplane = biplane()
    turns = steady_turns(airplane, speed_m_s=38.0, bank_rad=0.0)
    controls = np.array([turns.controls(0)[:4]])
    controls[0, 2] += 0.1
    _, rightward = load_factors(airplane, turns.state.T, controls)
    force_n = 0.5 * 1.225 * 38.0**2 * airplane.polar.area_m2 * airplane.derivatives.side_rudder * 0.1
    assert rightward == pytest.approx([force_n / (airplane.body.mass_kg * airplane.gravity_m_s2)], rel=1e-6)
