"""A part of the delay that is a turn of the propeller: the same at every speed, so that its time falls with speed."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.exact_burst import exact_burst
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.ripple import Ripple
from sim.synchronizer.safe_range import CamWindow, bands, best_opening, clearance_rad, edge_slopes
from sim.synchronizer.windows import release_windows

ANGLE = 0.11
CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}


def test_at_one_speed_it_is_a_time():
    line = GunLine((130.0,), 3, 0.3, delay_s=6e-3, delay_rad=ANGLE)
    same = GunLine((130.0,), 3, 0.3, delay_s=6e-3 + ANGLE / 130.0)
    assert next(release_windows(line)).lead_rad == pytest.approx(130.0 * 6e-3 + ANGLE)
    ours, its = (line.cam_at(130.0).windows[1].opens_rad for line in (line, same))
    assert ours == pytest.approx(its)
    assert line.whole_delay_s(130.0) == pytest.approx(same.delay_s)


@pytest.mark.parametrize("ripple", [Ripple(), Ripple(0.2, 3, 0.4)], ids=["steady", "rippling"])
def test_it_is_a_cam_that_opens_later(random_gun, changed, ripple):
    gun = changed(random_gun(random.Random(5)), speed_sd=0.02)
    late = replace(gun, line=replace(gun.line, delay_rad=ANGLE), ripple=ripple)
    moved = replace(gun, line=replace(gun.line, cam=gun.cam.turned(ANGLE)), ripple=ripple)
    assert exact_burst(late, 5).mean == exact_burst(moved, 5).mean
    assert late.windows_rad == gun.windows_rad


@pytest.mark.parametrize("case", range(8))
@pytest.mark.parametrize("speed_sd", [0.0, 0.03])
def test_bursts_with_an_angle_that_scatters_meet_the_exact_ones(random_gun, changed, case, speed_sd):
    gun = random_gun(random.Random(case), hang_share=0.0, delay_sd_s=2e-4 * (1 + case % 3))
    gun = changed(gun, delay_sd_rad=0.05 * (case % 2), speed_sd=speed_sd, dwell_rad=gun.cam.dwell_rad * 1.2)
    gun = replace(gun, line=replace(gun.line, delay_rad=ANGLE))
    exact, found = exact_burst(gun, 6).mean, fire_bursts(gun, bursts=20_000, rounds_per_burst=6, seed=case)
    between = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    error = math.sqrt(between / found.bursts) / 6 + 1.0 / found.rounds
    assert exact.strike_share > 0.0
    assert abs(found.strikes / found.rounds - exact.strike_share) < 4.5 * error


def test_the_whole_scatter_is_time_and_angle_in_squares(random_gun):
    gun = random_gun(random.Random(2), delay_sd_s=3e-4, delay_sd_rad=4e-4 * 150.0, spin_rad_s=150.0)
    assert gun.delay_sd_s == pytest.approx(5e-4)
    assert gun.at_speed(2.0).delay_sd_s == pytest.approx(math.hypot(3e-4, 2e-4))


def drawn(case):
    dice = random.Random(case)
    line = GunLine((), dice.choice([2, 3]), 0.3, 0.05, dice.uniform(4e-3, 9e-3), delay_rad=dice.uniform(0.0, 0.3))
    spread_s, spread_rad = dice.uniform(1e-4, 9e-4), dice.uniform(0.01, 0.06)
    return CamWindow(line, 0.5, spread_s, spread_rad, at_once=case % 2 == 1), dice.uniform(-3.0, 3.0)


@pytest.mark.parametrize("case", range(20))
def test_safe_speeds_end_where_nothing_is_left_clear(case):
    cam, opens_rad = drawn(case)
    found = bands(cam, opens_rad, 400.0)
    assert found
    spins = np.linspace(1.0, 390.0, 4001)
    clear = np.array([clearance_rad(cam, opens_rad, spin) > 0.0 for spin in spins])
    inside = np.array(
        [any(band.from_rad_s < s < band.to_rad_s for band in bands(cam, opens_rad, 400.0)) for s in spins]
    )
    assert np.array_equal(clear, inside)
    for band in found:
        edges = [band.to_rad_s, *([band.from_rad_s] if band.from_rad_s > 0.0 else [])]
        assert [clearance_rad(cam, opens_rad, edge) for edge in edges] == pytest.approx([0.0] * len(edges), abs=1e-12)


@pytest.mark.parametrize("case", range(8))
def test_the_slopes_of_the_edges_are_those_of_roots_found_apart(case):
    cam, opens_rad = drawn(case)
    band = bands(cam, opens_rad, 900.0)[-1]
    assert band.from_rad_s > 0.0
    slopes = edge_slopes(cam, band)

    def edge(moved, opens, near):
        """Return the speed near by at which the clearance is nothing."""
        return brentq(lambda spin: clearance_rad(moved, opens, spin), near - 1.0, near + 1.0, xtol=1e-12)

    def change(edit, near):
        step = 1e-6
        return (edge(*edit(step), near) - edge(*edit(-step), near)) / (2.0 * step)

    def later(step):
        return replace(cam, line=replace(cam.line, delay_s=cam.line.delay_s + step)), opens_rad

    assert slopes.from_per_delay == pytest.approx(change(later, band.from_rad_s), rel=1e-4)
    assert slopes.to_per_delay == pytest.approx(change(later, band.to_rad_s), rel=1e-4)
    turned = [change(lambda step: (cam, opens_rad + step), near) for near in (band.from_rad_s, band.to_rad_s)]
    assert (slopes.from_per_angle, slopes.to_per_angle) == pytest.approx(tuple(turned), rel=1e-4)
    wide = [
        change(lambda step: (replace(cam, spread_s=cam.spread_s + step), opens_rad), near)
        for near in (band.to_rad_s, band.from_rad_s)
    ]
    assert slopes.width_per_spread == pytest.approx(wide[0] - wide[1], rel=1e-4)


@pytest.mark.parametrize("case", range(6))
def test_the_best_opening_leaves_as_much_at_both_ends(case):
    cam, _ = drawn(case)
    opens_rad, spare_rad = best_opening(cam, 80.0, 120.0)
    ends = [clearance_rad(cam, opens_rad, spin) for spin in (80.0, 120.0)]
    assert spare_rad > 0.0
    assert ends == pytest.approx([spare_rad, spare_rad])
