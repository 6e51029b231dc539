"""The free neutral point and the stick force for a load factor against the equations of motion."""

import cmath
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from flights import density, slope, solved, unpowered
from scipy.optimize import brentq
from shared import built

from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.aerodynamics.tail_loads import tail_lift
from sim.flight.cg_shift import with_cg_moved
from sim.flight.motion import Controls, motion
from sim.flight.stability_margins import maneuver_margin, static_margin
from sim.flight.stick_free import hinge_slopes, stick_force_per_g_n, stick_free, with_free_elevator

FAST = 90.0
"""Little lift, so that the bound at CLmax does not bend the lift curve. [m/s]"""


def hinge_n_m(airplane, law, *, speed, rho, motion_of, elevator):
    """Return the moment of the air about the elevator's hinge, power off."""
    w, q = motion_of
    stream = (0.5 * rho * speed, 0.5 * rho * speed**2)
    lift = tail_lift(airplane.slipstream, (speed, w, q), elevator, stream)
    return law.moment_n_m(lift, TAIL_PRESSURE * stream[1] * elevator)


def pull_up(flying, airplane, *, free):
    """Return the function (α, δ, n) of a pull-up: rates of incidence and pitch, and moment at the hinge where free."""
    rates, rho = motion(unpowered(airplane), cmath), density(airplane, flying.altitude_m)

    def rest(alpha, elevator, load_factor):
        u, w = FAST * cmath.cos(alpha), FAST * cmath.sin(alpha)
        attitude = (cmath.cos(0.5 * alpha), 0.0, cmath.sin(0.5 * alpha), 0.0)
        q = (load_factor - 1.0) * airplane.gravity_m_s2 / FAST
        state = (0.0, 0.0, -flying.altitude_m, *attitude, u, 0.0, w, 0.0, q, 0.0, 0.0)
        y_dot = rates(state, Controls(elevator))
        law = flying.controls.elevator
        hinge = hinge_n_m(airplane, law, speed=FAST, rho=rho, motion_of=(w, q), elevator=elevator)
        return np.array([u * y_dot[9] - w * y_dot[7], y_dot[11], *([hinge] if free else [])])

    return rest


def force_per_g(flying, airplane):
    """Return dF/dn by implicit derivation of the equations of motion, weight of the elevator included."""
    rest = pull_up(flying, airplane, free=False)
    steady = solved(lambda alpha, elevator: rest(alpha, elevator, 1.0), (0.03, 0.0))
    by = slope(rest, np.array([*steady, 1.0]))
    change = np.linalg.solve(by[:, :2], -by[:, 2])
    hinge = slope(pull_up(flying, airplane, free=True), np.array([*steady, 1.0]))[2]
    system = flying.controls
    return system.elevator_gearing_per_m * (hinge @ [*change, 1.0] + system.elevator_weight_n_m)


def test_the_stick_force_for_a_load_factor_is_that_of_a_pull_up(flying):
    rho = density(flying.airplane, flying.altitude_m)
    found = stick_force_per_g_n(flying.airplane, flying.controls, rho)
    assert found == pytest.approx(force_per_g(flying, flying.airplane), rel=2e-3)
    assert found > 0.0


def test_it_grows_ahead_of_a_point_and_there_is_none_with_the_weightless_elevator(flying):
    """Without the elevator's weight no force is left at the manoeuvre point, stick free."""
    airplane, rho = flying.airplane, density(flying.airplane, flying.altitude_m)
    point_m = stick_free(airplane, flying.derivatives, flying.controls.elevator, rho).maneuver_point_free_m
    weightless = replace(flying.controls, elevator_weight_n_m=0.0)

    def at(aft_m):
        return stick_force_per_g_n(with_cg_moved(airplane, aft_m), weightless, rho)

    root = brentq(at, -0.5, 1.0, xtol=1e-12)
    assert point_m == pytest.approx(root, abs=0.01 * airplane.polar.chord_m)
    assert at(-0.1) > at(0.0) > 0.0


def free_moment_slope(flying, airplane):
    """Return d(q̇)/dα with the elevator where its hinge lets it float at each angle of attack, by central differences.

    At a small incidence, without the moment due to its rate.
    """
    steady = replace(airplane, derivatives=replace(airplane.derivatives, pitch_alpha_dot=0.0))
    rates, rho = motion(unpowered(steady), cmath), density(airplane, flying.altitude_m)
    law, speed = flying.controls.elevator, 40.0

    def pitching(alpha):
        u, w = speed * np.cos(alpha), speed * np.sin(alpha)

        def hinge(elevator):
            return hinge_n_m(airplane, law, speed=speed, rho=rho, motion_of=(w, 0.0), elevator=elevator)

        state = (0.0, 0.0, -flying.altitude_m, 1.0, 0.0, 0.0, 0.0, u, 0.0, w, 0.0, 0.0, 0.0, 0.0)
        return np.real(rates(state, Controls(brentq(hinge, -3.0, 3.0, xtol=1e-15)))[11])

    return (pitching(1e-3) - pitching(-1e-3)) / 2e-3


def test_the_free_neutral_point_is_where_the_moment_of_the_floating_airplane_does_not_change(flying):
    law, rho = flying.controls.elevator, density(flying.airplane, flying.altitude_m)
    found_m = stick_free(flying.airplane, flying.derivatives, law, rho).neutral_point_free_m
    root = brentq(lambda m: free_moment_slope(flying, with_cg_moved(flying.airplane, m)), -0.5, 1.0, xtol=1e-9)
    assert found_m == pytest.approx(root, abs=2e-4 * flying.airplane.polar.chord_m)


def test_a_floating_elevator_takes_both_points_forward(flying):
    """One that trails with the wind does; the unbalanced one of each of these airplanes."""
    airplane, law = flying.airplane, flying.controls.elevator
    rho = density(airplane, flying.altitude_m)
    free, chord = stick_free(airplane, flying.derivatives, law, rho), airplane.polar.chord_m
    assert hinge_slopes(airplane, law).alpha_m3 < 0.0
    assert free.neutral_point_free_m < chord * static_margin(airplane)
    assert free.maneuver_point_free_m < chord * maneuver_margin(airplane, rho)
    assert free.neutral_point_free_m < free.maneuver_point_free_m


def test_an_elevator_that_does_not_feel_the_wind_leaves_the_points_where_they_are(flying):
    law = flying.controls.elevator
    deaf = replace(law, horn_per_rad=-law.plain_angle_per_rad)
    assert deaf.angle_per_rad == 0.0
    assert static_margin(with_free_elevator(flying.airplane, deaf)) == pytest.approx(static_margin(flying.airplane))


def test_an_overbalanced_elevator_has_no_free_points():
    flying = built(BIPLANE, "elevator.balance_share=0.5").airplane("rotary")
    found = stick_free(flying.airplane, flying.derivatives, flying.controls.elevator, 1.2)
    assert found.neutral_point_free_m is None
    assert found.maneuver_point_free_error_m is None


def test_errors_are_of_the_derivatives_and_of_the_hinge():
    flying = built(TRIPLANE).airplane("rotary")
    both = stick_free(flying.airplane, flying.derivatives, flying.controls.elevator, 1.2)
    given = {name: replace(one, errors={}) for name, one in flying.derivatives.items()}
    alone = stick_free(flying.airplane, given, flying.controls.elevator, 1.2)
    assert 0.0 < alone.neutral_point_free_error_m < both.neutral_point_free_error_m
    assert alone.neutral_point_free_m == both.neutral_point_free_m
