"""Glide and top speed of a light airplane, CP-1.

J. D. Anderson, Introduction to Flight, chapter 6, light airplane CP-1: 2950 lb, 174 ft², span 35.8 ft, CD0 .025, span
efficiency .8, 230 hp, propeller efficiency .8, sea level. Mark: M R.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.aerodynamics.polar import Polar

FOOT_M, POUND_N, HORSEPOWER_W, MILE_FT = 0.3048, 4.4482216152605, 745.6998715822702, 5280.0
WEIGHT_N, DENSITY_KG_M3 = 2950 * POUND_N, 1.225


@pytest.fixture(scope="module")
def polar():
    area_m2, span_m = 174 * FOOT_M**2, 35.8 * FOOT_M
    return Polar(
        area_m2=area_m2,
        span_m=span_m,
        chord_m=area_m2 / span_m,
        aspect_ratio=span_m**2 / area_m2,
        span_efficiency=0.8,
        drag_zero_lift=0.025,
        lift_zero=0.0,
        lift_max=1.6,
    )


@pytest.fixture(scope="module")
def glide(polar):
    """Return airspeed and ratio of the flattest glide, found among many speeds."""
    speeds = np.linspace(30.0, 60.0, 30001)
    drags = polar.drag_n(WEIGHT_N, DENSITY_KG_M3, speeds)
    best = int(np.argmin(drags))
    return speeds[best], WEIGHT_N / drags[best]


def test_flattest_glide(polar, glide, printed):
    speed, ratio = glide
    printed(polar.lift_drag_max, "13.6", row="greatest lift over drag")
    printed(ratio, "13.6", row="flattest glide")
    printed(
        speed / FOOT_M, "144.8", "ft/s", row="its airspeed", within=0.4, why="rounded lift coefficient in the source"
    )
    lift = WEIGHT_N / (0.5 * DENSITY_KG_M3 * speed**2 * polar.area_m2)
    printed(lift, ".68", row="its lift coefficient", within=0.006, why="lift coefficient of the rounded drag polar")
    printed(math.degrees(math.atan(1.0 / ratio)), "4.2", "°", row="its angle")
    printed(10000 * ratio / MILE_FT, "25.8", "mi", row="glide from 10 000 ft")


def test_top_speed(polar, printed):
    power = 0.8 * 230 * HORSEPOWER_W
    top = brentq(lambda speed: power - speed * polar.drag_n(WEIGHT_N, DENSITY_KG_M3, speed), 60.0, 120.0)
    printed(top / FOOT_M, "265", "ft/s", row="top speed", share=0.02, why="read off a graph; exact is 261.6")
