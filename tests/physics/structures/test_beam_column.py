"""Beam-columns: the differential equation integrated, Euler's loads, symmetry, and beams without thrust."""

from math import cos, pi, sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sim.structures.beam_column import Patch, along, span, stumpff

LENGTH, BENDING = 2.3, 5000.0
PATCHES = (Patch(0.2, 1.1, 40.0), Patch(0.9, 2.3, -75.0))
START = (0.01, -0.02, 0.3, 0.1)
THRUSTS = (-9000.0, -3.0, 0.0, 2.0, 6000.0, 30000.0)


def integrated(thrust):
    """Return the state at the end by integrating the equation of the module's head piece by piece."""

    def slopes(x, y):
        load = (40.0 if 0.2 <= x < 1.1 else 0.0) + (-75.0 if x >= 0.9 else 0.0)
        return [y[1], y[2], y[3], (load - thrust * y[2]) / BENDING]

    v, slope, moment, across = START
    y = np.array([v, slope, moment / BENDING, (across - thrust * slope) / BENDING])
    for begin, end in ((0.0, 0.2), (0.2, 0.9), (0.9, 1.1), (1.1, 2.3)):
        y = solve_ivp(slopes, (begin + 1e-14, end - 1e-14), y, rtol=1e-11, atol=1e-14).y[:, -1]
    return np.array([y[0], y[1], BENDING * y[2], BENDING * y[3] + thrust * y[1]])


@pytest.mark.parametrize("thrust", THRUSTS)
def test_the_differential_equation(thrust):
    end = along(BENDING, thrust, PATCHES, start=START, places_m=[LENGTH])[0]
    assert end == pytest.approx(integrated(thrust), rel=1e-8, abs=1e-9)


@pytest.mark.parametrize("thrust", THRUSTS)
def test_stiffness_and_states_are_one_beam(thrust):
    whole = span(LENGTH, BENDING, thrust, PATCHES)
    end = along(BENDING, thrust, PATCHES, start=START, places_m=[LENGTH])[0]
    forces = whole.stiffness @ np.array([*START[:2], *end[:2]]) + whole.fixed
    assert forces == pytest.approx([START[3], -START[2], -end[3], end[2]], rel=1e-8, abs=1e-8)


@pytest.mark.parametrize("thrust", THRUSTS)
def test_stiffness_is_symmetric_and_balances(thrust):
    whole = span(LENGTH, BENDING, thrust, PATCHES)
    assert whole.stiffness == pytest.approx(whole.stiffness.T, rel=1e-8, abs=1e-6)
    assert whole.stiffness[0] == pytest.approx(-whole.stiffness[2], rel=1e-9, abs=1e-6)
    assert whole.fixed[0] + whole.fixed[2] == pytest.approx(-(0.9 * 40.0 - 1.4 * 75.0), rel=1e-9)


def test_without_thrust_it_is_the_cubic_of_every_textbook():
    whole = span(2.0, 1000.0, 0.0, [Patch(0.0, 2.0, 30.0)])
    e, x = 1000.0, 2.0
    assert whole.stiffness[0] == pytest.approx([12 * e / x**3, 6 * e / x**2, -12 * e / x**3, 6 * e / x**2])
    assert whole.stiffness[1, 1] == pytest.approx(4 * e / x)
    assert whole.fixed == pytest.approx([-30.0, -10.0, -30.0, 10.0])


@pytest.mark.parametrize(
    ("free", "length_over"), [([1, 3], 1.0), ([3], 0.699156), ([2, 3], 2.0)], ids=["hinged", "propped", "free"]
)
def test_a_span_loses_its_stiffness_at_eulers_load(free, length_over):
    """Hinged ends π² E I/L²; one clamped and one hinged 2.0457 of that; one clamped and one free a quarter."""
    euler = pi**2 * BENDING / (length_over * LENGTH) ** 2
    least = []
    for share in (0.9995, 1.0005):
        matrix = span(LENGTH, BENDING, share * euler).stiffness[np.ix_(free, free)]
        least.append(np.linalg.eigvalsh(0.5 * (matrix + matrix.T))[0])
    assert least[0] > 0.0 > least[1]


def test_a_hinged_beam_under_even_load_has_the_secant_in_its_middle():
    """M = w/k² (sec(kL/2) - 1), Timoshenko."""
    load, thrust = 120.0, 3000.0
    patches = [Patch(0.0, LENGTH, load)]
    whole = span(LENGTH, BENDING, thrust, patches)
    slopes = np.linalg.solve(whole.stiffness[1::2, 1::2], -whole.fixed[1::2])
    first = whole.stiffness[0, 1::2] @ slopes + whole.fixed[0]
    start = (0.0, slopes[0], 0.0, first)
    middle = along(BENDING, thrust, patches, start=start, places_m=[0.5 * LENGTH])[0, 2]
    k = sqrt(thrust / BENDING)
    assert middle == pytest.approx(-load / k**2 * (1.0 / cos(0.5 * k * LENGTH) - 1.0), rel=1e-9)


def test_the_functions_join_where_they_change_form():
    below, above = (stumpff(np.array([-0.5, 0.5]) * share) for share in (1.0 - 1e-9, 1.0 + 1e-9))
    for one, other in zip(below, above, strict=True):
        assert one == pytest.approx(other, rel=3e-9)
