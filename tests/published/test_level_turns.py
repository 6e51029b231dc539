"""Level turns: pilots' training texts and the exact relations they rest on.

Marks: 120 kt at 60° of bank with g 10 m/s² has a radius of 220 m (EASA question bank, P); 120 kt at 30° turns at
5.25 °/s (M). Load factor 1/cos φ and stall factor 1/√cos φ: exact. The steady turns of the equations of motion are
asked, with the wing set so that the nose lies along the path: thrust then carries no weight.
"""

import math

import numpy as np
import pytest

from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.polar import Polar
from sim.atmosphere import GRAVITY_M_S2
from sim.flight.motion import Airplane, Body
from sim.flight.trim import steady_turns
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.engine_propeller import Rotor, matched_engine
from sim.propulsion.propeller_fit import fitted_propeller

KNOT = 0.514444
ROWS = [(45.0, "1.414", "1.189"), (60.0, "2.000", "1.414"), (75.0, "3.864", "1.966")]


def along_its_path(speed_m_s, bank_deg, gravity=GRAVITY_M_S2):
    """Return the turn of an airplane without rotor couple or damping whose incidence in it is nought."""
    mass, area, density = 800.0, 20.0, 1.225
    lift = mass * gravity / math.cos(math.radians(bank_deg)) / (0.5 * density * speed_m_s**2 * area)
    airplane = Airplane(
        body=Body(mass, 1.0, 1.0, 1.0),
        rotors=(Rotor(1e-9),),
        polar=Polar(area, 10.0, 2.0, 5.0, 0.8, 0.03, lift, 8.0 * lift),
        derivatives=Derivatives(
            lift_alpha=5.0,
            pitch_alpha=-0.5,
            pitch_elevator=-1.0,
            side_beta=-0.3,
            side_rudder=0.1,
            roll_beta=-0.05,
            roll_aileron=-0.2,
            yaw_beta=0.05,
            yaw_rudder=-0.05,
        ),
        engine=matched_engine(power_w=5e5, speed_rad_s=200.0, rotation=1.0),
        propeller=fitted_propeller(pitched_blade(4, 1.1, 0.08), diameter_m=3.1, tip_mach=0.6),
        gravity_m_s2=gravity,
    )
    turns = steady_turns(airplane, speed_m_s=speed_m_s, bank_rad=math.radians(bank_deg))
    assert turns.found.all()
    return turns


def test_radius_at_120_knots_and_60_degrees(printed):
    turns = along_its_path(120.0 * KNOT, 60.0, gravity=10.0)
    printed(
        120.0 * KNOT / turns.turn_rate_rad_s[0], "220", "m", row="radius at 120 kt and 60° of bank, g 10 m/s²", mark="P"
    )


def test_rate_of_turn_at_120_knots_and_30_degrees(printed):
    turns = along_its_path(120.0 * KNOT, 30.0)
    ours = math.degrees(turns.turn_rate_rad_s[0])
    printed(ours, "5.25", "°/s", row="rate of turn at 120 kt and 30° of bank", mark="M")


@pytest.mark.parametrize(("bank", "load", "stall"), ROWS)
def test_load_and_stall_factor(bank, load, stall, printed):
    turns = along_its_path(60.0, bank)
    printed(turns.load_factor[0], load, row=f"load factor at {bank:g}° of bank", mark="X")
    printed(math.sqrt(turns.load_factor[0]), stall, row=f"stall factor at {bank:g}° of bank", mark="X")


@pytest.mark.parametrize("bank", [20.0, 45.0, 70.0])
def test_rate_of_turn_is_g_tan_bank_over_speed(bank):
    turns = along_its_path(50.0, bank)
    assert turns.turn_rate_rad_s[0] == pytest.approx(GRAVITY_M_S2 * np.tan(np.radians(bank)) / 50.0, rel=1e-4)
