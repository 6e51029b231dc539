"""The couple is −ω × h, whichever way the shaft is swung."""

import numpy as np
import pytest

from sim.rotor.couple import couple, two_blade_factors
from sim.studies.couple import couple as couple_of_rotor
from sim.studies.couple import over_a_turn


@pytest.mark.parametrize("seed", range(5))
def test_it_is_the_cross_product(seed):
    q, r, h = np.random.default_rng(seed).normal(size=3)
    roll, pitch, yaw = -np.cross([0.0, q, r], [h, 0.0, 0.0])
    answer = couple(h, pitch_rate_rad_s=q, yaw_rate_rad_s=r)
    assert (0.0, answer.pitch_n_m, answer.yaw_n_m) == (roll, pytest.approx(pitch), pytest.approx(yaw))


def test_it_does_no_work():
    answer = couple(200.0, pitch_rate_rad_s=0.4, yaw_rate_rad_s=-0.9)
    assert answer.pitch_n_m * 0.4 + answer.yaw_n_m * -0.9 == pytest.approx(0.0, abs=1e-12)


def test_reversing_the_shaft_reverses_the_couple():
    one, other = (couple(h, pitch_rate_rad_s=0.4, yaw_rate_rad_s=-0.9) for h in (200.0, -200.0))
    assert (one.pitch_n_m, one.yaw_n_m) == (-other.pitch_n_m, -other.yaw_n_m)
    assert one.couple_n_m == other.couple_n_m


def test_no_swing_no_couple():
    answer = couple(200.0, pitch_rate_rad_s=0.0, yaw_rate_rad_s=0.0)
    assert (answer.couple_n_m, answer.effect) == (0.0, "none")
    assert str(answer.pitch_n_m) == "0.0"


def test_two_blades_as_a_bar_turned_step_by_step():
    """Angular momentum of a turning bar, differentiated numerically, gives 1 − cos 2x and −sin 2x."""
    inertia, spin, yaw_rate, step = 1.0, 50.0, 0.5, 1e-6

    def momentum(time_s):
        """In earth axes: a thin bar in the disc, the disc yawing right about z (down)."""
        x, heading = spin * time_s, yaw_rate * time_s
        turn = np.array([[np.cos(heading), -np.sin(heading), 0], [np.sin(heading), np.cos(heading), 0], [0, 0, 1]])
        bar = turn @ np.array([0.0, np.cos(x), np.sin(x)])
        tensor = inertia * (np.eye(3) - np.outer(bar, bar))
        return tensor @ (turn @ np.array([spin, 0.0, 0.0]) + np.array([0.0, 0.0, yaw_rate]))

    for time_s in (0.0, 0.004, 0.011, 0.02):
        rate = (momentum(time_s + step) - momentum(time_s - step)) / (2 * step)
        heading = yaw_rate * time_s
        right, down = np.array([-np.sin(heading), np.cos(heading), 0.0]), np.array([0.0, 0.0, 1.0])
        along, across = two_blade_factors(spin * time_s)
        mean = inertia * spin * yaw_rate
        assert -rate @ right == pytest.approx(-mean * along, rel=1e-6, abs=1e-4)
        assert -rate @ down == pytest.approx(-mean * across, rel=1e-6, abs=1e-4)


@pytest.mark.parametrize("blades", [None, 2.0, 3.0])
def test_over_a_turn_the_couple_keeps_its_mean_and_its_peak(blades):
    """Pitch and yaw together: the mean is the couple, the largest size the peak."""
    rotor = {"polar_inertia_kg_m2": 20.0, "spin_rad_s": 130.0, "yaw_rate_rad_s": 0.5, "pitch_rate_rad_s": -0.2}
    answer = couple_of_rotor(**rotor, blades=blades)
    turn = over_a_turn(answer, blades)
    assert np.mean(turn.pitch_n_m[:-1]) == pytest.approx(answer.pitch_n_m, rel=1e-12)
    assert np.mean(turn.yaw_n_m[:-1]) == pytest.approx(answer.yaw_n_m, rel=1e-12)
    assert np.hypot(turn.pitch_n_m, turn.yaw_n_m).max() == pytest.approx(answer.peak_couple_n_m, rel=1e-12)
