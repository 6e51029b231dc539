"""The table of common units says what pint says."""

import pytest

from sim.units import registry as units

OURS_ALONE = {
    *("rev", "rev/min", "rev/s", "r/min", "lbm", "sq ft", "sq in", "Nm"),
    *("rounds/s", "round/min", "rounds/min", "shots/min"),
    *("lb ft", "ft lb", "lb in", "in lb", "lb/in", "W/(m^2 K)", "BTU/(h ft^2 °F)"),
}
"""Spellings that pint does not know, or reads otherwise."""
DEGREES = {"°C", "degC", "°F", "degF"}


@pytest.mark.parametrize("text", sorted(units.COMMON.keys() - OURS_ALONE - DEGREES))
def test_each_row_is_what_pint_says(text):
    ours, pints = units.COMMON[text], units._from_pint(text)
    assert pints is not None
    assert pints.dimension == ours.dimension
    assert float(pints.factor / ours.factor) == pytest.approx(1.0, rel=1e-14)


@pytest.mark.parametrize(
    ("ours", "same"),
    [("rev/min", "rpm"), ("lbm", "lb"), ("sq ft", "ft^2"), ("Nm", "N m"), ("lb ft", "lbf ft"), ("lb/in", "lbf/in")],
)
def test_a_spelling_of_ours_is_worth_its_plain_one(ours, same):
    assert units.COMMON[ours].factor == units.COMMON[same].factor
    assert units.COMMON[ours].dimension == units.COMMON[same].dimension


def test_a_film_coefficient_per_degree_fahrenheit_is_that_of_a_step_of_temperature():
    """5.678 W/(m² K), as handbooks of heat transfer print it."""
    film = units.COMMON["BTU/(h ft^2 °F)"]
    assert film.dimension == units.COMMON["W/(m^2 K)"].dimension
    assert float(film.factor) == pytest.approx(5.678, abs=5e-4)
    assert film.factor == units.COMMON["BTU/h"].factor / units.COMMON["ft^2"].factor / units.COMMON["°F"].factor


@pytest.mark.parametrize("text", ["degC", "°F"])
def test_degrees_of_temperature_are_what_pint_says(text):
    ours, name = units.COMMON[text], text.replace("°", "deg")
    pints = units.registry().Quantity(70.0, name).to("kelvin").magnitude
    assert float(70 * ours.factor + ours.offset) == pytest.approx(pints, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("slug-ft²", "slug ft^2"),
        ("slug * ft**2", "slug ft^2"),
        ("kg·m2", "kg m^2"),
        ("lbf / in", "lbf/in"),
        ("/min", "1/min"),
    ],
)
def test_one_spelling_for_all(text, same):
    assert units.spelled(text) == same


@pytest.mark.parametrize("text", ["candela", "bit", "degRe", "m^99", "__import__", "m; x", "5", "", "a" * 100])
def test_no_such_unit_here(text):
    assert units.find(text) is None


def test_the_registry_waits_for_an_unusual_unit(monkeypatch):
    monkeypatch.setattr(units, "registry", lambda: pytest.fail("loaded for a common unit"))
    assert units.find("slug ft^2") is not None
