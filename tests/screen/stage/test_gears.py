"""The viewer's gun with each gear and without one, and behind a propeller of either sense."""

import math
from dataclasses import replace

import numpy as np
import pytest
from stage_shapes import later, shapes

from sim.live.gun import wait_rad
from sim.synchronizer.cam import Cam, Opening
from sim.synchronizer.timed_gun import fitted
from viz.stage.gun_states import crossing, lift
from viz.stage.scenes.over_cowl import over_cowl
from viz.stage.shapes import Rect, texts
from viz.stage.solid.cam import BASE_M, CAM, LIFT_M, MARKS, cam
from viz.stage.solid.gun_nose import CAM_X


def test_without_the_gear_as_many_rounds_meet_a_blade_as_the_blades_block(session, stage):
    """A gun that fires when it is ready finds the propeller anywhere: strikes as the blocked share of a turn."""
    session.show("blades")
    while session.blades.gear != "none":
        session.blades.change_gear()
    session.blades.set("gun_rounds_per_min", 617.3)  # no simple ratio to the speed
    session.blades.pace.pick(1.0)
    later(session, 60.0)
    view = session.snapshot().view
    line = view.gun.line
    share = line.blades * line.blocked_rad / math.tau
    assert view.rounds > 500
    assert view.holds == 0
    assert view.strikes / view.rounds == pytest.approx(share, abs=4.0 * math.sqrt(share / view.rounds))
    assert "Synchronizer: OFF" in {text.text for text in texts(shapes(session, stage))}


def test_after_no_gear_comes_the_same_cam_again(session):
    session.show("blades")
    before = session.snapshot().view.gun.windows_rad
    session.blades.change_gear()
    assert session.blades.gear == "none"
    assert session.snapshot().view.gun.never_shuts
    session.blades.change_gear()
    assert session.blades.gear == "interrupter"
    assert session.snapshot().view.gun.windows_rad == before


def test_an_anticlockwise_propeller_turns_the_other_way_about_the_same_line_of_fire(session, stage):
    """Its blades stand as far from the line of fire on the other side, and so does the cam from the follower."""
    view = session.blades.view()
    rect = Rect(0.0, 0.0, 900.0, 500.0)
    turned = []
    for rotation in ("clockwise", "anticlockwise"):
        line = replace(view.gun.line, rotation=rotation, bore_turn_rad=0.4)
        over = over_cowl(replace(view, gun=replace(view.gun, line=line)), stage.figure, rect)
        assert over.line_yz_m[1] == pytest.approx(-view.bore_radius_m * math.cos(0.4))
        turned.append((over.line_yz_m[0], over.turn_rad(0.3) - over.turn_rad(0.0), over.turn_rad(0.0)))
    assert turned[0] == pytest.approx([view.bore_radius_m * math.sin(0.4), 0.3, 0.4])
    assert turned[1] == pytest.approx([-each for each in turned[0]])


def with_gun(session, stage, **line):
    """Return the gun of a stage of its own, its line changed, on show."""
    gun = replace(stage.gun, line=replace(stage.gun.line, **line))
    session.blades.__init__(replace(stage, gun=gun), 1)
    session.show("blades")
    return session.blades


def put(blades, name, value):
    """Ask for a value of a slider, in SI."""
    blades.set(name, blades.dials[name].range.share(value))


def test_the_slider_of_the_delay_moves_time_and_angle_of_the_link_alike(session, stage):
    blades = with_gun(session, stage, delay_rad=0.2, delay_s=6e-3)
    spin = stage.gun.spin_rad_s
    whole_s = 6e-3 + 0.2 / spin
    assert blades.dials["delay_s"].value == pytest.approx(whole_s, rel=1e-12)
    put(blades, "delay_s", 1.5 * whole_s)
    put(blades, "spin_rad_s", 0.5 * spin)
    later(session, 20.0)
    line = blades.view().gun.line
    assert line.whole_delay_s(spin) == pytest.approx(1.5 * whole_s, rel=1e-3)
    assert line.delay_rad / line.delay_s == pytest.approx(0.2 / 6e-3)
    assert line.whole_delay_s(0.5 * spin) == pytest.approx(1.5 * (6e-3 + 0.4 / spin), rel=1e-3)


def test_the_scatter_of_the_delay_is_that_of_time_and_angle_together(session, stage):
    own = replace(stage.gun.scatter, delay_sd_s=3e-4, delay_sd_rad=0.05)
    session.blades.__init__(replace(stage, gun=replace(stage.gun, scatter=own)), 1)
    session.show("blades")
    sd_s = math.hypot(3e-4, 0.05 / stage.gun.spin_rad_s)
    assert session.blades.dials["delay_sd_s"].value == pytest.approx(sd_s, rel=1e-12)
    put(session.blades, "delay_sd_s", 2.0 * sd_s)
    later(session, 20.0)
    scatter = session.blades.view().gun.scatter
    assert scatter.delay_sd_s == pytest.approx(6e-4, rel=1e-3)
    assert scatter.delay_sd_rad == pytest.approx(0.1, rel=1e-3)


@pytest.mark.parametrize("action", ["interrupter", "impulse"])
def test_a_cam_of_one_trip_in_two_turns_has_one_raised_place_and_turns_half_as_fast(action):
    """Its outline over the propeller angle is that of its windows in two turns, and the roller stands on it."""
    dwell = 0.0 if action == "impulse" else 1.2
    windows = ((0.4, 0.4 + dwell),)
    for sense in (1.0, -1.0):
        solid = cam(windows, action, 2, sense)
        for angle in (0.3, 0.4 + 0.5 * dwell, 4.0, 9.0):
            corners = solid.posed({CAM: sense * angle / 2}).places
            rim = corners[np.abs(corners[:, 0] - CAM_X + 0.035) < 1e-9]
            reach = np.hypot(rim[:, 1], rim[:, 2])
            bearing = np.arctan2(rim[:, 1], -rim[:, 2])
            near = (np.abs(bearing) < 0.5 * math.tau / MARKS + 1e-6) & (reach > 0.1)
            raised = BASE_M + LIFT_M * lift(windows, angle, action, 2)
            assert reach[near] == pytest.approx(raised, abs=0.6 * LIFT_M)
            assert abs(float(reach[near].mean()) - raised) < 0.35 * LIFT_M


@pytest.mark.parametrize(("turns", "windows"), [(1, ((0.4, 1.6), (3.4, 4.9))), (3, ((2.0, 3.1), (9.0, 11.5)))])
def test_the_follower_is_raised_just_where_the_cam_lets_the_gun_go(stage, turns, windows):
    """The sense of the display: raised, lamp lit, may fire. The cam that releases is asked independently."""
    made = Cam(tuple(Opening(*each) for each in windows), period_turns=turns)
    gun = replace(stage.gun, line=replace(stage.gun.line, cam=made, action="interrupter"))
    for angle in np.linspace(0.0, turns * math.tau, 4001):
        assert (lift(windows, angle, "interrupter", turns) > 0.0) == (wait_rad(gun, angle) == 0.0)


@pytest.mark.parametrize("blades", [2, 3, 4])
def test_a_ghost_is_out_of_the_way_just_where_a_cam_cut_for_that_speed_is_open(session, stage, blades):
    line = replace(stage.gun.line, blades=blades, cam=None, impulses_per_rev=0)
    gun = fitted(line, stage.gun.spin_rad_s, stage.gun.scatter)
    session.blades.__init__(replace(stage, gun=gun), 1)
    view = session.blades.view()
    assert len(gun.windows_rad) == blades
    lead = view.arrival_rad - view.angle_rad
    told = set()
    for angle in np.linspace(0.0, math.tau, 997):
        there = replace(view, angle_rad=angle, arrival_rad=angle + lead)
        told.add(crossing(there, "interrupter"))
        assert (crossing(there, "interrupter") == "clear") == (wait_rad(gun, angle) == 0.0)
    assert told == {"clear", "close", "held"}
