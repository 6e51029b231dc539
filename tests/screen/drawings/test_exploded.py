"""The exploded views: every item once, numbered beside what it is; what stands is pale, what comes later not drawn."""

import math
from functools import cache

import pytest
from displays import VARIANTS, built
from ringed import balloons, entangled
from shapely import LineString, Point, Polygon, union_all
from shapely.affinity import rotate

from sim.display.assembly.data import Fastener, Part, Slab
from sim.display.assembly.interference import shape_of
from sim.display.assembly.order import PIN, steps
from sim.display.assembly.solid import box, circle
from viz.drawings.exploded import exploded, from_behind, laid_out
from viz.drawings.groups import grouped, mates
from viz.drawings.items import items, key, numbers
from viz.drawings.marks import Stroke
from viz.drawings.oblique import WAY, body, shown
from viz.drawings.ways import ways

ROOM = 178.0, 172.0
TOUCH_M = 5e-5
KINDS = ["default", *(pytest.param(name, marks=pytest.mark.slow) for name in VARIANTS if name != "default")]


@cache
def pictures(name):
    """Return title, what is taken, what stands, what is drawn pale, and from where one looks, of each picture."""
    assembly, standing, found = built(name), [], []
    put_on = ways(assembly)
    for step, taken in steps(assembly):
        found.append((step.title, taken, tuple(standing), (), from_behind(taken, put_on)))
        standing += taken
    for group, taken in grouped(assembly).items():
        found.append((group, taken, (), mates(taken, assembly), from_behind(taken, put_on)))
    return found


@cache
def views(name):
    """Return title, what is taken, what stands and the view of each step and each group."""
    assembly = built(name)
    put_on, found = ways(assembly), []
    for title, taken, standing, pale, behind in pictures(name):
        also = {"standing": standing, "mates": pale, "behind": behind}
        view = exploded(taken, numbers(assembly), ROOM, "", put_on=put_on, **also)
        found.append((title, taken, standing, view))
    return found


def before(piece, assembly):
    """Return what stands before the step that takes a piece."""
    found = []
    for _, taken in steps(assembly):
        if any(piece is each for each in taken):
            return found
        found += taken
    raise AssertionError


def passes(piece, standing, side):
    """Return whether a piece can be moved away along the shaft to a side, 1 to the front, past what stands."""
    for slab in piece.slabs:
        shape = shape_of(slab, piece).buffer(-TOUCH_M)
        for other in standing:
            for there in other.slabs:
                beyond = there.z_to_m - slab.z_to_m if side > 0.0 else slab.z_from_m - there.z_from_m
                if beyond > 1e-6 and shape.intersects(shape_of(there, other)):
                    return False
    return True


@cache
def apart(name):
    """Return title, pieces with those drawn pale, and how far each is moved to the front [mm], of each picture."""
    found = []
    for title, taken, standing, pale, behind in pictures(name):
        _, moved = laid_out(taken, ways(built(name)), standing=standing, mates=pale, behind=behind)
        found.append((title, (*taken, *pale), [-near if behind else near for _, _, near in moved]))
    return found


@pytest.mark.parametrize("name", KINDS)
def test_each_part_leaves_to_the_side_from_which_it_is_put_on(name):
    """Its way back leads past all that stands before its step, where one of the two ways does."""
    judged = 0
    for title, pieces, moved in apart(name):
        for one, near in zip(pieces, moved, strict=True):
            if near and isinstance(one, Part) and one.name != PIN:
                free = {side: passes(one, before(one, built(name)), side) for side in (-1.0, 1.0)}
                if free[-1.0] != free[1.0]:
                    judged += 1
                    assert free[math.copysign(1.0, near)], (title, one.name)
    assert judged > 20


@pytest.mark.parametrize("name", VARIANTS)
def test_shafts_come_from_behind_with_what_is_pinned_to_them_and_their_front_sleeves_from_the_front(name):
    """What sits on a shaft behind the rear plate passes no bearing, so that shaft, disc and pulleys come as one."""
    assembly = built(name)
    put_on = ways(assembly)
    sides = {part.name: put_on[id(part)] for part in assembly.parts}
    assert {sides[each] for each in sides if each.endswith(("shaft", "pulley")) or each.startswith("brake ")} == {-1.0}
    assert sides["front sleeve"] == 1.0


@pytest.mark.parametrize("name", KINDS)
def test_heads_of_screws_stand_on_the_far_side_of_what_they_hold(name):
    judged = 0
    for title, pieces, moved in apart(name):
        places = list(zip(pieces, moved, strict=True))
        for screw, near in places:
            if not isinstance(screw, Fastener) or screw.upright:
                continue
            side = 1.0 if screw.front else -1.0
            head = max(side * (1e3 * slab.z_from_m + near) for slab in screw.slabs if along(slab, screw, side))
            held = 0
            for part, far in places:
                if part.name in screw.joins and covers(part, screw):
                    held += 1
                    face = max(side * (1e3 * each + far) for each in (part.z_from_m, part.z_to_m))
                    assert head > face, (title, screw.name, part.name)
            judged += held
            assert held or title in (step.title for step, _ in steps(built(name))), (title, screw.name)
    assert judged > 60


def along(slab, screw, side):
    """Return whether a slab is the head of a screw."""
    ends = [(side * each.z_to_m if side > 0.0 else side * each.z_from_m) for each in screw.slabs]
    return (side * slab.z_to_m if side > 0.0 else side * slab.z_from_m) == max(ends)


def covers(part, screw):
    """Return whether a part, moved aside or not, lies where the axis of a screw is, its holes filled."""
    areas = [Polygon(shape_of(slab, part).exterior) for slab in part.slabs]
    return any(area.distance(Point(screw.x_m, screw.y_m)) < TOUCH_M for area in areas)


@pytest.mark.parametrize("title", ["Walls, foot and target", "Target, lamp and rear of the guard"])
def test_the_backboard_goes_on_from_behind(title):
    (moved,) = (
        dict(zip((each.name for each in pieces), far, strict=True))
        for one, pieces, far in apart("default")
        if one == title
    )
    assert moved["backboard screw"] < moved["backboard"] < moved["gun outline"] <= 0.0


def test_the_front_panel_is_pale_between_the_walls_and_its_screws():
    (moved,) = (
        dict(zip((each.name for each in pieces), far, strict=True))
        for one, pieces, far in apart("default")
        if one == "Walls, foot and target"
    )
    assert moved["side wall"] == 0.0
    assert 0.0 < moved["front panel"] < moved["panel screw"]


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
    for (title, _, standing, mated, behind), (*_, view) in zip(pictures("default"), views("default"), strict=True):
        if mated:
            continue
        pale = [mark for mark in view.marks if isinstance(mark, Stroke) and mark.pen == "pale"]
        assert bool(pale) == bool(standing), title
        side = -1.0 if behind else 1.0
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
