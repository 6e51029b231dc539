"""Scenes are data: what a snapshot says is where the shapes are."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from stage_shapes import SIZE, flat, later, of, shapes

from sim.live.flight import SCRIPTS
from viz.stage.attitude import axes
from viz.stage.layout import layout
from viz.stage.scenes.blades import parts, picture_rect
from viz.stage.scenes.names import narrow
from viz.stage.scenes.over_cowl import over_cowl
from viz.stage.scenes.turning import BESIDE
from viz.stage.shapes import Clip, Country, Disc, Facets, Line, Outline, Polygon, Text, texts
from viz.stage.snapshot import SCENES, Looks


def same(one, other):
    """Tell whether two shapes, or what they are made of, are the same to the last bit."""
    if isinstance(one, np.ndarray):
        return np.array_equal(one, other)
    if isinstance(one, (tuple, list)):
        return len(one) == len(other) and all(map(same, one, other))
    return one == other


@pytest.mark.parametrize("scene", SCENES)
def test_the_same_snapshot_is_the_same_picture(session, stage, scene):
    session.show(scene)
    later(session, 1.0)
    one, other = shapes(session, stage), shapes(session, stage)
    assert same(one, other)


def picture(session, stage):
    """Return what the picture of the turning airplanes is made of."""
    return next(shape for shape in shapes(session, stage) if isinstance(shape, Clip)).items


@pytest.mark.parametrize("size", [SIZE, (720, 1280)])
def test_in_level_flight_the_ghost_flies_beside_the_airplane_and_is_as_large(session, stage, size):
    """Farther away by what both reaches tell: its width over that of the other is the other's distance over its own."""
    items = next(shape for shape in shapes(session, stage, size) if isinstance(shape, Clip)).items
    body, ghost = (next(item for item in items if isinstance(item, kind)) for kind in (Facets, Outline))
    solid, faint = body.corners.reshape(-1, 2), ghost.edges.reshape(-1, 2)
    reach, farther = np.ptp(solid, axis=0), np.ptp(faint, axis=0)
    assert 0.0 < faint[:, 0].min() < faint[:, 0].max() < solid[:, 0].mean()
    ahead = BESIDE[narrow(camera_view(items))][0]
    assert farther[0] / reach[0] == pytest.approx(1.6 / (1.6 + ahead), rel=0.06)


def camera_view(items):
    return next(item for item in items if isinstance(item, Country)).rect


@pytest.mark.parametrize("size", [SIZE, (720, 1280), (1024, 600)])
@pytest.mark.parametrize("side", [-1.0, 0.0, 1.0])
def test_each_airplane_is_named_and_its_label_leads_to_it(session, stage, side, size):
    session.stick(side, 0.0)
    later(session, 4.0)
    items = next(shape for shape in shapes(session, stage, size) if isinstance(shape, Clip)).items
    body, ghost = (next(item for item in items if isinstance(item, kind)) for kind in (Facets, Outline))
    for words, who, drawn in (
        ("airplane with a rotary engine", "rotary", body.corners),
        ("the same airplane with a fixed engine", "fixed", ghost.edges),
    ):
        place = [isinstance(item, Text) and item.text == words for item in items].index(True)
        plate, line = items[place - 1], items[place - 3]
        assert plate.role == who
        assert plate.rect.inset(-1.0).holds(*line.points[0])
        near = np.linalg.norm(drawn.reshape(-1, 2) - line.points[1], axis=1).min()
        assert near < 0.06 * size[0]


def test_the_ghost_leaves_the_airplane_as_the_noses_part(session, stage):
    session.turning.perform("pull")
    later(session, 3.0)
    items = picture(session, stage)
    rings = [item for item in items if isinstance(item, Disc) and item.role in ("rotary", "fixed")]
    view = session.snapshot().view
    apart = [math.degrees(plane.heading_rad) for plane in (view.rotary, view.fixed)]
    assert apart[0] - apart[1] > 0.5
    body, ghost = (next(item for item in items if isinstance(item, kind)) for kind in (Facets, Outline))
    centre = body.corners.reshape(-1, 2).mean(axis=0) - ghost.edges.reshape(-1, 2).mean(axis=0)
    assert np.hypot(*centre) > 1.0
    assert len(rings) in {0, 2}


@pytest.mark.parametrize("script", ["turn-left", "turn-right", "reversal", ""])
def test_no_gap_is_marked_while_a_pilot_corrects(session, stage, script):
    """He turns an airplane's nose to where its spin does not push it: gap and arrow would contradict each other."""
    session.turning.perform(script)
    if not script:
        session.turning.stick(-1.0, 0.0)
    for _ in range(16):
        later(session, 0.5)
        drawn = shapes(session, stage)
        assert "The noses part" not in {text.text for text in texts(drawn)}
        items = drawn[[isinstance(one, Clip) for one in drawn].index(True)].items
        assert not of(items, Line, "caution")
        assert not of(items, Disc, "rotary")


@pytest.mark.parametrize("script", ["pull", "rudder-kick"])
def test_the_gap_is_marked_when_the_noses_have_parted_and_only_then(session, stage, script):
    """By the angle between both noses, as large as `PARTED` units of the picture and no less."""
    session.turning.perform(script)
    seen = set()
    for _ in range(32):
        later(session, 0.25)
        view, drawn = session.snapshot().view, shapes(session, stage)
        noses = [axes(plane.attitude)[0] for plane in (view.rotary, view.fixed)]
        apart = math.degrees(math.acos(min(1.0, sum(a * b for a, b in zip(*noses, strict=True)))))
        marked = "The noses part" in {text.text for text in texts(drawn)}
        seen.add(marked)
        assert not marked or apart > 1.9
        assert marked or apart < 2.95
        lines = of(drawn[[isinstance(one, Clip) for one in drawn].index(True)].items, Line, "caution")
        assert len(lines) == marked
    assert True in seen


@pytest.mark.parametrize(
    ("pitch", "yaw", "pushed", "way"),
    [(-0.8, 0.0, "nose_down", (0, 1)), (0.0, 0.8, "nose_right", (1, 0)), (0.0, -0.8, "nose_left", (-1, 0))],
)
def test_the_arrow_points_where_the_nose_is_pushed(session, stage, pitch, yaw, pushed, way):
    view = session.turning.view()
    scale = view.couple_scale_n_m
    session.turning.view = lambda: replace(
        view, pushed=pushed, rotary=replace(view.rotary, pitch_n_m=pitch * scale, yaw_n_m=yaw * scale)
    )
    items = picture(session, stage)
    shaft, head = of(items, Line, "rotary")[-1], of(items, Polygon, "rotary")[-1]
    along = np.subtract(head.points[0], shaft.points[0])
    assert along @ way > 30.0
    assert abs(along[0] * way[1] - along[1] * way[0]) < 0.2 * np.hypot(*along)
    label = next(text for text in texts(shapes(session, stage)) if text.text.startswith("Spin pushes"))
    assert abs(label.rect.center[1] - head.points[0][1]) < 0.1 * SIZE[1]


@pytest.mark.parametrize("script", SCRIPTS)
def test_the_label_says_where_the_arrow_points_and_keeps_its_word_while_that_is_true(session, stage, script):
    session.turning.perform(script)
    ways, said = {"up": (0, -1), "down": (0, 1), "left": (-1, 0), "right": (1, 0)}, []
    for _ in range(60):
        later(session, 0.1)
        for label in texts(shapes(session, stage)):
            if label.text.startswith("Spin pushes"):
                shaft, head = (of(picture(session, stage), kind, "rotary")[-1] for kind in (Line, Polygon))
                along = np.subtract(head.points[0], shaft.points[0])
                said.append(label.text.split()[-1])
                assert along @ ways[said[-1]] > 0.4 * np.hypot(*along)
    assert said or script == "blip"  # which cuts what it would push with
    assert sum(one != other for one, other in itertools.pairwise(said)) <= 4


def test_arrows_of_both_engines_are_in_the_ratio_of_their_couples(session, stage):
    view = session.turning.view()
    scale = view.couple_scale_n_m
    pair = (
        replace(plane, pitch_n_m=0.0, yaw_n_m=share * scale) for plane, share in ((view.rotary, 0.9), (view.fixed, 0.3))
    )
    session.turning.view = lambda pair=tuple(pair): replace(view, rotary=pair[0], fixed=pair[1])
    items = picture(session, stage)
    lengths = [
        math.dist(of(items, Polygon, who)[-1].points[0], of(items, Line, who)[-1].points[0])
        for who in ("rotary", "fixed")
    ]
    assert lengths[0] / lengths[1] == pytest.approx(3.0, rel=0.05)


def test_a_small_couple_has_no_arrow(session, stage):
    assert not [item for item in picture(session, stage) if isinstance(item, Polygon)]


def test_the_horizon_is_level_and_in_the_picture(session, stage):
    items = picture(session, stage)
    country = next(item for item in items if isinstance(item, Country))
    assert country.rect.y + 40.0 < country.horizon_y < country.rect.bottom - 100.0
    view = session.snapshot().view
    assert country.height_m == pytest.approx(view.rotary.height_m + 0.42 * stage.figure.span_m)


def test_axes_of_a_right_bank():
    half = math.radians(15.0)
    forward, right, down = axes((math.cos(half), math.sin(half), 0.0, 0.0))
    assert forward == pytest.approx((1.0, 0.0, 0.0))
    assert right[2] == pytest.approx(math.sin(math.radians(30.0)))
    assert down[2] == pytest.approx(math.cos(math.radians(30.0)))


def test_blades_stand_where_the_propeller_angle_says(session, stage):
    """The tip of a blade is where its angle from the line of fire takes it on the disc."""
    session.show("blades")
    later(session, 2.3)
    view = session.snapshot().view
    rect = picture_rect(*parts(layout(*SIZE, 1.0)), layout(*SIZE, 1.0).unit)
    over = over_cowl(view, stage.figure, rect)
    drawn = next(
        shape for shape in flat(shapes(session, stage)) if isinstance(shape, Facets) and "blade" in shape.roles
    )
    for blade in range(view.gun.line.blades):
        tip = over.on_disc(over.disc_m, over.turn_rad(view.angle_rad + math.tau * blade / view.gun.line.blades))
        nearest = np.linalg.norm(drawn.corners.reshape(-1, 2) - tip, axis=1).min()
        assert nearest < 0.03 * over.disc_m * over.camera.focal_px / 5.7


def test_a_strike_is_marked_counted_and_said(session, stage):
    session.show("blades")
    session.blades.pace.pick(1.0)
    session.blades.set("spin_rad_s", 1.0)
    later(session, 8.0)
    view = session.snapshot().view
    assert view.strikes > 0
    assert any(struck for _, struck in view.passed)
    said = [text for text in texts(shapes(session, stage)) if text.role == "strike"]
    assert said[0].text == f"Blade hits: {view.strikes}"


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
    assert {"Anhalten", "Leg beide Flugzeuge schräg", "Hinweise"} <= said
