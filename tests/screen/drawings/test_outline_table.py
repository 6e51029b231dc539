"""What the tables of outlines say is the outline: built again from the numbers alone, it is the one that is cut."""

from math import atan2, cos, hypot, sin, tau

import numpy as np
import pytest
from shapely import Point, Polygon

from viz.drawings.flat_parts import cut_parts
from viz.drawings.outline_table import cam_radii, is_box, outline_pieces, outline_tables, true_box

TRUE_MM = 0.01


def rebuilt(pieces):
    """Return corners of an outline by its lines and arcs, every arc in steps that miss it by less than a micrometre."""
    at = pieces[-1].end
    corners = [at]
    for piece in pieces:
        if piece.centre is None:
            corners.append(piece.end)
        else:
            (x, y), radius = piece.centre, piece.radius
            start, end = (atan2(b - y, a - x) for a, b in (at, piece.end))
            turn = -((start - end) % tau) if piece.hollow else (end - start) % tau
            turn = turn if abs(turn) > 1e-9 else tau
            count = 200
            ways = [start + turn * step / count for step in range(1, count + 1)]
            corners += [(x + radius * cos(way), y + radius * sin(way)) for way in ways]
        at = piece.end
    return Polygon(corners).exterior


def test_every_outline_is_built_again_from_its_table(exhibit):
    curved = 0
    for one in cut_parts(exhibit):
        if one.part.name == "cam":
            continue
        cutouts = one.drawing.openings[len(one.flat.cut_slots) :]
        for corners in (one.drawing.outline, *cutouts):
            pieces = outline_pieces(corners)
            assert rebuilt(pieces).hausdorff_distance(Polygon(corners).exterior) < TRUE_MM, one.file
            assert len(pieces) < 20
            curved += any(piece.centre is not None for piece in pieces)
        told = outline_tables(one.drawing, cutouts, "si")
        assert len(told) == len(cutouts) + (not is_box(one.drawing.outline)), one.file
    assert curved > 8


@pytest.mark.parametrize("hollow", [False, True])
def test_a_known_outline_is_told_as_it_is(hollow):
    """A box of 40 by 20 with a half circle of radius 10 on its right side, or cut into it."""
    ways = np.linspace(-np.pi / 2, np.pi / 2, 60)
    side = -1.0 if hollow else 1.0
    arc = [(40.0 + side * 10.0 * cos(way), 10.0 + 10.0 * sin(way)) for way in ways]
    pieces = outline_pieces([(0.0, 0.0), *arc, (0.0, 20.0)])
    (round_one,) = (piece for piece in pieces if piece.centre)
    assert round_one.radius == pytest.approx(10.0)
    assert round_one.centre == pytest.approx((40.0, 10.0))
    assert round_one.hollow == hollow
    assert [piece.centre for piece in pieces].count(None) == 3


@pytest.mark.parametrize("chords", [25, 90])
def test_a_round_part_is_as_wide_as_its_circle_whatever_chords_stand_for_it(chords):
    """The corners of 90 chords of a circle of 48 mm reach up to 0.03 mm less far than the circle."""
    ways = 0.3 + np.linspace(0.0, tau, 4 * chords, endpoint=False)
    corners = [(5.0 + 24.0 * cos(way), -2.0 + 24.0 * sin(way)) for way in ways]
    assert max(y for _, y in corners) < 22.0 - 1e-4
    assert true_box(corners) == pytest.approx((-19.0, -26.0, 29.0, 22.0), abs=1e-6)


def test_arcs_reach_as_far_as_they_go_and_no_farther():
    """A half circle bulges 10 mm over its side when it is full, and not at all when it is hollow."""
    for sense, right in ((1.0, 50.0), (-1.0, 40.0)):
        ways = np.linspace(-np.pi / 2, np.pi / 2, 60)
        arc = [(40.0 + sense * 10.0 * cos(way), 10.0 + 10.0 * sin(way)) for way in ways]
        assert true_box([(0.0, 0.0), *arc, (0.0, 20.0)]) == pytest.approx((0.0, 0.0, right, 20.0), abs=1e-6)


def test_a_circle_is_told_by_centre_and_radius_alone(exhibit):
    told = [
        table
        for one in cut_parts(exhibit)
        for table in outline_tables(one.drawing, one.drawing.openings[len(one.flat.cut_slots) :], "si")
        if "a circle" in str(table.title)
    ]
    assert told
    assert all([column.head for column in table.columns] == ["radius", "centre x", "centre y"] for table in told)


def test_the_radii_of_the_cam_are_those_of_its_law(exhibit):
    """Every radius leads to the edge that is cut, and every one of the cutter to a place one cutter radius off it."""
    cam = next(one for one in cut_parts(exhibit) if one.part.name == "cam")
    found = cam_radii(cam.drawing)
    shown, base_mm = exhibit.display, 1e3 * exhibit.found.base_radius_m
    assert [angle for angle, *_ in found] == list(range(0, 360, 2))
    edges = [edge for _, edge, _ in found]
    assert min(edges) == pytest.approx(base_mm, abs=0.006)
    cutter = 1e3 * shown.cam.cutter_radius_m
    rim, path = Polygon(cam.drawing.outline).exterior, cam.drawing.cutter_path
    (x0, y0), (x1, y1) = cam.drawing.scribes[0]
    zero = atan2(y1 - y0, x1 - x0)
    for angle, edge, centre in found:
        way = zero - angle * tau / 360.0
        assert rim.distance(Point(edge * cos(way), edge * sin(way))) < 1e-6
        assert rim.distance(Point(centre * cos(way), centre * sin(way))) == pytest.approx(cutter, abs=0.011)
    assert max(edges) == pytest.approx(max(hypot(*corner) for corner in cam.drawing.outline), abs=0.05)
    assert len(path) > 100
