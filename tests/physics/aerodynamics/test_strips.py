"""Strips past the stall: the linear model below it, its CLmax, and loads that are bounded and take energy out."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, SESQUIPLANE, TRIPLANE, TWO_SEATER

from sim.aerodynamics.forces import AirLoads, air_loads
from sim.aerodynamics.half_planes import wing_flow
from sim.aerodynamics.section_curve import SectionCurve, section_coefficients
from sim.aerodynamics.slipstream import Wash, wash
from sim.aerodynamics.strip_flow import Motion, strip_state, strip_streams
from sim.aerodynamics.strips import Strip, Strips, scaled
from sim.aerodynamics.strips_lift_max import greatest_lift, trimmed_lift
from sim.aerodynamics.strips_loads import strip_loads
from sim.model.model import model
from sim.numerics.number import ARRAY_MATH

AIRPLANES = (BIPLANE, TRIPLANE, PARASOL, TWO_SEATER, SESQUIPLANE)
DENSITY = 1.1
STILL = Wash(DENSITY)
NOTHING = AirLoads(*[0.0] * 8)


def flown(path):
    return model(path, ["flight.air=strips"]).airplane()


def loads(airplane, motion, controls, wash=STILL):
    linear = air_loads(airplane.polar, airplane.derivatives, ARRAY_MATH, bounded=False)(motion, DENSITY, controls)
    return linear, strip_loads(airplane.strips, ARRAY_MATH)(motion, controls, linear, wash)


def sizes(airplane, speed):
    polar = airplane.polar
    force = 0.5 * DENSITY * speed**2 * polar.area_m2
    return np.array([force, force, force, force * polar.span_m, force * polar.chord_m, force * polar.span_m])


def drawn(count, *, speed_m_s, angle_rad, rate, seed=7):
    """Return velocity and rates at random: as far from flight along x as `angle_rad`, with rates up to `rate`."""
    random = np.random.default_rng(seed)
    alpha, beta = angle_rad * random.uniform(-1.0, 1.0, (2, count))
    speed = random.uniform(*speed_m_s, count)
    velocity = (np.cos(alpha) * np.cos(beta), np.sin(beta), np.sin(alpha) * np.cos(beta))
    return tuple(speed * one for one in velocity) + tuple(rate * random.uniform(-1.0, 1.0, (3, count)))


def full(travel, count, seed=8):
    random = np.random.default_rng(seed)
    up, down = -travel.elevator_up_rad, travel.elevator_down_rad
    sideways = random.uniform(-1.0, 1.0, (2, count))
    return random.uniform(up, down, count), travel.aileron_rad * sideways[0], travel.rudder_rad * sideways[1]


@pytest.mark.parametrize("path", AIRPLANES)
def test_they_are_the_linear_model_below_the_stall(path):
    flying = flown(path)
    airplane, count = flying.flown, 400
    random = np.random.default_rng(3)
    d, polar = airplane.derivatives, airplane.polar
    lift = random.uniform(0.0, 0.75, count) * polar.lift_max
    alpha, speed, small = (lift - polar.lift_zero) / d.lift_alpha, 35.0, 0.04 * random.uniform(-1.0, 1.0, (4, count))
    motion = (
        *(speed * np.cos(alpha) * np.cos(small[0]), speed * np.sin(small[0]), speed * np.sin(alpha)),
        *(0.5 * speed * small[1:] / polar.span_m),
    )
    controls = tuple(0.25 * one for one in full(flying.travel, count))
    linear, found = loads(airplane, motion, controls)
    size = sizes(airplane, speed) * np.array([1.0, 1.0, 1.0, 0.1, 0.3, 0.1])
    difference = (np.array(found[:6]) - np.array(linear[:6])) / size[:, None]
    assert np.abs(difference).max() < 0.01 * polar.lift_max


@pytest.mark.parametrize("path", AIRPLANES)
def test_their_greatest_lift_in_trim_is_that_of_the_airplane_and_then_it_breaks(path):
    airplane = flown(path).flown
    polar, d = airplane.polar, airplane.derivatives
    assert greatest_lift(airplane.strips, polar, d) == pytest.approx(polar.lift_max, rel=1e-3)
    lift = trimmed_lift(airplane.strips, polar, d, np.radians(np.arange(4.0, 32.0, 0.5)))
    top = int(np.argmax(lift))
    assert lift[top + 10 : top + 16].min() < 0.95 * polar.lift_max


@pytest.mark.parametrize("path", AIRPLANES)
@pytest.mark.parametrize("held", [0.0, 1.0])
def test_air_at_rest_takes_energy_out_of_every_motion(path, held):
    flying = flown(path)
    for angle, rate in ((3.1, 1.5), (0.5, 1.0), (0.3, 4.0)):
        motion = drawn(20_000, speed_m_s=(5.0, 70.0), angle_rad=angle, rate=rate)
        controls = tuple(held * one for one in full(flying.travel, 20_000))
        found = loads(flying.flown, motion, controls)[1]
        power = sum(load * speed for load, speed in zip(found[:6], motion, strict=True))
        assert power.max() < 0.0


@pytest.mark.parametrize("path", AIRPLANES)
def test_loads_are_bounded_at_any_speed_attitude_and_rate(path):
    flying = flown(path)
    airplane = flying.flown
    motion = drawn(40_000, speed_m_s=(0.0, 90.0), angle_rad=np.pi, rate=8.0)
    found = loads(airplane, motion, full(flying.travel, 40_000))[1]
    u, v, w, p, q, r = motion
    met = u * u + v * v + w * w + (0.5 * airplane.polar.span_m) ** 2 * (p * p + q * q + r * r)
    size = sizes(airplane, np.sqrt(met))
    assert np.isfinite(np.array(found)).all()
    assert (np.abs(np.array(found[:3])) / size[:3]).max() < 4.0
    assert (np.abs(np.array(found[3:6])) / size[3]).max() < 4.0


@pytest.mark.parametrize("path", AIRPLANES)
def test_without_swirl_the_mirror_image_has_the_mirrored_loads(path):
    flying = flown(path)
    motion = drawn(500, speed_m_s=(0.0, 70.0), angle_rad=np.pi, rate=3.0)
    controls = full(flying.travel, 500)
    found = np.array(loads(flying.flown, motion, controls, Wash(DENSITY, 6.0))[1][:6])
    u, v, w, p, q, r = motion
    elevator, aileron, rudder = controls
    other = loads(flying.flown, (u, -v, w, -p, q, -r), (elevator, -aileron, -rudder), Wash(DENSITY, 6.0))[1][:6]
    back = np.array(other) * np.array([1.0, -1.0, 1.0, -1.0, 1.0, -1.0])[:, None]
    assert np.abs(back - found).max() < 1e-9 * np.abs(found).max()


def elliptic(curve, count=60):
    """Return the strips of an elliptic wing in plane flow: its vortices turn nothing."""
    edges = np.sin(np.linspace(0.0, np.pi / 2.0, count + 1))
    middle, width = 4.0 * 0.5 * (edges[1:] + edges[:-1]), 4.0 * np.diff(edges)
    chord = 1.5 * np.sqrt(1.0 - (middle / 4.0) ** 2)
    wing = tuple(
        Strip("wing", curve, b * c, c, (0.0, y, 0.0), (0.0, y, 0.0), (0.0, 1.0), -curve.zero_lift_rad)
        for y, b, c in zip(middle.tolist(), width.tolist(), chord.tolist(), strict=True)
    )
    return Strips(wing, (), (), 9.4, 8.0, 4.0, (0.0, 0.0), 1.0, 0.0)


@pytest.mark.parametrize("alpha_deg", [4.0, 10.0, 13.0, 15.0, 16.0, 17.0, 18.0, 20.0, 22.0, 25.0, 35.0])
def test_roll_damping_of_an_elliptic_wing_is_lift_slope_plus_drag(alpha_deg):
    """About the direction of flight L/ω = −½ρV (a + CD) ∫ y² c dy: a wing turns by itself where the sum is below 0."""
    curve = SectionCurve(lift_slope=5.7, zero_lift_rad=-0.03, lift_max=1.4, lift_min=-1.0, drag_zero_lift=0.013)
    strips, alpha, speed = elliptic(curve), np.radians(alpha_deg), 30.0
    found, section, ahead, below = strip_loads(strips, alone=True), section_coefficients(curve), *along(alpha)

    def rolling(rate):
        motion = (speed * ahead, 0.0, speed * below, rate * ahead, 0.0, rate * below)
        at = found(motion, (0.0, 0.0, 0.0), NOTHING, STILL)
        return at.roll * ahead + at.yaw * below

    def section_at(angle):
        return section(along(angle)[::-1])

    slope = (section_at(alpha + 1e-6)[0] - section_at(alpha - 1e-6)[0]) / 2e-6
    second_moment = sum(2.0 * one.area_m2 * one.force_m[1] ** 2 for one in strips.wing)
    criterion = slope + section_at(alpha)[1]
    damping = (rolling(1e-5) - rolling(-1e-5)) / 2e-5
    assert damping == pytest.approx(-0.5 * DENSITY * speed * second_moment * criterion, rel=1e-5)
    assert (damping > 0.0) == (12.0 < alpha_deg < 19.0) == (criterion < 0.0)


def along(angle):
    return float(np.cos(angle)), float(np.sin(angle))


def test_another_greatest_lift_scales_the_sections_with_it():
    airplane = flown(BIPLANE).flown
    more = replace(airplane.polar, lift_max=1.2 * airplane.polar.lift_max)
    strips = scaled(airplane.strips, more.lift_max / airplane.strips.lift_max)
    found = greatest_lift(strips, more, airplane.derivatives)
    assert found == pytest.approx(more.lift_max, rel=0.03)


def test_swirl_that_rises_on_the_left_rolls_the_airplane_with_the_propeller():
    """A clockwise slipstream rolls it right by about the torque that the linear model takes out of the air."""
    airplane = flown(BIPLANE).flown
    torque, speed = 400.0, 36.0
    slip, motion = airplane.slipstream, (speed, 0.0, 1.5, 0.0, 0.0, 0.0)
    met = wash(slip)(motion, DENSITY, 900.0, torque)
    wing = replace(airplane.strips, tail=())
    rolls = [
        strip_loads(wing, alone=True)(motion, (0.0, 0.0, 0.0), NOTHING, met._replace(around=sense * met.around)).roll
        for sense in (1.0, 0.0, -1.0)
    ]
    assert rolls[1] == pytest.approx(0.0, abs=1e-9)
    assert rolls[0] == pytest.approx(-rolls[2])
    assert 0.5 < rolls[0] / (slip.recovered_share * torque) < 3.0


def test_the_slipstream_unloads_the_inner_wing_and_feeds_the_rudder():
    airplane = flown(BIPLANE).flown
    motion, controls = (18.0, 0.0, 5.0, 0.0, 0.0, 0.0), (0.0, 0.0, -0.3)
    inner = airplane.strips.wing[0]
    now = Motion(*motion, tuple(one / 18.7 for one in motion), controls)
    still, blown = (next(wing_flow(airplane.strips)(now, Wash(DENSITY, gain))).states[0] for gain in (0.0, 9.0))
    assert inner.washed_share > 0.5
    assert blown.effective < still.effective - 0.05
    assert blown.speed > still.speed + 4.0
    yaws = [
        strip_loads(airplane.strips, alone=True)(motion, controls, NOTHING, Wash(DENSITY, gain)).yaw
        for gain in (0.0, 9.0)
    ]
    assert yaws[1] > 1.6 * yaws[0] > 0.0


def test_a_stalled_wing_takes_pressure_and_downwash_from_the_tail():
    strips = flown(BIPLANE).flown.strips
    tail = next(one for one in strips.tail if one.name == "tailplane")
    velocity = (30.0, 0.0, 9.0, 0.0, 0.0, 0.0)
    now = Motion(*velocity, tuple(one / 31.3 for one in velocity), (0.0, 0.0, 0.0))
    met = strip_streams(tail)(now, STILL)[0]
    lifting, stalled = (strip_state(tail)(met, 1.0, share).effective for share in (1.0, 0.4))
    assert stalled > lifting + 0.05
    alone = strip_loads(strips, alone=True)
    without = strip_loads(replace(strips, wing=tuple(unstallable(one) for one in strips.wing)), alone=True)
    of_tail = [
        found(velocity, (0.0, 0.0, 0.0), NOTHING, STILL).pitch
        - strip_loads(replace(each, tail=()), alone=True)(velocity, (0.0, 0.0, 0.0), NOTHING, STILL).pitch
        for found, each in (
            (alone, strips),
            (without, replace(strips, wing=tuple(unstallable(one) for one in strips.wing))),
        )
    ]
    assert of_tail[0] < of_tail[1] < 0.0


def test_vortices_turn_a_strip_by_what_its_half_plane_lifts():
    """Two strips on each side, one at half the angle of its largest lift and one far beyond, summed by hand."""
    curve = SectionCurve(lift_slope=5.7, zero_lift_rad=-0.03, lift_max=1.3, lift_min=-1.3, drag_zero_lift=0.013)
    turned = (0.0, 0.0, 0.4, *(0.0,) * 6)  # by .4 of the angle of attack
    inner, outer = (
        Strip("wing", curve, area, 1.2, (0.0, y, 0.0), (0.0, y, 0.0), (0.0, 1.0), setting, induced=turned)
        for area, y, setting in ((3.0, 1.0, 0.4), (2.0, 3.0, -0.1))
    )
    alone = Strips((inner, outer), (), (), 10.0, 8.0, 4.0, (0.0, 0.0), 1.0, 0.0)
    velocity = (30.0, 0.0, 6.0, 0.0, 0.0, 0.0)
    speed = np.hypot(30.0, 6.0)
    alpha, own = np.arctan2(6.0, 30.0), 0.4 * 6.0 / speed
    found = [*wing_flow(alone)(Motion(*velocity, tuple(one / speed for one in velocity), (0.0, 0.0, 0.0)), STILL)]
    shares = [(1.0 + ((alpha + setting - own) * 5.7 / 1.3) ** 8) ** -0.125 for setting in (0.4, -0.1)]
    assert shares[0] < 0.6 < 0.999 < shares[1]
    mean = 0.6 * shares[0] + 0.4 * shares[1]
    for flow, share, setting in zip(found, shares, (0.4, -0.1), strict=True):
        assert flow.attached == pytest.approx((share, share), rel=1e-5)
        assert [one.effective for one in flow.states] == pytest.approx([alpha + setting - mean * own] * 2, rel=1e-5)


def unstallable(strip):
    return replace(strip, curve=replace(strip.curve, lift_max=9.0, lift_min=-9.0))
