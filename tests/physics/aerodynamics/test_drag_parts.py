"""Parts that drag: areas by hand, and deviations against draws of what they are made of."""

import math

import numpy as np
import pytest

from sim.aerodynamics.drag_friction import friction
from sim.aerodynamics.drag_kinds import KINDS, SIDES
from sim.aerodynamics.drag_parts import BODY_FACTOR, fuselage_drag, given_drag, kind_area_m2, part_drag, tail_drag
from sim.aerodynamics.drag_polar import zero_lift_drag
from sim.numerics.uncertain import Uncertain

SIDES_M = {"length": Uncertain(1.7, 0.02), "width": Uncertain(0.043, 0.003), "height": Uncertain(0.31, 0.01)}
SIDES_M["diameter"] = Uncertain(0.83, 0.02)


@pytest.mark.parametrize("name", KINDS)
def test_the_area_of_each_kind(name):
    kind = KINDS[name]
    by_hand = {
        ("length", "width"): 1.7 * 0.043,
        ("width", "height"): 0.043 * 0.31,
        ("diameter", "width"): 0.83 * 0.043,
        ("diameter",): math.pi / 4.0 * 0.83**2,
    }[kind.sides]
    assert kind_area_m2(kind, SIDES_M).value == pytest.approx(by_hand, rel=1e-12)
    assert set(kind.sides) <= set(SIDES)


def test_the_deviation_of_a_disc_counts_its_diameter_twice():
    found = kind_area_m2(KINDS["open_cowl"], SIDES_M)
    assert found.relative == pytest.approx(2.0 * 0.02 / 0.83, rel=1e-12)


def test_every_kind_has_a_band_that_leaves_its_coefficient_positive():
    for kind in KINDS.values():
        assert 0.0 < kind.part_coefficient.band <= 0.45 * kind.part_coefficient.value
        assert kind.interference.value >= 1.0
        assert kind.source


def test_a_part_is_its_area_times_coefficient_times_interference_with_the_spread_of_draws():
    found = part_drag(
        "legs",
        "gear_strut",
        3,
        area_m2=Uncertain(0.027, 0.001),
        part_coefficient=Uncertain(0.12, 0.01),
        interference=Uncertain(1.7, 0.1),
    )
    assert found.drag_area_m2 == pytest.approx(3 * 0.027 * 0.12 * 1.7)
    area, drag, factor = np.random.default_rng(3).normal(size=(3, 300_000))
    drawn = 3 * (0.027 + 0.001 * area) * (0.12 + 0.01 * drag) * (1.7 + 0.1 * factor)
    assert found.drag_area_band_m2 == pytest.approx(float(np.std(drawn)), rel=0.01)
    assert (found.area_m2, found.count) == (pytest.approx(0.081), 3)


def test_streamlining_a_strut_takes_most_of_its_drag():
    areas = {name: KINDS[name].part_coefficient.value for name in ("round_strut", "oval_strut", "faired_strut")}
    assert areas["round_strut"] > 2.0 * areas["oval_strut"] > 4.0 * areas["faired_strut"]
    assert KINDS["wire"].part_coefficient.value > 2.0 * KINDS["streamline_wire"].part_coefficient.value
    assert KINDS["spoked_wheel"].part_coefficient.value > KINDS["wheel"].part_coefficient.value


def test_a_long_thin_fuselage_is_friction_on_its_skin():
    body = {"width_m": 0.7, "depth_m": 0.9, "shape": "streamline", "speed_per_viscosity_per_m": 2.4e6}
    long = fuselage_drag(length_m=14.0, **body)
    skin = long.area_m2 * friction(14.0 * 2.4e6)
    assert skin < long.drag_area_m2 < 1.1 * skin
    short = fuselage_drag(length_m=2.2, **body)
    assert short.drag_area_m2 / (short.area_m2 * friction(2.2 * 2.4e6)) > 3.0, "a bluff one is not"


def test_flat_sides_cost_what_they_say():
    body = {"length_m": 5.1, "width_m": 0.7, "depth_m": 0.9, "speed_per_viscosity_per_m": 2.4e6}
    flat, smooth = (fuselage_drag(shape=shape, **body) for shape in ("flat-sided", "streamline"))
    ratio = BODY_FACTOR["flat-sided"].value / BODY_FACTOR["streamline"].value
    assert flat.drag_area_m2 == pytest.approx(ratio * smooth.drag_area_m2, rel=1e-12)


def test_a_tail_surface_drags_more_than_a_plate_of_its_size():
    found = tail_drag("fin", area_m2=0.97, chord_m=0.91, speed_per_viscosity_per_m=2.4e6)
    plate = 2.0 * 0.97 * friction(0.91 * 2.4e6)
    assert 1.2 * plate < found.drag_area_m2 < 1.6 * plate


def parts():
    wire = {"part_coefficient": Uncertain(1.1, 0.1), "interference": Uncertain(1.1, 0.05)}
    return (
        part_drag("flying wires", "wire", 8, area_m2=Uncertain(0.016), **wire),
        part_drag("tail wires", "wire", 4, area_m2=Uncertain(0.003), **wire),
        given_drag("mast", "given", 2, drag_area_m2=Uncertain(0.02, 0.006), interference=Uncertain(1.0)),
        given_drag("steps", "given", 1, drag_area_m2=Uncertain(0.011, 0.004), interference=Uncertain(1.2, 0.1)),
    )


def test_the_whole_is_the_sum_with_its_interference_and_the_spread_of_draws():
    """One error for all wires, one for each given part, one for the whole."""
    found = zero_lift_drag(parts(), Uncertain(1.13, 0.05), area_m2=19.3)
    assert found.drag_zero_lift.value == pytest.approx(1.13 / 19.3 * ((0.128 + 0.012) * 1.21 + 0.04 + 0.0132))
    coefficient, ends, mast, steps, joint, factor = np.random.default_rng(8).normal(size=(6, 400_000))
    wires = 0.14 * (1.1 + 0.1 * coefficient) * (1.1 + 0.05 * ends)
    drawn = wires + 2 * (0.02 + 0.006 * mast) + (0.011 + 0.004 * steps) * (1.2 + 0.1 * joint)
    assert found.drag_zero_lift.band == pytest.approx(float(np.std(drawn * (1.13 + 0.05 * factor) / 19.3)), rel=0.01)


def test_shares_of_the_variance_add_up_and_name_what_is_least_known():
    found = zero_lift_drag(parts(), Uncertain(1.13, 0.05), area_m2=19.3)
    shares = found.variance_shares()
    assert sum(shares) == pytest.approx(1.0, rel=1e-12)
    assert len(shares) == 5
    known = list(parts())
    known[0] = part_drag(
        "flying wires",
        "wire",
        8,
        area_m2=Uncertain(0.016),
        part_coefficient=Uncertain(1.1),
        interference=Uncertain(1.1),
    )
    assert zero_lift_drag(known, Uncertain(1.13, 0.05), area_m2=19.3).drag_zero_lift.band < found.drag_zero_lift.band
    assert max(range(5), key=lambda place: shares[place]) == 0
