"""What the trade writes is read exactly; what cannot be meant is refused in one sentence."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.errors import InputError
from sim.units.limits import in_words
from sim.units.parsing import Allowed, Measured, quoted, read
from sim.units.quantities import kinds
from sim.units.registry import DIMENSIONS

RPM = 2.0 * math.pi / 60.0
SPREAD = 'must have a positive tolerance after ±, as in "1 in ± 1/16 in"'
LENGTH = 'must be a length, as in "28 ft 1 in"'


def value(text: object, unit: str, **limits) -> float:
    return read(text, Allowed(unit, **limits), key="wing.span").value


def sentence(text: object, unit: str, **limits) -> str:
    with pytest.raises(InputError) as caught:
        read(text, Allowed(unit, **limits), key="wing.span")
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("28 ft 1 in", 337),
        ("28' 1\"", 337),
        ("28'1\"", 337),
        ("28′ 1″", 337),
        ("28 ft, 1 in", 337),
        ("5 ft 4 3/8 in", "64.375"),
        ("5 ft 4-3/8 in", "64.375"),
        ("5' 4⅜\"", "64.375"),
        ("3/16 in", "0.1875"),
        ("1,400 ft", 16800),
        ("-5 ft 4 in", -64),
        ("−3 in", -3),
        ("2 yd", 72),
        ("5 ft.", 60),
        ("2 hand", 8),
    ],
)
def test_a_length_in_every_way_of_the_shop(text, inches):
    assert value(text, "m") == pytest.approx(float(Fraction(inches) * Fraction("0.0254")), rel=1e-15)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("1250 rpm", "rad/s", 1250 * RPM),
        ("1250 rev/min", "rad/s", 1250 * RPM),
        ("12 °", "rad", math.radians(12)),
        ("12°", "rad", math.radians(12)),
        ("12° 30'", "rad", math.radians(12.5)),
        ("130 hp", "W", 130 * 745.6998715822702),
        ("80 mph", "m/s", 80 * 0.44704),
        ("120 kt", "m/s", 120 * 1852 / 3600),
        ("381 lb", "kg", 381 * 0.45359237),
        ("12 lb 4 oz", "kg", 12.25 * 0.45359237),
        ("150 lbf", "N", 150 * 4.4482216152605),
        ("6.2 slug ft^2", "kg m^2", 6.2 * 1.3558179483314004),
        ("6.2 slug-ft²", "kg m^2", 6.2 * 1.3558179483314004),
        ("250 lb ft^2", "kg m^2", 250 * 0.45359237 * 0.3048**2),
        ("380 ft-lb", "N m", 380 * 1.3558179483314004),
        ("100 N*m", "N m", 100.0),
        ("600 rounds/min", "1/s", 10.0),
        ("600 rpm", "1/s", 10.0),
        ("600 rounds a minute", "1/s", 10.0),
        ("600 /min", "1/s", 10.0),
        ("600 1/min", "1/s", 10.0),
        ("85 %", "1", 0.85),
        (0.85, "1", 0.85),
        (2, "1", 2.0),
        ("59 °F", "K", 288.15),
        ("15 °C", "K", 288.15),
        ("2 atm", "Pa", 202650.0),
    ],
)
def test_the_units_of_the_trade(text, unit, expected):
    assert value(text, unit) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("1 in ± 1/16 in", "m", Measured(0.0254, 0.0015875)),
        ("1 in +/- 1/16", "m", Measured(0.0254, 0.0015875)),
        ("28 ft 1 in ± 1/2", "m", Measured(8.5598, 0.0127)),
        ("28 ft ± 1 ft 2 1/2 in", "m", Measured(8.5344, 0.3683)),
        ("10 kg ± 2 %", "kg", Measured(10.0, 0.2)),
        ("85 % ± 2 %", "1", Measured(0.85, 0.02)),
        ("0.5 ± 0.1", "1", Measured(0.5, 0.1)),
        ("15 °C ± 2", "K", Measured(288.15, 2.0)),
    ],
)
def test_a_tolerance_is_one_standard_deviation(text, unit, expected):
    assert read(text, Allowed(unit), key="x") == expected


def test_a_bare_number_is_taken_only_where_its_unit_is_agreed():
    assert value("1250", "rad/s", bare="rpm") == value("1250 rpm", "rad/s")
    assert value(1250, "rad/s", bare="rpm") == value("1250 rpm", "rad/s")
    assert sentence("1250", "rad/s") == 'wing.span: must have a unit, as in "1250 rpm", got "1250"'


@pytest.mark.parametrize("unit", ["m", "rad", "kg", "s", "kg m^2", "m/s"])
@pytest.mark.parametrize("text", ["0", 0, "0.0", "-0"])
def test_a_bare_zero_is_zero_in_every_unit(text, unit):
    assert read(text, Allowed(unit), key="x") == Measured(0.0, 0.0)


def test_a_bare_zero_is_no_temperature_and_gives_a_tolerance_no_unit():
    """0 °C and 0 °F are two temperatures; an inch and a foot are two tolerances."""
    assert "must have a unit" in sentence("0", "K")
    assert "must have a unit" in sentence("0 ± 1", "m")
    assert read("0 ± 1 in", Allowed("m"), key="x") == Measured(0.0, 0.0254)
    assert sentence("0", "m", above=0.0) == 'wing.span: must be above 0 m, got "0"'


def test_limits_of_a_bare_zero_stand_in_both_systems_and_none_in_one_alone():
    said = 'wing.span: must be above 0 and at most 20 m (787.4 in), got "0"'
    assert sentence("0", "m", above=0.0, most=20.0) == said


def test_limits_are_told_in_the_usual_units_where_the_unit_written_is_far_from_them():
    """3 m are 9.7e-17 parsecs, which tells nobody anything; in miles, 0.001864, they are still those written."""
    said = 'wing.span: must be -3 m (-118.11 in) to 3 m (118.11 in), got "3 parsecs"'
    assert sentence("3 parsecs", "m", least=-3.0, most=3.0) == said
    assert sentence("3 mi", "m", least=-3.0, most=3.0).endswith(' mi, got "3 mi"')


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("28", "m", 'must have a unit, as in "28 ft 1 in", got "28"'),
        (28, "m", 'must have a unit, as in "28 ft 1 in", got "28"'),
        ("", "m", f'{LENGTH}, got ""'),
        ("28 lb", "m", f'{LENGTH}, got "28 lb", which is a mass'),
        ("28 ftt", "m", f'{LENGTH}, got "28 ftt": no unit is called "ftt"; did you mean ft?'),
        ("twenty ft", "m", f'{LENGTH}, got "twenty ft"'),
        ("5 ft 2", "m", f'{LENGTH}, got "5 ft 2": no unit is called "ft 2"'),
        ("5.5 ft 2 in", "m", f'{LENGTH}, got "5.5 ft 2 in"'),
        ("2 in 3 ft", "m", f'{LENGTH}, got "2 in 3 ft"'),
        ("5 ft ± -2 in", "m", f'{SPREAD}, got "5 ft ± -2 in"'),
        ("5 ft ±", "m", f'{SPREAD}, got "5 ft ±"'),
        ("٣ m", "m", f'{LENGTH}, got "٣ m"'),
        ("5 m^99", "m", f'{LENGTH}, got "5 m^99": no unit is called "m^99"'),
        ("a\nb", "m", f'{LENGTH}, got "a\\u000ab"'),
        (True, "m", f'{LENGTH}, got "true"'),
        (None, "m", f'{LENGTH}, got "None"'),
        ([1, 2], "m", f'{LENGTH}, got "a list"'),
        ("nan ft", "m", 'must be a finite number, got "nan ft"'),
        ("-inf", "m", 'must be a finite number, got "-inf"'),
        (float("nan"), "1", 'must be a finite number, got "nan"'),
        ("1e9999 ft", "m", 'must be a finite number, got "1e9999 ft"'),
        ("9e320 m", "m", 'must be a finite number, got "9e320 m"'),
        ("1e99999999999 m", "m", 'must be a finite number, got "1e99999999999 m"'),
        pytest.param(10**5000, "m", f'{LENGTH}, got "a number of thousands of digits"', id="long"),
        ("1" * 300, "m", f'must be a quantity of at most 200 letters, got "{"1" * 57}…"'),
        ("1/0 in", "m", 'must not be divided by 0, got "1/0 in"'),
        ("0.8 ± 2 %", "1", 'must have its tolerance without % where the value has none, got "0.8 ± 2 %"'),
        ("2 ft", "1", 'must be a number without a unit, as in "0.85", got "2 ft", which is a length'),
        ("20 Hz", "rad/s", 'must be a turning speed, as in "1250 rpm", got "20 Hz", which is a rate'),
        ("600 rev/min", "1/s", 'must be a rate, as in "600 rounds/min", got "600 rev/min", which is a turning speed'),
        ("40 lb", "N", 'must be a force, as in "150 lbf", got "40 lb", which is a mass'),
    ],
)
def test_one_sentence_for_what_cannot_be_meant(text, unit, said):
    assert sentence(text, unit) == f"wing.span: {said}"


@pytest.mark.parametrize(
    ("text", "limits", "said"),
    [
        ("-1250 rpm", {"least": 0.0, "most": 3500 * RPM}, 'must be 0 to 3500 rpm, got "-1250 rpm"'),
        ("70 rev/s", {"least": 0.0, "most": 3500 * RPM}, 'must be 0 to 58.333 rev/s, got "70 rev/s"'),
        ("0 rpm", {"above": 0.0}, 'must be above 0 rpm, got "0 rpm"'),
        ("9 rpm", {"above": 0.0, "below": 9 * RPM}, 'must be above 0 and below 9 rpm, got "9 rpm"'),
        (-3, {"least": 0.0, "bare": "rpm"}, 'must be at least 0 rpm, got "-3"'),
    ],
)
def test_the_range_is_told_in_the_units_of_the_writer(text, limits, said):
    assert sentence(text, "rad/s", **limits) == f"wing.span: {said}"


def test_a_range_without_a_value_is_told_in_si():
    assert in_words(Allowed("kg", above=0.0, most=5000.0)) == "above 0 and at most 5000 kg"
    assert in_words(Allowed("kg")) == ""


@given(st.one_of(st.text(max_size=40), st.floats(), st.integers(), st.booleans(), st.none(), st.lists(st.integers())))
def test_anything_gives_a_finite_number_or_one_sentence(junk):
    for unit in ("m", "1", "rad", "K"):
        try:
            found = read(junk, Allowed(unit), key="x")
        except InputError as error:
            (fault,) = error.faults
            assert fault.where == "x"
            assert fault.what.startswith("must ")
            assert quoted(junk) in fault.what
            assert "\n" not in fault.what
        else:
            assert math.isfinite(found.value)
            assert found.tolerance >= 0.0


@given(st.integers(0, 500), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_add_up_exactly(feet, inches, sixteenths):
    exact = (feet * 12 + inches + Fraction(sixteenths, 16)) * Fraction("0.0254")
    assert value(f"{feet} ft {inches} {sixteenths}/16 in", "m") == float(exact)


@pytest.mark.parametrize(
    ("written", "allowed", "said"),
    [
        ("1e-30 m", Allowed("m", above=0.0), 'must be at least 1 µm, got "1e-30 m"'),
        ("0.00001 in", Allowed("m", least=0.0), 'must be 0 or at least 1 µm, got "0.00001 in"'),
        ("0.99 cm", Allowed("m", above=0.0, smallest="1 cm"), 'must be at least 1 cm, got "0.99 cm"'),
        ("1e-300 kg", Allowed("kg", above=0.0), 'must be at least 1 g, got "1e-300 kg"'),
        ("0.99 rpm", Allowed("rad/s", above=0.0), 'must be at least 1 rpm, got "0.99 rpm"'),
        ("9e-5", Allowed("1", above=0.0), 'must be at least 1e-4, got "9e-5"'),
    ],
)
def test_what_is_too_small_to_be_meant_is_refused(written, allowed, said):
    with pytest.raises(InputError) as caught:
        read(written, allowed, key="")
    assert caught.value.faults[0].what == said


@pytest.mark.parametrize(
    ("written", "allowed"),
    [
        *(
            ("1 rpm", Allowed("rad/s", above=0.0)),
            ("1 g", Allowed("kg", above=0.0)),
            ("0.01 °", Allowed("rad", above=0.0)),
        ),
        *(("0 m", Allowed("m", least=0.0)), ("1e-9", Allowed("1", least=0.0, most=0.5))),
        *(("-1e-9 m", Allowed("m")), ("1e-9 m", Allowed("m", least=-1.0))),
        *(("1 cm", Allowed("m", above=0.0, smallest="1 cm")), ("10 mm", Allowed("m", above=0.0, smallest="1 cm"))),
    ],
)
def test_the_smallest_itself_and_what_may_be_as_small_as_it_will_are_not(written, allowed):
    assert math.isfinite(read(written, allowed, key="").value)


@pytest.mark.parametrize(
    ("written", "allowed", "said"),
    [
        ("1e30 m", Allowed("m", above=0.0), 'must be at most 100 km, got "1e30 m"'),
        ("-101 km", Allowed("m"), 'must be at least -100 km, got "-101 km"'),
        ("1e12 rpm", Allowed("rad/s", above=0.0), 'must be at most 100000 rpm, got "1e12 rpm"'),
        ("2001 °C", Allowed("K", above=0.0), 'must be at most 2000 °C, got "2001 °C"'),
        ("1000001", Allowed("1", least=1.0), 'must be at most 1e6, got "1000001"'),
        ("1 m ± 101 km", Allowed("m", above=0.0), 'must have a tolerance of at most 100000 m, got "1 m ± 101 km"'),
        ("1 m ± 6 m", Allowed("m", least=-5.0, most=2.0), 'must have a tolerance of at most 5 m, got "1 m ± 6 m"'),
        (
            "9 °C ± 291 °C",
            Allowed("K", least=270.0, most=290.0),
            'must have a tolerance of at most 290 °C, got "9 °C ± 291 °C"',
        ),
    ],
)
def test_what_is_too_large_to_be_meant_is_refused(written, allowed, said):
    with pytest.raises(InputError) as caught:
        read(written, allowed, key="")
    assert caught.value.faults[0].what == said


@pytest.mark.parametrize(
    ("written", "allowed"),
    [
        *(("100 km", Allowed("m", above=0.0)), ("-100 km", Allowed("m")), ("2000 °C", Allowed("K"))),
        *(("1e9", Allowed("1", least=1.0, most=1e9)), ("1 m ± 5 m", Allowed("m", least=-5.0, most=2.0))),
    ],
)
def test_the_largest_itself_and_what_has_a_limit_of_its_own_are_not(written, allowed):
    assert math.isfinite(read(written, allowed, key="").value)


def test_every_kind_that_is_written_has_a_most():
    written = [kind for kind in kinds().values() if kind.unit in DIMENSIONS]
    assert [kind.unit for kind in written if not kind.most] == []
    assert all(read(kind.example, Allowed(kind.unit), key="").value > 0.0 for kind in written)
