"""A centre of gravity moved: the same forces at the same place, and the estimate with its arms changed."""

import math
from dataclasses import astuple, replace

import numpy as np
import pytest
from airplanes import PARASOL, TRIPLANE

from sim.aerodynamics.cg_transfer import about_moved_cg
from sim.aerodynamics.derivatives import estimate
from sim.aerodynamics.forces import air_loads
from sim.flight.cg_shift import with_cg_moved
from sim.flight.motion import Controls
from sim.model.airplane import at_every_lift
from sim.model.model import model
from sim.numerics.number import ARRAY_MATH

AFT_M = 0.17
STEP = 1e-30


@pytest.fixture(scope="module", params=[PARASOL, TRIPLANE], ids=["parasol", "triplane"])
def flying(request):
    return model(request.param).airplane()


def slopes(airplane, moved_m=0.0):
    """Slopes of forces across x and of moments at V along x, a column a motion (six) or a control (three).

    With ``moved_m`` the motion is that of a point so far aft, and the moments are about it, by force times distance.
    """
    polar = replace(airplane.polar, drag_zero_lift=0.0, span_efficiency=math.inf, lift_max=1e9)
    small = 1j * STEP * np.eye(9)
    u, v, w, p, q, r = (row + small[i] for i, row in enumerate((41.0, 0.0, 0.0, 0.0, 0.0, 0.0)))
    motion = (u, v + moved_m * r, w - moved_m * q, p, q, r)
    loads = air_loads(polar, airplane.derivatives, ARRAY_MATH)(motion, 1.1, Controls(*small[6:], 0.0, 0.0))
    y, z, roll, pitch, yaw = (np.broadcast_to(load, 9).imag / STEP for load in loads[1:6])
    return np.array([y, z, roll, pitch - moved_m * z, yaw + moved_m * y])


def test_the_moved_airplane_has_the_forces_of_the_old_one_at_their_old_place(flying):
    moved, transferred = slopes(with_cg_moved(flying.airplane, AFT_M)), slopes(flying.airplane, AFT_M)
    assert moved == pytest.approx(transferred, rel=1e-9, abs=1e-9 * np.abs(transferred).max())
    assert np.abs(moved - slopes(flying.airplane))[3:].max() > 100.0, "and the moments are others than before"


def test_thrust_turns_the_airplane_about_the_new_centre(flying):
    airplane = flying.airplane
    tilt, arm = airplane.shaft_tilt_rad, airplane.thrust_arm_m
    assert abs(tilt) > 0.01
    about_new = arm * 1.0 + AFT_M * math.sin(tilt)
    assert with_cg_moved(airplane, AFT_M).thrust_arm_m == pytest.approx(about_new, rel=1e-14)


def test_to_and_fro_and_in_two_steps(flying):
    airplane = flying.airplane
    there = with_cg_moved(airplane, AFT_M)
    halves = with_cg_moved(with_cg_moved(airplane, 0.7 * AFT_M), 0.3 * AFT_M)
    for one, other in ((airplane, with_cg_moved(there, -AFT_M)), (there, halves)):
        assert astuple(one.derivatives) == pytest.approx(astuple(other.derivatives), rel=1e-12, abs=1e-15)
        assert one.thrust_arm_m == pytest.approx(other.thrust_arm_m, rel=1e-12)


def estimated(flying, airframe, aft_m):
    """Estimate with every arm that much shorter."""
    planes = tuple(replace(plane, arm_m=plane.arm_m - aft_m) for plane in airframe.wing.planes)
    tail, fin = (replace(part, arm_m=part.arm_m - aft_m) for part in (airframe.tailplane, airframe.fin))
    changed = replace(airframe, wing=replace(airframe.wing, planes=planes), tailplane=tail, fin=fin)
    return estimate(changed, flying.airplane.polar, lift=0.4)


STATIC = ("lift_alpha", "lift_elevator", "pitch_alpha", "pitch_elevator", "side_rudder", "yaw_rudder")


@pytest.mark.parametrize("path", [PARASOL, TRIPLANE], ids=["parasol", "triplane"])
def test_the_estimate_with_changed_arms_agrees_where_the_docstring_says_so(path):
    whole = model(path)
    flying, airframe = whole.airplane(), whole.airframe
    before, after = (estimated(flying, airframe, aft_m) for aft_m in (0.0, 0.08))
    start, there = (at_every_lift(one, 0.4) for one in (before, after))
    moved = about_moved_cg(start, flying.airplane.polar, 0.08)
    for name in STATIC:
        assert getattr(moved, name) == pytest.approx(getattr(there, name), rel=1e-9)
    assert abs(moved.pitch_alpha - start.pitch_alpha) > 0.1
    for name in ("pitch_0", "pitch_q", "pitch_alpha_dot", "yaw_beta", "yaw_p", "yaw_r", "side_r", "roll_r"):
        assert abs(getattr(moved, name) - getattr(there, name)) < 0.5 * before[name].band
