"""The search's cam passes every check, and nothing smaller on its grid does."""

import math

import numpy as np
import pytest

from sim.display import cam_checks as module
from sim.display.cam_checks import STEP_M, cam_checks, cam_limits, laws_to_try
from sim.display.cam_profile import Follower
from sim.display.evaluation import evaluate
from sim.display.search import RISE_STEP_RAD, base_circles, rises, smallest_cam
from sim.display.spring import choose

CASES = {
    "in line": {},
    "one lobe": {"cam": {"lobes": 1}},
    "offset": {"follower": Follower("translating", 0.0065, offset_m=0.003)},
    "arm": {"cam": {"lobes": 1}, "follower": Follower("swinging", 0.0065, arm_m=0.06, pivot_m=0.075)},
    "law given": {"cam": {"law": "simple harmonic"}},
}


@pytest.fixture(params=CASES, scope="module")
def asked(request, display):
    made = display(**CASES[request.param])
    spring = choose(made.spring)
    return made, spring, smallest_cam(made, spring)


def passing(made, spring, base, law, rise):
    found = cam_checks(made, spring, law, rise_rad=float(rise), base_radius_m=float(base))
    return all(check.passes for check in found)


def test_the_answer_passes_every_check(asked):
    made, spring, found = asked
    assert found.passes
    assert passing(made, spring, found.base_radius_m, found.law, found.rise_rad)


@pytest.mark.slow
def test_nothing_smaller_on_the_whole_grid_passes(asked):
    """Every cam of every smaller base circle is judged again, one limit at a time, without the search's own loop."""
    made, spring, found = asked
    laws = list(laws_to_try(made.cam.law))
    smaller = base_circles(made)[base_circles(made) < found.base_radius_m - STEP_M / 2.0]
    bases, tried = np.meshgrid(smaller, rises(made), indexing="ij")
    assert smaller.size
    for law in laws:
        rows = cam_limits(made, spring, evaluate(made, spring, law, rise_rad=tried, base_radius_m=bases))
        assert not np.any(np.all([row.passes for row in rows], axis=0))


def test_among_equals_the_pressure_angle_is_least(asked):
    made, spring, found = asked
    best = []
    for law in laws_to_try(made.cam.law):
        numbers = evaluate(made, spring, law, rise_rad=rises(made), base_radius_m=np.asarray(found.base_radius_m))
        good = np.all([row.passes for row in cam_limits(made, spring, numbers)], axis=0)
        best += numbers.pressure_angle_rad[good].tolist()
    mine = evaluate(
        made, spring, found.law, rise_rad=np.asarray(found.rise_rad), base_radius_m=np.asarray(found.base_radius_m)
    )
    assert float(mine.pressure_angle_rad) == pytest.approx(min(best))


def test_its_neighbours_on_the_grid_are_larger_or_fail(asked):
    made, spring, found = asked
    for step in (-1, 0, 1):
        rise = found.rise_rad + step * RISE_STEP_RAD
        assert not passing(made, spring, found.base_radius_m - STEP_M, found.law, rise)


def test_a_binding_check_let_go_lets_a_smaller_cam_pass(asked, monkeypatch):
    made, spring, found = asked
    assert found.binding
    monkeypatch.setattr(
        "sim.display.search.cam_limits",
        lambda *given: tuple(row for row in module.cam_limits(*given) if row.name not in found.binding),
    )
    assert smallest_cam(made, spring).base_radius_m < found.base_radius_m


def test_a_check_that_does_not_bind_bars_nothing(asked, monkeypatch):
    made, spring, found = asked
    free = "contact stress"
    assert free not in found.binding
    monkeypatch.setattr(
        "sim.display.search.cam_limits",
        lambda *given: tuple(row for row in module.cam_limits(*given) if row.name != free),
    )
    assert smallest_cam(made, spring).base_radius_m == found.base_radius_m


def test_what_is_given_is_kept(display):
    made = display(cam={"law": "3-4-5", "rise_rad": math.radians(25.0), "base_radius_m": 0.0412})
    found = smallest_cam(made, choose(made.spring))
    assert (found.law, found.rise_rad, found.base_radius_m, found.tried) == ("3-4-5", math.radians(25.0), 0.0412, 1)


def test_where_nothing_passes_the_nearest_is_shown_and_says_so(display):
    made = display(cam={"space_m": 0.050})
    found = smallest_cam(made, choose(made.spring))
    assert not found.passes
    assert found.binding
