"""An airplane on round wheels: they touch at their lowest point, which is no fixed point of the airplane."""

from types import SimpleNamespace

import numpy as np
import pytest
from airplanes import BIPLANE

from sim.model.model import model
from sim.model.plausibility.supports import stance
from sim.scenario.reading import load
from sim.units.convert import INCH_M

POUND_KG = 0.45359237
AXLE_RADIUS_IN, TAIL_RADIUS_IN = 13.0, 4.0
MAIN, TAIL, NOSE = (36.0, 13.0, AXLE_RADIUS_IN), (210.0, 37.0, TAIL_RADIUS_IN), (-30.0, 7.0, TAIL_RADIUS_IN)
"""Axle: station, waterline; radius. [in]"""
WEIGHT_LB, CG_IN = 1205.0, (49.0, 51.5)
SETTINGS = [
    *(f"weighing.support.{name}.waterline=0 in" for name in ("left", "right")),
    *(f"weighing.support.{name}.radius={AXLE_RADIUS_IN} in" for name in ("left", "right")),
    f"weighing.support.tail.waterline={37.0 - TAIL_RADIUS_IN} in",
    f"weighing.support.tail.radius={TAIL_RADIUS_IN} in",
]


def tilted(points, degrees_up):
    """Return (behind, above) of points (station, waterline) of the airplane with its nose up."""
    turn = np.exp(-1j * np.radians(degrees_up))  # stations grow to the right: nose up lowers what is aft
    turned = (points[..., 0] + 1j * points[..., 1]) * turn
    return np.stack([turned.real, turned.imag], axis=-1)


def contact(wheel, degrees_up):
    """Return (behind, above) of the lowest of many points of the rim."""
    station, waterline, radius = wheel
    around = np.linspace(0.0, 2.0 * np.pi, 200_001)
    rim = np.stack([station + radius * np.cos(around), waterline + radius * np.sin(around)], axis=-1)
    seen = tilted(rim, degrees_up)
    return seen[np.argmin(seen[:, 1])]


def scales(degrees_up):
    """Return what both main wheels and the tail wheel read together, from moments about their contacts [lb]."""
    main, tail = contact(MAIN, degrees_up)[0], contact(TAIL, degrees_up)[0]
    tail_lb = WEIGHT_LB * (tilted(np.array(CG_IN), degrees_up)[0] - main) / (tail - main)
    return WEIGHT_LB - tail_lb, tail_lb


def readings(*attitudes):
    numbers = iter(range(1, 7))
    for degrees_up in attitudes:
        mains_lb, tail_lb = scales(degrees_up)
        for share_lb in (0.5 * mains_lb, 0.5 * mains_lb, tail_lb):
            yield f"weighing.reading.{next(numbers)}.scale={share_lb:.9f} lb"


def weighed(*more):
    without_tare = "weighing.reading.3.tare=0 lb"
    return model(BIPLANE, [*SETTINGS, *readings(0.0, 12.0), without_tare, *more]).weighed


def test_two_attitudes_on_round_wheels_give_back_the_height():
    found = weighed()
    assert found.mass_kg / POUND_KG == pytest.approx(WEIGHT_LB, rel=1e-9)
    assert found.cg_station_m / INCH_M == pytest.approx(CG_IN[0], abs=1e-4)
    assert found.cg_waterline_m / INCH_M == pytest.approx(CG_IN[1], abs=1e-3)


def test_a_contact_fixed_in_the_airplane_would_lower_the_centre_by_the_radii_that_the_loads_share():
    fixed = weighed(*(f"weighing.support.{name}.radius=0 in" for name in ("left", "right", "tail")))
    tail = scales(12.0)[1] / WEIGHT_LB
    low = (1.0 - tail) * AXLE_RADIUS_IN + tail * TAIL_RADIUS_IN
    assert fixed.cg_waterline_m / INCH_M == pytest.approx(CG_IN[1] - low, abs=1e-2)


def test_the_error_of_a_radius_is_one_of_the_height_of_the_axle():
    found = model(BIPLANE, [*SETTINGS[:2], "weighing.support.left.radius=13 in ± 1/8 in", *SETTINGS[3:]]).weighing
    sixteenth = INCH_M / 16.0
    assert found.supports["left"].waterline_m == pytest.approx(13.0 * INCH_M)
    assert found.supports["left"].waterline_error_m == pytest.approx(5.0**0.5 * sixteenth)
    assert found.supports["right"].waterline_error_m == pytest.approx(sixteenth)


def test_on_all_wheels_the_lowest_points_of_their_rims_are_level():
    stands = stance(SimpleNamespace(scenario=load(BIPLANE, SETTINGS)))
    degrees_up = np.degrees(stands.pitch_rad)
    main, tail = contact(MAIN, degrees_up), contact(TAIL, degrees_up)
    assert main[1] == pytest.approx(tail[1], abs=1e-6)
    behind, above = tilted(np.array(CG_IN), degrees_up) - main
    found = stands.behind_and_above_m(CG_IN[0] * INCH_M, CG_IN[1] * INCH_M, stands.pitch_rad)
    assert found == pytest.approx((behind * INCH_M, above * INCH_M), abs=1e-4)


def test_a_nose_wheel_stands_level_by_the_same_rule():
    ahead = [*SETTINGS[:4], "weighing.support.tail.station=-30 in", "weighing.support.tail.waterline=3 in"]
    stands = stance(SimpleNamespace(scenario=load(BIPLANE, [*ahead, SETTINGS[-1]])))
    degrees_up = np.degrees(stands.pitch_rad)
    assert contact(MAIN, degrees_up)[1] == pytest.approx(contact(NOSE, degrees_up)[1], abs=1e-6)
    assert degrees_up < 0.0
