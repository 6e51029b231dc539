"""The hardest hand for ever: clutch and brake alone decide how fast it turns, the timer how often it flashes."""

import math

import numpy as np
import pytest

from sim.display.hand_speed import (
    BRAKE_SCATTER,
    CLUTCH_SCATTER,
    FLASH_PAUSE_S,
    STEPS_PER_S,
    clutch_torque,
    drag_of_pair,
    flashes,
    most_in_a_second,
    pairs_needed,
    spun,
    worst_speed,
)

SIZES = {"disc_m": 0.045, "thickness_m": 0.004, "magnet_m": 0.020, "radius_m": 0.033}


def test_without_a_cam_the_speed_is_that_of_a_first_order_lag():
    """I ω' = T − c ω: ω = T/c (1 − exp(−c t/I))."""
    angles, speeds = spun(clutch_n_m=0.3, drag_n_m_s=0.05, inertia_kg_m2=0.012, load_n_m=lambda _: 0.0)
    time = np.arange(len(speeds)) / STEPS_PER_S
    lag = 0.012 / 0.05
    assert speeds == pytest.approx(6.0 * (1.0 - np.exp(-time / lag)), rel=1e-6, abs=1e-9)
    assert angles == pytest.approx(6.0 * (time - lag * (1.0 - np.exp(-time / lag))), rel=1e-6, abs=1e-9)


def test_with_a_cam_what_the_clutch_gives_is_what_the_brake_takes():
    """Over whole turns the cam gives back what it took."""
    angles, speeds = spun(
        clutch_n_m=0.3, drag_n_m_s=0.05, inertia_kg_m2=0.012, load_n_m=lambda angle: 0.08 * math.sin(2.0 * angle)
    )
    turns = np.floor(angles / math.tau)
    late = np.flatnonzero(np.diff(turns) > 0)[-10:]
    span = slice(late[0] + 1, late[-1] + 1)
    given = 0.3 * (angles[late[-1] + 1] - angles[late[0] + 1])
    taken = np.sum(0.05 * speeds[span] ** 2) / STEPS_PER_S
    assert given == pytest.approx(taken, rel=2e-3)


def test_the_worst_end_of_both_bands_is_taken():
    assert float(worst_speed(0.2, 0.04)) == pytest.approx(0.2 * (1 + CLUTCH_SCATTER) / (0.04 * (1 - BRAKE_SCATTER)))
    assert float(clutch_torque(0.02, 0.08)) == pytest.approx(0.15)


@pytest.mark.parametrize(("clutch", "pairs"), [(0.05, 1), (0.1, 2), (0.13, 3), (0.9, 3)])
def test_as_many_magnets_as_it_takes(clutch, pairs):
    assert pairs_needed(clutch, 0.02, 6.28) == pairs


def test_drag_grows_with_disc_and_magnet_as_it_must():
    """With thickness in proportion; none when a disc has room for no return of the current."""
    assert drag_of_pair(**SIZES | {"thickness_m": 0.008}) == pytest.approx(2.0 * drag_of_pair(**SIZES))
    assert drag_of_pair(**SIZES) < drag_of_pair(**SIZES | {"disc_m": 0.060})
    tight = {"disc_m": 0.033 + 0.5 * 0.020 / (1.0 + 0.033 / 0.043)}
    assert drag_of_pair(**SIZES | tight) < 0.35 * drag_of_pair(**SIZES)


@pytest.mark.parametrize("rpm", [20.0, 60.0, 90.0, 300.0, 6000.0])
def test_the_lamp_never_flashes_three_times_in_a_second(rpm):
    """Whatever the speed; below what the timer allows every window is shown."""
    angles = math.tau * rpm / 60.0 * np.arange(20 * STEPS_PER_S) / STEPS_PER_S
    lit = flashes(angles, from_rad=0.4, period_rad=math.pi)
    assert most_in_a_second(lit) <= 2
    assert np.min(np.diff(lit)) >= FLASH_PAUSE_S - 1e-9
    if 60.0 / rpm / 2.0 > FLASH_PAUSE_S:
        assert len(lit) == pytest.approx(20.0 * rpm / 30.0, abs=1)
