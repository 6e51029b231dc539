"""F. W. Lanchester, Aerodonetics, 1908: the phugoid of an airplane without drag that keeps its incidence.

Mark X: T = √2 π V/g, .1380 s for each ft/s and .4530 s for each m/s. The airplane has next to no drag, a hundred times
the usual stability in pitch and hardly any inertia, so that its incidence stays what it was.
"""

import math

import pytest

from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.polar import Polar
from sim.flight.modes import STATES, system_matrix
from sim.flight.motion import Airplane, Body, Controls

FOOT_M = 0.3048


def period(speed_m_s):
    """Seconds; the pair of roots that swings slowest in the longitudinal block."""
    import numpy as np

    mass, area, density, gravity = 700.0, 18.0, 1.225, 9.80665
    lift = mass * gravity / (0.5 * density * speed_m_s**2 * area)
    airplane = Airplane(
        body=Body(mass, 900.0, 0.01, 1300.0),
        polar=Polar(area, 9.0, 2.0, 4.5, 1e9, 1e-9, lift, 100.0 * lift),
        derivatives=Derivatives(lift_alpha=4.6, pitch_alpha=-60.0, pitch_q=-1.0),
        gravity_m_s2=gravity,
        sea_level_density_kg_m3=density,
    )
    state = (0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, speed_m_s, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    roots = np.linalg.eigvals(system_matrix(airplane, state, Controls())[:4, :4])
    assert STATES[:4] == ("u", "w", "q", "theta")
    return 2.0 * math.pi / min(abs(root.imag) for root in roots if abs(root.imag) > 1e-6)


@pytest.mark.parametrize(("unit", "size", "seconds"), [("ft/s", FOOT_M, ".1380"), ("m/s", 1.0, ".4530")])
@pytest.mark.parametrize("speed", [90.0, 140.0])
def test_period(unit, size, seconds, speed, printed):
    how = {"share": 0.002, "why": "the incidence is not quite constant"}
    row = f"period for each {unit} of airspeed, at {speed:g} {unit}"
    printed(period(speed * size) / speed, seconds, "s", row=row, **how)
