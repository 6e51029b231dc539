"""A wing of any number of planes: each by its name, stacked evenly, and worth one monoplane."""

import math
from itertools import pairwise

import pytest
from airplanes import BIPLANE

from sim.aerodynamics.biplane import equivalent_span
from sim.errors import InputError
from sim.model.model import Model
from sim.scenario.airframe import plane_names
from sim.scenario.reading import load

MANY = ("wing.gap=3 ft", "wing.chord=2 ft", "aileron.planes=1")


def with_planes(count, *settings):
    return load(BIPLANE, [f"wing.planes={count}", *MANY, *settings])


@pytest.mark.parametrize("count", [1, 2, 3, 4, 9, 20])
def test_every_plane_has_a_name_of_its_own(count):
    names = plane_names(count)
    assert len(set(names)) == count
    assert (names[0], names[-1]) == ("upper", "lower" if count > 1 else "upper")
    assert [plane.name for plane in Model(with_planes(count)).wing.planes] == list(names)


def test_one_of_many_planes_may_differ():
    spans = [plane.span_m for plane in Model(with_planes(5, "wing.plane.3.span=20 ft")).wing.planes]
    assert spans == [spans[0]] * 2 + [20 * 0.3048] + [spans[0]] * 2


def test_a_plane_that_is_not_there():
    with pytest.raises(InputError) as caught:
        with_planes(4, "wing.plane.middle.span=20 ft")
    assert str(caught.value) == ("set wing.plane.middle: is no plane of this wing, which has upper, 2, 3, lower")


def test_planes_far_apart_are_worth_the_root_of_their_number():
    """Each then carries its share of the lift as if alone: the induced drag is one n-th, the span √n."""
    assert equivalent_span([1.0] * 6, [1e6 * i for i in range(6)], [1.0 / 6.0] * 6) == pytest.approx(
        math.sqrt(6.0), rel=1e-6
    )


def test_more_planes_in_the_same_height_gain_less_and_less():
    spans = [equivalent_span([1.0] * n, [0.4 * i / (n - 1) for i in range(n)], [1.0 / n] * n) for n in (2, 4, 8, 16)]
    gains = [later - earlier for earlier, later in pairwise(spans)]
    assert max(map(abs, gains[1:])) < abs(gains[0]) < 0.1


@pytest.mark.parametrize("count", [1, 3, 6, 20])
def test_an_airplane_of_so_many_planes_flies(count):
    flying = Model(with_planes(count)).airplane("rotary")
    assert flying.airplane.polar.area_m2 == pytest.approx(count * 28.0833333 * 2.0 * 0.3048**2, rel=1e-6)
    assert flying.airplane.derivatives.lift_alpha > 0.0
