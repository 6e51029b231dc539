"""The slipstream: momentum, angular momentum, and what it does to wing, tail and fin that lie in it."""

import cmath
import math
from dataclasses import fields, replace

import numpy as np
import pytest
import sympy
from airplanes import BIPLANE, PARASOL, TRIPLANE
from biplane import DISC, POLAR, SLIPSTREAM, level_state, make
from scipy.integrate import quad
from scipy.optimize import brentq

from sim.aerodynamics.forces import Derivatives, air_loads
from sim.aerodynamics.slipstream import Drive, Slipstream, slipstream_loads, swirl, tube
from sim.atmosphere import air
from sim.flight.cg_shift import with_cg_moved
from sim.flight.motion import Controls, motion
from sim.model.model import model
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.disc import Disc
from sim.propulsion.engine_propeller import Engine, Propeller, shaft_loads
from sim.propulsion.thrust import full_spin_rad_s

DENSITY = 1.1
AIR = DENSITY * SLIPSTREAM.disc_m2
MOVING = (36.0, 2.0, 3.0, 0.3, -0.2, 0.25)
CONTROLS = Controls(-0.07, 0.04, 0.09, 0.8)
DRIVE = Drive(1500.0, 600.0, 150.0)
RADIUS = math.sqrt(SLIPSTREAM.disc_m2 / math.pi)


def loads(moving=MOVING, controls=CONTROLS, drive=DRIVE, **changes):
    return slipstream_loads(replace(SLIPSTREAM, **changes))(moving, DENSITY, controls, drive)


@pytest.mark.parametrize("speed", [5.0, 36.0])
@pytest.mark.parametrize("thrust", [200.0, 2500.0])
def test_momentum_and_energy_of_the_tube_are_thrust_and_its_power(speed, thrust):
    """The smoothing that a windmill needs costs .25 % of the pressure at most."""
    found = tube(speed, thrust, AIR, math.sqrt)
    mass_flow = AIR * found.through
    assert mass_flow * found.gain == pytest.approx(thrust, rel=2.5e-3)
    assert 0.5 * mass_flow * found.gain_square == pytest.approx(thrust * found.through, rel=2.5e-3)
    assert 0.5 * DENSITY * found.gain_square == pytest.approx(thrust / SLIPSTREAM.disc_m2, rel=2.5e-3)


def test_without_thrust_and_torque_nothing_is_added():
    assert set(loads(drive=DRIVE._replace(thrust=0.0, torque=0.0))) == {0.0}
    still = (0.0,) * 6
    assert set(loads(still, drive=Drive(0.0, 0.0, 0.0))) == {0.0}


@pytest.mark.parametrize("share", [-0.5, -1.0, -3.0, -30.0])
def test_behind_a_windmill_the_air_slows_down_and_never_turns_back(share):
    speed = 30.0
    found = tube(speed, share * 0.5 * AIR * speed**2, AIR, math.sqrt)
    assert -speed < found.gain < 0.0 < found.through
    at_rest = tube(1e-3, -500.0, AIR, math.sqrt)
    assert at_rest.through > 0.0


def test_the_gain_is_smooth_where_the_thrust_changes_sign():
    def slope(thrust):
        return tube(30.0, thrust + 1e-30j, AIR, cmath.sqrt).gain.imag / 1e-30

    assert slope(-1e-3) == pytest.approx(slope(1e-3), rel=1e-6)
    assert slope(0.0) == pytest.approx(1.0 / (AIR * 30.0), rel=1e-12), "T = ρ A V times the gain"


@pytest.mark.parametrize("speed", [0.001, 12.0, 36.0])
@pytest.mark.parametrize("torque", [-300.0, 700.0])
def test_the_swirl_of_the_tube_carries_the_torque(speed, torque):
    """Moment of momentum through the contracted tube, integrated over its section."""
    behind = tube(speed, 1800.0, AIR, math.sqrt)
    around = swirl(speed, behind, torque, SLIPSTREAM.disc_m2)(math, AIR)
    far = speed + behind.gain
    edge_m = RADIUS * math.sqrt(behind.through / far)
    carried = quad(lambda r: DENSITY * around * r * far * 2.0 * math.pi * r, 0.0, edge_m)[0]
    assert carried == pytest.approx(torque, rel=1e-3)


def test_the_moments_about_the_shaft_of_engine_wing_and_fin_leave_what_the_air_carries_away():
    """Nothing else turns it: torque on the propeller is what wing, fin and air behind them take."""
    straight, centred = (36.0, 0.0, 0.0, 0.0, 0.0, 0.0), Controls()
    found = loads(straight, centred, DRIVE)
    fin_alone = loads(straight, centred, DRIVE, recovered_share=0.0)
    wing = SLIPSTREAM.recovered_share * DRIVE.torque
    fin = SLIPSTREAM.fin_height_m * found.y
    assert found.roll == pytest.approx(wing + fin, rel=1e-12)
    behind = tube(36.0, DRIVE.thrust, AIR, math.sqrt)
    around = swirl(36.0, behind, DRIVE.torque - wing, SLIPSTREAM.disc_m2)(math, AIR)
    arriving = AIR * behind.through * around * RADIUS * math.sqrt(behind.through / (36.0 + behind.gain)) * 2.0 / 3.0
    left = arriving - fin
    assert wing + fin + left == pytest.approx(DRIVE.torque, rel=1e-3)
    assert 0.0 < fin < 0.5 * arriving, "the fin straightens a part of what arrives"
    assert fin_alone.y == pytest.approx(found.y / (1.0 - SLIPSTREAM.recovered_share), rel=1e-3)


def test_a_clockwise_propeller_pushes_a_fin_above_the_shaft_to_the_right_and_the_nose_to_the_left():
    found = loads((36.0, 0.0, 0.0, 0.0, 0.0, 0.0), Controls())
    assert found.y > 0.0 > found.yaw
    below = loads((36.0, 0.0, 0.0, 0.0, 0.0, 0.0), Controls(), fin_above_share=-0.3)
    assert below.y < 0.0 < below.yaw


def test_forces_of_angles_grow_with_the_speed_and_those_of_controls_with_its_square():
    """A fin wholly in the tube has Y = −½ρ V_s v a: an isolated surface of that slope in a stream of that speed."""
    speed = math.sqrt(sum(x * x for x in MOVING[:3]))
    far = speed + tube(speed, DRIVE.thrust, AIR, math.sqrt).gain
    whole = {"fin_share": 1.0, "fin_above_share": 0.0, "recovered_share": 0.0}
    slipping = loads((*MOVING[:3], 0.0, 0.0, 0.0), Controls(), **whole).y
    assert slipping == pytest.approx(-0.5 * DENSITY * SLIPSTREAM.fin_angle_m2 * MOVING[1] * (far - speed), rel=1e-6)
    steered = loads((*MOVING[:3], 0.0, 0.0, 0.0), Controls(rudder_rad=0.1), **whole).y - slipping
    assert steered == pytest.approx(0.5 * DENSITY * SLIPSTREAM.rudder_m2 * 0.1 * (far**2 - speed**2), rel=1e-6)


@pytest.mark.parametrize("controls", [Controls(elevator_rad=0.2), Controls(rudder_rad=-0.2)])
def test_at_rest_elevator_and_rudder_work_with_thrust_alone(controls):
    still, drive = (0.0,) * 6, Drive(2200.0, 0.0, 0.0)
    moved, centred = loads(still, controls, drive), loads(still, Controls(), drive)
    pressure = drive.thrust / SLIPSTREAM.disc_m2
    pitch = -pressure * SLIPSTREAM.tail_share * SLIPSTREAM.elevator_m2 * SLIPSTREAM.tail_arm_m * controls.elevator_rad
    yaw = -pressure * SLIPSTREAM.fin_share * SLIPSTREAM.rudder_m2 * SLIPSTREAM.fin_arm_m * controls.rudder_rad
    assert moved.pitch - centred.pitch == pytest.approx(pitch, rel=4e-3, abs=1e-9)
    assert moved.yaw - centred.yaw == pytest.approx(yaw, rel=4e-3, abs=1e-9)


def test_the_immersed_parts_are_those_of_the_derivatives_without_slipstream():
    """Tailplane and fin make all of elevator and rudder, most of the damping, and less of the angles by downwash."""
    flying = model(BIPLANE).airplane("flat_four").airplane
    d, p, slip = flying.derivatives, flying.polar, flying.slipstream
    per = slip.tail_arm_m / (p.area_m2 * p.chord_m)
    assert slip.elevator_m2 * per == pytest.approx(-d.pitch_elevator, rel=0.02)
    assert slip.tail_rate_m2 * per * 2.0 * slip.tail_arm_m / p.chord_m == pytest.approx(-d.pitch_q, rel=0.25)
    assert 0.3 < slip.tail_angle_m2 / slip.tail_rate_m2 < 0.8
    per = slip.fin_arm_m / (p.area_m2 * p.span_m)
    assert slip.rudder_m2 * per == pytest.approx(-d.yaw_rudder, rel=0.02)
    assert slip.fin_rate_m2 * per * 2.0 * slip.fin_arm_m / p.span_m == pytest.approx(-d.yaw_r, rel=0.35)


def test_given_derivatives_change_the_immersed_parts_in_their_proportion():
    plain, given = (
        model(BIPLANE, settings).airplane("rotary").airplane
        for settings in ((), ("derivatives.pitch_elevator=-1.6", "derivatives.yaw_rudder=-0.02"))
    )
    for name, derivative in (("elevator_m2", "pitch_elevator"), ("rudder_m2", "yaw_rudder")):
        scale = getattr(given.derivatives, derivative) / getattr(plain.derivatives, derivative)
        assert abs(scale - 1.0) > 0.2
        assert getattr(given.slipstream, name) == pytest.approx(scale * getattr(plain.slipstream, name), rel=0.02)


def test_more_lift_of_the_inner_wing_acts_along_the_lift_there_is():
    power_off = air_loads(POLAR, Derivatives(lift_alpha=4.1))(MOVING, DENSITY, Controls())
    found = loads(
        controls=Controls(), drive=Drive(1500.0, 0.0, power_off.lift_per_speed), tail_share=0.0, fin_share=0.0
    )
    dragless = air_loads(replace(POLAR, drag_zero_lift=0.0, span_efficiency=math.inf), Derivatives(lift_alpha=4.1))
    lift = dragless(MOVING, DENSITY, Controls())
    speed = math.sqrt(sum(x * x for x in MOVING[:3]))
    growth = SLIPSTREAM.wing_share * tube(speed, 1500.0, AIR, math.sqrt).gain / speed
    assert (found.x, found.z) == pytest.approx((growth * lift.x, growth * lift.z), rel=1e-6)
    assert found.pitch == pytest.approx(SLIPSTREAM.wing_arm_m * found.z, rel=1e-12)


def test_the_mirrored_airplane_has_the_mirrored_slipstream():
    u, v, w, p, q, r = MOVING
    elevator, aileron, rudder, throttle, _ = CONTROLS
    here = loads()
    there = loads(
        (u, -v, w, -p, q, -r),
        Controls(elevator, -aileron, -rudder, throttle),
        DRIVE._replace(torque=-DRIVE.torque),
    )
    assert there == pytest.approx([one * sense for one, sense in zip(here, (1, -1, 1, -1, 1, -1), strict=True)])


def test_arrays_symbols_and_complex_numbers_take_the_same_path():
    plain = loads()
    row = slipstream_loads(SLIPSTREAM, ARRAY_MATH)(np.array([MOVING] * 2).T, DENSITY, CONTROLS, DRIVE)
    for one, both in zip(plain, row, strict=True):
        assert both == pytest.approx([one, one], rel=1e-13)
    names = sympy.symbols("u v w p q r")
    symbols = slipstream_loads(SLIPSTREAM, sympy)(names, DENSITY, CONTROLS, DRIVE)
    values = [float(one.subs(dict(zip(names, MOVING, strict=True)))) for one in symbols]
    assert values == pytest.approx(plain, rel=1e-9)
    turned = slipstream_loads(SLIPSTREAM, cmath)(MOVING, DENSITY, CONTROLS, DRIVE)
    assert [one.real for one in map(complex, turned)] == pytest.approx(plain, rel=1e-13)


def test_the_motion_without_thrust_and_torque_is_the_one_without_a_slipstream():
    unpowered = make(engine=Engine(), propeller=Propeller())
    inside = replace(unpowered, slipstream=SLIPSTREAM, disc=DISC)
    state = [*level_state(speed_m_s=38.0, altitude_m=300.0)[:7], 38.0, 2.0, 3.0, 0.2, -0.1, 0.3, 120.0]
    assert motion(inside)(state, CONTROLS) == motion(unpowered)(state, CONTROLS)


def test_without_air_nothing_divides_by_nothing():
    free = make(slipstream=SLIPSTREAM, disc=DISC, sea_level_density_kg_m3=0.0)
    plain = replace(free, slipstream=Slipstream(), disc=Disc())
    state = level_state(speed_m_s=38.0, spin_rad_s=120.0)
    assert motion(free)(state, CONTROLS) == motion(plain)(state, CONTROLS)


def test_a_centre_of_gravity_farther_aft_leaves_every_force_where_it_acts():
    """Surfaces without downwash and sidewash feel their own velocity alone; moments are then about the new point."""
    aft_m = 0.21
    plain = replace(SLIPSTREAM, tail_angle_m2=SLIPSTREAM.tail_rate_m2, fin_angle_m2=SLIPSTREAM.fin_rate_m2)
    moved = with_cg_moved(make(slipstream=plain), aft_m).slipstream
    u, v, w, p, q, r = 36.0, 0.02, 0.03, 0.003, -0.02, 0.025
    before = slipstream_loads(plain)((u, v, w, p, q, r), DENSITY, CONTROLS, DRIVE)
    after = slipstream_loads(moved)((u, v - aft_m * r, w + aft_m * q, p, q, r), DENSITY, CONTROLS, DRIVE)
    assert (after.y, after.z) == pytest.approx((before.y, before.z), rel=1e-6)
    assert after.roll == pytest.approx(before.roll, rel=1e-6)
    assert after.pitch == pytest.approx(before.pitch - aft_m * before.z, rel=1e-6)
    assert after.yaw == pytest.approx(before.yaw + aft_m * before.y, rel=1e-6)


CASES = [(path, name) for path in ("tollgate", BIPLANE, TRIPLANE, PARASOL) for name in model(path).powerplants]


def ratio(flying, speed_m_s, thrust):
    density = air(flying.altitude_m).density_kg_m3
    found = tube(speed_m_s, thrust, density * flying.airplane.slipstream.disc_m2, math.sqrt)
    return 1.0 + found.gain_square / speed_m_s**2


@pytest.mark.parametrize(("path", "name"), CASES)
def test_the_pressure_at_the_tail_is_up_to_twice_that_of_flight_in_cruise_and_2_to_5_5_times_slow(path, name):
    """1.2 to 1.5 in cruise and 3 to 5.5 slow at full power is common practice; a large slow disc has less."""
    flying = model(path).airplane(name)
    airplane, density = flying.airplane, air(flying.altitude_m).density_kg_m3
    weight = airplane.body.mass_kg * airplane.gravity_m_s2
    cruise = ratio(flying, flying.speed_m_s, airplane.polar.drag_n(weight, density, flying.speed_m_s))
    slow = 1.1 * airplane.polar.stall_m_s(weight, density)
    spin = full_spin_rad_s(
        airplane.engine,
        airplane.propeller,
        speed_m_s=slow,
        density_kg_m3=density,
        most_rad_s=flying.powerplant.full_speed_rad_s,
    )
    full = Controls(throttle=1.0)
    thrust = shaft_loads(airplane.engine, airplane.propeller)((airplane.engine.rotation * spin, slow), density, full)
    assert 1.15 < cruise < 1.65
    assert 2.0 < ratio(flying, slow, thrust.thrust) < 5.5


def test_parts_in_the_tube_are_parts():
    for path, name in CASES:
        slip = model(path).airplane(name).airplane.slipstream
        for part in ("wing_share", "tail_share", "fin_share", "recovered_share"):
            assert 0.0 < getattr(slip, part) <= 1.0
        assert abs(slip.fin_above_share) <= slip.fin_share + 0.05
        assert {one.name for one in fields(slip) if getattr(slip, one.name) == 0.0} <= {"tail_setting_m2"}


def test_a_propeller_behind_everything_leaves_it_alone():
    behind = model(BIPLANE, ["powerplant.flat_four.propeller.arm=-60 ft"]).airplane("flat_four").airplane.slipstream
    assert max(behind.wing_share, behind.tail_share, behind.fin_share, abs(behind.fin_above_share)) < 2e-3
    assert behind.recovered_share == 0.0


@pytest.mark.parametrize("below_m", [0.0, 0.5, 1.2])
def test_a_tailplane_off_the_middle_of_the_tube_has_less_of_its_span_in_it(below_m):
    """The chord of a circle, found by its equation."""
    height = model(BIPLANE, [f"tailplane.height={below_m} m"]).airplane("flat_four").airplane
    level = model(BIPLANE, [f"tailplane.height={height.disc.height_m} m"]).airplane("flat_four").airplane
    span_m = model(BIPLANE).airframe.tailplane.span_m
    edge = 0.5 * level.slipstream.tail_share * span_m
    off = abs(below_m - height.disc.height_m)
    half = brentq(lambda y: y * y + off * off - edge * edge, 0.0, edge) if off < edge else 0.0
    assert height.slipstream.tail_share * span_m == pytest.approx(2.0 * half, rel=0.02, abs=1e-9)
