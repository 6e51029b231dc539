"""The link from cam to gun: what takes an angle and what a time; scatter adds up or in squares."""

import math

import numpy as np
import pytest

from sim.model.model import model
from sim.synchronizer.link import DelayStage, Link, link_stages, spread

LINK = Link("shaft", 1.7, 2900.0, 0.4, 0.04, 0.02, 0.03, 3e-4, 1e-4)


def lead(link, spin):
    return sum(stage.lead_rad(spin) for stage in link_stages(link))


def test_a_bare_link_is_a_wave():
    assert lead(Link("oil", 1.313, 1313.0), 120.0) == pytest.approx(120.0 * 1e-3)


def test_angles_stay_and_times_grow_with_the_speed():
    rest = 0.04 + 0.01 + 0.03
    per_s = (lead(LINK, 200.0) - lead(LINK, 100.0)) / 100.0
    assert lead(LINK, 0.0) == pytest.approx(rest)
    assert per_s > 1.7 / 2900.0 + 3e-4
    assert lead(LINK, 150.0) == pytest.approx(rest + 150.0 * per_s)


def test_play_is_anything_up_to_it():
    drawn = np.random.default_rng(3).uniform(0.0, LINK.play_rad, 400_000)
    play = link_stages(LINK)[1]
    assert (play.mean_rad, play.sd_rad) == pytest.approx((drawn.mean(), drawn.std()), rel=5e-3)


@pytest.mark.parametrize("airplane", ["tollgate", "parasol", "triplane"])
def test_every_study_has_the_delay_of_the_stages(airplane, request):
    path = airplane if airplane == "tollgate" else f"{request.config.rootpath}/tests/fixtures/{airplane}.toml"
    built = model(path, ())
    line = built.gun_line()
    for spin in line.spin_rad_s:
        whole = sum(stage.lead_rad(spin) for stage in built.delay_stages)
        assert line.lead_rad(spin) == pytest.approx(whole, rel=1e-14)
        assert line.whole_delay_s(spin) == pytest.approx(whole / spin)
    both = built.link_delays
    assert both.computed_s == pytest.approx(lead(built.link, line.spin_rad_s[1]) / line.spin_rad_s[1])
    assert both.computed_s == pytest.approx(both.measured_s, rel=0.03)


def test_kind_and_length_and_air_change_the_delay():
    def cruise_s(*settings):
        return model("tollgate", settings).link_delays.computed_s

    longer = cruise_s("link.length=10 ft") / cruise_s("link.length=5 ft")
    assert 1.1 < longer < 1.5
    oil = [cruise_s("link.kind=oil", f"link.air={air}", "link.oil_pressure=100 psi") for air in (0.0, 0.001, 0.01)]
    assert cruise_s() < cruise_s("link.kind=shaft") < oil[0] < oil[1] < oil[2]


def test_without_a_link_the_measured_time_serves_at_every_speed():
    biplane = model("tests/fixtures/biplane.toml", ())
    assert (biplane.link, biplane.link_delays, biplane.gun_line().delay_rad) == (None, None, 0.0)
    assert biplane.delay_stages[0].mean_s == pytest.approx(1.2e-3)


def test_worst_case_adds_and_independent_stages_add_in_squares():
    found = spread([DelayStage("a", 1e-3, 3e-4, 0.0, 0.03), DelayStage("b", 2e-3, 4e-4, 0.0, 0.04)], 3.0)
    assert (found.worst_case.time_s, found.worst_case.turn_rad) == pytest.approx((2.1e-3, 0.21))
    assert (found.root_sum_square.time_s, found.root_sum_square.turn_rad) == pytest.approx((1.5e-3, 0.15))
    assert math.isclose(DelayStage("a", 0.0, 3e-4, 0.0, 0.04).lead_sd_rad(100.0), 0.05)
