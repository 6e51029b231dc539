"""One propeller in every scene: chord, angle and sense are those of the scenario, whatever its number of blades."""

import math

import numpy as np
import pytest

from sim.propulsion.blade_geometry import Blade
from viz.stage.session import Session
from viz.stage.solid.propeller import BLADE_SHARES, propeller

BLADE = Blade(3, (0.1, 0.4, 0.7, 1.0), (0.05, 0.09, 0.06, 0.03), (0.9, 0.6, 0.4, 0.3))
RADIUS_M = 1.3


def corners(solid):
    return solid.points[solid.place.ravel()]


def section(solid, share):
    """Return the corners of a solid as far up as a share of the radius, shape (n, 3), above the shaft."""
    points = corners(solid)
    return points[(np.abs(-points[:, 2] - share * RADIUS_M) < 1e-6) & (np.abs(points[:, 1]) < 0.3)]


@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("share", [share for share in BLADE_SHARES if 0.3 < share < 0.9])
def test_a_blade_has_the_chord_and_the_angle_that_the_scenario_gives(share, sense):
    """Of the blade straight up: its widest corners are a chord apart, on a line at the blade's angle to the disc."""
    found = section(propeller(BLADE, 3, RADIUS_M, sense), share)
    one, other = found[found[:, 1].argmin()], found[found[:, 1].argmax()]
    chord_m = 2.0 * RADIUS_M * np.interp(share, BLADE.radius_share, BLADE.chord_per_diameter)
    assert math.dist(one, other) == pytest.approx(chord_m, rel=1e-9)
    angle = math.atan2(other[0] - one[0], other[1] - one[1])
    assert angle == pytest.approx(sense * np.interp(share, BLADE.radius_share, BLADE.blade_angle_rad))


def test_the_edge_that_goes_first_stands_ahead():
    """Clockwise seen from behind, the blade straight up goes to the right: its right edge is the forward one."""
    found = section(propeller(BLADE, 3, RADIUS_M, 1.0), 0.55)
    assert found[found[:, 1].argmax()][0] > 0.0 > found[found[:, 1].argmin()][0]


@pytest.mark.parametrize("count", [2, 3, 5])
def test_as_many_blades_as_the_gun_scene_is_set_to_stand_evenly(count):
    points = corners(propeller(BLADE, count, RADIUS_M, 1.0))
    tips = points[np.hypot(points[:, 1], points[:, 2]) > 0.995 * RADIUS_M]
    turned = np.degrees(np.arctan2(tips[:, 1], -tips[:, 2])) % 360.0
    places = sorted({round(float(turn) / (360.0 / count)) % count for turn in turned})
    assert places == list(range(count))


def test_the_gun_scene_shows_the_blade_of_the_scenario(stage):
    view = Session(stage, scene="blades").snapshot().view
    assert view.blade == stage.rotary_engine.blade
    assert view.blade != stage.fixed_engine.blade
