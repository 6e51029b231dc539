"""Torque against the spring's energy, and the float speed against a mass and a spring followed in time."""

import numpy as np
import pytest

from sim.display.loads import contact_force, float_speed, torque
from sim.display.rise_laws import LAWS
from sim.display.schedule import Schedule, lift_fraction

LIFT, PRELOAD, RATE, MASS = 0.006, 4.0, 500.0, 0.05
HELD = {"preload_n": PRELOAD, "rate_n_per_m": RATE, "mass_kg": MASS}


def plan(law, lobes=2):
    return Schedule(law, lobes, rise_rad=0.5, window_rad=1.0, start_rad=0.25)


def turned(law, angle, cam_rad_s):
    lift, slope, bend = (LIFT * part for part in lift_fraction(plan(law), angle))
    return torque(contact_force(**HELD, cam_rad_s=cam_rad_s, lift_m=lift, acceleration_m=bend), slope)


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("cam_rad_s", [0.0, 6.0])
def test_the_torque_of_a_rise_is_the_energy_put_into_the_spring(law, cam_rad_s):
    angle = np.linspace(0.0, 0.5, 10_001)
    stored = PRELOAD * LIFT + RATE * LIFT**2 / 2.0
    assert np.trapezoid(turned(law, angle, cam_rad_s), angle) == pytest.approx(stored, rel=1e-6)


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("cam_rad_s", [0.0, 6.0])
def test_the_torque_of_a_whole_turn_is_nothing(law, cam_rad_s):
    angle = np.linspace(0.0, 2.0 * np.pi, 20_001)
    assert np.trapezoid(turned(law, angle, cam_rad_s), angle) == pytest.approx(0.0, abs=1e-7)


def widest_gap(law, cam_rad_s, steps=15_000):
    """Follow mass and spring over a lobe in time: the cam pushes, the spring pulls back, nothing else."""
    period = np.pi / cam_rad_s
    step = period / steps
    lift, slope, _ = (LIFT * part for part in lift_fraction(plan(law), np.linspace(0.0, np.pi, steps + 1)))
    place, speed, gap = lift[0], slope[0] * cam_rad_s, 0.0
    for floor, pace in zip(lift[1:], slope[1:] * cam_rad_s, strict=True):
        slower = speed - (PRELOAD + RATE * place) / MASS * step
        place, speed = place + (speed + slower) / 2.0 * step, slower
        place, speed, gap = (floor, pace, gap) if place <= floor else (place, speed, max(gap, place - floor))
    return gap


@pytest.mark.parametrize("law", LAWS)
def test_the_roller_stays_on_below_the_float_speed_and_leaves_above_it(law):
    angle = np.linspace(0.0, 0.5, 4001)
    lift, _, bend = (LIFT * part for part in lift_fraction(plan(law), angle))
    stated = float(float_speed(**HELD, lift_m=lift, acceleration_m=bend))
    assert widest_gap(law, 0.98 * stated) < 1e-8
    assert widest_gap(law, 1.10 * stated) > 1e-6


def test_a_stiffer_preload_raises_the_float_speed():
    angle = np.linspace(0.0, 0.5, 401)
    lift, _, bend = (LIFT * part for part in lift_fraction(plan("cycloidal"), angle))
    speeds = [
        float(float_speed(preload_n=force, rate_n_per_m=0.0, mass_kg=MASS, lift_m=lift, acceleration_m=bend))
        for force in (1.0, 4.0)
    ]
    assert speeds[1] == pytest.approx(2.0 * speeds[0])
