"""The air grows thin and cold with height, and the fast law agrees with the gas law."""

import cmath

import numpy as np
import pytest

from sim.atmosphere import GAS_J_KG_K, GRAVITY_M_S2, air, density_ratio
from sim.errors import InputError


@pytest.mark.parametrize("altitude_m", [-2000.0, 0.0, 3000.0, 11000.0])
def test_the_gas_law_holds(altitude_m):
    found = air(altitude_m)
    assert found.pressure_pa == pytest.approx(found.density_kg_m3 * GAS_J_KG_K * found.temperature_k, rel=1e-6)


def test_pressure_falls_by_the_weight_of_the_air():
    rise = 0.5
    fall = air(2000.0 - rise).pressure_pa - air(2000.0 + rise).pressure_pa
    assert fall == pytest.approx(air(2000.0).density_kg_m3 * GRAVITY_M_S2 * 2.0 * rise, rel=1e-6)


def test_one_law_for_floats_rows_and_complex_numbers():
    heights = np.array([0.0, 1500.0, 4000.0])
    assert density_ratio(heights) == pytest.approx([density_ratio(float(h)) for h in heights], rel=1e-15)
    slope = density_ratio(1500.0 + 1e-20j).imag / 1e-20
    assert slope == pytest.approx((density_ratio(1501.0) - density_ratio(1499.0)) / 2.0, rel=1e-6)
    assert cmath.isfinite(density_ratio(1e5 + 0j))


@pytest.mark.parametrize(("altitude_m", "shown"), [(11000.5, "11000.5"), (-2001.0, "-2001")])
def test_outside_the_troposphere_is_refused(altitude_m, shown):
    with pytest.raises(InputError) as caught:
        air(altitude_m)
    assert str(caught.value) == f'altitude: must be -2000 to 11000 m, got "{shown} m"'


def test_sound_at_sea_level_and_where_it_grows_cold():
    """ISO 2533, 1975: 340.294 m/s at sea level (from memory); it goes with the root of the temperature."""
    assert air(0.0).sound_m_s == pytest.approx(340.294, abs=5e-4)
    cold, warm = air(11000.0), air(0.0)
    assert cold.sound_m_s / warm.sound_m_s == pytest.approx((cold.temperature_k / warm.temperature_k) ** 0.5, rel=1e-6)
