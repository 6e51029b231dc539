"""What the assembly's checks print of hand, shaft, bearing, lever and stand, computed again another way."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from displays import BASE_M, VARIANTS

from sim.display.assembly.build import assemble
from sim.display.assembly.fit_checks import fit_checks
from sim.display.assembly.lever_force import HOLD_SAFETY, lever_force, plate_torque
from sim.display.assembly.plan import Plan
from sim.display.assembly.shaft import LEAST_TURNS, MODULUS_PA, overhung, rating_life, tipping_pull
from sim.display.checks import check
from sim.display.schedule import lift_fraction, schedule_of
from sim.display.search import FoundCam
from sim.display.spring import choose

STANDARD_GRAVITY = 9.80665


@cache
def planned(name, *, force=1.0):
    """Return assembly and plan of a variant, its spring so many times as strong."""
    display = VARIANTS[name]
    needs = display.spring
    needs = replace(needs, preload_n=force * needs.preload_n, rate_n_per_m=force * needs.rate_n_per_m)
    display = replace(display, spring=needs)
    spring = choose(needs)
    found = FoundCam("cycloidal", 0.65 * display.cam_ratio, BASE_M.get(name, 0.028), passes=True, binding=(), tried=1)
    return assemble(display, found, spring), Plan(display, found, spring)


@cache
def judged(name, **changed):
    assembly, plan = planned(name, **changed)
    return {each.name: each for each in map(check, fit_checks(assembly, plan, (), ()))}


def bent(diameter_m, force_n, span_m, arm_m, pieces=4000):
    """Return deflection at the force, largest stress and load on the nearer bearing, of summed curvatures.

    The moment grows from nothing at the farther bearing to F a at the nearer one, and falls to nothing at the force;
    the slope at the farther bearing is that which brings the nearer one to no deflection.
    """
    x = np.linspace(0.0, span_m + arm_m, pieces + 1)
    far_n = -force_n * arm_m / span_m
    moment = far_n * x + np.where(x > span_m, force_n * (span_m + arm_m) / span_m * (x - span_m), 0.0)
    step = x[1]
    slope = np.concatenate(([0.0], np.cumsum((moment[1:] + moment[:-1]) / 2.0 * step)))
    fall = np.concatenate(([0.0], np.cumsum((slope[1:] + slope[:-1]) / 2.0 * step)))
    down = fall - x * np.interp(span_m, x, fall) / span_m
    section = math.pi * (diameter_m / 2.0) ** 4 / 4.0
    stress = np.max(np.abs(moment)) * diameter_m / 2.0 / section
    return abs(down[-1]) / (MODULUS_PA * section), stress, force_n - far_n


@pytest.mark.parametrize(("span_m", "arm_m"), [(0.060, 0.090), (0.110, 0.035)])
def test_a_shaft_bends_as_its_summed_curvatures_say(span_m, arm_m):
    made = overhung(0.012, force_n=170.0, span_m=span_m, arm_m=arm_m)
    deflection, stress, load = bent(0.012, 170.0, span_m, arm_m)
    assert made.deflection_m == pytest.approx(deflection, rel=1e-5)
    assert made.bent_pa == pytest.approx(stress, rel=1e-3)
    assert made.reaction_n == pytest.approx(load)


@pytest.mark.parametrize("name", VARIANTS)
def test_life_and_static_safety_are_of_one_load(name):
    """Rated life is that of the load which the static safety divides."""
    found, (_, plan) = judged(name), planned(name)
    load_n = plan.shaft.static_n / found["static safety of the bearing"].value
    million = found["rating life of the bearing over that asked"].value * LEAST_TURNS / 1e6
    assert load_n * million ** (1.0 / 3.0) == pytest.approx(plan.shaft.dynamic_n)


def test_a_bearing_at_its_rating_lasts_a_million_turns_and_an_eighth_of_it_at_twice():
    assert rating_life(940.0, 940.0) == 1e6
    assert rating_life(940.0, 1880.0) == 1.25e5


def spring_energy(plan, lift_m):
    """Return the energy of the spring at a lift of the roller, from its own compression at the roller. [J]."""
    at_roller = plan.display.spring_ratio
    first = plan.spring.preload_n / plan.spring.rate_n_per_m
    return plan.spring.rate_n_per_m * (first + at_roller * lift_m) ** 2 / 2.0


@pytest.mark.parametrize("name", VARIANTS)
def test_the_lead_plate_is_turned_by_the_energy_of_the_spring(name):
    """Turning the plate on a cam at rest works the spring: the torque is the slope of its energy over the angle."""
    _, plan = planned(name)
    schedule, step = schedule_of(plan.display, plan.found), 1e-5
    angles = np.linspace(0.0, schedule.period_rad, 7201)
    up, down = (
        spring_energy(plan, plan.display.cam.lift_m * lift_fraction(schedule, angles + side * step)[0])
        for side in (1.0, -1.0)
    )
    torque = float(np.max(np.abs(up - down))) / (2.0 * step)
    assert plate_torque(plan) == pytest.approx(torque, rel=2e-3)
    force = judged(name)["force at the lever"].value
    assert force == pytest.approx((1.0 + HOLD_SAFETY) * torque / plan.post_m, rel=2e-3)


def test_the_lever_is_pushed_harder_the_stronger_the_spring_until_it_fails():
    weak, strong = (judged("default", force=force)["force at the lever"] for force in (1.0, 8.0))
    assert weak.passes
    assert not strong.passes
    assert strong.cure == "a softer spring"
    assert lever_force(0.3, 0.2) == 2.0 * lever_force(0.3, 0.4)


@pytest.mark.parametrize("name", VARIANTS)
def test_the_pull_that_tips_lifts_the_back_off_the_table(name):
    """About the front edge of the foot, the weights of all pieces hold against the pull at the grip."""
    assembly, _ = planned(name)
    front = max(part.z_to_m for part in assembly.parts if part.name == "footboard")
    pieces = (*assembly.parts, *assembly.fasteners)
    holds = sum(STANDARD_GRAVITY * each.mass_kg * (front - (each.z_from_m + each.z_to_m) / 2.0) for each in pieces)
    crank = next(part for part in assembly.parts if part.name == "crank pulley")
    assert judged(name)["pull at the grip that tips it"].value == pytest.approx(
        holds / (crank.y_m - assembly.foot_m), rel=1e-6
    )


def test_half_the_height_takes_twice_the_pull():
    assert tipping_pull(12.0, arm_m=0.3, height_m=0.2) == 2.0 * tipping_pull(12.0, arm_m=0.3, height_m=0.4)
