"""The viewer's gun with each gear and without one, and behind a propeller of either sense."""

import math
from dataclasses import replace

import pytest
from stage_shapes import SIZE, flat, later, of, shapes

from sim.synchronizer.cam import even
from viz.stage.layout import layout
from viz.stage.scenes.gear import profile
from viz.stage.scenes.scene import draw
from viz.stage.shapes import Block, Disc, Polygon, texts


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
    assert {text.text for text in texts(shapes(session, stage))} >= {"no gear", "Gear: none"}


def test_after_no_gear_comes_the_same_cam_again(session):
    session.show("blades")
    before = session.snapshot().view.gun.windows_rad
    gears = []
    for _ in range(3):
        gears.append(session.blades.gear)
        session.blades.change_gear()
    assert gears == ["interrupter", "impulse", "none"]
    assert session.blades.gear == "interrupter"
    assert session.snapshot().view.gun.windows_rad == before


def test_an_anticlockwise_propeller_is_drawn_as_in_a_mirror(session, stage):
    session.show("blades")
    session.blades.pace.pick(0.0)
    later(session, 2.0)
    snapshot = session.snapshot()
    view = snapshot.view
    line = replace(view.gun.line, rotation="anticlockwise")
    marks = ((0.4, True), (2.0, False))
    drawn = []
    for gun in (view.gun, replace(view.gun, line=line)):
        mirrored = replace(snapshot, view=replace(view, gun=gun, passed=marks))
        found = list(flat(draw(mirrored, layout(*SIZE, 1.0), stage.figure, SIZE)))
        hub = of(found, Disc, "steel_dark")[0]
        blade, arc, paper = of(found, Polygon, "blade")[0], of(found, Polygon, "window")[0], of(found, Disc, "paper")[0]
        mark = of(found, Block, "clear")[0].rect.center
        drawn.append(
            [
                sorted((round(x - hub.x, 6), round(y - hub.y, 6)) for x, y in blade.points),
                sorted((round(x - hub.x, 6), round(y - hub.y, 6)) for x, y in arc.points),
                [(round(mark[0] - paper.x, 6), round(mark[1] - paper.y, 6))],
            ]
        )
    for ours, theirs in zip(*drawn, strict=True):
        assert theirs == [pytest.approx(point) for point in sorted((-x, y) for x, y in ours)]
        assert ours != theirs


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
def test_a_cam_of_one_trip_in_two_turns_has_one_low_or_high_place_and_turns_half_as_fast(session, stage, action):
    """Its outline over the propeller angle is that of its windows in two turns, and the roller stands on it."""
    dwell = 0.0 if action == "impulse" else 1.2
    cam = even(0.4, dwell, 1, turns=2)
    outline = profile(tuple((each.opens_rad, each.closes_rad) for each in cam.windows), action, 2)
    special = [mark for mark, high in enumerate(outline) if (high > 0.5) == (action == "impulse")]
    angles = [2.0 * math.tau * mark / len(outline) for mark in special]
    assert sum(angles) / len(angles) == pytest.approx(0.4 + 0.5 * dwell, abs=2.0 * math.tau / len(outline))
    assert max(angles) - min(angles) < 1.3
    with_gun(session, stage, cam=cam, action=action)
    snapshot = session.snapshot()
    seen = []
    for angle in (0.0, math.tau, 1.5 * math.tau):
        turned = replace(snapshot, view=replace(snapshot.view, angle_rad=angle))
        (drawn,) = of(list(flat(draw(turned, layout(*SIZE, 1.0), stage.figure, SIZE))), Polygon, "cam")
        middle = tuple(sum(point[axis] for point in drawn.points) / len(drawn.points) for axis in (0, 1))
        away = [math.dist(point, middle) for point in drawn.points]
        at = away.index(max(away) if action == "impulse" else min(away))
        x, y = drawn.points[at]
        seen.append(math.atan2(x - middle[0], middle[1] - y))
    assert abs(math.remainder(seen[1] - seen[0], math.tau)) == pytest.approx(math.pi, abs=0.1)
    assert abs(math.remainder(seen[2] - seen[0], math.tau)) == pytest.approx(0.5 * math.pi, abs=0.1)
