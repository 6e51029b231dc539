"""The airplane as a solid has the scenario's measures; its surfaces move as flown; light and order follow geometry."""

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.live.figure import figure
from sim.live.plain_figure import plain_figure
from sim.model.model import model
from sim.studies.drawing_frame import drawn_frame
from viz.stage.scenes.camera import Camera, chase
from viz.stage.scenes.shadow import LOW_SUN, shadow
from viz.stage.scenes.turning import angles
from viz.stage.shapes import Rect
from viz.stage.solid.airplane import airplane, ghost
from viz.stage.solid.light import SHADE, SUN, sunlit
from viz.stage.solid.solid import FABRIC, Builder, about, normals
from viz.stage.solid.view import KEYLINE, TAPE, seen
from viz.stage.solid.wing import TIP_CHORD

VIEW = Rect(0, 0, 900, 600)


@pytest.fixture(scope="module", params=[BIPLANE, PARASOL, TRIPLANE], ids=["biplane", "parasol", "triplane"])
def drawn(request):
    found = model(request.param)
    rotary = next(one for one in found.powerplants.values() if one.kind == "rotary")
    return SimpleNamespace(model=found, rotary=rotary, figure=figure(found, rotary))


def flown(**shares):
    return SimpleNamespace(**{"elevator_share": 0.0, "aileron_share": 0.0, "rudder_share": 0.0} | shares)


def test_planes_stand_where_the_layout_has_them(drawn):
    """Leading edges of every plane to a tenth of a millimetre, by the formulas of the layout, from the same origin."""
    frame = drawn_frame(drawn.model, drawn.rotary.name)
    assert len(drawn.figure.wings) == len(frame.layout.planes)
    for wing, placed in zip(drawn.figure.wings, frame.layout.planes, strict=True):
        assert frame.cg_station_m - wing.root[0] == pytest.approx(placed.leading_edge_station_m, abs=1e-4)
        assert 2.0 * wing.tip[1] == pytest.approx(placed.plane.span_m, abs=1e-9)
        rise = wing.root[2] - wing.tip[2]
        assert rise / wing.tip[1] == pytest.approx(math.tan(placed.plane.dihedral_rad), abs=1e-3)
        assert 0.5 * (wing.root_chord + wing.tip_chord) == pytest.approx(placed.plane.chord_m, rel=1e-9)


def test_every_strut_and_wire_of_the_layout_is_there_on_both_sides(drawn):
    members = drawn_frame(drawn.model, drawn.rotary.name).fitted.members
    drawn_lengths = sorted(math.dist(*rod) for rod in (*drawn.figure.struts, *drawn.figure.wires))
    assert drawn_lengths == pytest.approx(sorted(2 * [member.length_m for member in members]), abs=1e-9)
    right, left = ([rod for rod in drawn.figure.struts if way * rod[1][1] > 0.0] for way in (1.0, -1.0))
    assert len(right) == len(left)


def test_the_solid_fills_the_measures(drawn):
    solid = airplane(drawn.figure)
    places = solid.posed({}).places
    low, high = places.min(axis=0), places.max(axis=0)
    assert high[1] == pytest.approx(max(wing.tip[1] for wing in drawn.figure.wings), abs=0.01)
    assert low[1] == pytest.approx(-high[1], abs=1e-9)
    lowest = max(wheel.axle[2] + wheel.radius_m for wheel in drawn.figure.wheels)
    assert high[2] == pytest.approx(lowest, abs=0.01)
    assert high[0] == pytest.approx(drawn.figure.hub[0], abs=0.02)


def test_a_scenario_without_a_layout_is_drawn_in_common_proportions(drawn):
    bare = plain_figure(drawn.model, drawn.rotary)
    assert len(bare.wings) == len(drawn.figure.wings)
    assert bare.span_m == pytest.approx(drawn.figure.span_m, rel=0.1)
    assert np.isfinite(airplane(bare).points).all()


def trailing(solid, name, turned):
    """Return the mean move of a hinged part, body axes."""
    turning = solid.turning
    rows = turning.rows[turning.which == turning.names.index(name)]
    moved = solid.posed(turned).places - solid.posed({}).places
    return moved[rows[rows < len(moved)]].mean(axis=0)


def test_surfaces_move_as_they_are_flown(drawn):
    """Nose up: the elevator's edge rises. Nose right: the rudder's goes right. Right roll: the right aileron rises."""
    solid, top = airplane(drawn.figure), len(drawn.figure.wings) - 1
    assert trailing(solid, "elevator", angles(flown(elevator_share=1.0)))[2] < -0.05
    assert trailing(solid, "rudder", angles(flown(rudder_share=1.0)))[1] > 0.05
    rolled = angles(flown(aileron_share=1.0))
    assert trailing(solid, f"aileron{top}r", rolled)[2] < -0.02
    assert trailing(solid, f"aileron{top}l", rolled)[2] > 0.02
    assert (solid.posed(angles(flown())).places == solid.posed({}).places).all()


def test_a_part_turns_as_a_body(drawn):
    """By the matrix of its hinge: places, and faces as their corners have them, middles and normals."""
    solid, turned = airplane(drawn.figure), {"elevator": 0.4, "rudder": -0.3, "aileron0r": 0.2}
    pose, rest, turning = solid.posed(turned), solid.posed({}), solid.turning
    faces = pose.places[solid.place]
    assert pose.middles == pytest.approx(faces.mean(axis=1), abs=1e-12)
    assert pose.normals == pytest.approx(normals(faces), abs=1e-9)
    surface, hinged = drawn.figure.tailplane, turning.which == turning.names.index("elevator")
    aft = np.array([-math.cos(surface.incidence_rad), 0.0, math.sin(surface.incidence_rad)])
    origin = np.asarray(surface.quarter) + (surface.hinge_share - 0.25) * surface.chord_m * aft
    rows = turning.rows[hinged & (turning.rows < len(rest.places))]
    by_matrix = (rest.places[rows] - origin) @ about([0.0, 1.0, 0.0], 0.4).T + origin
    assert pose.places[rows] == pytest.approx(by_matrix, abs=1e-12)
    assert (solid.posed({"aileron0r": 0.2}).places[rows] == rest.places[rows]).all()


def test_faces_look_outward():
    """Of a closed box: the volume by the divergence theorem is that of its sides."""
    around, builder = ((0.0, 0.0), (3.0, 0.0), (3.0, 0.5), (0.0, 0.5), (0.0, 0.0)), Builder()
    rows = [[[x, y, z] for y, z in around] for x in (0.0, 2.0)]
    middle = [1.0, 1.5, 0.25]
    builder.skin(rows, "linen", within=middle)
    for row in rows:
        builder.skin([row[:2], row[3:1:-1]], "linen", within=middle)
    solid = builder.solid()
    faces = solid.posed({}).places[solid.place]
    area = 0.5 * np.cross(faces[:, 2] - faces[:, 0], faces[:, 3] - faces[:, 1])
    assert (area * faces.mean(axis=1)).sum() / 3.0 == pytest.approx(2.0 * 3.0 * 0.5)


def test_a_box_has_twelve_edges_and_an_open_one_has_a_rim():
    builder = Builder()
    rows = [[[x, y, z] for y, z in ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))] for x in (0.0, 1.0)]
    builder.skin(rows, "linen", within=[0.5, 0.5, 0.5])
    assert len(builder.solid().edges.rim) == 12
    assert builder.solid().edges.rim.sum() == 8


def test_what_is_seen_looks_at_the_eye_and_comes_sorted(drawn):
    """The farthest middle first; and every face that is kept winds one way on the picture."""
    solid, turn = airplane(drawn.figure), about([1.0, 0.3, 0.2], 0.5)
    camera = chase(VIEW, 0.3, drawn.figure.span_m)
    shape = seen(solid, drawn.figure, camera, turn=turn)
    across = shape.corners[:, 2] - shape.corners[:, 0]
    down = shape.corners[:, 3] - shape.corners[:, 1]
    winding = across[:, 0] * down[:, 1] - across[:, 1] * down[:, 0]
    assert (winding < 1e-6).all()
    assert 0.2 * len(solid.role) < len(shape.corners) < 0.6 * len(solid.role)
    count = len(shape.corners)
    rods = [place - count for place in shape.order.tolist() if place >= count]
    eye = camera.eye_m @ turn
    far = np.linalg.norm(eye - solid.rods.mean(axis=1), axis=1)[rods]
    assert (np.diff(far) <= 1e-9).all()
    assert sorted(shape.order.tolist()) == list(range(count + len(solid.rods)))


def test_silhouettes_run_along_faces_that_are_seen(drawn):
    shape = seen(airplane(drawn.figure), drawn.figure, chase(VIEW, 0.0, drawn.figure.span_m), turn=np.eye(3))
    corners = shape.corners[shape.keyline.owner]
    ends = shape.keyline.ends[:, :1, :]
    assert np.linalg.norm(corners - ends, axis=2).min(axis=1).max() < 1.0


def test_tapes_run_along_the_ribs(drawn):
    """From straight above: bright strokes lie along the chord at the innermost rib and the outermost, others dark."""
    down = np.array([[0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]])
    camera = Camera(down, np.array([0.0, 0.0, -900.0]), 50000.0, (450.0, 300.0), VIEW)
    strokes = seen(airplane(drawn.figure), drawn.figure, camera, turn=np.eye(3)).keyline
    assert set(strokes.light.tolist()) == {KEYLINE, TAPE}
    (x, ends_x), (y, ends_y) = strokes.ends[strokes.light == TAPE].transpose(2, 1, 0)
    assert ends_x == pytest.approx(x, abs=1.0)
    assert np.abs(ends_y - y).min() > 2.0
    outermost = max(wing.tip[1] - TIP_CHORD * wing.tip_chord for wing in drawn.figure.wings)
    assert np.abs(x - 450.0).max() * 900.0 / 50000.0 == pytest.approx(outermost, abs=0.02)


def test_the_top_wing_throws_its_shadow_on_what_lies_below(drawn):
    """With the sun overhead: under the plane a share is taken; beyond the tip, and above the plane, none is."""
    wing = drawn.figure.wings[-1]
    x = wing.root[0] - 0.5 * wing.root_chord
    out, z = 0.6 * wing.tip[1], wing.root[2]
    places = np.array([[x, out, z + 0.8], [x, 1.3 * wing.tip[1], z + 0.8], [x, out, z - 1.5]])
    share = sunlit(replace(drawn.figure, wings=(wing,)), places, np.array([0.0, 0.0, -1.0]))
    assert share == pytest.approx([1.0 - SHADE, 1.0, 1.0])


def test_what_faces_the_sun_is_brightest(drawn):
    solid = airplane(drawn.figure)
    shape = seen(solid, drawn.figure, chase(VIEW, 0.0, drawn.figure.span_m), turn=np.eye(3))
    normal = solid.posed({}).normals
    assert (np.abs(np.linalg.norm(normal, axis=1) - 1.0) < 1e-6).mean() > 0.95
    facing = {}
    from viz.stage.solid.light import light

    faces = np.flatnonzero(solid.finish == FABRIC)
    given, _ = light(
        solid.finish[faces],
        normals=normal[faces],
        to_eye=normal[faces],
        sun=SUN,
        up=np.array([0.0, 0.0, -1.0]),
        lit=np.ones(len(faces)),
    )
    facing = normal[faces] @ SUN
    assert given[facing > 0.9].mean() > 1.5 * given[np.abs(facing) < 0.1].mean()
    assert shape.light.max() < 1.5


def test_the_ghost_has_the_same_outline(drawn):
    """Its corners reach as far as those of the airplane that it stands for, within ribs and tapes."""
    whole, plain = (solid(drawn.figure).posed({}).places for solid in (airplane, ghost))
    assert plain.max(axis=0)[1:] == pytest.approx(whole.max(axis=0)[1:], abs=0.03)
    assert plain.min(axis=0)[1:] == pytest.approx(whole.min(axis=0)[1:], abs=0.12)
    assert len(plain) < 0.55 * len(whole)


def test_the_shadow_on_the_ground_lies_along_the_ray(drawn):
    """Of the first corner of the lowest plane: from it down the ray to the ground, and through the camera."""
    camera = Camera(chase(VIEW, 0.0, 8.0).basis, np.array([-40.0, 0.0, -30.0]), 500.0, (450.0, 300.0), VIEW)
    found = shadow(drawn.figure, camera, np.eye(3), 60.0)
    assert len(found) == len(drawn.figure.wings) + 2
    x, _, z = drawn.figure.wings[0].root
    along = (60.0 - z) / -LOW_SUN[2]
    place = np.array([x, 0.0, z]) - LOW_SUN * along
    assert place[2] == pytest.approx(60.0)
    assert found[0][0] == pytest.approx(camera.project(camera.seen(place[None]))[0].tolist())
