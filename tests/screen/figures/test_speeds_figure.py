"""Curves of power required are drawn apart where an eye tells them apart, at the same speeds."""

from dataclasses import replace

import pytest
from airplanes import BIPLANE
from shared import answer

from viz.figures import speeds as power


@pytest.mark.parametrize(("more", "curves"), [(0.0, 1), (0.039, 1), (0.041, 2), (-0.041, 2)])
def test_two_engines_share_a_curve_that_differs_by_less_than_an_eye_sees(more, curves):
    """The first needs W = 100 s, known every 20 m/s; the second is known at other speeds, at one of them by more."""
    found = answer("speeds", BIPLANE)
    first, second = found.curves
    straight = tuple(100.0 * speed for speed in range(20, 81, 20)), tuple(100.0 * speed for speed in (27, 45, 71))
    other = (straight[1][0], straight[1][1] / (1.0 + more), straight[1][2])
    drawn = {
        first: replace(found.curves[first], speed_m_s=(20.0, 40.0, 60.0, 80.0), needed_w=straight[0]),
        second: replace(found.curves[second], speed_m_s=(27.0, 45.0, 71.0), needed_w=other),
    }
    whole = {name: replace(curve, full_w=curve.needed_w, cruise_w=curve.needed_w) for name, curve in drawn.items()}
    (panel,) = power.draw(replace(found, curves=whole), "si").axes
    assert sum(line.get_label().startswith("required") for line in panel.get_lines()) == curves
