"""A cam's windows: how they repeat, and where they stand in a period."""

import math
from dataclasses import replace

import pytest

from sim.synchronizer.cam import Cam, Opening, even
from sim.synchronizer.gun_line import GunLine


@pytest.mark.parametrize(("count", "turns"), [(1, 1), (3, 1), (1, 2), (3, 2), (5, 3)])
def test_even_windows_repeat_as_often_as_there_are_windows(count, turns):
    cam = even(-0.3, 0.2, count, turns=turns)
    assert cam.repeats == count
    assert cam.step_rad == pytest.approx(turns * math.tau / count)
    assert cam.step_windows == cam.windows[:1]
    assert math.fsum(opening.dwell_rad for opening in cam.windows) == pytest.approx(count * 0.2)


def test_uneven_windows_repeat_only_where_their_spacing_does():
    starts = (0.1, 1.0, 0.1 + math.pi, 1.0 + math.pi)
    pairs = Cam(tuple(Opening(start, start + 0.4) for start in starts))
    assert (pairs.repeats, len(pairs.step_windows)) == (2, 2)
    longer = replace(pairs, windows=(*pairs.windows[:3], Opening(1.0 + math.pi, 1.5 + math.pi)))
    assert longer.repeats == 1
    moved = replace(pairs, windows=(*pairs.windows[:3], Opening(1.1 + math.pi, 1.5 + math.pi)))
    assert moved.repeats == 1


def test_windows_of_one_period_begin_within_it():
    cam = even(-0.5, 0.8, 2, turns=2)
    found = list(cam.in_one_turn())
    assert [opening.opens_rad for opening in found] == pytest.approx([math.tau - 0.5, 2.0 * math.tau - 0.5])
    assert [opening.dwell_rad for opening in found] == pytest.approx([0.8, 0.8])


def test_the_ideal_cam_is_open_for_every_round_that_passes_clear_and_no_other():
    line = GunLine((120.0,), 3, math.radians(31.0), math.radians(2.5), delay_s=7.3e-3)
    cam, half = line.cam_at(120.0), math.radians(15.5 + 2.5)
    assert cam.ideal
    lead = 120.0 * 7.3e-3
    for opening in cam.windows:
        for edge, side in ((opening.opens_rad, 1.0), (opening.closes_rad, -1.0)):
            for inward in (1e-6, -1e-6):
                passes = math.remainder(edge + side * inward + lead, math.tau / 3)
                assert (abs(passes) > half) == (inward > 0.0)


def test_a_cut_cam_is_the_same_at_every_speed():
    cut = even(0.2, 1.0, 2)
    line = GunLine((50.0, 200.0), 2, 0.5, delay_s=5e-3, cam=cut)
    assert {line.cam_at(spin) for spin in line.spin_rad_s} == {cut}


def test_a_turned_cam_is_open_later_by_the_angle_and_as_long():
    cam = replace(even(-0.5, 0.8, 2, turns=2), windows=(Opening(0.1, 0.5), Opening(2.0, 2.9)))
    later = cam.turned(0.7)
    assert [each.opens_rad for each in later.windows] == pytest.approx([0.8, 2.7])
    assert [each.dwell_rad for each in later.windows] == pytest.approx([0.4, 0.9])
    whole = [each.opens_rad for each in cam.turned(cam.period_rad).in_one_turn()]
    assert whole == pytest.approx([each.opens_rad for each in cam.in_one_turn()])
