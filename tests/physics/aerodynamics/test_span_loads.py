"""Loads along the spans: what is drawn makes up the lift and the moment, of a lattice solved once."""

import math
from functools import cache

import numpy as np
import pytest
from airplanes import BIPLANE, SESQUIPLANE, TRIPLANE

from sim.aerodynamics.airframe_flow import airframe_flow
from sim.aerodynamics.geometry import Airframe, Surface
from sim.aerodynamics.lattice_airplane import TAIL, WING
from sim.aerodynamics.lattice_motion import ELEVATOR, MOTION, PITCH, RUDDER, U, V, W, Z
from sim.aerodynamics.span_loads import balanced
from sim.airframe.wing import Plane, Wing
from sim.atmosphere import GRAVITY_M_S2
from sim.model.model import model
from sim.studies.derivatives import derivatives

AIRPLANES = pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, SESQUIPLANE], ids=lambda path: path.stem)


@cache
def asked(airplane):
    return model(airplane)


def flow_of(airplane):
    flying = asked(airplane).airplane()
    return airframe_flow(asked(airplane).airframe, flying.airplane.polar.lift_zero)


def rectangular(ahead):
    """Two rectangular planes of aspect ratio 6, a chord apart, with a tail so small and far that it changes nothing."""
    chords = {"span_m": 6.0, "chord_m": 1.0, "section_slope": 2.0 * math.pi}
    upper = Plane(height_m=1.0, arm_m=-ahead, name="upper", **chords)
    lower = Plane(name="lower", **chords)
    tail = Surface(span_m=0.2, chord_m=0.1, arm_m=30.0, height_m=0.0, incidence_rad=0.0, flap_share=0.4)
    fin = Surface(span_m=0.1, chord_m=0.1, arm_m=30.0, height_m=0.2, incidence_rad=0.0, flap_share=0.4)
    return Airframe(
        wing=Wing((upper, lower), upper),
        tailplane=tail,
        fin=fin,
        aileron_from=0.5,
        aileron_to=0.9,
        aileron_chord_share=0.2,
        aileron_planes=1,
        body_length_m=5.0,
        body_width_m=0.1,
        body_depth_m=0.1,
    )


@AIRPLANES
def test_the_strips_bear_what_the_forms_of_the_whole_bear(airplane):
    """The other way is the quadratic form of all panels, from which the derivatives come."""
    flow = flow_of(airplane)
    *planes, tail = flow.spans
    for motion in (W, ELEVATOR):
        strips = sum(plane.width_m @ plane.lift_m[:, motion] for plane in planes)
        assert strips == pytest.approx(-4.0 * flow.loads[WING, Z, U, motion], rel=1e-9, abs=1e-9)
        assert tail.width_m @ tail.lift_m[:, motion] == pytest.approx(-4.0 * flow.loads[TAIL, Z, U, motion], rel=1e-9)


@AIRPLANES
def test_loads_are_the_weight_and_balance(airplane):
    loads = derivatives(asked(airplane)).loads
    flying = asked(airplane).airplane()
    weight = flying.airplane.body.mass_kg * GRAVITY_M_S2
    assert sum(one.lift_n for one in loads.surfaces) == pytest.approx(weight, rel=1e-9)
    assert sum(one.share for one in loads.surfaces) == pytest.approx(1.0, rel=1e-12)
    moment = flying.airplane.derivatives
    alpha, elevator = math.radians(loads.alpha_deg), math.radians(loads.elevator_deg)
    assert moment.pitch_0 + moment.pitch_alpha * alpha + moment.pitch_elevator * elevator == pytest.approx(
        0.0, abs=1e-12
    )


@AIRPLANES
def test_what_is_drawn_makes_up_the_lift_of_each_surface(airplane):
    """By Simpson's rule in the angle of cosine stations, at the half steps of which the strips stand."""
    for one in derivatives(asked(airplane)).loads.surfaces:
        y, load = np.array(one.spanwise_m), np.array(one.lift_n_per_m)
        slope = np.sqrt(1.0 - (2.0 * y / one.span_m) ** 2)
        midpoint = 0.5 * one.span_m * math.pi / len(y) * (load * slope).sum()
        assert midpoint == pytest.approx(one.lift_n, rel=0.01)


@AIRPLANES
def test_left_and_right_are_alike(airplane):
    for one in derivatives(asked(airplane)).loads.surfaces:
        assert one.spanwise_m == pytest.approx([-y for y in reversed(one.spanwise_m)], abs=1e-12)
        assert one.lift_n_per_m == pytest.approx(list(reversed(one.lift_n_per_m)), rel=1e-9)
        assert one.local_downwash_deg == pytest.approx(list(reversed(one.local_downwash_deg)), rel=1e-9)


def test_ailerons_and_roll_are_not_alike():
    """Left and right differ where they must."""
    upper = flow_of(BIPLANE).spans[0]
    for motion in (V, MOTION.index("p"), MOTION.index("aileron")):
        assert upper.lift_m[:, motion] == pytest.approx(-upper.lift_m[::-1, motion], rel=1e-6, abs=1e-9)
        assert np.abs(upper.lift_m[:, motion]).max() > 1e-3
    assert np.abs(upper.lift_m[:, RUDDER]).max() < 0.1 * np.abs(upper.lift_m[:, MOTION.index("aileron")]).max()


@pytest.mark.parametrize(("ahead", "upper", "lower"), [(0.0, 3.390, 3.390), (0.5, 3.826, 3.098), (-0.5, 3.098, 3.826)])
def test_planes_of_a_staggered_biplane_share_as_a_second_lattice_says(ahead, upper, lower):
    """Slopes of `tests/published/test_rectangular_biplanes.py`; the plane ahead bears more; the lattice is coarser."""
    spans = airframe_flow(rectangular(ahead), 0.0).spans
    slopes = [float(span.width_m @ span.lift_m[:, W]) / 6.0 for span in spans[:2]]
    assert slopes == pytest.approx([upper, lower], rel=0.01)


def test_downwash_of_a_biplane_as_a_second_lattice_says():
    """At mid-gap on the centre line four chords aft of the lower leading edge: .537, as published there."""
    from dataclasses import replace

    airframe = rectangular(0.0)
    tail = replace(airframe.tailplane, arm_m=3.75, height_m=0.5)
    flow = airframe_flow(replace(airframe, tailplane=tail, wing_height_m=0.0), 0.0)
    assert flow.downwash_slope == pytest.approx(0.537, rel=0.02)


def test_the_flow_is_not_solved_again():
    airplane = asked(BIPLANE)
    flying = airplane.airplane()
    before = airframe_flow.cache_info()
    derivatives(airplane, speed_m_s=30.0)
    derivatives(airplane, speed_m_s=40.0)
    after = airframe_flow.cache_info()
    assert after.misses == before.misses
    assert after.hits > before.hits
    assert flying.airplane.polar.lift_zero


def test_an_elevator_without_moment_stays_neutral():
    spans = flow_of(BIPLANE).spans
    motion = balanced(spans, lift_m2=8.0, pitch_0=0.1, pitch_alpha=-0.5, pitch_elevator=0.0)
    assert motion[ELEVATOR] == 0.0
    assert sum(span.lift_m2(motion) for span in spans) == pytest.approx(8.0)


def test_the_pitching_moment_of_the_tailplane_is_its_lift_times_its_arm():
    """About the centre of gravity of the lattice, by the quarter chords of its panels within its chord."""
    flow, tail = flow_of(BIPLANE), asked(BIPLANE).airframe.tailplane
    lift = flow.spans[-1].width_m @ flow.spans[-1].lift_m[:, W]
    arm = -4.0 * flow.loads[TAIL, PITCH, U, W] / lift
    assert arm == pytest.approx(tail.arm_m, abs=0.05 * tail.chord_m)
