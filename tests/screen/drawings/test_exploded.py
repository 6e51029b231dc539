"""The exploded views: every item once, numbered beside what it is; what stands is pale, what comes later not drawn."""

import math
from functools import cache

import pytest
from displays import VARIANTS, built
from ringed import balloons, entangled
from shapely import LineString, Polygon, union_all
from shapely.affinity import rotate

from sim.display.assembly.data import Part, Slab
from sim.display.assembly.order import steps
from sim.display.assembly.solid import box, circle
from viz.drawings.exploded import exploded, from_behind
from viz.drawings.groups import grouped
from viz.drawings.items import items, key, numbers
from viz.drawings.marks import Stroke
from viz.drawings.oblique import WAY, body, shown

ROOM = 178.0, 172.0
KINDS = ["default", *(pytest.param(name, marks=pytest.mark.slow) for name in VARIANTS if name != "default")]


@cache
def views(name):
    """Return title, what is taken, what stands and the view of each step and each group."""
    assembly, standing, found = built(name), [], []
    for step, taken in steps(assembly):
        behind = from_behind(taken, standing)
        view = exploded(taken, numbers(assembly), ROOM, "", standing=tuple(standing), behind=behind)
        found.append((step.title, taken, tuple(standing), view))
        standing += taken
    for group, taken in grouped(assembly).items():
        found.append((group, taken, (), exploded(taken, numbers(assembly), ROOM, "")))
    return found


@pytest.mark.parametrize("name", KINDS)
def test_every_item_has_its_number_once_in_each_picture_that_draws_it(name):
    found = numbers(built(name))
    for title, taken, _, view in views(name):
        assert sorted(number for number, _, _ in balloons(view)) == sorted({found[key(each)] for each in taken}), title


@pytest.mark.parametrize("name", KINDS)
def test_the_groups_hold_the_parts_list(name):
    assembly = built(name)
    groups = [each for taken in grouped(assembly).values() for each in taken]
    assert sorted(map(id, groups)) == sorted(map(id, assembly.pieces))
    drawn = {number for title, *_, view in views(name) if title in grouped(assembly) for number, _, _ in balloons(view)}
    assert drawn == {one.number for one in items(assembly)}


@pytest.mark.parametrize("name", KINDS)
def test_no_leader_crosses_another_and_no_ring_covers_a_line_or_a_ring(name):
    for title, _, _, view in views(name):
        assert not entangled(view), title


@pytest.mark.parametrize("name", KINDS)
def test_views_fit_their_room(name):
    for title, _, _, view in views(name):
        assert view.size[0] <= ROOM[0], title
        assert view.size[1] <= ROOM[1], title


def on_paper(piece, side):
    """Return what a part in its place covers, looked at from the front, 1, or from behind, −1: corners alone."""
    found = []
    for slab in piece.slabs:
        turned = rotate(Polygon(slab.outline_m), getattr(piece, "placed_rad", 0.0), origin=(0.0, 0.0), use_radians=True)
        corners = [(side * (piece.x_m + x), piece.y_m + y) for x, y in turned.exterior.coords]
        ends = [side * slab.z_from_m, side * slab.z_to_m]
        places = [[(1e3 * (x + WAY[0] * z), 1e3 * (y + WAY[1] * z)) for x, y in corners] for z in ends]
        found.append(Polygon(places[0]).union(Polygon(places[1])).convex_hull)
    return union_all(found)


def test_pale_lines_are_those_of_parts_that_stand_and_of_nothing_else():
    for title, taken, standing, view in views("default"):
        pale = [mark for mark in view.marks if isinstance(mark, Stroke) and mark.pen == "pale"]
        assert bool(pale) == bool(standing), title
        side = -1.0 if from_behind(taken, standing) else 1.0
        area = union_all([on_paper(each, side) for each in standing]).buffer(0.5)
        for mark in pale:
            assert area.covers(LineString([(x / view.scale, y / view.scale) for x, y in mark.points])), title


def plain(outline, z_mm, name="block"):
    """Return a part of one prism."""
    slab = Slab(outline, z_mm[0] / 1e3, z_mm[1] / 1e3)
    places = {"x_m": 0.0, "y_m": 0.0, "z_from_m": z_mm[0] / 1e3, "z_to_m": z_mm[1] / 1e3}
    return Part(
        name, "steel", 1.0, **places, fit="", made=True, standard="", process="plate", group="fixed", slabs=(slab,)
    )


def seen_areas(*parts):
    """Return the area that is seen of each part. [mm²]"""
    seen = shown(solid for part in parts for solid in body(part, behind=False).solids)
    return [sum(one.area.area for one in seen if one.of is part) for part in parts]


def test_a_block_shows_its_face_its_top_and_its_right_side():
    """A face of 40 by 20 mm, and 10 mm of depth times the height and the width across the way in which it recedes."""
    block = plain(box(-0.02, -0.01, 0.02, 0.01), (0.0, 10.0))
    right, up = -10.0 * WAY[0], -10.0 * WAY[1]
    assert seen_areas(block) == [pytest.approx(40.0 * 20.0 + 20.0 * right + 40.0 * up, rel=1e-3)]


def test_a_plate_before_another_hides_what_it_covers():
    far, near = plain(box(-0.02, -0.01, 0.02, 0.01), (0.0, 0.1)), plain(box(-0.02, -0.01, 0.0, 0.01), (0.1, 0.2))
    assert seen_areas(far, near) == [pytest.approx(400.0, rel=0.02), pytest.approx(400.0, rel=0.02)]


def test_a_collar_hides_of_its_shaft_what_lies_in_it_and_behind_it():
    """The shaft alone: its face, and 100 mm along the way in which it recedes; of it the collar hides 10 mm or more."""
    shaft, collar = plain(circle(0.010), (-50.0, 50.0)), plain(circle(0.030), (-5.0, 5.0))
    along = 10.0 * math.hypot(*WAY)
    (alone,) = seen_areas(shaft)
    assert alone == pytest.approx(math.pi * 5.0**2 + 100.0 * along, rel=0.01)
    left, _ = seen_areas(shaft, collar)
    assert alone - (10.0 + 30.0 / math.hypot(*WAY)) * along < left < alone - 10.0 * along
