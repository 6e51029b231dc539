"""The band's edges are where strikes begin, and the best cut has as much to spare at one end as at the other."""

import math
import random
from dataclasses import replace

import pytest

from sim.errors import NoAnswerError
from sim.studies.safe_range import safe_range
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.safe_range import CamWindow, bands, best_opening, clearance_rad, edge_slopes


def window(dwell_rad, blades, blocked_rad, delay_s, spread_s):
    return CamWindow(GunLine((), blades, blocked_rad, delay_s=delay_s), dwell_rad, spread_s)


CAM = window(math.radians(60.0), 2, math.radians(30.0), 0.008, 0.001)


def meets(cam, opens_rad, spin_rad_s):
    """Fire at both ends of the window and both ends of the scatter, and at many points between."""
    for step in range(201):
        released = opens_rad + cam.dwell_rad * step / 200.0
        for delay in (cam.line.delay_s - cam.spread_s, cam.line.delay_s, cam.line.delay_s + cam.spread_s):
            off = (released + spin_rad_s * delay + cam.spacing_rad / 2.0) % cam.spacing_rad - cam.spacing_rad / 2.0
            if abs(off) < cam.line.blocked_rad / 2.0 - 1e-12:
                return True
    return False


def drawn(dice):
    blades = dice.choice([2, 3, 4])
    blocked = math.radians(dice.uniform(10.0, 40.0))
    room = math.tau / blades - blocked
    delay = dice.uniform(3e-3, 12e-3)
    return window(dice.uniform(0.1, 0.8) * room, blades, blocked, delay, dice.uniform(0.0, 0.1) * delay)


@pytest.mark.parametrize("case", range(40))
def test_strikes_begin_at_the_edges(case):
    dice = random.Random(case)
    cam, opens = drawn(dice), dice.uniform(-math.pi, math.pi)
    for band in bands(cam, opens, 300.0):
        assert not meets(cam, opens, band.from_rad_s + 1e-9)
        assert not meets(cam, opens, band.to_rad_s - 1e-9)
        assert not meets(cam, opens, 0.5 * (band.from_rad_s + band.to_rad_s))
        assert meets(cam, opens, band.to_rad_s + 1e-3)
        if band.from_rad_s > 1e-3:
            assert meets(cam, opens, band.from_rad_s - 1e-3)


@pytest.mark.parametrize("case", range(20))
def test_between_the_bands_there_is_none(case):
    dice = random.Random(100 + case)
    cam, opens = drawn(dice), dice.uniform(-math.pi, math.pi)
    found = bands(cam, opens, 300.0)
    for _ in range(60):
        spin = dice.uniform(1.0, 300.0)
        inside = any(band.from_rad_s <= spin <= band.to_rad_s for band in found)
        assert inside == (clearance_rad(cam, opens, spin) >= 0.0)
        assert inside == (not meets(cam, opens, spin)) or abs(clearance_rad(cam, opens, spin)) < 1e-3


def test_the_closed_form_of_one_band():
    """(A1 − α1)/(t − s) and (A2 − α2)/(t + s): 30° in 7 ms, and 120° in 9 ms."""
    band = bands(CAM, math.radians(-15.0), 300.0)[0]
    assert band.from_rad_s == pytest.approx(math.radians(30.0) / 0.007)
    assert band.to_rad_s == pytest.approx(math.radians(120.0) / 0.009)


def test_the_best_cut_has_the_same_to_spare_at_both_ends():
    low, high = 63.0, 131.0
    opens, spare = best_opening(CAM, low, high)
    assert spare > 0.0
    assert clearance_rad(CAM, opens, low) == pytest.approx(spare)
    assert clearance_rad(CAM, opens, high) == pytest.approx(spare)


def test_a_range_too_wide_is_served_from_its_slow_end():
    low, high = 63.0, 400.0
    opens, spare = best_opening(CAM, low, high)
    assert spare < 0.0
    served = bands(CAM, opens, 500.0)[0]
    assert served.from_rad_s == pytest.approx(low)
    for shift in (-0.02, 0.02):
        moved = bands(CAM, opens + shift, 500.0)[0]
        assert moved.to_rad_s - max(moved.from_rad_s, low) < served.to_rad_s - low


def test_a_window_longer_than_the_clear_arc_has_no_band():
    cam = replace(CAM, dwell_rad=math.radians(151.0))
    assert bands(cam, 0.0, 300.0) == []
    with pytest.raises(NoAnswerError) as refused:
        safe_range(spin_rad_s=(60.0, 130.0), blades=2, blocked_deg=30.0, delay_s=0.008, dwell_deg=151.0)
    assert str(refused.value) == (
        "no safe range: the dwell of 151° is longer than the 150° clear between two blades; shorten the dwell"
    )


def test_a_window_longer_than_the_clear_arc_meets_blades_alike_at_both_ends_of_the_range():
    cam = replace(CAM, dwell_rad=math.radians(151.0))
    opens, spare = best_opening(cam, 60.0, 130.0)
    assert spare < 0.0
    assert [clearance_rad(cam, opens, spin) for spin in (60.0, 130.0)] == pytest.approx([spare, spare])


def test_the_sensitivity_is_the_slope_of_each_edge():
    opens, tiny = math.radians(-15.0), 1e-9
    band = bands(CAM, opens, 300.0)[0]
    found = edge_slopes(CAM, band)

    def slope(cam, opens_rad):
        moved = bands(cam, opens_rad, 300.0)[0]
        return (moved.from_rad_s - band.from_rad_s) / tiny, (moved.to_rad_s - band.to_rad_s) / tiny

    later = slope(replace(CAM, line=replace(CAM.line, delay_s=CAM.line.delay_s + tiny)), opens)
    assert (found.from_per_delay, found.to_per_delay) == pytest.approx(later, rel=1e-4)
    assert (found.from_per_angle, found.to_per_angle) == pytest.approx(slope(CAM, opens + tiny), rel=1e-4)
    low, high = slope(replace(CAM, spread_s=CAM.spread_s + tiny), opens)
    assert found.width_per_spread == pytest.approx(high - low, rel=1e-4)
    low, high = slope(replace(CAM, line=replace(CAM.line, margin_rad=tiny)), opens)
    assert found.width_per_margin == pytest.approx(high - low, rel=1e-4)
