"""Steady sideslips: equilibrium by the equations of motion, the wind that they meet, and the mirror."""

import numpy as np
import pytest
from airplanes import BIPLANE
from shared import built

from sim.flight.motion import Controls, motion
from sim.flight.sideslip import most_sideslip
from sim.numerics.number import ARRAY_MATH


@pytest.fixture(scope="module")
def flying():
    return built(BIPLANE).airplane("rotary")


def found(flying, side, **travel):
    from dataclasses import replace

    return most_sideslip(
        flying.airplane,
        replace(flying.travel, **travel),
        np.array([26.0]),
        spin_rad_s=np.array([40.0]),
        altitude_m=300.0,
        throttle=0.0,
        side=side,
    )


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_nose_along_the_path_the_wind_across_is_the_velocity_across_and_flight_is_steady(flying, side):
    slip, by_rudder = found(flying, side)
    assert by_rudder.all()
    assert slip.rudder_rad[0] == pytest.approx(side * flying.travel.rudder_rad)
    assert side * slip.sideslip_rad[0] > 0.0
    assert side * slip.bank_rad[0] > 0.0  # wing to windward low
    rates = motion(flying.airplane, ARRAY_MATH)

    def left(unknowns):
        alpha, pitch, elevator = unknowns
        beta, bank = slip.sideslip_rad[0], slip.bank_rad[0]
        u, v, w = 26.0 * np.cos(alpha) * np.cos(beta), 26.0 * np.sin(beta), 26.0 * np.sin(alpha) * np.cos(beta)
        half_p, half_b = 0.5 * pitch, 0.5 * bank
        e = (
            np.cos(half_b) * np.cos(half_p),
            np.sin(half_b) * np.cos(half_p),
            np.cos(half_b) * np.sin(half_p),
            -np.sin(half_b) * np.sin(half_p),
        )
        controls = Controls(elevator, slip.aileron_rad[0], slip.rudder_rad[0], 0.0)
        return np.array(rates((0.0, 0.0, -300.0, *e, u, v, w, 0.0, 0.0, 0.0, 40.0), controls))

    from scipy.optimize import fsolve

    solved = fsolve(lambda x: left(x)[[7, 9, 11]], [0.05, 0.0, 0.0], xtol=1e-12)
    every = left(solved)
    assert np.abs(every[7:13]).max() < 1e-6
    assert side * every[1] == pytest.approx(slip.wind_m_s[0], rel=1e-6)  # heading north, carried east


def test_ailerons_end_it_where_they_are_few(flying):
    slip, by_rudder = found(flying, 1.0, aileron_rad=0.01)
    assert not by_rudder.any()
    assert slip.aileron_rad[0] == pytest.approx(-0.01)
    assert slip.rudder_rad[0] < flying.travel.rudder_rad


def test_more_rudder_holds_more_wind(flying):
    few, more = (found(flying, 1.0, rudder_rad=rudder)[0].wind_m_s[0] for rudder in (0.2, 0.3))
    assert 1.3 < more / few < 1.7
