"""The chain of cuts keeps its stated distance from the true curve, encloses its area and closes."""

import numpy as np
import pytest

from sim.display.cam_profile import cutter_path, profile
from sim.display.outline import area, cut_angles, path_at, points

LIFT, BASE, ROLLER, CUTTER = 0.006, 0.030, 0.0065, 0.003
SIZE = {"lift_m": LIFT, "base_radius_m": BASE}
DENSE = np.linspace(0.0, 2.0 * np.pi, 100_001)[:-1]


def chain(schedule, follower, error):
    angles = cut_angles(schedule, follower, **SIZE, chord_error_m=error, inset_m=ROLLER)
    return points(profile(path_at(schedule, follower, angles, **SIZE), ROLLER))


def stray(corners, curve):
    """Return the largest distance of dense points of a curve from a closed chain of cuts."""
    start, end = corners, np.roll(corners, -1, axis=0)
    along = end - start
    worst = 0.0
    for some in np.array_split(curve, 60):
        share = np.einsum("pcx,cx->pc", some[:, None] - start, along) / np.sum(along**2, axis=1)
        foot = start + np.clip(share, 0.0, 1.0)[..., None] * along
        worst = max(worst, float(np.linalg.norm(some[:, None] - foot, axis=2).min(axis=1).max()))
    return worst


@pytest.mark.parametrize("error", [5e-6, 5e-5])
def test_no_cut_strays_farther_than_stated(schedule, follower, error):
    curve = points(profile(path_at(schedule, follower, DENSE[::25], **SIZE), ROLLER))
    worst = stray(chain(schedule, follower, error), curve)
    assert 0.5 * error < worst <= error


def test_the_cutter_path_keeps_its_distance_too(schedule, follower):
    inset = ROLLER - CUTTER
    angles = cut_angles(schedule, follower, **SIZE, chord_error_m=5e-6, inset_m=inset)
    corners = points(cutter_path(path_at(schedule, follower, angles, **SIZE), ROLLER, CUTTER))
    curve = points(cutter_path(path_at(schedule, follower, DENSE[::25], **SIZE), ROLLER, CUTTER))
    assert stray(corners, curve) <= 5e-6


def perimeter(corners):
    return np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).sum()


def test_area_and_perimeter_are_those_of_the_curve(schedule, follower):
    error, corners = 5e-6, chain(schedule, follower, 5e-6)
    path = path_at(schedule, follower, DENSE, **SIZE)
    true = points(profile(path, ROLLER))
    bent = np.sum(np.abs(path.curvature_per_m) * path.arc_rate_m) * 2.0 * np.pi / DENSE.size
    assert area(corners) == pytest.approx(area(true), abs=error * perimeter(true))
    assert 0.0 < perimeter(true) - perimeter(corners) < error * bent


def test_half_the_error_takes_root_two_more_cuts(schedule, follower):
    few, many = len(chain(schedule, follower, 1e-6)), len(chain(schedule, follower, 0.5e-6))
    assert many / few == pytest.approx(np.sqrt(2.0), rel=0.03)


def test_the_chain_runs_anticlockwise_and_no_two_corners_coincide(schedule, follower):
    corners = chain(schedule, follower, 5e-6)
    assert area(corners) > 0.0
    assert np.hypot(*(np.roll(corners, -1, axis=0) - corners).T).min() > 1e-5
