"""The weighing of a scenario: errors as given, and stated ones where none is."""

from dataclasses import replace
from math import radians

import pytest
from airplanes import BIPLANE

from sim.airframe.weighing_data import AssumedErrors
from sim.errors import InputError
from sim.model.model import Model, model
from sim.model.scales_and_list import weighing
from sim.scenario.reading import read_text

BUTTLINES = {"left": "-33 in", "right": "33 in", "tail": "0 in"}
GIVEN = [
    *(f"weighing.support.{name}.station=36 in ± 1/8 in" for name in ("left", "right")),
    *(f"weighing.support.{name}.buttline={at} ± 1/4 in" for name, at in BUTTLINES.items()),
    *(f"weighing.support.{name}.waterline=0 in ± 3/16 in" for name in ("left", "right", "tail")),
    "weighing.support.tail.station=210 in ± 1/2 in",
    "weighing.attitude.level=0 ° ± 0.2 °",
    "weighing.attitude.tail_low=12 ° ± 0.3 °",
]


def test_errors_given_are_those_of_the_supports_and_attitudes():
    found = model(BIPLANE, GIVEN).weighing
    left, tail = found.supports["left"], found.supports["tail"]
    eighth = 0.0254 / 8.0
    assert (left.station_error_m, left.buttline_error_m, left.waterline_error_m) == pytest.approx(
        (eighth, 2.0 * eighth, 1.5 * eighth)
    )
    assert tail.station_error_m == pytest.approx(4.0 * eighth)
    assert [a.pitch_error_rad for a in found.attitudes] == pytest.approx([radians(0.2), radians(0.3)])
    assert found.assumed == AssumedErrors()


def test_errors_not_given_are_a_sixteenth_of_an_inch_a_tenth_of_a_degree_and_a_pound():
    found = model(BIPLANE, ["weighing.reading.6.scale=166 lb", "weighing.support.left.station=36 in ± 1/8 in"]).weighing
    assert found.supports["tail"].station_error_m == pytest.approx(0.0015875)
    assert found.supports["left"].station_error_m == pytest.approx(0.003175)
    assert {a.pitch_error_rad for a in found.attitudes} == {radians(0.1)}
    assert found.attitudes[1].readings["tail"].mass_error_kg == pytest.approx(0.45359237)
    assert found.attitudes[0].readings["tail"].mass_error_kg == pytest.approx(0.45359237 / 2.0)
    assert found.assumed == AssumedErrors(pytest.approx(0.45359237), pytest.approx(0.0015875), pytest.approx(0.1))


@pytest.mark.parametrize(("sign", "side"), [("", "right"), ("-", "left")])
def test_wheels_on_one_side_are_refused(sign, side):
    """A sign forgotten puts the centre of gravity beside the airplane."""
    with pytest.raises(InputError) as caught:
        model(BIPLANE, [f"weighing.support.{name}.buttline={sign}32 in" for name in ("left", "right")])
    (fault,) = caught.value.faults
    assert fault.what == (
        f"must not put left and right all on one side, {side} of the plane of symmetry; left of it a buttline is "
        "negative"
    )


def test_the_buttline_of_the_centre_is_that_of_the_readings():
    """By hand: the moments of the scales about the plane of symmetry over their sum."""
    found, scales = weighing(model(BIPLANE)), model(BIPLANE).weighing
    sides = [
        sum(reading.net_kg * scales.supports[name].buttline_m for name, reading in attitude.readings.items())
        / attitude.net_kg
        for attitude in scales.attitudes
    ]
    assert found.weighed.cg_buttline_m == pytest.approx(sum(sides) / len(sides), abs=2e-4)
    assert abs(found.weighed.cg_buttline_m) > 5e-4


def test_wheels_of_one_station_are_one_axle():
    left, right = (model(BIPLANE).weighing.supports[name] for name in ("left", "right"))
    assert left.axle == right.axle
    assert replace(right, station_error_m=0.002).axle != left.axle


def test_a_height_that_is_not_determined_is_that_of_the_list_and_an_inch_uncertain():
    found = weighing(model(BIPLANE, ["weighing.attitude.tail_low=0 °", *PLACED]))
    assert found.weighed.cg_waterline_m is None
    assert found.over_cg_waterline_m is None
    assert found.assumed_waterline_error_m == pytest.approx((0.0254**2 + found.estimate_cg_waterline_error_m**2) ** 0.5)


LEVEL = (("left", "556 lb"), ("right", "554 lb"), ("tail", "98.5 lb"))
PLACED = [f"weighing.reading.{number}.scale={scale} ± 1 lb" for number, (_, scale) in enumerate(LEVEL, start=4)]
"""The second attitude reads as the first does."""


def test_differences_carry_the_errors_of_both():
    found = weighing(model(BIPLANE))
    assert found.over_error_kg**2 == pytest.approx(found.estimate_error_kg**2 + found.weighed.mass_error_kg**2)
    assert found.station_z_score == pytest.approx(found.over_cg_m / found.over_cg_error_m)
    assert found.assumed_waterline_error_m is None


def test_a_draw_of_the_readings_is_not_asked_whether_it_balances():
    """40 lb between the attitudes are a slip where they stand in the file, and none where they are drawn."""
    text, reading = BIPLANE.read_text(encoding="utf-8"), ["weighing.reading.1.scale=516 lb ± 1 lb"]
    with pytest.raises(InputError, match="the readings do not balance"):
        weighing(Model(read_text(text, settings=reading, folder=BIPLANE.parent)))
    whole = weighing(model(BIPLANE)).weighed.mass_kg
    drawn = weighing(Model(read_text(text, drawn=reading, folder=BIPLANE.parent))).weighed.mass_kg
    assert whole - drawn == pytest.approx(40.0 * 0.45359237 / 2.0, rel=0.1)
