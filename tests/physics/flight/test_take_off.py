"""Runs on wheels: statics of the gear, closed forms of a run, energy in the air, the swing as the tail comes up."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

from sim.flight.crosswind import held, swing
from sim.flight.motion import Airplane, Body, Controls
from sim.flight.on_wheels import Field, Gear, OnWheels, Rolling
from sim.flight.take_off import accelerated, over_obstacle_m, raised

GEAR = Gear(ahead_m=0.31, below_m=1.37, tail_m=4.03, radius_m=0.29, tail_down_rad=math.radians(13.0), track_m=1.62)
GRASS = Field(friction=0.06, tail_friction=0.4, altitude_m=350.0, wing_above_m=1.9)


def still(airplane):
    return OnWheels(airplane, GEAR, GRASS, lambda speed_m_s: 0.0)


@pytest.mark.parametrize("pitch_deg", [0.0, 6.0, 13.0])
def test_the_gear_turns_about_the_axle_and_its_contact_stays_below_it(pitch_deg):
    """Axle and tail as points of the airplane, turned by a matrix."""
    pitch = math.radians(pitch_deg)
    turn = np.array([[math.cos(pitch), math.sin(pitch)], [-math.sin(pitch), math.cos(pitch)]])  # forward, down
    forward, down = turn @ [GEAR.ahead_m, GEAR.below_m - GEAR.radius_m]
    ahead, below, _ = GEAR.at(pitch)
    assert (ahead, below) == pytest.approx((forward, down + GEAR.radius_m), abs=1e-12)


def test_at_rest_the_wheels_carry_the_weight_by_the_lever_law():
    airplane = Airplane(Body(612.0, 700.0, 1000.0, 1500.0), sea_level_density_kg_m3=0.0)
    now = still(airplane).rolling(0.0, GEAR.tail_down_rad, Controls())
    ahead, below, behind = GEAR.at(GEAR.tail_down_rad)
    assert now.load_n == pytest.approx(612.0 * 9.80665)
    main = now.load_n - now.tail_load_n  # moments about the centre of gravity, friction as it rolls
    assert now.pull_n == pytest.approx(-0.06 * main - 0.4 * now.tail_load_n)
    assert main * ahead == pytest.approx(now.tail_load_n * behind + below * (0.06 * main + 0.4 * now.tail_load_n))


def pulls(force):
    """Return what acts as a run takes it, of a force along the ground alone."""
    return Rolling(force, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize(("drag", "wind"), [(0.0, 0.0), (0.9, 0.0), (0.9, 4.0)])
def test_a_run_under_constant_force_and_square_drag_is_the_closed_form(drag, wind):
    force, mass, last = 1800.0, 620.0, 21.0
    run = accelerated(
        lambda speed: pulls(force - drag * speed**2),
        mass_kg=mass,
        from_m_s=np.array([wind]),
        to_m_s=np.array([last]),
        headwind_m_s=wind,
    )
    if drag:
        top = math.sqrt(force / drag)
        time = 0.5 * mass / (drag * top) * math.log((top + last) * (top - wind) / ((top - last) * (top + wind)))
        through = 0.5 * mass / drag * math.log((force - drag * wind**2) / (force - drag * last**2))
    else:
        time, through = mass * last / force, 0.5 * mass * last**2 / force
    assert run.time_s[0] == pytest.approx(time, rel=1e-6)
    assert run.distance_m[0] == pytest.approx(through - wind * time, rel=1e-6)


def test_runs_of_many_are_those_of_each_and_one_that_sticks_says_where():
    forces = np.array([900.0, 500.0, 300.0])
    run = accelerated(
        lambda speed: pulls(forces - 1.0 * speed**2),
        mass_kg=600.0,
        from_m_s=np.full(3, 0.1),
        to_m_s=np.full(3, 20.1),
        headwind_m_s=0.0,
    )
    assert np.isnan(run.distance_m).tolist() == [False, False, True]
    assert np.isnan(run.stuck_m_s).tolist() == [True, True, False]
    assert run.stuck_m_s[2] == pytest.approx(math.sqrt(300.0), abs=20.0 / 60.0)
    alone = accelerated(
        lambda speed: pulls(500.0 - 1.0 * speed**2),
        mass_kg=600.0,
        from_m_s=np.array([0.1]),
        to_m_s=np.array([20.1]),
        headwind_m_s=0.0,
    )
    assert run.distance_m[1] == pytest.approx(alone.distance_m[0], rel=1e-12)


def test_a_run_that_slows_down_is_the_closed_form():
    slowing = (0.05 * 5100.0 + 0.4 * 900.0) / 612.0
    run = accelerated(
        lambda speed: pulls(0.0 * speed - slowing * 612.0),
        mass_kg=612.0,
        from_m_s=np.array([19.0]),
        to_m_s=np.array([0.1]),
        headwind_m_s=0.0,
    )
    assert run.distance_m[0] == pytest.approx((19.0**2 - 0.1**2) / (2.0 * slowing), rel=1e-9)


def test_energy_over_an_obstacle():
    assert over_obstacle_m(
        height_m=15.24, from_m_s=20.0, to_m_s=23.0, gradients=(0.14, 0.10), gravity_m_s2=9.8
    ) == pytest.approx((15.24 + (23.0**2 - 20.0**2) / 19.6) / 0.12)


def test_the_tail_coming_up_under_a_constant_force_and_under_one_that_grows_with_the_attitude():
    def rises(rolling, to_m_s=99.0):
        return raised(
            rolling,
            mass_kg=600.0,
            from_m_s=np.array([12.0]),
            to_m_s=np.array([to_m_s]),
            headwind_m_s=3.0,
            gear=GEAR,
            raising_s=2.0,
        )

    even = rises(lambda speed, pitch: pulls(900.0 + 0.0 * speed))
    assert even.speeds_m_s[-1, 0] == pytest.approx(15.0)
    assert even.distance_m[0] == pytest.approx(12.0 * 2.0 + 3.0 - 6.0)
    growing = rises(lambda speed, pitch: pulls(600.0 * (1.0 + pitch / GEAR.tail_down_rad) + 0.0 * speed))
    assert growing.speeds_m_s[-1, 0] == pytest.approx(12.0 + 3.0)  # 1 + the mean of 1 to 0, for 2 s
    dragged = rises(lambda speed, pitch: pulls(900.0 - 60.0 * speed))
    assert dragged.speeds_m_s[-1, 0] == pytest.approx(15.0 - 3.0 * math.exp(-0.2), rel=1e-9)
    cut = rises(lambda speed, pitch: pulls(900.0 + 0.0 * speed), to_m_s=13.2)
    assert (cut.speeds_m_s[-1, 0], cut.time_s[0]) == pytest.approx((13.2, 0.8))
    assert cut.distance_m[0] == pytest.approx(0.8 * 12.6 - 2.4)


def on(path, name, *, spin=None):
    """Return wheels under a frozen airplane with one of its engines, at full throttle."""
    flying = built(path).airplane(name)
    engine = flying.airplane.engine
    turning = engine.rotation * flying.powerplant.full_speed_rad_s if spin is None else spin
    return flying, OnWheels(flying.airplane, GEAR, GRASS, lambda speed_m_s: turning)


@pytest.mark.parametrize(("path", "name"), [(BIPLANE, "rotary"), (TRIPLANE, "rotary"), (PARASOL, "rotary")])
def test_the_tail_coming_up_adds_the_gyroscopic_moment_of_all_that_turns(path, name):
    """Its momentum times the rate, about the vertical; what disc and fin make of the rate is a small part of it."""
    flying, wheels = on(path, name)
    plane, rate = flying.airplane, -0.11
    still, rising = (
        wheels.rolling(12.0, 0.1, Controls(throttle=1.0), pitching_rad_s=pitching).swing_n_m for pitching in (0.0, rate)
    )
    spin = plane.engine.rotation * flying.powerplant.full_speed_rad_s
    momentum = sum(rotor.polar_inertia_kg_m2 * rotor.ratio for rotor in plane.rotors) * spin
    assert rising - still == pytest.approx(momentum * rate * math.cos(0.1), rel=0.06)


def test_the_swing_is_to_the_left_with_a_clockwise_rotary_and_less_the_slower_the_tail_comes_up():
    flying, wheels = on(BIPLANE, "rotary")
    quick, slow = (swing(wheels, GEAR, flying.travel, 12.0, raising_s=time) for time in (1.0, 2.0))
    assert quick.raising_share < slow.raising_share < quick.rudder_share < 0.0  # right rudder
    ratio = (quick.raising_share - quick.rudder_share) / (slow.raising_share - slow.rudder_share)
    assert ratio == pytest.approx(2.0, rel=1e-6)


def test_a_rotor_that_turns_the_other_way_mirrors_the_swing():
    """Disc, slipstream and rotor change sides with the rotation; the airplane is its own mirror."""
    flying, wheels = on(BIPLANE, "rotary")
    plane = flying.airplane
    mirrored = replace(
        plane,
        engine=replace(plane.engine, rotation=-plane.engine.rotation),
        disc=plane.disc,
        slipstream=plane.slipstream,
    )
    turned = OnWheels(mirrored, GEAR, GRASS, lambda speed_m_s: -flying.powerplant.full_speed_rad_s)
    one, other = (swing(each, GEAR, flying.travel, 12.0, raising_s=2.0) for each in (wheels, turned))
    assert other.rudder_share == pytest.approx(-one.rudder_share, rel=1e-9)
    assert other.raising_share == pytest.approx(-one.raising_share, rel=1e-9)


def test_the_ground_takes_induced_drag_and_nothing_far_above_it():
    flying, _ = on(BIPLANE, "rotary")
    pulls = [
        OnWheels(flying.airplane, GEAR, replace(GRASS, wing_above_m=above), lambda speed: 0.0)
        .rolling(17.0, 0.15, Controls())
        .pull_n
        for above in (1.5, 3.0, 1e4)
    ]
    assert pulls[0] > pulls[1] > pulls[2]
    polar = flying.airplane.polar
    assert pulls[0] - pulls[2] < 0.5 * 1.19 * 17.0**2 * polar.area_m2 * polar.induced * polar.lift_max**2


def test_what_pushes_the_airplane_aside_is_held_by_the_wheels_that_stand_ahead_of_the_centre_of_gravity():
    """Moments about the contact of the wheels, of force and moments that the equations of motion give."""
    from sim.flight.motion import motion
    from sim.flight.shaft_inertia import free_shaft_inertias_kg_m2
    from sim.numerics.number import ARRAY_MATH

    flying, _ = on(BIPLANE, "rotary", spin=0.0)
    wheels = OnWheels(flying.airplane, GEAR, replace(GRASS, friction=0.0), lambda speed: 0.0)
    controls = Controls(rudder_rad=0.2, aileron_rad=0.1)
    now = wheels.rolling(17.0, 0.0, controls, across_m_s=3.0)
    state = (0.0, 0.0, -350.0, 1.0, 0.0, 0.0, 0.0, 17.0, 3.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    rates = motion(flying.airplane, ARRAY_MATH)(state, controls)
    xx, xz, zz = free_shaft_inertias_kg_m2(flying.airplane)
    aside = flying.airplane.body.mass_kg * rates[8]
    assert aside < -30.0  # wind from the right
    assert now.swing_n_m == pytest.approx(xz * rates[10] + zz * rates[12] - GEAR.ahead_m * aside)
    assert now.tilt_n_m == pytest.approx(xx * rates[10] + xz * rates[12] + GEAR.below_m * aside)


def test_the_wheel_that_torque_loads_drags_the_nose_to_its_side_and_no_more_than_all_its_load():
    flying, _ = on(BIPLANE, "rotary", spin=0.0)
    swings = [
        OnWheels(flying.airplane, GEAR, replace(GRASS, friction=rough), lambda speed: 0.0).rolling(
            12.0, 0.0, Controls(aileron_rad=aileron)
        )
        for rough in (0.0, 0.05)
        for aileron in (0.0, 0.1)
    ]
    even, rolled, rough_even, rough_rolled = swings
    assert rolled.tilt_n_m < 0.0  # left wing down
    change = (rough_rolled.swing_n_m - rolled.swing_n_m) - (rough_even.swing_n_m - even.swing_n_m)
    assert change == pytest.approx(0.05 * (rolled.tilt_n_m - even.tilt_n_m), rel=1e-9)
    assert abs(rolled.tilt_n_m) < rolled.held_n_m


def test_brakes_slow_as_much_as_the_tail_allows():
    """At rest: the tail is about to come up where friction times height is the wheels' distance ahead."""
    airplane = Airplane(Body(612.0, 700.0, 1000.0, 1500.0), sea_level_density_kg_m3=0.0)
    ahead, below, _ = GEAR.at(0.0)
    for friction in (0.1, 0.9):
        ground = replace(GRASS, friction=friction, braked=True)
        now = OnWheels(airplane, GEAR, ground, lambda speed: 0.0).rolling(0.0, 0.0, Controls())
        allowed = min(friction, ahead / below)
        assert now.tail_load_n >= -1e-6
        if friction > ahead / below:
            assert now.tail_load_n == pytest.approx(0.0, abs=1e-6)
            assert now.pull_n == pytest.approx(-allowed * 612.0 * 9.80665)


@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_with_the_wind_that_is_held_full_rudder_leaves_no_moment_and_with_more_the_nose_turns_into_it(side):
    flying, wheels = on(BIPLANE, "rotary")
    speeds, pitches = np.array([[12.0], [17.0]]), np.array([[0.2], [0.0]])
    rates = np.array([[-0.11], [0.0]])
    found = held(wheels, flying.travel, speeds, pitches, pitching_rad_s=rates, throttle=1.0, side=side)
    controls = Controls(rudder_rad=side * flying.travel.rudder_rad, throttle=1.0)
    for more, sign in ((0.0, 0.0), (0.5, 1.0)):
        left = wheels.rolling(
            speeds, pitches, controls, pitching_rad_s=rates, across_m_s=side * (found.rudder_m_s + more)
        ).swing_n_m
        assert np.sign(np.round(side * left, 3)).ravel().tolist() == [sign, sign]
    rolled = wheels.rolling(
        speeds,
        pitches,
        controls._replace(aileron_rad=-side * flying.travel.aileron_rad),
        pitching_rad_s=rates,
        across_m_s=side * found.ailerons_m_s,
    )
    assert (-side * rolled.tilt_n_m).ravel().tolist() == pytest.approx(rolled.held_n_m.ravel().tolist(), rel=1e-6)


def test_a_clockwise_rotary_holds_less_wind_from_the_left_while_its_tail_comes_up_and_mirrored_from_the_right():
    flying, wheels = on(BIPLANE, "rotary")
    plane = flying.airplane
    mirrored = replace(plane, engine=replace(plane.engine, rotation=-plane.engine.rotation))
    turned = OnWheels(mirrored, GEAR, GRASS, lambda speed_m_s: -flying.powerplant.full_speed_rad_s)
    at = {"pitching_rad_s": np.full((1, 1), -0.11), "throttle": 1.0}
    where = flying.travel, np.full((1, 1), 12.0), np.full((1, 1), 0.1)
    left, right = (held(wheels, *where, side=side, **at).rudder_m_s[0, 0] for side in (-1.0, 1.0))
    assert left < 0.8 * right
    other = [held(turned, *where, side=side, **at).rudder_m_s[0, 0] for side in (1.0, -1.0)]
    assert other == pytest.approx([left, right], rel=1e-7)
