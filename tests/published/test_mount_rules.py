"""EASA CS-23 Amendment 4 (23.303, 23.371(a)) and CS-VLA (361, 363): load cases of an engine mount.

Mark P: read in the published rules; described here in our own words.
"""

import pytest

from sim.mount.cases import (
    GYROSCOPIC_LOAD_FACTOR,
    GYROSCOPIC_PITCH_RAD_S,
    GYROSCOPIC_YAW_RAD_S,
    ULTIMATE,
    Hung,
    load_cases,
    torque_factor,
)

ENGINE = Hung(100.0, 0.4, 0.0, 3000.0, -500.0, 4, momentum_kg_m2_s=300.0, pulsing_momentum_kg_m2_s=0.0)


@pytest.mark.parametrize(
    ("cylinders", "factor"), [(1, 8.0), (2, 4.0), (3, 3.0), (4, 2.0), (5, 1.33), (6, 1.33), (9, 1.33)]
)
def test_cs_vla_361_b(cylinders, factor):
    assert torque_factor(cylinders) == factor


def test_cs_23_371_a():
    assert (GYROSCOPIC_YAW_RAD_S, GYROSCOPIC_PITCH_RAD_S, GYROSCOPIC_LOAD_FACTOR) == (2.5, 1.0, 2.5)


def by_rule(rule, **limits):
    return [case for case in load_cases(ENGINE, **limits) if case.rule == rule]


def test_cs_vla_361_a():
    """Take-off torque with 75 % of the flight loads, factored torque with all of them."""
    (take_off,), (continuous,) = (
        by_rule("CS-VLA 361(a)(1)", load_factor=4.0),
        by_rule("CS-VLA 361(a)(2)", load_factor=4.0),
    )
    weight = 100.0 * 9.80665
    assert (take_off.limit_force_n[2], continuous.limit_force_n[2]) == pytest.approx((3.0 * weight, 4.0 * weight))
    assert (take_off.limit_moment_n_m[0], continuous.limit_moment_n_m[0]) == (-500.0, -1000.0)


@pytest.mark.parametrize(("load_factor", "side"), [(3.0, 1.33), (3.8, 1.33), (6.0, 2.0)])
def test_cs_vla_363(load_factor, side):
    """A third of the limit load factor and 1.33 at the least, with no other load."""
    right, left = by_rule("CS-VLA 363", load_factor=load_factor)
    assert right.limit_force_n == pytest.approx(
        (0.0, side * 100.0 * 9.80665, 0.0), rel=1e-9 if load_factor != 3.8 else 0.05
    )
    assert left.limit_force_n[1] == -right.limit_force_n[1]


def test_cs_23_303():
    assert ULTIMATE == 1.5
