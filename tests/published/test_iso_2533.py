"""ISO 2533, Standard Atmosphere, 1975, by geopotential altitude. Mark: P (read in a reproduction and recomputed)."""

import pytest

from sim.atmosphere import air

ROWS = [
    (0.0, "288.15", "101325.0", "1.22500"),
    (1000.0, "281.65", "89874.6", "1.11164"),
    (2000.0, "275.15", "79495.2", "1.00649"),
    (3000.0, "268.65", "70108.5", "0.909122"),
    (5000.0, "255.65", "54019.9", "0.736116"),
]


@pytest.mark.parametrize(("altitude_m", "temperature_k", "pressure_pa", "density_kg_m3"), ROWS)
def test_row(altitude_m, temperature_k, pressure_pa, density_kg_m3, printed):
    found, at = air(altitude_m), f"at {altitude_m:.0f} m"
    printed(found.temperature_k, temperature_k, "K", row=f"temperature {at}")
    printed(found.pressure_pa, pressure_pa, "Pa", row=f"pressure {at}")
    printed(found.density_kg_m3, density_kg_m3, "kg/m³", row=f"density {at}")


@pytest.mark.parametrize(("altitude_m", "sound_m_s"), [(0.0, "340.294"), (1000.0, "336.434"), (5000.0, "320.529")])
def test_speed_of_sound(altitude_m, sound_m_s, printed):
    printed(air(altitude_m).sound_m_s, sound_m_s, "m/s", row=f"speed of sound at {altitude_m:.0f} m", mark="M")
