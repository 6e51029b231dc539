"""What an airplane flies with whose moments of inertia were swung: they are those of the airplane before any move."""

import pytest
from airplanes import BIPLANE

from sim.model.model import model
from sim.studies.modes import modes

SWUNG = ("airplane.inertia_roll=730 slug ft^2", "airplane.inertia_yaw=1300 slug ft^2")
"""Far from what the items make, so that the keys stand and the list gives what is changed."""
INCH_M = 0.0254


def pitch(*settings):
    """Return the moment of inertia in pitch with each engine, that of the file not set but kept with the others."""
    airplane = model(BIPLANE, [*SWUNG, *settings])
    flown = {name: airplane.flown_mass(name) for name in airplane.powerplants}
    assert all(mass.inertia_stated for mass in flown.values())
    return {name: mass.body.inertia_pitch_kg_m2 for name, mass in flown.items()}


@pytest.mark.parametrize(("moved", "other"), [("rotary", "flat_four"), ("flat_four", "rotary")])
def test_an_engine_that_moves_changes_its_own_airplane_and_no_other(moved, other):
    """By the parallel axis theorem, with the reduced mass of what moves and what stays."""
    before, after = pitch(), pitch(f"powerplant.{moved}.move=6 in")
    assert after[other] == before[other]
    airplane = model(BIPLANE, SWUNG)
    items = airplane.mass_state(moved).items
    group = [item for item in items if item.moves_with_engine]
    mass, whole = sum(item.mass_kg for item in group), sum(item.mass_kg for item in items)
    place = sum(item.mass_kg * item.station_m for item in group) / mass
    rest = (sum(item.mass_kg * item.station_m for item in items) - mass * place) / (whole - mass)
    reduced = mass * (whole - mass) / whole
    way = (place + 6.0 * INCH_M - rest) ** 2 - (place - rest) ** 2
    assert after[moved] - before[moved] == pytest.approx(reduced * way, rel=1e-9)


def test_modes_of_the_other_engine_stay_when_one_is_moved():
    still, moved = (modes(model(BIPLANE, [*SWUNG, *extra])) for extra in ([], ["powerplant.flat_four.move=6 in"]))
    rotary, other = (
        [flight.modes for flight in still.flights if flight.powerplant == name] for name in ("rotary", "flat_four")
    )
    assert rotary == [flight.modes for flight in moved.flights if flight.powerplant == "rotary"]
    assert other != [flight.modes for flight in moved.flights if flight.powerplant == "flat_four"]


def test_an_item_that_moves_changes_both():
    before, after = pitch(), pitch("item.tail skid.move=-30 in")
    assert all(after[name] < before[name] - 10.0 for name in before)
