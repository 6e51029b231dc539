"""Flights through the stall and beyond: always finite, never gaining energy by themselves, and mirror images."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.flight.motion import STATE, Controls, motion, motion_of_floats
from sim.flight.validity import valid_part
from sim.model.model import model
from sim.numerics.array_kernel import ArrayKernel
from sim.numerics.ode import rk4_step, solve
from sim.numerics.trace import record
from sim.propulsion.engine_propeller import Engine, Propeller
from sim.studies.maneuver import maneuver
from sim.studies.turns import flown_turns, turns

STEP_S, HELD = 0.02, 10
MIRROR = np.array([1.0, -1.0, 1.0, 1.0, -1.0, 1.0, -1.0, 1.0, -1.0, 1.0, -1.0, 1.0, -1.0, -1.0])
"""Of the state, in the plane of symmetry, the shaft turning the other way."""


def flown(path, *settings, powerplant=None):
    return model(path, ["flight.air=strips", *settings]).airplane(powerplant)


def without_rotor(flying):
    """Return the airplane without engine, propeller and all that turns."""
    return replace(flying.flown, rotors=(), engine=Engine(), propeller=Propeller())


def starts(count, *, spin_rad_s, seed=5):
    """Return states at any attitude, at speeds up to 80 m/s in any direction, turning."""
    random = np.random.default_rng(seed)
    state = np.zeros((len(STATE), count))
    attitude, along = random.normal(size=(4, count)), random.normal(size=(3, count))
    state[2] = -1500.0
    state[3:7] = attitude / np.linalg.norm(attitude, axis=0)
    state[7:10] = random.uniform(0.0, 80.0, count) * along / np.linalg.norm(along, axis=0)
    state[10:13] = random.uniform(-3.0, 3.0, (3, count))
    state[13] = spin_rad_s
    return state


def stops(travel, count, seed):
    """Return all controls at one of their stops."""
    random = np.random.default_rng(seed)
    elevator = np.where(random.random(count) < 0.5, -travel.elevator_up_rad, travel.elevator_down_rad)
    sideways = random.choice([-1.0, 1.0], (2, count))
    throttle = random.choice([0.0, 1.0], count)
    return Controls(
        elevator, travel.aileron_rad * sideways[0], travel.rudder_rad * sideways[1], throttle, np.zeros(count)
    )


def flights(airplane, travel, state, seconds, *, each=500):
    """Return the states of many flights, every `HELD` steps another random set of controls at their stops."""
    kernel = ArrayKernel(record(lambda recorded: motion(airplane, recorded), len(STATE), len(Controls._fields)))
    count, found = state.shape[1], []
    sets = [np.array(stops(travel, count, seed)) for seed in range(round(seconds / STEP_S / HELD))]
    for first in range(0, count, each):
        own = slice(first, min(first + each, count))
        y, rows = state[:, own], [state[:, own]]
        for held in sets:

            def rates(t, at, held=held[:, own]):
                out = np.empty(at.shape)
                kernel.evaluate_into(0.0, np.concatenate([at, held]), out)
                return out

            for _ in range(HELD):
                y = rk4_step(rates, 0.0, y, STEP_S)
            rows.append(y)
        found.append(np.array(rows))
    return np.concatenate(found, axis=2), sets


@pytest.mark.parametrize(
    ("path", "count"),
    [(BIPLANE, 500), (TRIPLANE, 500), pytest.param(BIPLANE, 10_000, marks=pytest.mark.slow)],
    ids=["biplane", "triplane", "ten thousand of the biplane"],
)
def test_full_controls_at_any_speed_and_attitude_stay_finite_bounded_and_the_same_in_floats(path, count):
    flying = flown(path)
    state = starts(count, spin_rad_s=flying.powerplant.full_speed_rad_s * flying.airplane.engine.rotation)
    with np.errstate(all="raise", under="ignore"):
        found, sets = flights(flying.flown, flying.travel, state, 3.0)
    assert np.isfinite(found).all()
    assert np.linalg.norm(found[:, 7:10], axis=1).max() < 150.0
    assert np.abs(found[:, 10:13]).max() < 40.0
    rates = motion_of_floats(flying.flown)
    for one in range(0, count, count // 10):
        y = tuple(state[:, one].tolist())
        for number, held in enumerate(sets[:5], start=1):
            controls = tuple(held[:, one].tolist())
            for _ in range(HELD):
                y = rk4_step(lambda t, at, controls=controls: rates(at, controls), 0.0, y, STEP_S)
            assert np.abs(np.array(y) - found[number, :, one]).max() < 1e-9 * np.abs(found[number, :, one]).max()


def energy(airplane, state):
    body, (p, q, r) = airplane.body, state[:, 10:13].swapaxes(0, 1)
    turning = body.inertia_roll_kg_m2 * p * p + body.inertia_pitch_kg_m2 * q * q + body.inertia_yaw_kg_m2 * r * r
    turning -= 2.0 * body.inertia_product_kg_m2 * p * r
    moving = body.mass_kg * (state[:, 7:10] ** 2).sum(axis=1)
    return 0.5 * (moving + turning) - body.mass_kg * airplane.gravity_m_s2 * state[:, 2]


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, PARASOL])
def test_without_thrust_energy_never_grows_whatever_the_controls(path):
    flying = flown(path)
    airplane = without_rotor(flying)
    found, _ = flights(airplane, flying.travel, starts(400, spin_rad_s=0.0), 4.0)
    assert np.diff(energy(airplane, found), axis=0).max() < 0.0


@pytest.mark.parametrize("path", [BIPLANE, PARASOL])
def test_without_a_rotor_left_and_right_are_mirror_images_through_the_stall(path):
    flying = flown(path)
    airplane = without_rotor(flying)
    rates = motion(airplane)
    for state in starts(40, spin_rad_s=0.0).T.tolist():
        controls = Controls(-0.4, 0.3, -0.25)
        there = rates(state, controls)
        back = rates((MIRROR * state).tolist(), Controls(-0.4, -0.3, 0.25))
        assert MIRROR * back == pytest.approx(np.array(there), rel=1e-9, abs=1e-9)


def test_an_engine_that_turns_the_other_way_mirrors_the_motion_past_the_stall():
    one = flown(BIPLANE, "powerplant.rotary.rotation=clockwise", powerplant="rotary").flown
    other = flown(BIPLANE, "powerplant.rotary.rotation=anticlockwise", powerplant="rotary").flown
    for state in starts(40, spin_rad_s=120.0).T.tolist():
        there = motion(one)(state, Controls(-0.4, 0.3, -0.25, 0.9))
        back = motion(other)((MIRROR * state).tolist(), Controls(-0.4, -0.3, 0.25, 0.9))
        assert MIRROR * back == pytest.approx(np.array(there), rel=1e-9, abs=1e-9)


def stalled(airplane, step_s):
    """Return the end of four seconds from cruise with the stick back, rudder to the right."""
    rates = motion_of_floats(airplane)
    y = np.array(START)
    for _ in range(round(4.0 / step_s)):
        y = np.array(rk4_step(lambda t, at: rates(at, (-0.45, 0.0, -0.2, 0.0, 0.0)), 0.0, tuple(y.tolist()), step_s))
    return y


START = (0.0, 0.0, -900.0, 1.0, 0.0, 0.0, 0.0, 30.0, 0.0, 3.0, 0.0, 0.0, 0.0, 0.0)


def test_the_step_converges_to_fourth_order_through_the_stall():
    airplane = without_rotor(flown(BIPLANE))
    rates = motion_of_floats(airplane)
    best = solve(
        lambda t, at: rates(at, (-0.45, 0.0, -0.2, 0.0, 0.0)),
        START,
        (0.0, 4.0),
        rtol=1e-12,
        atol=1e-12,
    ).states[-1]
    alpha = np.degrees(np.arctan2(best[9], best[7]))
    errors = [np.abs(stalled(airplane, step_s) - best).max() for step_s in (0.02, 0.01, 0.005)]
    assert abs(alpha) > 16.0 or np.abs(best[10:13]).max() > 0.5
    assert errors[0] / errors[1] > 10.0
    assert errors[1] / errors[2] > 10.0
    assert errors[2] < 1e-4


def test_a_hard_pull_at_low_speed_breaks_and_is_marked():
    asked = {"speed_m_s": 50 * 0.44704, "share": 1.0, "held_s": 2.0, "bands": False}
    by_strips = maneuver(model(BIPLANE, ["flight.air=strips"]), "pull", **asked)
    linear = maneuver(model(BIPLANE, ["flight.air=linear"]), "pull", **asked)
    for one, other, shaped, flat in zip(
        by_strips.flights, linear.flights, by_strips.histories, linear.histories, strict=True
    ):
        if one.side == "up":
            assert "stall" in one.beyond
            assert shaped["load_factor"].max() > 1.0
            assert np.abs(shaped["roll_rate_deg_s"]).max() > 2.0 * np.abs(flat["roll_rate_deg_s"]).max()
            assert shaped["alpha_deg"].max() < flat["alpha_deg"].max()
        else:
            assert other.beyond == one.beyond


def test_no_absurd_history_is_left_unmarked():
    flying = flown(BIPLANE)
    travel, seconds = flying.travel, 4.0
    state = starts(60, spin_rad_s=120.0)
    state[7:10] = np.array([[32.0], [0.0], [2.0]])
    state[3:7], state[10:13] = np.array([[1.0], [0.0], [0.0], [0.0]]), 0.0
    found, sets = flights(flying.flown, travel, state, seconds)
    absurd = 0
    for one in range(60):
        history = found[1:, :, one].T
        alpha = np.degrees(np.abs(np.arctan2(history[9], history[7])))
        if alpha.max() > 30.0 or np.abs(history[10]).max() > 2.5:
            absurd += 1
            elevator = np.array([held[0, one] for held in sets])
            assert valid_part(flying.airplane, np.arange(len(sets)) * 0.2, history, elevator).beyond
    assert absurd > 10


@pytest.mark.parametrize("name", ["roll-in", "rudder-kick"])
def test_manoeuvres_below_the_stall_are_those_of_the_linear_model(name):
    both = [maneuver(model(BIPLANE, [f"flight.air={air}"]), name, bands=False) for air in ("strips", "linear")]
    for shaped, flat in zip(*(one.histories for one in both), strict=True):
        for column in ("bank_deg", "alpha_deg", "roll_rate_deg_s", "load_factor"):
            assert np.abs(shaped[column] - flat[column]).max() < 0.03 * np.abs(flat[column]).max()


def test_a_manoeuvre_begins_steady_near_the_stall_too():
    flying = model(BIPLANE, ["flight.air=strips"]).airplane("rotary", speed_m_s=20.0)
    start, linear = flown_turns(flying, 0.0), turns(flying, 0.0)
    rates = motion_of_floats(flying.flown)
    beginning, other = (np.abs(rates(one.state[:, 0].tolist(), one.controls(0))[7:14]).max() for one in (start, linear))
    assert float(start.lift_ratio[0]) > 0.65
    assert beginning < 1e-8
    assert other > 0.01
    assert start.alpha_rad[0] == pytest.approx(linear.alpha_rad[0], abs=0.02)
