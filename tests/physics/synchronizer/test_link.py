"""The stages of the delay: they make up the whole, and their scatter adds up or in squares."""

import pytest

from sim.synchronizer.link import DelayStage, link_stages, spread


def link(**changed):
    given = {"length_m": 1.5, "link_s": 2e-3, "sd_s": 1e-4, "follower_rise_s": 3e-4, "windup_s": 2e-4}
    return link_stages("rod", **{**given, **changed})


def test_the_parts_make_up_the_link():
    assert sum(stage.mean_s for stage in link()) == pytest.approx(2e-3)


def test_a_wave_takes_length_over_speed():
    push = link_stages("oil", length_m=1.313, link_s=1.0, sd_s=0.0, follower_rise_s=0.0, windup_s=0.0)[1]
    assert (push.name, push.mean_s) == ("pulse along the oil column", pytest.approx(1e-3))
    assert link(wave_m_s=3000.0)[1].mean_s == pytest.approx(5e-4)


def test_parts_longer_than_the_whole_leave_nothing_to_the_trigger_motor():
    assert link(windup_s=5e-3)[3].mean_s == 0.0


def test_worst_case_adds_and_independent_stages_add_in_squares():
    found = spread([DelayStage("a", 1e-3, 3e-4), DelayStage("b", 2e-3, 4e-4)], 3.0)
    assert found.worst_case.time_s == pytest.approx(2.1e-3)
    assert found.root_sum_square.time_s == pytest.approx(1.5e-3)
