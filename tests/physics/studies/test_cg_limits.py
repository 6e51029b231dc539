"""Neutral point and forward limits in a balance: places in the airframe, which `modes` bears out."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.cg_limits import margins
from sim.studies.modes import modes


@pytest.fixture(scope="module")
def answer():
    return balance(model(BIPLANE))


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=["biplane", "triplane", "parasol"])
def test_places_are_distances_from_the_centre_of_gravity_in_stations(airplane):
    known = model(airplane)
    for name, found in balance(known).powerplants.items():
        flying, mass, chord = known.airplane(name), known.flown_mass(name), known.mean_chord
        point_m = mass.cg_station_m + margins(flying).neutral_point_m
        assert chord.station_m(found.neutral_point_percent_mac / 100.0) == pytest.approx(point_m, abs=1e-12)
        error_m = margins(flying).neutral_point_error_m
        assert found.neutral_point_error_percent_mac == pytest.approx(error_m / chord.chord_m * 100.0)
        assert found.static_margin_percent_mac == pytest.approx(
            found.neutral_point_percent_mac - found.cg_percent_mac, abs=1e-9
        )
        assert found.forward_limit_by_elevator_percent_mac < found.cg_percent_mac
        assert found.maneuver_point_percent_mac > found.neutral_point_percent_mac


def test_the_points_stay_where_they_are_when_the_centre_of_gravity_moves(answer):
    """Moving the engine moves the airplane about its own neutral point, but for the tail's arm and the propeller's."""
    moved = balance(model(BIPLANE, ["powerplant.flat_four.move=6 in"])).powerplants["flat_four"]
    still = answer.powerplants["flat_four"]
    assert moved.cg_percent_mac - still.cg_percent_mac > 2.5
    assert moved.neutral_point_percent_mac == pytest.approx(still.neutral_point_percent_mac, abs=0.35)


def slowest_to_diverge(move):
    """Return the most unstable real root that is not the spiral, of the flat-four with its engine moved aft."""
    flights = modes(model(BIPLANE, [f"powerplant.flat_four.move={move}"])).flights
    (own,) = (flight for flight in flights if flight.powerplant == "flat_four")
    return max(mode.real_per_s for mode in own.modes if mode.name != "spiral" and mode.imag_rad_s == 0.0)


def test_behind_the_neutral_point_the_airplane_diverges(answer):
    """10 in of engine are 5.4 % of the chord: from ahead of the neutral point to behind it.

    The margin is power off: the slipstream on the tail puts the neutral point of level flight 5 to 7 % farther aft.
    """
    stable, unstable = "0 in", "24 in"
    margin = [
        balance(model(BIPLANE, [f"powerplant.flat_four.move={move}"]))
        .powerplants["flat_four"]
        .static_margin_percent_mac
        for move in (stable, unstable)
    ]
    assert margin[0] > 2.0
    assert margin[1] < -2.0
    assert slowest_to_diverge(stable) < 0.0 < slowest_to_diverge(unstable)


def test_each_loading_has_its_margin(answer):
    neutral = answer.powerplants["flat_four"].neutral_point_percent_mac
    for point in answer.envelope:
        assert point.static_margin_percent_mac == pytest.approx(neutral - point.cg_percent_mac, abs=1e-9)


def test_the_pilots_are_those_of_the_envelope():
    """The listed one between the lightest and the heaviest; each flies in a loading of his own."""
    found = balance(model(BIPLANE, ["balance.pilot_lightest=60 kg", "balance.pilot_heaviest=101 kg"]))
    listed_kg = next(item.mass_kg for item in load(BIPLANE).item if item.group == "pilot")
    assert found.pilots_kg == pytest.approx((60.0, listed_kg, 101.0))
    masses = sorted(point.mass_kg for point in found.envelope)
    assert masses[-1] - masses[0] > 41.0


def test_the_heaviest_pilot_who_serves_reaches_the_limit_just_so():
    settings = ["balance.aft_limit=35 %"]
    most_kg = balance(model(BIPLANE, settings)).pilot_most_kg
    at = balance(model(BIPLANE, [*settings, f"balance.pilot_heaviest={most_kg!r} kg"]))
    assert max(point.cg_percent_mac for point in at.envelope) == pytest.approx(35.0, abs=1e-9)
    beyond = balance(model(BIPLANE, [*settings, f"balance.pilot_heaviest={most_kg + 0.1!r} kg"]))
    assert max(point.cg_percent_mac for point in beyond.envelope) > 35.0
