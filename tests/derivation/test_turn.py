"""The balance of forces in a turn, against the trimmed turns of the equations of motion and the pilot's rules."""

from math import pi, radians

import pytest
from airplanes import BIPLANE

from sim.atmosphere import GRAVITY_M_S2
from sim.derivation.turn import derive_turn
from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.handling import handling
from sim.studies.turns import turns

BANKS_DEG = (-60.0, -45.0, -30.0, 30.0, 45.0, 60.0)


def flat(speed_m_s, bank_rad, momentum=0.0, gravity=GRAVITY_M_S2):
    """A turn with the nose on the horizon and no incidence, its figures by name."""
    derived = derive_turn(
        velocity_m_s=(speed_m_s, 0.0, 0.0),
        bank_rad=bank_rad,
        attitude_rad=0.0,
        angular_momentum_kg_m2_s=momentum,
        gravity_m_s2=gravity,
    )
    return {result.name: result.value for result in derived.results}


@pytest.mark.parametrize("index", range(len(BANKS_DEG)))
def test_a_trimmed_turn_gives_the_figures_that_handling_prints(index):
    model = Model(load(BIPLANE))
    flying = model.airplane("rotary")
    found = turns(flying, [radians(bank) for bank in BANKS_DEG])
    printed = handling(model, banks_deg=BANKS_DEG).powerplants["rotary"].turns[index]
    derived = derive_turn(
        velocity_m_s=tuple(found.state[7:10, index].tolist()),
        bank_rad=float(found.bank_rad[index]),
        attitude_rad=float(found.pitch_rad[index]),
        angular_momentum_kg_m2_s=flying.powerplant.polar_inertia_kg_m2 * float(found.spin_rad_s[index]),
        gravity_m_s2=GRAVITY_M_S2,
    )
    figures = {result.name: result.value for result in derived.results}
    assert figures == pytest.approx(
        {
            "turn_rate_deg_s": printed.turn_rate_deg_s,
            "load_factor": printed.load_factor,
            "pitch_n_m": printed.gyro_pitch_n_m,
            "yaw_n_m": printed.gyro_yaw_n_m,
        },
        rel=1e-12,
    )


def test_left_and_right_pitch_apart_and_yaw_alike():
    left, right = flat(36.0, -pi / 4, 2000.0), flat(36.0, pi / 4, 2000.0)
    assert left["pitch_n_m"] == pytest.approx(-right["pitch_n_m"], rel=1e-15)
    assert left["yaw_n_m"] == pytest.approx(right["yaw_n_m"], rel=1e-15)
    assert left["pitch_n_m"] > 0.0 < left["yaw_n_m"]


def test_turn_rate_at_120_knots_and_30_degrees():
    """5.25 °/s; value from memory, a rule of flight instruction, recomputed."""
    assert flat(120 * 1852 / 3600, radians(30))["turn_rate_deg_s"] == pytest.approx(5.25, abs=0.005)


@pytest.mark.parametrize(("bank_deg", "load"), [(45.0, 2**0.5), (60.0, 2.0)])
def test_load_factor_is_one_over_cos_bank(bank_deg, load):
    assert flat(50.0, radians(bank_deg))["load_factor"] == pytest.approx(load, rel=1e-14)
