"""Scenes are data: what a snapshot says is where the shapes are."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from stage_shapes import flat, later, of, shapes

from viz.stage.attitude import axes
from viz.stage.scenes.airplane import airplane
from viz.stage.scenes.camera import chase
from viz.stage.scenes.engine import rotary
from viz.stage.scenes.mesh import seen
from viz.stage.shapes import Block, Clip, Disc, Line, Polygon, Rect, Text, texts
from viz.stage.snapshot import SCENES, Looks


@pytest.mark.parametrize("scene", SCENES)
def test_the_same_snapshot_is_the_same_picture(session, stage, scene):
    session.show(scene)
    later(session, 1.0)
    assert shapes(session, stage) == shapes(session, stage)


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("size", [(960, 540), (1280, 720), (1920, 1080)])
@pytest.mark.parametrize("font", [0, 1, 2])
def test_no_words_overlap_and_none_leave_the_window(session, stage, scene, size, font):
    session.show(scene)
    session.looks = Looks(font=font)
    later(session, 1.0)
    boxes = [text.rect for text in texts(shapes(session, stage, size)) if text.text]
    assert all(box.x >= 0 and box.y >= 0 and box.right <= size[0] and box.bottom <= size[1] for box in boxes)
    assert not [pair for pair in itertools.combinations(boxes, 2) if pair[0].inset(0.5).overlaps(pair[1].inset(0.5))]


def test_both_airplanes_are_seen_from_the_same_point_in_level_flight(session, stage):
    views = [shape for shape in shapes(session, stage) if isinstance(shape, Clip)]
    wings = [of(view.items, Polygon, "wing") for view in views]
    assert len(wings[0]) == len(wings[1]) > 10
    apart = views[1].rect.x - views[0].rect.x
    centres = [sorted(tuple(np.mean(shape.points, axis=0)) for shape in wing) for wing in wings]
    assert np.array(centres[1]) - np.array(centres[0]) == pytest.approx(
        np.tile([apart, 0.0], (len(wings[0]), 1)), abs=4.0
    )


def test_the_arrow_points_where_the_nose_is_pushed(session, stage):
    view = session.turning.view()
    pushed = replace(view.rotary, pitch_n_m=-0.8 * view.couple_scale_n_m, yaw_n_m=0.0)
    session.turning.view = lambda: replace(view, rotary=pushed)
    clip = next(shape for shape in shapes(session, stage) if isinstance(shape, Clip))
    shaft, head = of(clip.items, Line, "couple")[0], of(clip.items, Polygon, "couple")[0]
    assert head.points[0][1] > shaft.points[0][1] + 30.0
    assert head.points[0][0] == pytest.approx(shaft.points[0][0], abs=6.0)
    said = [text.text for text in texts(shapes(session, stage))]
    assert "pushes the nose down" in said


def test_a_small_couple_has_no_arrow(session, stage):
    found = [shape for clip in shapes(session, stage) if isinstance(clip, Clip) for shape in clip.items]
    assert not of(found, Line, "couple")


def test_the_biplane_has_the_span_and_gap_of_the_scenario(stage):
    figure = stage.figure
    corners = airplane(figure).corners_m
    assert np.ptp(corners[:, 1]) == pytest.approx(figure.span_m)
    mesh = airplane(figure)
    tops = {
        round(float(z), 3)
        for face, role in zip(mesh.faces, mesh.roles, strict=True)
        if role == "wing"
        for z in corners[face][:, 2]
    }
    assert max(tops) - min(tops) >= figure.gap_m


def test_the_top_of_the_wing_is_lit_and_faces_out(stage):
    mesh = airplane(stage.figure)
    middle = mesh.corners_m[mesh.faces].mean(axis=1)
    under = np.array([role == "wing_under" for role in mesh.roles])
    assert (mesh.normals[under, 2] > 0.9).all()
    fuselage = np.array([role == "fuselage" for role in mesh.roles])
    outward = (mesh.normals * (middle * [0.0, 1.0, 1.0]))[fuselage][:, 1:].sum(axis=1)
    assert np.mean(outward > -1e-9) > 0.9


def test_faces_that_look_away_are_culled_and_the_rest_sorted(stage):
    mesh = airplane(stage.figure)
    camera = chase(Rect(0, 0, 600, 400), 0.0, stage.figure.span_m)
    shown = [shape for shape in seen(mesh, camera, np.eye(3), 1.0) if isinstance(shape, Polygon)]
    assert 0.3 * len(mesh.faces) < len(shown) < 0.75 * len(mesh.faces)
    assert all(0.4 <= shape.shade <= 1.06 for shape in shown)


def test_the_horizon_is_level_and_sky_is_above_ground(session, stage):
    clip = next(shape for shape in shapes(session, stage) if isinstance(shape, Clip))
    sky, ground = of(clip.items, Block, "sky")[0], of(clip.items, Block, "ground")[0]
    assert sky.rect.bottom == pytest.approx(ground.rect.y)
    assert sky.rect.h > 40.0


def test_axes_of_a_right_bank():
    half = math.radians(15.0)
    forward, right, down = axes((math.cos(half), math.sin(half), 0.0, 0.0))
    assert forward == pytest.approx((1.0, 0.0, 0.0))
    assert right[2] == pytest.approx(math.sin(math.radians(30.0)))
    assert down[2] == pytest.approx(math.cos(math.radians(30.0)))


def test_pistons_lie_on_their_cylinders_and_rods_meet_at_the_pin(session):
    session.show("engine")
    later(session, 1.3)
    engine = session.snapshot().view.rotary
    setup = engine.setup
    for axis, (x, y) in zip(engine.cylinder_axes_rad, engine.pistons_m, strict=True):
        assert math.atan2(x, y) == pytest.approx(math.remainder(axis, math.tau), abs=1e-9)
        assert math.hypot(x, y - setup.crank_radius_m) == pytest.approx(setup.rod_length_m)
    rods = [s for s in rotary(engine, Rect(0, 0, 400, 400), 0.0, 1.0) if isinstance(s, Line) and s.role == "steel"]
    assert len({line.points[0] for line in rods}) == 1
    assert len(rods) == setup.cylinders


def test_the_crank_of_the_rotary_stands_and_that_of_the_fixed_engine_turns(session):
    session.show("engine")
    seen_pins = []
    for _ in range(3):
        later(session, 0.4)
        view = session.snapshot().view
        seen_pins.append((view.rotary.crankpins_m[0], view.fixed.crankpins_m[0]))
    assert len({tuple(np.round(pin, 12)) for pin, _ in seen_pins}) == 1
    assert len({pin for _, pin in seen_pins}) == 3


def test_momentum_bars_have_one_scale(session, stage):
    session.show("engine")
    view = session.snapshot().view
    bars = of(flat(shapes(session, stage)), Block, "caution")
    ratio = view.rotary.angular_momentum_kg_m2_s / view.fixed.angular_momentum_kg_m2_s
    assert bars[0].rect.w / bars[1].rect.w == pytest.approx(ratio)


def test_blades_stand_where_the_propeller_angle_says(session, stage):
    session.show("blades")
    session.blades.pace.pick(0.0)
    later(session, 2.0)
    found = list(flat(shapes(session, stage)))
    view = session.snapshot().view
    hub = next(disc for disc in of(found, Disc, "steel_dark"))
    blade = of(found, Polygon, "blade")[0]
    tip = max(blade.points, key=lambda point: math.dist(point, (hub.x, hub.y)))
    angle = math.atan2(tip[0] - hub.x, hub.y - tip[1])
    assert math.remainder(angle - view.angle_rad, math.pi) == pytest.approx(0.0, abs=0.03)


def test_blocked_arcs_are_as_wide_as_the_gear_takes_them(session, stage):
    session.show("blades")
    found = list(flat(shapes(session, stage)))
    hub = of(found, Disc, "steel_dark")[0]
    arc = of(found, Polygon, "blocked")[0]
    angles = [math.atan2(x - hub.x, hub.y - y) for x, y in arc.points]
    assert max(angles) - min(angles) == pytest.approx(stage.gun.line.closed_rad, rel=1e-6)


def test_the_gun_is_held_while_the_follower_stands_on_a_lobe(session, stage):
    """Over a turn: held where no window is open, whether or not a round waits."""
    session.show("blades")
    session.blades.pace.pick(0.0)
    told = set()
    for _ in range(60):
        later(session, 0.5)
        view = session.snapshot().view
        opened = any((view.angle_rad - opens) % math.tau < closes - opens for opens, closes in view.gun.windows_rad)
        said = {text.text for text in texts(shapes(session, stage))} & {"gun free", "gun held"}
        assert said == {"gun free" if opened else "gun held"}
        told |= said
    assert told == {"gun free", "gun held"}


def test_a_strike_is_marked_counted_and_said(session, stage):
    session.show("blades")
    session.blades.pace.pick(1.0)
    session.blades.set("spin_rad_s", 1.0)
    later(session, 8.0)
    view = session.snapshot().view
    assert view.strikes > 0
    assert any(struck for _, struck in view.passed)
    said = [text for text in texts(shapes(session, stage)) if text.role == "strike"]
    assert said[0].text == str(view.strikes)


def test_cut_anew_the_cam_passes_every_round(session):
    session.show("blades")
    session.blades.set("spin_rad_s", 1.0)
    later(session, 1.0)
    session.blades.recut()
    before = session.snapshot().view.strikes
    session.blades.pace.pick(1.0)
    session.blades.set("delay_sd_s", 0.0)
    later(session, 5.0)
    view = session.snapshot().view
    assert view.strikes == before
    assert len(view.passed) > 20


def test_the_timing_disc_keeps_no_more_than_it_shows(session):
    session.show("blades")
    session.blades.pace.pick(1.0)
    for _ in range(3000):
        session.tick(1.0 / 60.0)
    view = session.snapshot().view
    assert view.rounds > 360
    assert len(view.passed) == 360


def test_every_text_is_a_text_of_the_language(session, stage):
    session.looks = Looks(language="german")
    said = {text.text for text in texts(shapes(session, stage)) if isinstance(text, Text)}
    assert {"Anhalten", "Derselbe Knüppel für beide", "Hilfe"} <= said
