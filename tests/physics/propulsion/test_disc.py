"""A propeller that the air meets across: slopes of its closed form, kinematics, signs, and an older estimate."""

import cmath
import math
from dataclasses import replace

import numpy as np
import pytest
from biplane import BODY, DISC, PROPELLER, level_state, make
from scipy.integrate import quad

from sim.atmosphere import SEA_LEVEL_KG_M3
from sim.flight.cg_shift import with_cg_moved
from sim.flight.motion import Controls, motion
from sim.propulsion.disc import disc_loads
from sim.propulsion.engine_propeller import Engine, Propeller, shaft_loads
from sim.propulsion.propeller_slopes import propeller_slopes

DENSITY, TILT, SPIN = 1.1, 0.06, 118.0
CUT = Controls()
MOVING = (36.0, 2.0, 3.0, 0.3, -0.2, 0.25)
GEARED = replace(PROPELLER, ratio=-0.7)


@pytest.mark.parametrize("propeller", [PROPELLER, GEARED], ids=["direct", "geared"])
@pytest.mark.parametrize("rotation", [1.0, -1.0])
@pytest.mark.parametrize(("spin", "along"), [(118.0, 36.0), (140.0, 0.0), (60.0, 55.0), (-20.0, 15.0)])
def test_slopes_are_those_of_thrust_and_torque(propeller, rotation, spin, along):
    """The complex step is exact to rounding; a rad/s of the propeller is 1/ratio of the shaft."""
    engine = Engine(rotation)
    step = 1e-30
    turned = shaft_loads(engine, propeller, cmath)((rotation * spin + 1j * step, along), DENSITY, CUT)
    found = propeller_slopes(engine, propeller)((rotation * spin, along), DENSITY)
    assert found.thrust == pytest.approx(turned.thrust.imag / step / propeller.ratio, rel=1e-10)
    assert found.torque == pytest.approx(turned.propeller.imag / step / propeller.ratio, rel=1e-10)


def blades(moving, spin, count=360):
    """Return force and moment across the shaft as the mean over a turn of a blade at 0.7 R, by vectors."""
    engine = Engine()
    slope = propeller_slopes(engine, PROPELLER)
    velocity, turning = np.array(moving[:3]), np.array(moving[3:])
    shaft = np.array([math.cos(TILT), 0.0, -math.sin(TILT)])
    hub = np.array([DISC.arm_m, 0.0, -DISC.height_m])
    up, right = np.array([-shaft[2], 0.0, shaft[0]]), np.array([0.0, 1.0, 0.0])
    at_hub = velocity + np.cross(turning, hub)
    along = float(shaft @ velocity)
    force, moment = np.zeros(3), np.zeros(3)
    each = slope((spin, along), DENSITY)
    for angle in 2.0 * math.pi * np.arange(count) / count:
        radius_m = PROPELLER.station_m
        outward = math.cos(angle) * right + math.sin(angle) * up
        ahead = np.cross(shaft, outward)
        extra = float(ahead @ at_hub) / radius_m
        push = each.thrust * extra * shaft - each.torque * extra / radius_m * ahead
        force += push / count
        moment += np.cross(hub + radius_m * outward, push) / count
    return force, moment


def test_force_and_moment_are_the_mean_of_the_blades_over_a_turn():
    found = disc_loads(Engine(), PROPELLER, DISC, TILT)(MOVING, SPIN, DENSITY)
    force, moment = blades(MOVING, SPIN)
    assert (found.x, found.y, found.z) == pytest.approx(force, rel=1e-10, abs=1e-9)
    assert (found.roll, found.pitch, found.yaw) == pytest.approx(moment, rel=1e-9, abs=1e-9)


def test_a_clockwise_propeller_with_its_nose_up_pulls_the_nose_left_and_lifts_it():
    found = disc_loads(Engine(), PROPELLER, DISC, 0.0)((36.0, 0.0, 3.0, 0.0, 0.0, 0.0), SPIN, DENSITY)
    assert found.yaw < 0.0 < found.pitch
    assert found.z < 0.0
    other = disc_loads(Engine(-1.0), PROPELLER, DISC, 0.0)((36.0, 0.0, 3.0, 0.0, 0.0, 0.0), -SPIN, DENSITY)
    assert (other.yaw, other.pitch) == pytest.approx((-found.yaw, found.pitch), rel=1e-12)


def test_in_sideslip_it_is_a_fin_ahead():
    found = disc_loads(Engine(), PROPELLER, DISC, 0.0)((36.0, 3.0, 0.0, 0.0, 0.0, 0.0), SPIN, DENSITY)
    assert found.y < 0.0
    assert found.yaw == pytest.approx(DISC.arm_m * found.y, rel=1e-12)


@pytest.mark.parametrize(("speed", "spin"), [(30.0, 131.0), (36.0, 120.0), (42.0, 125.0)])
def test_the_force_is_near_that_of_the_side_the_blades_show(speed, spin):
    """Ribner, NACA TR 820, 1945 (from memory), for small thrust: blades of chord .08 D from a fifth of the radius out.

    ½ B c a ∫ V/√(V² + Ω²r²) dr with a slope of 5 per radian; known there to ±40 %.
    """
    slope = propeller_slopes(Engine(), PROPELLER)((spin, speed), DENSITY)
    ours_m2 = slope.torque / (PROPELLER.station_m**2 * DENSITY * speed)
    tip_m = 0.5 * PROPELLER.diameter_m
    shown_m = quad(lambda r: speed / math.hypot(speed, spin * r), 0.2 * tip_m, tip_m)[0]
    assert ours_m2 == pytest.approx(0.5 * 2 * 0.08 * PROPELLER.diameter_m * 5.0 * shown_m, rel=0.3)


def test_without_a_propeller_there_is_nothing():
    assert set(disc_loads(Engine(), Propeller(), DISC, TILT)(MOVING, SPIN, DENSITY)) == {0.0}


def test_what_it_does_hangs_on_the_spin_at_the_moment():
    """Cut and restored in a moment, the destabilising fin changes with the shaft: more spin, more of it."""
    slow, fast = (
        disc_loads(Engine(), PROPELLER, DISC, 0.0)((36.0, 2.0, 0.0, 0.0, 0.0, 0.0), spin, DENSITY).y
        for spin in (80.0, 125.0)
    )
    assert 1.1 < fast / slow < 2.0


def test_the_motion_is_accelerated_by_it_as_by_any_force_and_moment():
    prompt = {"pitch_alpha_dot": 0.0}
    plain, with_it = make(derivatives=prompt), make(derivatives=prompt, disc=DISC)
    state = [*level_state(speed_m_s=36.0)[:9], 3.0, 0.0, 0.0, 0.0, SPIN]
    before, after = (motion(airplane)(state, Controls()) for airplane in (plain, with_it))
    loads = disc_loads(plain.engine, PROPELLER, DISC, 0.0)(state[7:13], SPIN, SEA_LEVEL_KG_M3)
    assert after[9] - before[9] == pytest.approx(loads.z / BODY.mass_kg, rel=1e-9)
    assert after[11] - before[11] == pytest.approx(loads.pitch / BODY.inertia_pitch_kg_m2, rel=1e-9)


def test_a_centre_of_gravity_farther_aft_leaves_it_where_it_is():
    aft_m = 0.2
    moved = with_cg_moved(make(disc=DISC), aft_m)
    u, v, w, p, q, r = MOVING
    before = disc_loads(Engine(), PROPELLER, DISC, 0.0)(MOVING, SPIN, DENSITY)
    after = disc_loads(Engine(), PROPELLER, moved.disc, 0.0)((u, v - aft_m * r, w + aft_m * q, p, q, r), SPIN, DENSITY)
    assert (after.x, after.y, after.z) == pytest.approx((before.x, before.y, before.z), rel=1e-12)
    assert after.pitch == pytest.approx(before.pitch - aft_m * before.z, rel=1e-12)
    assert after.yaw == pytest.approx(before.yaw + aft_m * before.y, rel=1e-12)
