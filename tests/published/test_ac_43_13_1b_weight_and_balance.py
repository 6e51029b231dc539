"""Weight and balance of Figure 10-10.

FAA Advisory Circular 43.13-1B, Acceptable Methods, Techniques, and Practices, 1998, chapter 10. Mark: P.
Pounds and inches: the algebra knows no unit.
"""

import pytest

from sim.airframe.masses import Item, total

FIGURE_10_10 = [("empty", 1169.0, 10.6), ("oil", 17.0, -49.0), ("pilot", 170.0, 16.0), ("fuel", 83.0, 22.0)]


@pytest.fixture(scope="module")
def loaded():
    return total(Item(name, name, weight, station) for name, weight, station in FIGURE_10_10)


def test_weight(loaded, printed):
    printed(loaded.mass_kg, "1439", "lb", row="weight", exact=True)


def test_moment(loaded, printed):
    printed(loaded.mass_kg * loaded.cg_station_m, "16104", "in lb", row="moment about the datum")


def test_centre_of_gravity(loaded, printed):
    printed(loaded.cg_station_m, "11.2", "in", row="centre of gravity, aft of the datum")


def test_negligible_change():
    """10-2c: one pound or less is negligible under 5000 lb empty: here it moves the CG by under a hundredth of an inch
    for an item 12 in from it.
    """
    before = total(Item(name, name, weight, station) for name, weight, station in FIGURE_10_10)
    after = total([*(Item(n, n, w, s) for n, w, s in FIGURE_10_10), Item("radio", "radio", 1.0, 23.2)])
    assert abs(after.cg_station_m - before.cg_station_m) < 0.01
