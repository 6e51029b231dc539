"""Supports and scales as causes of a gap: what a unit makes of it, beside readings made wrong by that much."""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import pytest

from sim.airframe.masses import Item, total
from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import Attitude, Reading, Support, Weighing
from sim.airframe.weighing_gap import gap
from sim.airframe.weighing_stands import under_the_wheels
from sim.airframe.weighing_suspects import suspects

PLACES = {"left": (0.71, -0.84, 0.05), "right": (0.71, 0.84, 0.05), "tail": (5.33, 0.0, 0.94)}
LIST = [
    Item("motor", "engine", 171.0, 0.12, 1.41, mass_error_kg=0.9, station_error_m=0.004, waterline_error_m=0.02),
    Item("wing", "wings", 148.0, 1.43, 1.72, mass_error_kg=1.7, station_error_m=0.006, waterline_error_m=0.02),
    Item("body", "fuselage", 119.0, 2.31, 1.07, mass_error_kg=1.4, station_error_m=0.007, waterline_error_m=0.02),
    Item("fin", "tail", 17.0, 5.12, 1.36, mass_error_kg=0.4, station_error_m=0.009, waterline_error_m=0.02),
]
TWO = (0.0, radians(12.0))
LOADS = [Item("pilot", "pilot", 86.0, 2.12, 1.3), Item("bag", "pilot", 14.0, 2.9, 1.2)]


def weighing(*, written=(0.0, 0.0), scale_kg=(0.0, 0.0, 0.0), angles=TWO):
    """Return the readings of the list, stations of mains and tail written too far aft and scales too much so far."""
    true = total(LIST)
    stood = np.array(list(PLACES.values()))
    attitudes = []
    for angle in angles:
        behind = stood[:, 0] * cos(angle) + stood[:, 2] * sin(angle)
        centre = true.cg_station_m * cos(angle) + true.cg_waterline_m * sin(angle)
        loads = np.linalg.solve([np.ones(3), behind, stood[:, 1]], true.mass_kg * np.array([1.0, centre, 0.0]))
        readings = {
            name: Reading(float(load), 0.3) for name, load in zip(PLACES, loads + np.array(scale_kg), strict=True)
        }
        attitudes.append(Attitude(f"{angle:.2f}", angle, readings, radians(0.1)))
    supports = {
        name: Support(place[0] + written[name == "tail"], *place[1:], station_error_m=0.0016, waterline_error_m=0.0016)
        for name, place in PLACES.items()
    }
    return Weighing("any", (), supports, tuple(attitudes))


def scales_of(readings):
    return weigh(
        readings.supports,
        readings.attitudes,
        assumed_waterline_m=total(LIST).cg_waterline_m,
        assumed_waterline_error_m=0.02,
    )


@pytest.mark.parametrize("angles", [TWO, TWO[:1]], ids=["two attitudes", "level"])
@pytest.mark.parametrize(
    ("change", "names", "misread", "size"),
    [
        ({"written": (0.02, 0.0)}, ("left", "right"), False, -0.02),
        ({"written": (0.0, -0.03)}, ("tail",), False, 0.03),
        ({"scale_kg": (4.0, 0.0, 0.0)}, ("left",), True, 4.0),
        ({"scale_kg": (0.0, 0.0, -2.0)}, ("tail",), True, -2.0),
    ],
)
def test_a_unit_of_the_cause_times_its_size_is_the_gap(angles, change, names, misread, size):
    """Scales that read the list exactly, made wrong in one thing: the gap is that thing alone."""
    right, wrong = weighing(angles=angles), weighing(angles=angles, **change)
    exact = gap(LIST, scales_of(right)).values
    assert exact == pytest.approx([0.0] * len(exact), abs=1e-6)
    weighed = scales_of(wrong)
    found = gap(LIST, weighed)
    (stand,) = [
        one
        for one in under_the_wheels(found, wrong, weighed, total(LIST).cg_waterline_m)
        if (one.names, one.kind == "scale") == (names, misread)
    ]
    effect, *_ = stand.cause.effects
    assert [size * part for part in effect.along] == pytest.approx(found.values, rel=0.02, abs=0.02)


def test_a_written_station_is_not_explained_by_a_bag_that_was_not_aboard():
    """Mains written 1 1/4 in too far aft: no mass is too many, so no load is; engine, mains and tail share the rest."""
    readings = weighing(written=(0.032, 0.0))
    found = suspects(LIST, LOADS, ("pilot", "fuel"), scales_of(readings), readings=readings)
    assert found.gap_probability < 1e-3
    assert found.aboard is None
    mains = next(one for one in found.supports if one.supports == ("left", "right"))
    assert mains.support_move_m == pytest.approx(-0.032, abs=2.0 * mains.support_move_error_m)
    assert mains.probability == max(one.probability for one in (*found.supports, *found.scales, *found.suspicions))
    assert found.one_cause_explains


def test_a_bag_that_was_aboard_is_still_nearly_certain():
    came = replace(LOADS[0], mass_kg=88.0)
    true = total([*LIST, came])
    readings = weighing()
    right = scales_of(readings)
    heavy = replace(right, mass_kg=true.mass_kg, cg_station_m=true.cg_station_m, cg_waterline_m=true.cg_waterline_m)
    guess = suspects(LIST, LOADS, ("pilot", "fuel"), heavy, readings=readings).aboard
    assert (guess.items, guess.left_out, guess.station_m) == (("pilot",), False, 2.12)
    assert guess.nearly_certain
