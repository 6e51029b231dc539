"""ISO 2533, Standard Atmosphere, 1975, by geopotential altitude. Mark: P (read in a reproduction and recomputed)."""

import pytest

from sim.atmosphere import air

ROWS = [
    (0.0, 288.15, 101325.0, 1.22500, 5e-6),
    (1000.0, 281.65, 89874.6, 1.11164, 5e-6),
    (2000.0, 275.15, 79495.2, 1.00649, 5e-6),
    (3000.0, 268.65, 70108.5, 0.909122, 5e-7),
    (5000.0, 255.65, 54019.9, 0.736116, 5e-7),
]


@pytest.mark.parametrize(("altitude_m", "temperature_k", "pressure_pa", "density_kg_m3", "half_digit"), ROWS)
def test_row(altitude_m, temperature_k, pressure_pa, density_kg_m3, half_digit):
    found = air(altitude_m)
    assert found.temperature_k == pytest.approx(temperature_k, abs=0.005)
    assert found.pressure_pa == pytest.approx(pressure_pa, abs=0.05)
    assert found.density_kg_m3 == pytest.approx(density_kg_m3, abs=half_digit)
