"""An engine on isolators: closed forms of single and coupled motions, equilibrium, reciprocity, and bounds."""

from math import sqrt

import numpy as np
import pytest

from sim.errors import NoAnswerError
from sim.structures.isolators import Isolators, modes, movement, stiffness

MASS_KG, CG_M = 173.0, (0.61, 0.02, 0.04)
INERTIA = np.array([[9.1, 0.3, -0.7], [0.3, 14.2, 0.2], [-0.7, 0.2, 17.9]])
PLACES = ((0.31, -0.15, 0.12), (0.29, 0.16, 0.13), (0.33, -0.13, -0.14), (0.30, 0.17, -0.11))
SOFT = Isolators(PLACES, (590e3, 171e3, 204e3))


def about_cg(half_width_m, half_height_m, stiffness_n_per_m):
    """Return four isolators at the corners of a rectangle across the shaft, their middle in the centre of mass."""
    corners = [
        (CG_M[0], CG_M[1] + y, CG_M[2] + z)
        for y in (-half_width_m, half_width_m)
        for z in (-half_height_m, half_height_m)
    ]
    return Isolators(tuple(corners), stiffness_n_per_m)


def test_about_the_centre_of_mass_every_motion_is_its_own():
    """Shifts √(4 k/m); turns by the arms: roll √(4 (k₃ y² + k₂ z²)/I₁), pitch √(4 k₁ z²/I₂), yaw √(4 k₁ y²/I₃)."""
    (ahead, side, down), y, z = (590e3, 171e3, 204e3), 0.23, 0.17
    found = modes(about_cg(y, z, (ahead, side, down)), MASS_KG, CG_M, np.diag([9.1, 14.2, 17.9]))
    closed = {
        "fore and aft": sqrt(4 * ahead / MASS_KG),
        "sideways": sqrt(4 * side / MASS_KG),
        "up and down": sqrt(4 * down / MASS_KG),
        "roll": sqrt(4 * (down * y**2 + side * z**2) / 9.1),
        "pitch": sqrt(4 * ahead * z**2 / 14.2),
        "yaw": sqrt(4 * ahead * y**2 / 17.9),
    }
    assert {one.name: one.natural_rad_s for one in found} == pytest.approx(closed, rel=1e-9)
    assert [one.natural_rad_s for one in found] == sorted(one.natural_rad_s for one in found)
    assert all(one.motion_share == pytest.approx(1.0) for one in found)


def test_an_overhung_engine_couples_bounce_and_pitch():
    """Isolators a distance l behind the centre: (k − m ω²)(k l² + c − I ω²) = k² l², of bounce k and pitch c."""
    (ahead, side, down), y, z, behind = (590e3, 171e3, 204e3), 0.23, 0.17, 0.31
    places = tuple((x - behind, y_m, z_m) for x, y_m, z_m in about_cg(y, z, (1.0, 1.0, 1.0)).places_m)
    found = [
        one.natural_rad_s
        for one in modes(Isolators(places, (ahead, side, down)), MASS_KG, CG_M, np.diag([9.1, 14.2, 17.9]))
    ]
    bounce, pitch = 4 * down, 4 * ahead * z**2
    squares = np.roots(
        [
            MASS_KG * 14.2,
            -(MASS_KG * (bounce * behind**2 + pitch) + 14.2 * bounce),
            bounce * (bounce * behind**2 + pitch) - (bounce * behind) ** 2,
        ]
    )
    for square in squares:
        assert min(abs(found - np.sqrt(square))) < 1e-6


def test_a_sag_of_g_over_the_square_of_its_frequency():
    """Hung about its centre of mass the engine bounces at √(g/δ), δ its deflection under its weight."""
    hung = about_cg(0.2, 0.15, (300e3, 200e3, 250e3))
    weight_n = MASS_KG * 9.80665
    x, y, _ = CG_M
    sag_m = movement(hung, (0.0, 0.0, weight_n), (y * weight_n, -x * weight_n, 0.0)).at(CG_M)
    assert sag_m == pytest.approx((0.0, 0.0, weight_n / (4 * 250e3)), abs=1e-12)
    bounce = next(one for one in modes(hung, MASS_KG, CG_M, INERTIA) if one.name == "up and down")
    assert bounce.natural_rad_s == pytest.approx(sqrt(9.80665 / sag_m[2]), rel=1e-2)


def test_the_isolators_push_back_what_pushes_them():
    force, moment = np.array([900.0, -700.0, 2600.0]), np.array([-310.0, -1500.0, 420.0])
    moved = movement(SOFT, force, moment)
    pushes = [np.multiply(SOFT.stiffness_n_per_m, moved.at(place)) for place in PLACES]
    assert np.sum(pushes, axis=0) == pytest.approx(force, rel=1e-9)
    turns = [np.cross(place, push) for place, push in zip(PLACES, pushes, strict=True)]
    assert np.sum(turns, axis=0) == pytest.approx(moment, rel=1e-9)


def test_loads_and_movements_are_reciprocal():
    """Maxwell: a force at one point moves another as the same force there moves the first."""
    one, other = (0.9, 0.3, -0.1), (0.4, -0.2, 0.35)
    along, across = np.array([0.0, 1.0, 0.0]), np.array([0.6, 0.0, 0.8])
    there = np.dot(movement(SOFT, along, np.cross(one, along)).at(other), across)
    back = np.dot(movement(SOFT, across, np.cross(other, across)).at(one), along)
    assert there == pytest.approx(back, rel=1e-9)
    assert abs(there) > 1e-9


def test_where_the_origin_is_does_not_matter():
    moved = Isolators(tuple((x - 0.4, y + 0.1, z - 0.2) for x, y, z in PLACES), SOFT.stiffness_n_per_m)
    there = (CG_M[0] - 0.4, CG_M[1] + 0.1, CG_M[2] - 0.2)
    first, second = (
        [one.natural_rad_s for one in modes(isolators, MASS_KG, cg_m, INERTIA)]
        for isolators, cg_m in ((SOFT, CG_M), (moved, there))
    )
    assert first == pytest.approx(second, rel=1e-9)


def test_an_engine_kept_from_turning_shakes_no_slower():
    free, kept = modes(SOFT, MASS_KG, CG_M, INERTIA), modes(SOFT, MASS_KG, CG_M, None)
    assert (len(free), len(kept)) == (6, 3)
    assert kept[0].natural_rad_s > 1.05 * free[0].natural_rad_s


def test_frequencies_go_with_the_root_of_stiffness_over_mass():
    stiffer = Isolators(PLACES, tuple(4.0 * each for each in SOFT.stiffness_n_per_m))
    first = [one.natural_rad_s for one in modes(SOFT, MASS_KG, CG_M, INERTIA)]
    assert [one.natural_rad_s for one in modes(stiffer, MASS_KG, CG_M, INERTIA)] == pytest.approx(2.0 * np.array(first))
    heavy = [one.natural_rad_s for one in modes(SOFT, 2.25 * MASS_KG, CG_M, 2.25 * INERTIA)]
    assert heavy == pytest.approx(np.array(first) / 1.5)


def test_free_vibration_integrated_from_the_equations_of_motion():
    """Let go at random, the shift of the centre holds no frequency but those six: its fit by them leaves nothing."""
    from scipy.integrate import solve_ivp
    from scipy.linalg import block_diag

    inverse = np.linalg.inv(block_diag(MASS_KG * np.eye(3), INERTIA)) @ stiffness(SOFT, CG_M)
    start = np.concatenate([np.random.default_rng(3).normal(size=6), np.zeros(6)])
    times = np.linspace(0.0, 1.0, 400)
    found = solve_ivp(
        lambda _, state: np.concatenate([state[6:], -inverse @ state[:6]]), (0.0, 1.0), start, t_eval=times, rtol=1e-10
    )
    waves = np.column_stack([np.cos(one.natural_rad_s * times) for one in modes(SOFT, MASS_KG, CG_M, INERTIA)])
    for shift in found.y[:6]:
        fit = np.linalg.lstsq(waves, shift, rcond=None)[0]
        assert waves @ fit == pytest.approx(shift, abs=1e-6)


@pytest.mark.parametrize("places", [PLACES[:1], PLACES[:2], ((0.1, 0.0, 0.0), (0.2, 0.0, 0.0), (0.4, 0.0, 0.0))])
def test_isolators_in_one_line_hold_nothing_about_it(places):
    with pytest.raises(NoAnswerError) as caught:
        movement(Isolators(places, SOFT.stiffness_n_per_m), (0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
    assert (
        str(caught.value)
        == "the isolators stand in one line, about which the engine turns freely; move one off that line"
    )
