"""Suspects in simulated airplanes whose error is known, weighed at two attitudes with errors of their own."""

from dataclasses import replace
from math import cos, exp, radians, sin

import numpy as np
import pytest

from sim.airframe.masses import Item, total
from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import Attitude, Reading, Support
from sim.airframe.weighing_suspects import suspects
from sim.errors import InputError

CREW = [
    Item("pilot", "pilot", 86.0, 2.1),
    Item("main tank", "fuel", 60.0, 0.9),
    Item("top tank", "fuel", 30.0, 1.2),
]
PLACES = {"left": (0.7, -0.84, 0.0), "right": (0.703, 0.84, 0.0), "tail": (5.334, 0.0, 0.94)}
SIXTEENTH, PITCH, SCALE = 0.0015875, radians(0.1), 0.45


def weighed(rng, true):
    """Return what scales say of an airplane at two attitudes, wheels and pitch measured with errors."""
    supports = {
        name: Support(*place, station_error_m=SIXTEENTH, waterline_error_m=SIXTEENTH) for name, place in PLACES.items()
    }
    stood = np.array(list(PLACES.values())) + SIXTEENTH * rng.normal(size=(3, 3)) * [1.0, 0.0, 1.0]
    attitudes = []
    for angle in (0.0, radians(12.0)):
        turned = angle + PITCH * rng.normal()
        behind = stood[:, 0] * cos(turned) + stood[:, 2] * sin(turned)
        centre = true.cg_station_m * cos(turned) + true.cg_waterline_m * sin(turned)
        loads = np.linalg.solve([np.ones(3), behind, stood[:, 1]], true.mass_kg * np.array([1.0, centre, 0.0]))
        readings = {
            name: Reading(float(load), SCALE)
            for name, load in zip(PLACES, loads + SCALE * rng.normal(size=3), strict=True)
        }
        attitudes.append(Attitude(f"{angle:.1f}", angle, readings, PITCH))
    return weigh(supports, attitudes)


BIPLANE = {
    "engine": [(123.0, 0.11), (11.0, 0.48), (12.0, 0.05), (9.0, 0.2), (16.0, 0.08), (8.6, -0.24)],
    "electrics": [(11.0, 0.41)],
    "gear": [(30.0, 0.86), (3.2, 5.23)],
    "wings": [(43.5, 1.21), (40.0, 1.66), (15.4, 1.44)],
    "cockpit": [(7.3, 2.18), (10.0, 1.98), (5.4, 1.63), (11.8, 1.37)],
    "fuselage": [(51.0, 2.13), (17.0, 0.84)],
    "cover": [(9.9, 2.44)],
    "tail": [(14.9, 5.18)],
}
"""Mass and station of twenty items in eight groups; wings, cockpit and fuselage overlap."""
COMPACT = {
    "engine": 0.1,
    "electrics": 0.45,
    "gear": 0.86,
    "wings": 1.4,
    "cockpit": 1.9,
    "fuselage": 2.5,
    "cover": 3.2,
    "tail": 5.18,
}
"""Stations of the same groups where each keeps to itself."""


def listed(rng, share, *, compact):
    """Return a list of items of random masses and stations, known to a share of their mass and to half an inch."""
    items = []
    for group, rows in BIPLANE.items():
        for number, (mass, station) in enumerate(rows):
            kg = mass * exp(0.25 * rng.normal())
            place = (COMPACT[group] if compact else station) + 0.1 * rng.normal() * (1.0 - 0.5 * compact)
            height = 1.3 + 0.3 * rng.normal()
            items.append(
                Item(f"{group} {number}", group, kg, place, height, mass_error_kg=share * kg, station_error_m=0.0127)
            )
    return items


def built(rng, items, culprit, wrong_kg):
    """Return the airplane as built: every item off by its error, and one item or all of one group by `wrong_kg`."""
    true = [
        replace(
            item,
            mass_kg=max(item.mass_kg + item.mass_error_kg * rng.normal(), 0.1),
            station_m=item.station_m + item.station_error_m * rng.normal(),
        )
        for item in items
    ]
    if not culprit:
        return true
    own = [place for place, item in enumerate(items) if item.group == culprit]
    one = own if rng.random() < 0.5 else [rng.choice(own, p=_shares([items[k].mass_kg for k in own]))]
    sign = rng.choice([-1.0, 1.0]) if sum(true[k].mass_kg for k in one) > wrong_kg else 1.0
    for place, share in zip(one, _shares([items[k].mass_kg for k in one]), strict=True):
        true[place] = replace(true[place], mass_kg=max(true[place].mass_kg + sign * wrong_kg * share, 0.0))
    return true


def _shares(masses):
    return np.array(masses) / sum(masses)


def simulated(seed, share, wrong_kg, *, compact, airplanes=500):
    """Yield (group in error, what is suspected) of airplanes."""
    rng = np.random.default_rng(seed)
    for _ in range(airplanes):
        items = listed(rng, share, compact=compact)
        culprit = rng.choice(list(BIPLANE)) if wrong_kg else ""
        try:
            scales = weighed(rng, total(built(rng, items, culprit, wrong_kg)))
        except InputError:
            continue
        yield culprit, suspects(items, CREW, ("pilot", "fuel"), scales)


@pytest.mark.slow
@pytest.mark.parametrize(("share", "compact"), [(0.02, True), (0.04, False)])
def test_no_group_is_suspected_in_95_of_100_airplanes_without_an_error(share, compact):
    """4.3 % of many; 2,000 tell it to 0.5 %."""
    named = [bool(found.suspicions) for _, found in simulated(3, share, 0.0, compact=compact, airplanes=2000)]
    assert 0.03 < np.mean(named) <= 0.05


@pytest.mark.slow
@pytest.mark.parametrize(
    ("share", "compact", "first", "among_three"),
    [(0.02, True, 0.70, 0.95), (0.02, False, 0.60, 0.93), (0.04, False, 0.48, 0.77)],
)
def test_the_group_that_is_20_kg_wrong_is_found_as_often_as_its_probability_says(share, compact, first, among_three):
    places, said = [], []
    for culprit, found in simulated(4, share, 20.0, compact=compact):
        names = [suspect.group for suspect in found.suspicions]
        places.append(names.index(culprit) if names else 99)
        said.append(found.suspicions[0].probability if names else 0.0)
    hit = np.array(places) == 0
    assert np.mean(hit) >= first
    assert np.mean(np.array(places) < 3) >= among_three
    assert np.mean(hit) == pytest.approx(np.mean(said), abs=0.1)
