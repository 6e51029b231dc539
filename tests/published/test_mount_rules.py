"""EASA CS-23 Amendment 4 (23.303, 23.371(a)), CS-22 (361) and CS-VLA (361, 363): load cases of an engine mount.

Mark P: read in the published rules; described here in our own words.
"""

import pytest

from sim.structures.load_cases import (
    GYROSCOPIC_LOAD_FACTOR,
    GYROSCOPIC_PITCH_RAD_S,
    GYROSCOPIC_YAW_RAD_S,
    ULTIMATE,
    MountedPowerplant,
    load_cases,
    torque_factor,
)

ENGINE = MountedPowerplant(100.0, 0.4, 0.0, 3000.0, -500.0, 4, momentum_kg_m2_s=300.0, pulsing_momentum_kg_m2_s=0.0)


@pytest.mark.parametrize(
    ("cylinders", "factor"), [(1, 8.0), (2, 4.0), (3, 3.0), (4, 2.0), (5, 1.33), (6, 1.33), (9, 1.33)]
)
def test_cs_vla_361_b(cylinders, factor, printed):
    row = f"CS-VLA 361(b): factor on the mean torque, {cylinders} cylinders"
    printed(torque_factor(cylinders), f"{factor:g}", row=row, exact=True)


def test_cs_23_371_a(printed):
    printed(GYROSCOPIC_YAW_RAD_S, "2.5", "rad/s", row="CS 23.371(a): yaw", exact=True)
    printed(GYROSCOPIC_PITCH_RAD_S, "1.0", "rad/s", row="CS 23.371(a): pitch", exact=True)
    printed(GYROSCOPIC_LOAD_FACTOR, "2.5", row="CS 23.371(a): load factor", exact=True)


def by_rule(rule, **limits):
    return [case for case in load_cases(ENGINE, **limits) if case.rule == rule]


def test_cs_vla_361_a(printed):
    """Take-off torque with 75 % of the flight loads, factored torque with all of them."""
    (take_off,), (continuous,) = (
        by_rule("14 CFR 23.361(a)(1)", load_factor=4.0),
        by_rule("14 CFR 23.361(a)(2)", load_factor=4.0),
    )
    weight = 100.0 * 9.80665
    ours = [100.0 * case.limit_force_n[2] / (4.0 * weight) for case in (take_off, continuous)]
    printed(ours[0], "75", "%", row="CS-VLA 361(a)(1): share of the flight loads with take-off torque", exact=True)
    printed(ours[1], "100", "%", row="CS-VLA 361(a)(2): share with the factored torque", exact=True)
    factors = [case.limit_moment_n_m[0] / ENGINE.torque_n_m for case in (take_off, continuous)]
    printed(factors[0], "2", row="CS 22.361(b): factor on the take-off torque, 4 cylinders", exact=True)
    printed(factors[1], "2", row="CS 22.361(b): factor on the maximum continuous torque, 4 cylinders", exact=True)


@pytest.mark.parametrize(("load_factor", "side"), [(3.0, "1.33"), (3.8, "1.33"), (6.0, "2.00")])
def test_cs_vla_363(load_factor, side, printed):
    """A third of the limit load factor and 1.33 at the least, with no other load."""
    right, left = by_rule("CS-VLA 363", load_factor=load_factor)
    along, ours, down = (force / (100.0 * 9.80665) for force in right.limit_force_n)
    assert (along, down) == (0.0, 0.0)
    assert ours == pytest.approx(max(1.33, load_factor / 3.0))
    printed(ours, side, row=f"CS-VLA 363: side load factor at load factor {load_factor:g}", exact=True)
    assert left.limit_force_n[1] == -right.limit_force_n[1]


def test_cs_23_303(printed):
    printed(ULTIMATE, "1.5", row="CS 23.303: ultimate over limit load", exact=True)
