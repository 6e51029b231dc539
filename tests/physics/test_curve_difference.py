"""Where curves differ most: on one axis or on two, with gaps, without an axis, and in answers."""

from dataclasses import dataclass

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL

import sim
from sim.answer import Answer
from sim.curve_difference import farthest


def test_the_largest_difference_of_two_parabolas_is_where_their_slopes_agree():
    x = [0.25 * k for k in range(21)]
    first, second = [at**2 for at in x], [3.0 * at - 0.5 * (at - 1.0) ** 2 for at in x]
    most = farthest(first, second, ("time_s", x, x))
    apart = [abs(b - a) for a, b in zip(first, second, strict=True)]
    assert most.apart == max(apart)
    assert most.at == x[apart.index(max(apart))] == 5.0


def test_curves_on_two_axes_are_compared_where_both_are():
    one, two = [1.0, 2.0, 3.0, 4.0], [1.5, 2.5, 3.5]
    line, other = [10.0, 20.0, 30.0, 40.0], [16.0, 25.0, 34.0]  # 10 x and 9 x + 2.5
    most = farthest(line, other, ("time_s", one, two))
    assert (most.at, most.first) == (2.0, 20.0) or (most.at, most.first) == (3.0, 30.0)
    assert most.second == pytest.approx(9.0 * most.at + 2.5, rel=1e-15)
    assert farthest(line, [1.0, 2.0], ("time_s", one, [4.5, 5.0])) is None


def test_a_gap_is_no_difference():
    axis = [0.0, 1.0, 2.0, 3.0]
    most = farthest([None, 1.0, 2.0, 9.0], [5.0, 1.5, None, 8.8], ("time_s", axis, axis))
    assert (most.at, most.first, most.second) == (1.0, 1.0, 1.5)


def test_a_step_is_compared_side_by_side():
    """A shear that jumps at 2, on an axis with the step twice and on one with other points: 1 apart, not 11."""
    axis, other = [0.0, 1.0, 2.0, 2.0, 3.0], [0.0, 2.0, 2.0, 3.0]
    first = [10.0, 10.0, 10.0, -1.0, -1.0]
    for where, second in ((axis, [10.5, 10.5, 10.5, 0.0, 0.0]), (other, [10.5, 10.5, 0.0, 0.0])):
        most = farthest(first, second, ("buttlines_m", axis, where))
        assert (most.at, most.first, most.second) == (2.0, -1.0, 0.0)


def test_curves_along_a_spar_are_told_with_their_buttline():
    stronger = sim.structure(sim.load(BIPLANE, set=["structure.load_factor=5"]))
    found = sim.differences(sim.structure(BIPLANE), stronger).curves
    assert {one.axis for one in found} == {"buttlines_m"}
    moments = [one for one in found if one.name == "moments_n_m"]
    spans = {spar.name: (min(spar.buttlines_m), max(spar.buttlines_m)) for spar in stronger.spars}
    assert len(moments) == len(spans)
    assert all(
        min(low for low, _ in spans.values()) <= one.at <= max(high for _, high in spans.values()) for one in found
    )


def test_a_list_without_an_axis_is_compared_by_number():
    most = farthest([1.0, 2.0, 3.0, 4.0], [1.0, 2.5, 2.0, 4.0], None)
    assert (most.at, most.first, most.second) == (3.0, 3.0, 2.0)
    assert farthest([1.0, 2.0], [1.0, 2.0], None) is None


def test_power_curves_agree_with_an_independent_interpolation():
    first, second = sim.speeds(BIPLANE), sim.speeds(PARASOL)
    found = {one.path: one for one in sim.differences(first, second).curves}
    assert set(found) == {f"curves.rotary.{name}" for name in ("needed_w", "full_w", "cruise_w")}
    for path, one in found.items():
        own, other = (answer.curves["rotary"] for answer in (first, second))
        name = path.rpartition(".")[2]
        x = np.array([at for at in own.speed_m_s if other.speed_m_s[0] <= at <= other.speed_m_s[-1]])
        apart = np.interp(x, other.speed_m_s, getattr(other, name)) - np.interp(x, own.speed_m_s, getattr(own, name))
        most = int(np.argmax(abs(apart)))
        assert (one.axis, one.at) == ("speed_m_s", x[most])
        assert one.difference == pytest.approx(apart[most], rel=1e-12)
        assert one.second - one.first == one.difference


@dataclass(frozen=True, slots=True)
class Step:
    rpm: float
    rounds_per_min: float
    note: str = ""


@dataclass(frozen=True, slots=True)
class Stairs(Answer):
    rows: tuple[Step, ...]


def stairs(count, slope):
    return Stairs(tuple(Step(100.0 * k, slope * k) for k in range(count)))


def test_rows_on_an_axis_are_curves_as_many_as_there_may_be():
    both = sim.differences(stairs(20, 3.0), stairs(25, 3.5))
    assert [(one.path, one.axis, one.at, one.difference) for one in both.curves] == [
        ("rows.rounds_per_min", "rpm", 1900.0, pytest.approx(9.5))
    ]
    assert (both.only_in_answer, both.only_in_against) == ((), ())
    assert sim.differences(stairs(5, 3.0), stairs(5, 3.5)).curves == ()  # so few stand in the table one by one


def test_the_other_way_round_the_sign_changes():
    (there,) = sim.differences(stairs(20, 3.0), stairs(20, 3.5)).curves
    (back,) = sim.differences(stairs(20, 3.5), stairs(20, 3.0)).curves
    assert back.difference == -there.difference
