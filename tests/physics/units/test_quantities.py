"""The table of quantities: one row a name, units by the name's ending, words for the sign, cautions in one order."""

import math
import subprocess
import sys
import tomllib
from collections import Counter
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

import sim.units
from sim.units import convert
from sim.units.parsing import Allowed, read
from sim.units.quantities import (
    caution,
    cautions_of,
    kind_of,
    kinds,
    printed,
    quantities,
    quantity,
    shown,
)
from sim.units.registry import COMMON, DIMENSIONS, ratio, registry

TABLE = tomllib.loads(Path(sim.units.__file__).with_name("quantities.toml").read_text(encoding="utf-8"))
SYSTEMS = ("us", "si")


def test_a_name_is_said_once():
    names = Counter(name for rows in TABLE["name"].values() for name in rows if name != "default")
    assert [name for name, times in names.items() if times > 1] == []


def test_an_ending_belongs_to_one_unit():
    suffixes = Counter(kind.suffix for kind in kinds().values())
    assert max(suffixes.values()) == 1


@pytest.mark.parametrize("kind", kinds().values(), ids=kinds())
def test_an_example_is_one_of_its_kind(kind):
    if kind.unit in COMMON or kind.unit == "1":
        read(kind.example, Allowed(kind.unit), key=kind.unit)


@pytest.mark.parametrize("kind", kinds().values(), ids=kinds())
def test_a_kind_is_shown_and_filed_in_units_of_its_dimension(kind):
    for unit in (*kind.shown, *kind.filed):
        assert unit == kind.unit or COMMON[unit].dimension == COMMON[kind.unit].dimension


def by_pint(value, unit, other):
    """Return a value in another unit as pint has it."""
    names = (name.replace(" ", "*").replace("°C", "degC").replace("°F", "degF") for name in (unit, other))
    held, wanted = names
    return registry().Quantity(value, held).to(wanted).magnitude


KINDS = sorted({quantity(name).kind.unit for name in quantities()})


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_quantities_of_a_kind_are_shown_as_pint_converts_them(kind, system):
    rows = {name: quantity(name) for name in quantities() if quantity(name).kind.unit == kind}
    units = {name: row.units[system == "si"] for name, row in rows.items()}
    assert {name: shown(name, system)[0] for name in rows} == {name: printed(unit) for name, unit in units.items()}
    numbers = {name: row.number(300.0, system) for name, row in rows.items()}
    pints = {unit: by_pint(300.0, kind, unit) for unit in {*units.values()} - {kind}}
    for unit in pints:
        assert COMMON[unit].dimension == (COMMON[kind].dimension if kind in COMMON else DIMENSIONS["1"])
    assert numbers == pytest.approx({name: pints.get(unit, 300.0) for name, unit in units.items()}, rel=1e-14)
    kept = {name: number for name, number in numbers.items() if units[name] == kind}
    assert kept == dict.fromkeys(kept, 300.0)


@pytest.mark.parametrize(("kelvin", "fahrenheit", "celsius"), [(273.15, 32.0, 0.0), (288.15, 59.0, 15.0)])
def test_temperatures_are_shown_on_their_own_scales(kelvin, fahrenheit, celsius):
    row = quantity("temperature_k")
    assert row.number(kelvin, "us") == pytest.approx(fahrenheit, abs=1e-12)
    assert row.number(kelvin, "si") == pytest.approx(celsius, abs=1e-12)


@pytest.mark.parametrize(
    ("turned", "value", "held", "unit"),
    [
        (convert.rpm, 130.9, "rad/s", "rpm"),
        (convert.per_min, 10.0, "1/s", "1/min"),
        (convert.ms, 0.0043, "s", "ms"),
        (convert.mm, 0.0317, "m", "mm"),
        (convert.degrees, 0.7, "rad", "°"),
    ],
)
def test_units_of_answers_are_what_pint_says(turned, value, held, unit):
    assert turned(value) == pytest.approx(by_pint(value, held, unit), rel=1e-15)
    assert turned(np.array([value, 0.0]))[0] == turned(value)


def test_rates_go_back():
    assert convert.per_s(convert.per_min(7.3)) == pytest.approx(7.3, rel=1e-15)


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("spin_rad_s", "rad/s"),
        ("angular_momentum_kg_m2_s", "kg m^2/s"),
        ("polar_inertia_kg_m2", "kg m^2"),
        ("windage_n_m_s2", "N m s^2"),
        ("kinematic_viscosity_m2_s", "m^2/s"),
        ("spring_rate_n_per_m", "N/m"),
        ("gun_rounds_per_min", "1/min"),
        ("rpm", "rpm"),
        ("cg_percent_mac", "1"),
        ("blades", "1"),
    ],
)
def test_the_longest_ending_of_a_name_is_its_unit(name, unit):
    assert kind_of(name).unit == unit


def test_a_ratio_of_units_is_exact_and_goes_back():
    assert ratio("m", "in") * ratio("in", "m") == 1
    assert ratio("in", "mm") == Fraction("25.4")
    assert ratio("kg/m", "kg/m") == 1


@pytest.mark.parametrize(
    ("name", "us", "si"),
    [
        ("mass_kg", ("lb", 1.0 / 0.45359237), ("kg", 1.0)),
        ("span_m", ("ft", 1.0 / 0.3048), ("m", 1.0)),
        ("cg_station_m", ("in", 1.0 / 0.0254), ("mm", 1000.0)),
        ("bank_rad", ("°", 180.0 / math.pi), ("°", 180.0 / math.pi)),
        ("spin_rad_s", ("rpm", 30.0 / math.pi), ("rpm", 30.0 / math.pi)),
        ("needed_w", ("hp", 1.0 / (550.0 * 0.3048 * 4.4482216152605)), ("kW", 0.001)),
        ("blades", ("", 1.0), ("", 1.0)),
    ],
)
def test_what_a_reader_sees(name, us, si):
    for system, (unit, factor) in (("us", us), ("si", si)):
        assert shown(name, system)[0] == unit
        assert shown(name, system)[1] == pytest.approx(factor, rel=2e-16)


def test_a_signed_quantity_says_which_way_is_positive():
    assert quantity("pitch_n_m").signs == ("nose up", "nose down")
    assert quantity("pitch_n_m").meaning == "pitching moment on the airframe, nose up positive"
    assert quantity("mass_kg").signs is None


@pytest.mark.parametrize("name", [name for name, row in quantities().items() if row.signs])
def test_the_words_of_a_sign_stand_in_the_meaning_once(name):
    row = quantity(name)
    assert row.meaning.endswith(f", {row.signs[0]} positive")
    assert row.meaning.count("positive") == 1


def test_every_name_bears_cautions_that_there_are():
    assert {key for row in quantities().values() for key in row.cautions} <= TABLE["caution"].keys()


def test_cautions_come_once_and_in_the_order_of_the_table():
    names = ["hang_s", "couple_n_m", "cycle_s", "base_radius_m", "mass_kg", "not_in_the_table"]
    keys = ("history", "inert", "gun", "guard", "estimate")
    assert cautions_of(names) == cautions_of(reversed(names)) == tuple(map(caution, keys))
    assert cautions_of(["mass_kg", "not_in_the_table"]) == ()


def test_the_table_waits_until_a_quantity_is_asked_for():
    code = """
import sys, sim.units.quantities as table
print(table._table.cache_info().currsize, *{"numpy", "pint"} & set(sys.modules))
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "0"


def test_every_unit_with_a_factor_has_a_dimension():
    assert {unit.dimension for unit in COMMON.values()} <= set(DIMENSIONS.values())


@pytest.mark.parametrize("words", TABLE["signs"].values(), ids=TABLE["signs"])
def test_a_sign_is_two_short_words_that_differ(words):
    positive, negative = words
    assert positive != negative
    assert max(map(len, words)) <= 15
