"""Derivatives from geometry: what must hold for any airplane, and what changes which derivative."""

import dataclasses
import math
from collections.abc import Mapping

import numpy as np
import pytest
from scipy.integrate import quad
from strip_formulas import (
    aileron_power,
    dihedral_effect,
    downwash_slope,
    lift_slope,
    roll_damping,
    rolling_slope,
    tail_volume,
)

from sim.aerodynamics.airframe_flow import airframe_flow
from sim.aerodynamics.biplane import equivalent_aspect_ratio
from sim.aerodynamics.body import (
    body_moment_volume,
    body_side_area,
    body_yaw_volume,
)
from sim.aerodynamics.derivative import Derivative, overridden
from sim.aerodynamics.derivatives import GROWING, estimate
from sim.aerodynamics.geometry import Airframe, Surface
from sim.aerodynamics.lattice_airplane import WING
from sim.aerodynamics.lattice_motion import (
    AILERON,
    ELEVATOR,
    PITCH,
    ROLL,
    RUDDER,
    YAW,
    P,
    Q,
    R,
    U,
    V,
    W,
    X,
    Y,
    Z,
)
from sim.aerodynamics.lifting_surface import flap_effectiveness
from sim.aerodynamics.polar import Polar
from sim.airframe.wing import Plane, Wing

PLANES = (
    Plane(8.5, 1.4, height_m=1.4, arm_m=-0.1, dihedral_rad=0.05),
    Plane(8.5, 1.4, height_m=0.0, arm_m=0.2, dihedral_rad=0.05),
)


def biplane(planes=PLANES, **changes) -> Airframe:
    airframe = Airframe(
        wing=Wing(tuple(planes), planes[0]),
        tailplane=Surface(2.6, 1.0, 4.2, 0.1, 0.0, 0.4),
        fin=Surface(1.0, 0.9, 4.4, 0.4, 0.0, 0.6),
        aileron_from=0.55,
        aileron_to=0.95,
        aileron_chord_share=0.2,
        aileron_planes=2,
        body_length_m=5.7,
        body_width_m=0.8,
        body_depth_m=0.9,
    )
    return dataclasses.replace(airframe, **changes)


def polar_of(airframe: Airframe, **changes) -> Polar:
    wing = airframe.wing
    polar = Polar(
        area_m2=wing.area_m2,
        span_m=wing.span_m,
        chord_m=wing.mean("chord_m"),
        aspect_ratio=equivalent_aspect_ratio(wing),
        span_efficiency=0.7,
        drag_zero_lift=0.04,
        lift_zero=0.3,
        lift_max=1.4,
    )
    return dataclasses.replace(polar, **changes)


def estimated(airframe: Airframe, lift=0.4, **changes) -> Mapping[str, Derivative]:
    return estimate(airframe, polar_of(airframe, **changes), lift=lift)


def values(airframe: Airframe) -> dict[str, float]:
    return {name: one.value for name, one in estimated(airframe).items()}


def test_signs_are_those_of_an_ordinary_airplane():
    got = values(biplane())
    up = {"lift_alpha", "lift_q", "lift_elevator", "side_r", "side_rudder", "roll_r", "roll_rudder", "yaw_beta"}
    down = set(got) - up - {"pitch_0", "yaw_aileron", "side_p"}
    assert {name for name in up if got[name] <= 0.0} == set()
    assert {name for name in down if got[name] >= 0.0} == set()
    assert got["yaw_aileron"] > 0.0, "an aileron that rolls left pulls the nose right"


PITCHING = {"lift_alpha", "lift_q", "lift_elevator", "pitch_0", "pitch_alpha", "pitch_alpha_dot", "pitch_q"}


def moved(change) -> set[str]:
    """Names of the derivatives that a change of the airframe moves by more than a thousandth of its band."""
    before, after = estimated(biplane()), estimated(biplane(**change))
    return {name for name in before if abs(before[name].value - after[name].value) > 1e-3 * before[name].band}


def test_a_wider_body_changes_pitch_side_force_and_roll_by_the_height_of_the_wing():
    assert moved({"body_width_m": 1.0}) == {"pitch_alpha", "side_beta", "yaw_beta", "roll_beta"}


@pytest.mark.parametrize("change", [{"aileron_to": 0.8}, {"aileron_planes": 1}])
def test_ailerons_change_roll_and_yaw_by_ailerons_alone(change):
    assert moved(change) == {"roll_aileron", "yaw_aileron"}


def test_a_wing_farther_forward_takes_stability_in_pitch_away():
    forward = biplane(planes=tuple(dataclasses.replace(p, arm_m=p.arm_m - 0.2) for p in PLANES))
    before, after = values(biplane()), values(forward)
    assert after["lift_alpha"] == pytest.approx(before["lift_alpha"], rel=0.01)
    assert after["pitch_alpha"] - before["pitch_alpha"] == pytest.approx(0.2 / 1.4 * before["lift_alpha"], rel=0.2)


def test_planes_in_any_order():
    one, other = values(biplane(PLANES[::-1])), values(biplane())
    assert one == pytest.approx(other, rel=1e-9, abs=1e-12)


def test_bands_are_the_root_of_squares_of_the_parts():
    assert all(one.band > 0.0 and one.origin == "estimated" for one in estimated(biplane()).values())
    for one in estimated(biplane()).values():
        assert one.band == pytest.approx(math.hypot(*one.errors.values()), rel=1e-12)
        assert abs(one.errors[one.dominated_by]) == max(map(abs, one.errors.values()))


def test_a_given_value_replaces_its_estimate_alone():
    before = estimated(biplane())
    got = overridden(before, {"yaw_beta": 0.071})
    assert got["yaw_beta"] == Derivative(0.071, "given", 0.0)
    assert {name for name in got if got[name] != before[name]} == {"yaw_beta"}


def test_more_incidence_ahead_lifts_the_nose():
    """The wing keeps its lift without incidence as a whole: the lower plane gives what the upper takes."""
    upper, lower = PLANES
    tilted = biplane(planes=(dataclasses.replace(upper, incidence_rad=0.03), lower))
    assert values(tilted)["pitch_0"] > values(biplane())["pitch_0"] + 0.005
    level = [dataclasses.replace(plane, arm_m=0.1) for plane in (upper, lower)]
    raised = [dataclasses.replace(level[0], incidence_rad=0.03), level[1]]
    pair = [values(biplane(planes))["pitch_0"] for planes in (level, raised)]
    assert pair[1] - pair[0] == pytest.approx(0.0, abs=0.005), "without stagger next to nothing"


MONOPLANE = (Plane(9.6, 1.2, arm_m=0.03, dihedral_rad=0.08, taper=0.7, section_slope=6.0),)


def test_the_lattice_is_near_the_textbook_formulas_on_a_monoplane():
    """Lifting line reads 5 to 10 % above a lifting surface, strips of a tapered wing up to 20 % high in rolling."""
    airframe = biplane(MONOPLANE, aileron_planes=1)
    got, aspect = values(airframe), 8.0
    wing = lift_slope(6.0, aspect)
    tail = lift_slope(5.73, 2.6) * 2.6 / 11.52
    downwash = downwash_slope(wing, aspect)
    volume = tail_volume(2.6, 4.2, wing_area_m2=11.52, reference_m=1.2)
    assert got["lift_alpha"] == pytest.approx(wing + 0.9 * tail * (1.0 - downwash), rel=0.08)
    assert got["pitch_q"] == pytest.approx(-2.0 * 0.9 * tail * 11.52 / 2.6 * volume * 4.2 / 1.2, rel=0.2)
    assert 0.78 < got["roll_p"] / roll_damping(rolling_slope(6.0, aspect), 0.7) < 0.95
    strips = aileron_power(rolling_slope(6.0, aspect), flap_effectiveness(0.2), 0.55, 0.95)
    assert 0.72 < got["roll_aileron"] / strips < 0.95
    flat = values(biplane((dataclasses.replace(MONOPLANE[0], dihedral_rad=0.0),), aileron_planes=1))
    by_dihedral = got["roll_beta"] - flat["roll_beta"]
    assert 0.78 < by_dihedral / dihedral_effect(rolling_slope(6.0, aspect), 0.08, 0.7) < 1.0


def test_cross_derivatives_grow_with_lift_as_theory_has_it():
    """Roll due to yaw CL/4 of a rectangular wing, without the change of body axes: more lift by the setting."""
    wing = (dataclasses.replace(MONOPLANE[0], dihedral_rad=0.0, taper=1.0),)
    low, high = (
        {name: one.value for name, one in estimated(biplane(wing), lift=lift, lift_zero=lift).items()}
        for lift in (0.2, 0.6)
    )
    assert (high["roll_r"] - low["roll_r"]) / 0.4 == pytest.approx(0.25, rel=0.08)
    assert -0.125 < (high["yaw_p"] - low["yaw_p"]) / 0.4 < -0.05
    assert high["yaw_aileron"] > low["yaw_aileron"] > -1e-3, "adverse, and the more the more lift"


@pytest.mark.parametrize("name", GROWING)
def test_what_grows_with_lift_grows_by_the_slope_that_is_stated(name):
    low, high = (estimated(biplane(), lift=lift)[name] for lift in (0.3, 1.1))
    assert high.value - low.value == pytest.approx(0.8 * low.per_lift, rel=1e-9)
    assert low.per_lift == high.per_lift != 0.0


def test_the_estimate_about_another_cg_is_that_of_arms_from_there():
    """One solution serves every centre of gravity: moved exactly, it is what solving anew about the other gives."""
    aft_m = 0.17
    airframe, planes = biplane(), tuple(dataclasses.replace(p, arm_m=p.arm_m - aft_m) for p in PLANES)
    there = biplane(
        planes,
        tailplane=dataclasses.replace(airframe.tailplane, arm_m=airframe.tailplane.arm_m - aft_m),
        fin=dataclasses.replace(airframe.fin, arm_m=airframe.fin.arm_m - aft_m),
    )
    moved_, anew = (
        estimate(airframe, polar_of(airframe), lift=0.4, cg_aft_m=aft_m),
        estimate(there, polar_of(there), lift=0.4),
    )
    assert {name: one.value for name, one in moved_.items()} == pytest.approx(
        {name: one.value for name, one in anew.items()}, rel=1e-9, abs=1e-12
    )
    assert moved_["pitch_alpha"].value - estimated(airframe)["pitch_alpha"].value > 0.3


def test_a_higher_wing_rolls_more_away_from_the_slip():
    low, middle, high = (values(biplane(MONOPLANE, wing_height_m=height))["roll_beta"] for height in (-0.3, 0.0, 0.3))
    assert high < middle < low
    parasol, above = (values(biplane(MONOPLANE, wing_height_m=height))["roll_beta"] for height in (0.8, 1.6))
    assert parasol == pytest.approx(above, rel=0.2), "clear of the body its height counts little more"


def test_a_mirrored_airplane_has_no_derivatives_across():
    """Forces of symmetric motions have no lateral part, and the other way round, to rounding."""
    flow = airframe_flow(biplane(), 0.3)
    symmetric, lateral = [U, W, Q, ELEVATOR], [V, P, R, AILERON, RUDDER]
    scale = np.abs(flow.loads).max()
    for loads in flow.loads:
        for load in (X, Z, PITCH):
            assert np.abs(loads[load][np.ix_(symmetric, lateral)]).max() < 1e-12 * scale
        for load in (Y, ROLL, YAW):
            assert np.abs(loads[load][np.ix_(symmetric, symmetric)]).max() < 1e-12 * scale
            assert np.abs(loads[load][np.ix_(lateral, lateral)]).max() < 1e-12 * scale


def test_the_body_without_a_wing_has_munk_s_moment_and_a_wing_takes_some_of_it():
    airframe = biplane()
    tiny = dataclasses.replace(MONOPLANE[0], span_m=0.02, chord_m=0.01, arm_m=50.0)
    alone = airframe_flow(biplane((tiny,), aileron_planes=1), 0.0).body_moment_m3
    assert alone == pytest.approx(body_moment_volume(5.7, 0.8), rel=0.01)
    assert 0.2 * alone < airframe_flow(airframe, 0.3).body_moment_m3 < alone


def test_side_force_of_the_body_turns_it_about_a_centre_of_gravity_behind_a_sixth_of_its_length():
    assert body_yaw_volume(6.0, 0.8, 1.0, 1.0) == pytest.approx(0.0, abs=1e-12)
    assert body_yaw_volume(6.0, 0.8, 1.0, 2.5) == pytest.approx(1.5 * body_side_area(6.0, 0.8, 1.0), rel=1e-12)
    whole = quad(lambda x: 4.0 * x * (1.0 - x), 0.0, 0.5)[0]
    assert 0.5 - whole == pytest.approx(1.0 / 6.0, rel=1e-12), "centre of dS/dx over the fore half"


def wing_slope(*planes: Plane) -> float:
    """Lift slope of the wing alone, on its area."""
    wing = Wing(planes, planes[0])
    return -4.0 / wing.area_m2 * airframe_flow(biplane(planes, aileron_planes=1), 0.3).loads[WING, Z, U, W]


def test_two_planes_far_apart_lift_as_one_alone_does():
    upper, lower = PLANES
    alone, near = wing_slope(upper), wing_slope(upper, lower)
    assert wing_slope(upper, dataclasses.replace(lower, height_m=-200.0)) == pytest.approx(alone, rel=4e-3)
    assert near == pytest.approx(0.82 * alone, rel=0.05), (
        "gap of a chord and .2 chord of stagger: tests/published has .81"
    )
