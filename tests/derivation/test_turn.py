"""The balance of forces in a level turn, against turn rate, load factor and couple computed elsewhere."""

from math import cos, pi, radians, sin, tan

import pytest

from sim.derivation.turn import derive_turn
from sim.rotor.couple import couple


def results(bank_rad, momentum=2000.0):
    derived = derive_turn(speed_m_s=36.0, bank_rad=bank_rad, angular_momentum_kg_m2_s=momentum, gravity_m_s2=9.80665)
    return {result.name: result.value for result in derived.results}


@pytest.mark.parametrize("bank_deg", [-60.0, -45.0, -30.0, 30.0, 45.0, 60.0])
def test_the_couple_is_that_of_the_body_rates(bank_deg):
    bank = radians(bank_deg)
    rate = 9.80665 * tan(bank) / 36.0
    direct = couple(2000.0, pitch_rate_rad_s=rate * sin(bank), yaw_rate_rad_s=rate * cos(bank))
    found = results(bank)
    assert found["pitch_n_m"] == pytest.approx(direct.pitch_n_m, rel=1e-12)
    assert found["yaw_n_m"] == pytest.approx(direct.yaw_n_m, rel=1e-12)


def test_left_and_right_pitch_apart_and_yaw_alike():
    left, right = results(-pi / 4), results(pi / 4)
    assert left["pitch_n_m"] == -right["pitch_n_m"] > 0.0
    assert left["yaw_n_m"] == right["yaw_n_m"] > 0.0


def test_turn_rate_and_load_factor_at_120_knots():
    """120 kt, 30° bank: 5.25 °/s; from memory, recomputed. Load factor at 60° exactly 2."""
    derived = derive_turn(
        speed_m_s=120 * 1852 / 3600, bank_rad=radians(30), angular_momentum_kg_m2_s=0.0, gravity_m_s2=9.80665
    )
    rate = derived.results[0]
    assert rate.value * 180 / pi == pytest.approx(5.25, abs=0.005)
    assert results(pi / 3)["load_factor"] == pytest.approx(2.0, rel=1e-15)
