"""Numbers for people: units of the reader, no false digits, signs in words; and as a scenario file holds them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.units.parsing import Allowed, read
from sim.units.quantities import quantities
from sim.units.text import NO_BREAK, amount, brief, exact, fixed, signed, significant, unbroken, written


@pytest.mark.parametrize(
    ("written", "us", "si"),
    [
        (lambda system: amount("mass_kg", 635.0, system), "1400 lb", "635 kg"),
        (lambda system: amount("mass_kg", 635.0, system, 2), "1400 lb", "635 kg"),
        (lambda system: amount("bank_rad", 0.5, system), "28.6°", "28.6°"),
        (lambda system: amount("temperature_k", 288.15, system), "59.0 °F", "15.0 °C"),
        (lambda system: amount("climb_rate_m_s", 5.08, system), "1000 ft/min", "5.08 m/s"),
        (lambda system: fixed("cg_station_m", 1.21742, system), "47.93 in", "1217.42 mm"),
        (lambda system: fixed("cg_station_m", -1e-6, system), "0.00 in", "0.00 mm"),
        (lambda system: brief("wall_m", 0.00127, system), "0.05 in", "1.27 mm"),
        (lambda system: brief("load_factor", 1.5, system), "1.5", "1.5"),
        (lambda system: signed("pitch_n_m", -100.0, system), "73.8 lbf ft nose down", "100 N m nose down"),
        (lambda system: signed("spin_rad_s", 0.0, system), "0 rpm", "0 rpm"),
        (lambda system: signed("bank_deg", -30.0, system), "30.0° left", "30.0° left"),
        (lambda system: signed("move_m", 0.1, system, ("back", "ahead")), "3.94 in back", "100 mm back"),
    ],
)
def test_what_a_reader_sees(written, us, si):
    assert (written("us"), written("si")) == (us, si)


@pytest.mark.parametrize(
    ("value", "text"),
    [(1234.5, "1234"), (12.345, "12.3"), (0.012345, "0.0123"), (0.0, "0"), (-0.5, "-0.500"), (float("nan"), "none")],
)
def test_three_digits(value, text):
    assert significant(value) == text


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize(("unit", "value", "error"), [("kg", 632.54, 4.5), ("m", 1.2345, 0.01), ("kg m^2", 19.2, 0.3)])
def test_what_is_written_is_read_back(unit, value, error, system):
    found = read(written(unit, value, error, system=system), Allowed(unit), key="")
    assert found.value == pytest.approx(value, rel=5e-5)
    assert found.tolerance == pytest.approx(error, rel=5e-2)


def test_what_a_file_holds():
    assert written("m", 0.3048, system="us") == "12 in"
    assert written("m", 0.3048, 0.0254, system="si") == "0.3048 m ± 0.025 m"


@given(
    st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12),
    st.sampled_from(["in", "mm", "ft", "m"]),
)
def test_an_exact_decimal_is_read_back_to_the_last_bit(value, unit):
    assert read(f"{exact('m', value, unit)} {unit}", Allowed("m", least=-1e12, most=1e12), key="").value == value


@given(st.decimals(min_value="-999", max_value="999", places=3), st.sampled_from(["lb", "oz", "kg"]))
def test_a_short_decimal_stays_what_was_written(number, unit):
    text = f"{number:f}".rstrip("0").rstrip(".").replace("-0.", "-.").replace("-.", "-0.")
    value = read(f"{text} {unit}", Allowed("kg"), key="").value
    assert exact("kg", value, unit) == (text if float(text) else "0")


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (1e5, "100000"), (1e-5, "0.00001"), (1e-300, "1E-300"), (1.0 / 3.0, "0.3333333333333333")],
)
def test_an_exact_decimal_is_as_short_as_can_be(value, text):
    assert exact("m", value, "m") == text


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("at 12.84 mm forward ± 7.81 mm, then", "at 12.84_mm forward ±_7.81_mm, then"),
        ("28 ft 1.00 in long, 2 1/2 in aft", "28_ft_1.00_in long, 2_1/2_in aft"),
        ("73.8 lbf ft nose down, 719 slug ft², 100 N m", "73.8_lbf_ft nose down, 719_slug_ft², 100_N_m"),
        ("27 % more at 1250 rpm and 5.08 m/s", "27_% more at 1250_rpm and 5.08_m/s"),
        ("1 of 2 tanks empty, 12 inches, 3 minutes", "1 of 2 tanks empty, 12 inches, 3 minutes"),
    ],
)
def test_a_quantity_is_held_together_and_no_other_words_are(text, held):
    assert unbroken(text).replace(NO_BREAK, "_") == held


def test_whatever_is_printed_with_its_unit_is_held_together():
    for system in ("us", "si"):
        for name in quantities():
            text = amount(name, 12.3, system)
            assert " " not in unbroken(text), name
