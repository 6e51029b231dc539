"""`sim.wings`: texts become planes, and the answer is that of the lattice and of plane flow."""

import math

import pytest

import sim
from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import downwash, forces
from sim.aerodynamics.lattice_panels import LiftingPlane
from sim.errors import InputError

LOWER = "span 7.4 m, chord 1.2 m, taper 0.7, sweep 4 °, dihedral 3 °, incidence 1 °, height -0.2 m, section slope 5.8"
UPPER = "span 8.6 m, chord 1.35 m, sweep -2 °, incidence 2 °, height 1.25 m, ahead 0.6 m"
PLANES = [
    LiftingPlane(7.4, 1.2, 0.7, math.radians(4), math.radians(3), math.radians(1), -0.2, 0.0, 5.8),
    LiftingPlane(8.6, 1.35, 1.0, math.radians(-2), 0.0, math.radians(2), 1.25, 0.6, 5.5),
]


def test_texts_are_planes():
    answer = sim.wings([LOWER, UPPER], at="x 4 m, y 0.3 m, z 0.2 m", section_slope=5.5)
    grid = lattice(PLANES)
    flow = circulation(grid)
    found = forces(grid, flow)
    for name in ("lift_slope_per_rad", "roll_damping_per_rad", "dihedral_effect_per_rad2", "aerodynamic_centre_m"):
        assert getattr(answer, name) == pytest.approx(getattr(found, name), rel=1e-10)
    zero = math.radians(answer.zero_lift_deg)
    assert found.lift_at_zero + zero * found.lift_slope_per_rad == pytest.approx(0.0, abs=1e-12)
    assert answer.downwash_slope == pytest.approx(downwash(grid, flow.alpha_m_rad, (4.0, 0.3, 0.2)), rel=1e-10)
    assert answer.area_m2 == pytest.approx(7.4 * 1.2 + 8.6 * 1.35)
    assert answer.induced_factor * answer.span_factor**2 == pytest.approx(1.0)


def test_the_span_loading_is_the_lift():
    answer = sim.wings([LOWER, UPPER])
    for plane in answer.planes:
        area = plane.span_m * plane.chord_m
        angle = [math.asin(2.0 * y / plane.span_m) for y in plane.spanwise_m]
        step = angle[1] - angle[0]
        loads = zip(angle, plane.loading_per_rad, strict=True)
        lift = 2.0 * 8.6 * sum(load * 0.5 * plane.span_m * math.cos(at) * step for at, load in loads)
        assert lift / area == pytest.approx(plane.lift_slope_per_rad, rel=2e-3)


@pytest.mark.parametrize("two_dimensional", [False, True])
def test_far_apart_nothing_interferes(two_dimensional):
    apart = sim.wings([LOWER, "span 8.6 m, chord 1.35 m, height 99 m"], two_dimensional=two_dimensional)
    assert apart.interference_factor == pytest.approx(1.0, abs=4e-3)
    near = sim.wings([LOWER, UPPER], two_dimensional=two_dimensional)
    assert 0.75 < near.interference_factor < 0.95


def test_in_two_dimensions_what_makes_a_wing_finite_drops_out():
    answer = sim.wings([LOWER, UPPER], two_dimensional=True)
    plain = sim.wings(
        [
            "chord 1.2 m, incidence 1 °, height -0.2 m, section slope 5.8",
            "chord 1.35 m, incidence 2 °, height 1.25 m, ahead 0.6 m",
        ],
        two_dimensional=True,
    )
    assert answer == plain
    assert (answer.span_factor, answer.downwash_slope, answer.planes[0].spanwise_m) == (None, None, ())


def test_one_plane_is_a_text_alone():
    one = sim.wings("span 6 m, chord 1 m")
    assert (one.interference_factor, one.planes[0].share) == (1.0, 1.0)
    assert one.zero_lift_deg == 0.0


WRONG = [
    ([], {}, ['planes: is missing; each plane as in "span 28 ft, chord 4 ft 6 in"']),
    (["taper 2"] * 11, {}, ['planes: can be given 10 times at most, got "11"', *[
        f'planes {n} taper: must be 0 to 1, got "2"' for n in range(1, 12)
    ]]),
    (["height 1 m"], {}, [
        'planes 1 span: is missing, as in "span 28 ft"',
        'planes 1 chord: is missing, as in "chord 4 ft 6 in"',
    ]),
    (["chord 1 m"], {"two_dimensional": True, "at": "x 1 m"}, ["at: cannot be used with `two_dimensional`"]),
    (["span 6 m, chord 1 m"], {"at": "z 1 m"}, ['at x: is missing, as in "x 12 ft"']),
    (["span 6 m, chord 1 m"], {"section_slope": 0.1}, ['section_slope: must be 2 to 8, got "0.1"']),
]  # fmt: skip


@pytest.mark.parametrize(("planes", "options", "sentences"), WRONG)
def test_wrong_input(planes, options, sentences):
    with pytest.raises(InputError) as caught:
        sim.wings(planes, **options)
    assert str(caught.value).splitlines() == sentences


TOUCH = "planes 2 height: must leave a gap of at least 0.2 of the larger chord to plane 1, over which it stands"


@pytest.mark.parametrize(
    ("other", "touches"),
    [
        ("span 6 m, chord 1 m", True),
        ("span 6 m, chord 1 m, ahead 0.99 m", True),
        ("span 6 m, chord 1 m, ahead 1 m", False),
        ("span 5 m, chord 0.5 m, height 0.199 m", True),
        ("span 5 m, chord 0.5 m, height 0.2 m", False),
        ("span 5 m, chord 0.5 m, height 0.2 m, dihedral -6 °", True),
    ],
)
def test_planes_that_touch(other, touches):
    planes = ["span 6 m, chord 1 m", other]
    if not touches:
        assert sim.wings(planes).lift_slope_per_rad > 1.0
        return
    with pytest.raises(InputError) as caught:
        sim.wings(planes)
    assert str(caught.value) == TOUCH
