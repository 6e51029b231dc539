"""Three views of things in space: third-angle projection, mirror images, boxes."""

from math import dist, hypot

import pytest

from sim.airframe.body_outline import TailSurface, cylinders
from sim.airframe.projection import SpaceCircle, SpaceLine, box, mirrored, projected, seen

PLACE = (3.1, 0.7, 0.4)


def test_the_three_views_share_their_axes():
    side, plan, front = (projected(PLACE, view) for view in ("side", "plan", "front"))
    assert side == (3.1, 0.7)
    assert front[1] == side[1]  # waterlines are level from front to side view
    assert front[0] == plan[0] == -0.4  # the right wing is on the left of front view and plan
    assert plan[1] == side[0]  # stations run up in the plan, nose down, and to the right in the side view


def test_lengths_of_three_views_give_the_length_in_space():
    other = (1.3, -0.2, 1.9)
    lengths = [dist(projected(PLACE, view), projected(other, view)) for view in ("plan", "side", "front")]
    assert hypot(*lengths) / 2.0**0.5 == pytest.approx(dist(PLACE, other), rel=1e-12)


def test_a_mirrored_line_is_drawn_once_in_the_side_view():
    whole = mirrored([SpaceLine("wires", (PLACE, (1.0, 2.0, 3.0)))])
    views = {view.name: view.lines for view in seen(whole, [])}
    assert [len(views[name]) for name in ("plan", "side", "front")] == [2, 1, 2]
    first, image = views["front"]
    assert [(-x, y) for x, y in first.points_m] == list(image.points_m)


def test_a_circle_is_round_in_its_own_view_alone():
    views = {view.name: view.circles for view in seen([], [SpaceCircle("gear", PLACE, 0.66, "side")])}
    assert [len(views[name]) for name in ("plan", "side", "front")] == [0, 1, 0]
    (circle,) = views["side"]
    assert (circle.centre_m, circle.diameter_m) == ((3.1, 0.7), 0.66)


def test_a_box_has_its_sizes_in_each_view():
    views = seen(box("aboard", PLACE, (0.3, 0.9, 0.5)), [])
    found = {}
    for view in views:
        (line,) = view.lines
        across, up = zip(*line.points_m, strict=True)
        found[view.name] = (max(across) - min(across), max(up) - min(up))
        middle = (max(across) + min(across)) / 2.0, (max(up) + min(up)) / 2.0
        assert middle == pytest.approx(projected(PLACE, view.name))
    assert found["side"] == pytest.approx((0.3, 0.9))
    assert found["plan"] == pytest.approx((0.5, 0.3))
    assert found["front"] == pytest.approx((0.5, 0.9))


def test_a_tailplane_turns_about_its_quarter_chord():
    tail = TailSurface(5.2, 1.1, 2.8, 0.9, hinge_share=0.6, incidence_rad=0.05)
    assert tail.at(0.25, 0.0) == (5.2, 1.1, 0.0)
    leading, trailing = tail.at(0.0, 0.0), tail.at(1.0, 0.0)
    assert leading[1] > 1.1 > trailing[1]
    assert dist(leading, trailing) == pytest.approx(0.9, rel=1e-12)
    assert tail.at(0.6, 1.0)[2] - tail.at(0.6, -1.0)[2] == pytest.approx(2.8)


def test_cylinders_stand_evenly_about_the_shaft():
    hub = (0.2, 1.3, 0.0)
    drawn = list(cylinders(hub, 7, inner_m=0.21, outer_m=0.49, diameter_m=0.14))
    swept = [one for one in drawn if isinstance(one, SpaceCircle)]
    assert [one.diameter_m for one in swept] == [pytest.approx(0.98)]
    each = [one for one in drawn if isinstance(one, SpaceLine) and one.views == ("front",)]
    assert len(each) == 7
    middles = [[sum(p[axis] for p in one.points_m) / 4.0 for axis in (1, 2)] for one in each]
    assert [sum(m[0] for m in middles) / 7.0, sum(m[1] for m in middles)] == pytest.approx([1.3, 0.0], abs=1e-12)
    for one in each:
        corners = [(w - 1.3, b) for _, w, b in one.points_m]
        assert dist(corners[0], corners[3]) == pytest.approx(0.14)
        assert dist(corners[0], corners[1]) == pytest.approx(0.28)
