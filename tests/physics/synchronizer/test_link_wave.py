"""Waves along a link, their published speeds and limits, and the wave equation integrated with a mass at the end."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from sim.synchronizer.link_wave import MATERIALS, OilColumn, oil_wave_m_s, signal_s, solid_wave_m_s

STEEL = MATERIALS["steel"]
RIGID = replace(STEEL, modulus_pa=math.inf)


def moved_at(mass_ratio, parts=300):
    """Return when the end of a bar of unit length, mass and wave speed is moved as far as the step at its other end."""
    masses = np.full(parts, 1.0 / parts)
    masses[-1] = 0.5 / parts + mass_ratio

    def slopes(_, state):
        place, speed = state[:parts], state[parts:]
        pull = parts * (np.concatenate([[1.0], place[:-1]]) - place)
        return np.concatenate([speed, (pull - np.append(pull[1:], 0.0)) / masses])

    def arrived(_, state):
        return state[parts - 1] - 1.0

    arrived.terminal = True
    return solve_ivp(slopes, (0.0, 50.0), np.zeros(2 * parts), events=arrived, rtol=1e-6, atol=1e-8).t[-1]


@pytest.mark.parametrize(
    ("mass_ratio", "least", "most"),
    [
        (0.0, -0.006, 0.0),
        (0.01, -0.015, 0.015),
        (0.3, 0.0, 0.08),
        (1.0, 0.07, 0.085),
        (3.0, -0.055, -0.045),
        (10.0, -0.015, 0.0),
        (30.0, -0.003, 0.0),
    ],
)
def test_the_signal_beside_the_integrated_wave(mass_ratio, least, most):
    assert least <= signal_s(1.0, 1.0, mass_ratio) / moved_at(mass_ratio) - 1.0 <= most


def test_without_a_mass_it_is_when_the_wave_arrives():
    assert signal_s(1.7, 2900.0, 0.0) == pytest.approx(1.7 / 2900.0, rel=1e-14)


def test_with_a_great_mass_it_is_a_mass_on_a_spring():
    length, wave, ratio = 1.7, 2900.0, 1e5
    omega = wave / length / math.sqrt(ratio)
    assert signal_s(length, wave, ratio) == pytest.approx(0.5 * math.pi / omega, rel=1e-5)


@pytest.mark.parametrize("ratio", [0.03, 0.4, 0.99, 1.01, 7.0, 800.0])
def test_the_root_is_that_of_a_bracket(ratio):
    beta = brentq(lambda b: ratio * b * math.sin(b) - math.cos(b), 1e-9, 0.5 * math.pi, xtol=1e-15)
    assert signal_s(1.0, 1.0, ratio) == pytest.approx(0.5 * math.pi / beta, rel=1e-12)


def test_equal_masses_have_the_root_of_the_textbooks():
    assert 0.5 * math.pi / signal_s(1.0, 1.0, 1.0) == pytest.approx(0.8603, abs=5e-5)


def test_speeds_in_rods_and_shafts_are_those_of_tables():
    """CRC Handbook, speed of sound in solids, from memory: extensional and shear waves, within 3 % of an alloy."""
    assert solid_wave_m_s("rod", STEEL) == pytest.approx(5180.0, rel=0.03)
    assert solid_wave_m_s("shaft", STEEL) == pytest.approx(3200.0, rel=0.03)
    assert solid_wave_m_s("rod", MATERIALS["aluminium"]) == pytest.approx(5050.0, rel=0.03)
    assert solid_wave_m_s("rod", MATERIALS["brass"]) == pytest.approx(3480.0, rel=0.03)
    assert solid_wave_m_s("rod", MATERIALS["copper"]) == pytest.approx(3750.0, rel=0.03)


def test_water_in_a_pipe_has_the_speed_of_korteweg():
    """Water 2.19 GPa, 999 kg/m3, in steel, bore 100 times the wall: c = √(K/ρ) / √(1 + K d / (E w))."""
    water = OilColumn(2.19e9, 999.0, pipe_ratio=100.0)
    free = math.sqrt(2.19e9 / 999.0)
    assert oil_wave_m_s(replace(water, pipe_ratio=0.0), STEEL) == pytest.approx(free)
    assert oil_wave_m_s(water, RIGID) == pytest.approx(free)
    assert oil_wave_m_s(water, STEEL) == pytest.approx(free / math.sqrt(1.0 + 2.19 * 100.0 / 207.0))


def test_bubbly_water_has_the_least_speed_of_wood():
    """Half air, half water at one atmosphere: some 24 m/s adiabatic, the least of all mixtures (Wood 1930)."""
    water = OilColumn(2.19e9, 999.0)
    speeds = [oil_wave_m_s(replace(water, air=share / (1.0 - share)), STEEL) for share in (0.3, 0.5, 0.7)]
    assert speeds[1] == pytest.approx(23.8, abs=0.2)
    assert min(speeds) == speeds[1]
    thin = math.sqrt(1.4 * 101325.0 / (0.25 * (999.0 + 1.204)))
    assert speeds[1] == pytest.approx(thin, rel=1e-3)


def test_pressure_squeezes_the_bubbles():
    oil = OilColumn(1.5e9, 870.0, air=0.01)
    speeds = [oil_wave_m_s(replace(oil, pressure_pa=pressure), STEEL) for pressure in (1e5, 1e6, 1e7, 1e8)]
    assert speeds == sorted(speeds)
    assert speeds[0] < 350.0
    assert speeds[-1] == pytest.approx(math.sqrt(1.5e9 / 870.0), rel=0.01)
    assert oil_wave_m_s(replace(oil, air=1e-12), STEEL) == pytest.approx(oil_wave_m_s(replace(oil, air=0.0), STEEL))
