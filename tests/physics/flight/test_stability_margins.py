"""Margins and limits of the centre of gravity against the equations of motion: roots, pull-ups and trims."""

import cmath
from dataclasses import asdict, replace

import numpy as np
import pytest
from flights import density, full_thrust, glide, margins, slope, solved, unpowered, without_slipstream
from scipy.optimize import brentq

from sim.aerodynamics.derivative import Derivative, by_source
from sim.errors import InputError
from sim.flight.cg_shift import with_cg_moved
from sim.flight.forward_limits import FullUpElevator, limit_in_level_flight
from sim.flight.modes import system_matrix
from sim.flight.momentum_fraction import NO_ROTOR, with_momentum_fraction
from sim.flight.motion import Controls, motion
from sim.flight.stability_margins import maneuver_margin, relative_density, stability_margins, static_margin
from sim.flight.trim import steady_turns

SPEED = 41.0


def longitudinal_roots(airplane, state, controls):
    matrix = system_matrix(airplane, state, controls)
    assert np.abs(matrix[:4, 4:]).max() < 1e-6, "longitudinal and lateral motions are apart"
    return np.linalg.eigvals(matrix[:4, :4])


def in_glide(airplane):
    return longitudinal_roots(unpowered(airplane), *glide(airplane, SPEED, 640.0))


def at_power(airplane):
    """Level, the thrust line through the centre of gravity, no angular momentum and nothing in the slipstream."""
    through = replace(
        with_momentum_fraction(without_slipstream(airplane), NO_ROTOR), shaft_tilt_rad=0.0, thrust_arm_m=0.0
    )
    turns = steady_turns(through, speed_m_s=SPEED, bank_rad=0.0, altitude_m=640.0)
    matrix = system_matrix(through, turns.state[:, 0].tolist(), turns.controls(0))
    return np.linalg.eigvals(matrix[:4, :4])


@pytest.mark.parametrize("roots", [in_glide, at_power])
def test_a_real_root_goes_through_nought_with_the_centre_of_gravity_at_the_neutral_point(flying, roots):
    """The product of the four roots is det A, and a null vector of A is a neighbouring trim with the controls held.

    With q = 0 that asks for three equations in speed, angle of attack and pitch. Where every moment grows with the
    square of the speed (a glide; or thrust through the centre of gravity), the moment at trim is 0 at any speed, so
    its row is (0, Cmα, 0) and det A is Cmα times the determinant of the two forces in speed and pitch. The latter is
    not 0 (in a glide 2 g²/V), so that the root vanishes with Cmα: with −Cmα/CLα between the two points.
    """

    def product(moved_m):
        return float(np.prod(roots(with_cg_moved(flying.airplane, moved_m))).real)

    chord, margin = flying.airplane.polar.chord_m, static_margin(flying.airplane)
    crossing = brentq(product, 0.3 * margin * chord, 1.9 * margin * chord, xtol=1e-13)
    assert crossing / chord == pytest.approx(margin, abs=1e-6)
    assert np.abs(roots(with_cg_moved(flying.airplane, crossing))).min() < 1e-6
    behind = roots(with_cg_moved(flying.airplane, crossing + 0.02 * chord))
    assert any(root.real > 0.0 and root.imag == 0.0 for root in behind), "and behind it one grows"


def elevator_per_g(airplane, speed_m_s, altitude_m):
    """Return dδ/dn of the steady pull-up at its lowest point, from the equations of motion by implicit derivation.

    Level path, q = (n − 1) g/V: angle of attack and elevator are those at which neither the angle of attack nor the
    pitch rate changes. The path bends by lift alone, for there is no thrust.
    """
    rates = motion(unpowered(airplane), cmath)

    def rest(alpha, elevator, load_factor):
        u, w = speed_m_s * cmath.cos(alpha), speed_m_s * cmath.sin(alpha)
        attitude = (cmath.cos(0.5 * alpha), 0.0, cmath.sin(0.5 * alpha), 0.0)
        q = (load_factor - 1.0) * airplane.gravity_m_s2 / speed_m_s
        state = (0.0, 0.0, -altitude_m, *attitude, u, 0.0, w, 0.0, q, 0.0, 0.0)
        y_dot = rates(state, Controls(elevator))
        return np.array([u * y_dot[9] - w * y_dot[7], y_dot[11]])

    steady = solved(lambda alpha, elevator: rest(alpha, elevator, 1.0), (0.03, 0.0))
    by = slope(rest, np.array([*steady, 1.0]))
    return float(np.linalg.solve(by[:, :2], -by[:, 2])[1])


def no_elevator_per_g_m(airplane, speed_m_s, altitude_m):
    """Return how far aft the centre of gravity stands where a pull-up needs no elevator."""
    return brentq(lambda m: elevator_per_g(with_cg_moved(airplane, m), speed_m_s, altitude_m), 0.05, 1.0, xtol=1e-13)


def test_at_the_manoeuvre_point_a_pull_up_needs_no_elevator(flying):
    """In the limit of small lift, where the bound at CLmax does not yet bend the lift curve."""
    airplane, altitude = flying.airplane, flying.altitude_m
    margin = maneuver_margin(airplane, density(airplane, altitude))
    found = no_elevator_per_g_m(airplane, 90.0, altitude) / airplane.polar.chord_m
    assert found == pytest.approx(margin, abs=1e-9)
    slower = no_elevator_per_g_m(airplane, 36.0, altitude) / airplane.polar.chord_m
    assert 1e-9 < abs(slower - margin) < 1e-3, "and the bound is what differs"
    assert elevator_per_g(airplane, 90.0, altitude) < 0.0, "ahead of it more load takes more up elevator"


def test_the_manoeuvre_point_is_etkin_s_with_derivatives_about_that_point(flying):
    airplane, rho = flying.airplane, density(flying.airplane, flying.altitude_m)
    margin = maneuver_margin(airplane, rho)
    there = with_cg_moved(airplane, margin * airplane.polar.chord_m).derivatives
    twice = 2.0 * relative_density(airplane, rho)
    assert margin == pytest.approx(static_margin(airplane) - there.pitch_q / (twice - there.lift_q), rel=1e-12)
    assert margin > static_margin(airplane)


def test_thin_air_takes_the_manoeuvre_point_to_the_neutral_point(flying):
    airplane = flying.airplane
    margins_at = [maneuver_margin(airplane, rho) - static_margin(airplane) for rho in (1.2, 0.6, 1e-9)]
    assert margins_at[0] == pytest.approx(2.0 * margins_at[1], rel=1e-12)
    assert margins_at[2] == pytest.approx(0.0, abs=1e-9)


def test_every_point_stays_on_the_airframe_as_the_centre_of_gravity_moves(flying):
    """The distances change by the move, and the speeds and errors not at all but for the errors of the second order."""
    moved_m = 0.13
    here, there = margins(flying), margins(flying, with_cg_moved(flying.airplane, moved_m))
    for name in ("neutral_point_m", "maneuver_point_m", "forward_limit_by_elevator_m", "forward_limit_by_trim_m"):
        assert getattr(here, name) - getattr(there, name) == pytest.approx(moved_m, rel=1e-9)
    assert there.flare_m_s == pytest.approx(here.flare_m_s, rel=1e-12)
    assert there.slowest_level_m_s == pytest.approx(here.slowest_level_m_s, rel=1e-12)


def test_shares_and_distances_are_one_number(flying):
    found = margins(flying)
    assert found.chord_m == flying.airplane.polar.chord_m
    for kind in ("neutral_point", "maneuver_point"):
        margin = {"neutral_point": "static_margin", "maneuver_point": "maneuver_margin"}[kind]
        for end in ("", "_error"):
            assert getattr(found, f"{kind}{end}_m") == pytest.approx(found.chord_m * getattr(found, margin + end))


def test_the_errors_are_those_of_many_airplanes_drawn_from_the_bands(banded):
    """Third-order parts and the draw are left: 4000 draws know a standard deviation to 1.1 %."""
    generator, count = np.random.default_rng(7), 4000
    sources = by_source(banded.derivatives)
    drawn = generator.normal(size=(count, len(sources)))
    rho, thrust = density(banded.airplane, banded.altitude_m), full_thrust(banded)
    rows = []
    for i in range(count):
        changed = {name: getattr(banded.airplane.derivatives, name) for name in banded.derivatives}
        for size, errors in zip(drawn[i].tolist(), sources, strict=True):
            for name, error in errors.items():
                changed[name] += size * error
        plane = replace(banded.airplane, derivatives=replace(banded.airplane.derivatives, **changed))
        full_up = FullUpElevator(plane, banded.travel.elevator_up_rad, rho)
        glides = full_up.gliding(full_up.alpha_rad(1.0))
        level = limit_in_level_flight(full_up, thrust).limit_m
        rows.append((static_margin(plane), maneuver_margin(plane, rho), glides, level))
    found = margins(banded)
    stated = (
        found.static_margin_error,
        found.maneuver_margin_error,
        found.forward_limit_by_elevator_error_m,
        found.forward_limit_by_trim_error_m,
    )
    assert np.std(rows, axis=0) == pytest.approx(stated, rel=0.04)
    assert min(stated) > 0.02


def test_given_derivatives_have_no_error(banded):
    given = {name: Derivative(one.value, "given", 0.0) for name, one in banded.derivatives.items()}
    found = stability_margins(
        banded.airplane,
        given,
        banded.travel,
        altitude_m=banded.altitude_m,
        full_thrust_n=full_thrust(banded),
    )
    assert {value for name, value in asdict(found).items() if "error" in name} == {0.0}


def test_without_a_lift_slope_there_is_no_neutral_point(flying):
    flat = replace(flying.airplane, derivatives=replace(flying.airplane.derivatives, lift_alpha=0.0))
    with pytest.raises(InputError) as caught:
        margins(flying, flat)
    assert [str(fault) for fault in caught.value.faults] == [
        'derivatives.lift_alpha: must be above 0 for a neutral point, got "0"'
    ]
