"""Bolt forces are the load they carry, whatever the pattern; and the elastic method in its textbook cases."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.errors import InputError, NoAnswerError
from sim.structures.bolts import Bolt, bolt_loads

SQUARE = [Bolt(f"{right} {down}", right, down, 0.01) for right in (-0.2, 0.2) for down in (-0.2, 0.2)]
numbers = st.floats(-1.0, 1.0, allow_nan=False)


def total(bolts, forces):
    at = np.array([[0.0, bolt.right_m, bolt.down_m] for bolt in bolts])
    push = np.array([[force.axial_n, force.shear_right_n, force.shear_down_n] for force in forces])
    return push.sum(axis=0), np.cross(at, push).sum(axis=0)


@given(
    places=st.lists(st.tuples(numbers, numbers, st.floats(0.004, 0.02)), min_size=3, max_size=9),
    load=st.tuples(*[numbers] * 6),
)
def test_they_sum_to_the_load(places, load):
    bolts = [Bolt(str(number), *place) for number, place in enumerate(places)]
    try:
        forces = bolt_loads(bolts, load[:3], load[3:])
    except NoAnswerError:
        spread = np.array(places)[:, :2] - np.mean(np.array(places)[:, :2], axis=0)
        assert np.linalg.matrix_rank(spread, tol=1e-2 * max(np.abs(spread).max(), 1e-9)) < 2
        return
    largest = max(
        1.0, *(abs(part) for force in forces for part in (force.axial_n, force.shear_right_n, force.shear_down_n))
    )
    force, moment = total(bolts, forces)
    assert force == pytest.approx(load[:3], abs=1e-9 * largest)
    assert moment == pytest.approx(load[3:], abs=1e-9 * largest)


@pytest.mark.parametrize("seed", range(5))
def test_they_sum_to_a_real_load(seed):
    """Newtons and newton metres of an engine mount, to 1e-9 of the load."""
    rng = np.random.default_rng(seed)
    bolts = [Bolt(str(n), *rng.uniform(-0.3, 0.3, 2), rng.uniform(0.006, 0.012)) for n in range(rng.integers(3, 9))]
    load = rng.normal(scale=5000.0, size=6)
    force, moment = total(bolts, bolt_loads(bolts, load[:3], load[3:]))
    assert force == pytest.approx(load[:3], rel=1e-9, abs=1e-6)
    assert moment == pytest.approx(load[3:], rel=1e-9, abs=1e-6)


def test_a_push_through_the_middle_is_shared_evenly():
    assert [force.axial_n for force in bolt_loads(SQUARE, (4000.0, 0.0, 0.0), (0.0, 0.0, 0.0))] == pytest.approx(
        [1000] * 4
    )


def test_twist_is_shear_square_to_the_arm():
    """A roll of 800 N m on four bolts 0.2 √2 m out: 800/(4 · 0.2828) N each."""
    forces = bolt_loads(SQUARE, (0.0, 0.0, 0.0), (800.0, 0.0, 0.0))
    assert [force.shear_n for force in forces] == pytest.approx([800 / (4 * 0.2 * 2**0.5)] * 4)
    assert (
        forces[3].shear_right_n < 0.0 < forces[3].shear_down_n
    )  # the lower right bolt is pushed left and down by a right roll


def test_a_thick_bolt_takes_its_share():
    bolts = [*SQUARE[:3], Bolt("thick", 0.2, 0.2, 0.02)]
    forces = bolt_loads(bolts, (0.0, 0.0, 700.0), (0.0, 0.0, 0.0))
    assert total(bolts, forces)[0] == pytest.approx([0.0, 0.0, 700.0])
    centred = bolt_loads(bolts, (0.0, 0.0, 700.0), (0.2 * 3 / 7 * 700.0, 0.0, 0.0))
    assert [force.shear_down_n for force in centred] == pytest.approx([100.0, 100.0, 100.0, 400.0])


def test_a_push_loads_the_pad_not_the_bolt():
    top, bottom = (bolt_loads(SQUARE, (0, 0, 0), (0, way * 800.0, 0))[0] for way in (-1.0, 1.0))
    assert (top.axial_n, bottom.axial_n) == (pytest.approx(1000.0), pytest.approx(-1000.0))
    assert bottom.stress_pa == pytest.approx(0.0, abs=1e-6)
    assert top.stress_pa == pytest.approx(1000.0 / (np.pi * 0.005**2))


def test_shear_counts_for_three_times_its_square_in_the_stress():
    """A shear of 4000 N through the middle, 1000 N a bolt: √3 times its mean shear stress."""
    for load in bolt_loads(SQUARE, (0.0, 4000.0, 0.0), (0.0, 0.0, 0.0)):
        assert load.stress_pa == pytest.approx(3.0**0.5 * 1000.0 / (np.pi * 0.005**2))


def test_bolts_in_one_line():
    line = [Bolt(str(n), 0.1 * n, 0.05 * n, 0.01) for n in range(4)]
    with pytest.raises(NoAnswerError) as caught:
        bolt_loads(line, (0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
    assert (
        str(caught.value) == "the bolts stand in one line, which carries no moment about itself; put one off the line"
    )


def test_a_single_bolt():
    with pytest.raises(InputError) as caught:
        bolt_loads(SQUARE[:1], (0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
    assert str(caught.value) == 'mount.bolt: must be two bolts or more, got "1"'


INCH, LBF = 0.0254, 4.4482216
STANDARD = [(0.19, 32, 2210, 2126), (0.25, 28, 4080, 3680), (0.3125, 24, 6500, 5750), (0.375, 24, 10100, 8280)]
"""Rated tension and single shear of standard bolts of 125 ksi (from memory): diameter, threads an inch, lbf, lbf."""


@pytest.mark.parametrize(("inches", "threads", "tension", "shear"), STANDARD)
def test_strengths_beside_rated_ones(inches, threads, tension, shear):
    bolt = Bolt("one", 0.0, 0.0, inches * INCH, INCH / threads)
    assert bolt.shear_strength_n == pytest.approx(shear * LBF, rel=2e-3)
    assert bolt.tensile_strength_n == pytest.approx(tension * LBF, rel=0.01)
    assert Bolt("one", 0.0, 0.0, inches * INCH).tensile_strength_n <= tension * LBF


def loaded(share, *, tension, shear):
    """Load the square evenly by a share of the strength of each bolt in tension and in shear."""
    one = SQUARE[0]
    push = 4.0 * share * tension * one.tensile_strength_n, 4.0 * share * shear * one.shear_strength_n, 0.0
    return bolt_loads(SQUARE, push, (0.0, 0.0, 0.0), ultimate=1.5)


@pytest.mark.parametrize(("tension", "shear"), [(1.0, 0.0), (0.0, 1.0), (0.6, 0.8), (-1.0, 1.0)])
def test_the_margin_is_gone_where_shares_of_the_strength_make_a_circle(tension, shear):
    """With 1.5 and the fitting factor of 1.15 on the load; compression does not count."""
    for load in loaded(1.0 / (1.5 * 1.15), tension=tension, shear=shear):
        assert load.margin == pytest.approx(0.0, abs=1e-12)
    for load in loaded(0.25 / (1.5 * 1.15), tension=tension, shear=shear):
        assert load.margin == pytest.approx(3.0)


def test_a_bolt_that_is_only_pressed_has_no_margin_to_lose():
    assert [load.margin for load in loaded(1.0, tension=-1.0, shear=0.0)] == [np.inf] * 4
