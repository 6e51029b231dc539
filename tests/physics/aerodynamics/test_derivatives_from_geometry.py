"""Derivatives from geometry: what must hold for any airplane, and what changes which derivative."""

import dataclasses
import math
from collections.abc import Mapping

import pytest
from scipy.integrate import quad
from scipy.special import j1

from sim.aerodynamics.biplane import equivalent_aspect_ratio, equivalent_span, interference
from sim.aerodynamics.body import apparent_mass_factor, body_moment_volume, propeller_side_area
from sim.aerodynamics.derivatives import Derivative, estimate, overridden
from sim.aerodynamics.geometry import Airframe, RunningPropeller, Surface
from sim.aerodynamics.lifting_surface import (
    aileron_power,
    dihedral_effect,
    flap_effectiveness,
    lift_slope,
    roll_damping,
    rolling_slope,
    sweep_effect,
)
from sim.aerodynamics.polar import Polar
from sim.airframe.wing import Plane, Wing

RUNNING = RunningPropeller(0.4, 1.0)
STOPPED = RunningPropeller(0.0, 1.0)
PLANES = (
    Plane(8.5, 1.4, height_m=1.4, arm_m=-0.1, dihedral_rad=0.05),
    Plane(8.5, 1.4, height_m=0.0, arm_m=0.2, dihedral_rad=0.05),
)


def biplane(planes=PLANES, **changes) -> Airframe:
    airframe = Airframe(
        wing=Wing(tuple(planes), planes[0]),
        tailplane=Surface(2.6, 1.0, 2.6, 4.2, 0.1, 0.0, 0.4),
        fin=Surface(1.0, 0.9, 1.5, 4.4, 0.4, 0.0, 0.6),
        aileron_from=0.55,
        aileron_to=0.95,
        aileron_chord_share=0.2,
        aileron_planes=2,
        body_length_m=5.7,
        body_width_m=0.8,
        body_depth_m=0.9,
    )
    return dataclasses.replace(airframe, **changes)


def estimated(airframe: Airframe, propeller=RUNNING) -> Mapping[str, Derivative]:
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
    return estimate(airframe, polar, propeller, lift=0.4)


def values(airframe: Airframe, *propeller: RunningPropeller) -> dict[str, float]:
    return {name: one.value for name, one in estimated(airframe, *propeller).items()}


@pytest.mark.parametrize(("spans", "gap"), [((1.0, 1.0), 0.15), ((1.0, 0.6), 0.2), ((0.8, 1.0), 0.4)])
def test_interference_is_the_wake_integral(spans, gap):
    s, t = spans[0] / 2, spans[1] / 2
    wake = quad(lambda x: j1(s * x) * j1(t * x) * math.exp(-gap * x) / x, 0.0, 120.0, limit=400)[0]
    assert interference(*spans, gap) == pytest.approx(2.0 * wake, rel=1e-8)


def test_two_planes_without_a_gap_are_one_and_far_apart_are_two():
    assert equivalent_span([1, 1], [0, 1e-9], [0.5, 0.5]) == pytest.approx(1.0, rel=2e-3)
    assert equivalent_span([1, 1], [0, 1e4], [0.5, 0.5]) == pytest.approx(math.sqrt(2.0), rel=1e-6)


def test_a_third_plane_in_the_gap_adds_little_and_beyond_it_more():
    two = equivalent_span([1, 1], [0, 0.2], [0.5, 0.5])
    three = equivalent_span([1, 1, 1], [0, 0.1, 0.2], [1 / 3] * 3)
    wide = equivalent_span([1, 1, 1], [0, 0.2, 0.4], [1 / 3] * 3)
    assert two < three < wide
    assert three - two < 0.2 * (wide - two)


def test_signs_are_those_of_an_ordinary_airplane():
    got = values(biplane())
    up = {"lift_alpha", "lift_q", "lift_elevator", "side_r", "side_rudder", "roll_r", "roll_rudder", "yaw_beta"}
    down = set(got) - up - {"pitch_0", "yaw_aileron"}
    assert {name for name in up if got[name] <= 0.0} == set()
    assert {name for name in down if got[name] >= 0.0} == set()
    assert got["yaw_aileron"] > 0.0, "an aileron that rolls left pulls the nose right"


@pytest.mark.parametrize(
    ("change", "names"),
    [
        ({"body_width_m": 1.0}, {"pitch_alpha", "side_beta"}),
        ({"aileron_to": 0.8}, {"roll_aileron", "yaw_aileron"}),
        ({"aileron_planes": 1}, {"roll_aileron", "yaw_aileron"}),
    ],
)
def test_a_part_changes_its_own_derivatives_only(change, names):
    before, after = values(biplane()), values(biplane(**change))
    assert {name for name in before if before[name] != after[name]} == names


def test_a_propeller_in_front_takes_stability_away():
    running, stopped = values(biplane()), values(biplane(), STOPPED)
    assert running["yaw_beta"] < stopped["yaw_beta"]
    assert running["pitch_alpha"] > stopped["pitch_alpha"]
    changed = {name for name in running if running[name] != stopped[name]}
    assert changed == {"lift_alpha", "pitch_alpha", "side_beta", "side_r", "yaw_beta", "yaw_r"}


def test_stagger_moves_the_wing_and_leaves_its_lift_alone():
    forward = biplane(planes=tuple(dataclasses.replace(p, arm_m=p.arm_m - 0.2) for p in PLANES))
    before, after = values(biplane()), values(forward)
    assert after["lift_alpha"] == before["lift_alpha"]
    assert after["pitch_alpha"] > before["pitch_alpha"]


def test_planes_in_any_order_and_one_split_in_two_halves_of_area():
    assert values(biplane(PLANES[::-1])) == pytest.approx(values(biplane()), rel=1e-12)


def test_bands_are_the_root_of_squares_of_the_parts():
    both, bare = (estimated(biplane(), one)["yaw_beta"] for one in (RUNNING, STOPPED))
    part = bare.value - both.value
    assert both.band**2 - bare.band**2 == pytest.approx((0.4 * part) ** 2, rel=1e-9)
    assert all(one.band > 0.0 and one.origin == "estimated" for one in estimated(biplane()).values())


def test_a_given_value_replaces_its_estimate_alone():
    before = estimated(biplane())
    got = overridden(before, {"yaw_beta": 0.071})
    assert got["yaw_beta"] == Derivative(0.071, "given", 0.0)
    assert {name for name in got if got[name] != before[name]} == {"yaw_beta"}


def test_a_flap_of_the_whole_chord_turns_the_whole_surface_but_for_its_loss():
    assert flap_effectiveness(1.0) == pytest.approx(0.8)
    assert flap_effectiveness(0.0) == pytest.approx(0.0, abs=1e-12)


def test_strips_summed_by_quadrature():
    taper, dihedral, share = 0.5, 0.1, 0.4

    def chord(y):  # of a half wing of length 1 and mean chord 1
        return 2.0 / (1.0 + taper) * (1.0 - (1.0 - taper) * y)

    roll = quad(lambda y: chord(y) * y * y, 0.0, 1.0)[0] / 2.0
    slip = quad(lambda y: chord(y) * y, 0.0, 1.0)[0] / 2.0
    assert roll_damping(4.0, taper) == pytest.approx(-4.0 * roll, rel=1e-12)
    assert dihedral_effect(4.0, dihedral, taper) == pytest.approx(-4.0 * dihedral * slip, rel=1e-12)
    assert aileron_power(4.0, share, 0.5, 0.9) == pytest.approx(-4.0 * share * quad(lambda y: y, 0.5, 0.9)[0] / 2)
    assert sweep_effect(0.4, 0.0) == 0.0


def test_slopes_approach_the_section_for_a_long_wing_and_half_pi_aspect_for_a_short_one():
    assert lift_slope(6.0, 1e9) == pytest.approx(6.0)
    assert lift_slope(6.0, 1e-6) == pytest.approx(math.pi * 1e-6, rel=1e-5)
    assert rolling_slope(6.0, 8.0) == lift_slope(6.0, 4.0)


def test_a_needle_has_the_cylinder_s_apparent_mass_and_a_sphere_none():
    assert apparent_mass_factor(1e3) == pytest.approx(1.0, abs=1e-4)
    assert apparent_mass_factor(1.0 + 1e-3) == pytest.approx(0.0, abs=2e-3)
    assert body_moment_volume(1000.0, 1.0) == pytest.approx(math.pi / 3 * 1000.0, rel=1e-4)


def test_a_propeller_is_a_fin_of_the_side_it_shows():
    turning = {"blades": 2, "chord_m": 0.2, "diameter_m": 2.6, "speed_m_s": 40.0}
    shown = quad(lambda r: 40.0 / math.hypot(40.0, 131.0 * r), 0.26, 1.3)[0]
    assert propeller_side_area(**turning, spin_rad_s=-131.0) == pytest.approx(5.0 * 0.2 * shown, rel=1e-9)
    assert propeller_side_area(**turning, spin_rad_s=0.0) == 0.0


def test_more_incidence_ahead_lifts_the_nose_and_without_stagger_it_does_nothing():
    upper, lower = PLANES
    tilted = biplane(planes=(dataclasses.replace(upper, incidence_rad=0.03), lower))
    assert values(tilted)["pitch_0"] > values(biplane())["pitch_0"]
    level = [dataclasses.replace(plane, arm_m=0.1) for plane in (upper, lower)]
    raised = [dataclasses.replace(level[0], incidence_rad=0.03), level[1]]
    pair = [values(biplane(planes))["pitch_0"] for planes in (level, raised)]
    assert pair[0] == pytest.approx(pair[1], abs=1e-15)
