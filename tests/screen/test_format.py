"""What leaves the program: exact factors and no false digits."""

import numpy as np
import pytest

from viz.sheets.blocks import Value
from viz.sheets.format import amount, shown, significant
from viz.sheets.text import text_of, without_exponent


@pytest.mark.parametrize(
    ("name", "si", "us"),
    [
        ("mass_kg", 0.45359237, "1.00 lb"),
        ("span_m", 0.3048, "1.00 ft"),
        ("speed_m_s", 1609.344 / 3600, "1.00 mph"),
        ("couple_n_m", 0.3048 * 4.4482216152605, "1.00 lbf ft"),
        ("power_w", 550 * 0.3048 * 4.4482216152605, "1.00 hp"),
        ("polar_inertia_kg_m2", 4.4482216152605 * 0.3048, "1.00 slug ft²"),
        ("spin_rad_s", 2 * np.pi / 60, "1.00 rpm"),
    ],
)
def test_one_of_each_in_us_units(name, si, us):
    """The exact definitions of NIST SP 811 (2008), appendix B.8."""
    assert amount(name, si, "us") == us


@pytest.mark.parametrize("name", ["blades", "ratio", "gear_ratio"])
def test_counts_and_ratios_have_no_unit(name):
    assert shown(name, "us") == ("", 1.0)


@pytest.mark.parametrize(
    ("value", "text"),
    [(1234.5, "1234"), (12.345, "12.3"), (0.012345, "0.0123"), (0.0, "0"), (-0.5, "-0.500"), (float("nan"), "none")],
)
def test_three_digits(value, text):
    assert significant(value) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Value("damping_ratio", 0.29834, half_band=0.05), "0.30"),
        (Value("damping_ratio", 0.29834, half_band=0.0345), "0.298"),
        (Value("damping_ratio", 0.29834, half_band=0.00001), "0.298"),
        (Value("stall_m_s", 20.1168, half_band=0.89408), "45.0 mph"),
        (Value("rudder_share", 0.2834, half_band=0.4, decimals=0, percent=True), "30 %"),
        (Value("rudder_share", 0.2834, half_band=0.3, decimals=0, percent=True), "28 %"),
        (Value("stall_m_s", 20.1168, error=0.89408), "45.0 mph ± 2.0 mph"),
        (Value("top_m_s", 44.6, error=13.4), "100 mph ± 30 mph"),
        (Value("real_per_s", -0.004, half_band=0.08), "0.00 1/s"),
    ],
)
def test_a_number_is_no_finer_than_its_band(value, text):
    """Two digits of half a band that begins with 10 to 35, one of another; as many as ± has."""
    assert text_of(value, "us") == text


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (5.3312e-5, 3, "0.0000533"),
        (-5.3312e-5, 2, "-0.000053"),
        (3.25e-9, 3, "0.00000000325"),
        (3.25e-10, 3, "3.25e-10"),
        (102.44, 2, "100"),
        (1234567.0, 3, "1230000"),
        (-0.0, 3, "0"),
    ],
)
def test_a_plain_number_has_its_decimals_down_to_a_thousand_millionth(value, digits, text):
    assert without_exponent(value, digits) == text
