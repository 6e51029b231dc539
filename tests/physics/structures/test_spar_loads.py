"""Loads of strips on spars: lever, moment, weight, and the sum of all that reaches the frame."""

from math import radians

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

from sim.airframe.wing import Plane
from sim.structures.spar_loads import SparPlaces, StripLoads, frame_load, on_spars
from sim.structures.wing_air_loads import PlaneCondition, PlaneLift, plane_strips

AT = SparPlaces(front_m=0.2, rear_m=0.9, quarter_m=0.375)


def strips(plane, *, seed=1):
    rng = np.random.default_rng(seed)
    edges = np.linspace(-0.5 * plane.span_m, 0.5 * plane.span_m, 13)
    return StripLoads(edges, *(rng.normal(size=12) * size + size for size in (900.0, -150.0, -60.0)))


def test_spars_have_the_force_and_the_moment_of_the_strip():
    own = strips(Plane(9.0, 1.5))
    front, rear = on_spars(own, AT)
    assert front[:, 1] + rear[:, 1] == pytest.approx(own.up_n_per_m)
    assert front[:, 0] + rear[:, 0] == pytest.approx(own.aft_n_per_m)
    nose_up = front[:, 1] * (AT.quarter_m - AT.front_m) - rear[:, 1] * (AT.rear_m - AT.quarter_m)
    assert nose_up == pytest.approx(own.nose_up_n)


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL])
def test_all_that_the_strips_bear_reaches_the_frame(airplane):
    structure = built(airplane).structure
    planes = {one.name: one for one in built(airplane).wing.planes}
    loads = {name: (strips(plane, seed=n), structure.places[name]) for n, (name, plane) in enumerate(planes.items())}
    load = frame_load(structure.wing, loads, structure.spars, 1.5)
    total = sum(np.array(force) for force in load.at_nodes_n.values())
    for span in structure.wing.frame.spans:
        for axis, patches in zip(span.axes[1:], load.beams[span.beam.name][span.number], strict=True):
            total = total + axis * sum(p.load_n_per_m * (p.end_m - p.start_m) for p in patches)
    widths = {name: np.diff(own.edges_m) for name, (own, _) in loads.items()}
    aft = 1.5 * sum(widths[name] @ own.aft_n_per_m for name, (own, _) in loads.items())
    up = 1.5 * sum(widths[name] @ own.up_n_per_m for name, (own, _) in loads.items())
    assert total == pytest.approx([aft, 0.0, up], rel=1e-9, abs=1e-9 * abs(up))


PLANE = Plane(8.0, 1.4, taper=0.6, section_moment=-0.07)
LIFT = PlaneLift(np.linspace(-3.5, 3.5, 8), np.full(8, 1.0), np.linspace(500.0, 900.0, 8))
STILL = PlaneCondition(
    pressure_pa=800.0,
    alpha_rad=0.0,
    induced_over_lift=0.0,
    plane_drag=0.0,
    kg_per_m2=0.0,
    wing_cg=0.4,
    inertia_factor=0.0,
)


def test_lift_alone_is_lift_and_the_moment_of_the_section():
    found = plane_strips(PLANE, LIFT, STILL)
    assert found.up_n_per_m == pytest.approx(LIFT.lift_n_per_m)
    assert found.aft_n_per_m == pytest.approx(np.zeros(8))
    chord = 2.0 * 1.4 / 1.6 * (1.0 - 0.4 * np.abs(LIFT.spanwise_m) / 4.0)
    assert found.nose_up_n == pytest.approx(-0.07 * 800.0 * chord**2)
    assert (found.edges_m[0], found.edges_m[-1]) == (-4.0, 4.0)


def test_lift_at_an_angle_of_attack_pulls_forward_and_drag_aft():
    turned = PlaneCondition(800.0, radians(12.0), 0.06, 0.011, 0.0, 0.4, 0.0)
    found = plane_strips(PLANE, LIFT, turned)
    c, s = np.cos(radians(12.0)), np.sin(radians(12.0))
    assert found.up_n_per_m * c - found.aft_n_per_m * s == pytest.approx(LIFT.lift_n_per_m)
    chord = 2.0 * 1.4 / 1.6 * (1.0 - 0.4 * np.abs(LIFT.spanwise_m) / 4.0)
    drag = 0.06 * LIFT.lift_n_per_m + 0.011 * 800.0 * chord
    assert found.up_n_per_m * s + found.aft_n_per_m * c == pytest.approx(drag)


def test_weight_bears_down_behind_the_quarter_chord():
    heavy = PlaneCondition(800.0, 0.0, 0.0, 0.0, 5.0, 0.4, 3.0)
    light, own = plane_strips(PLANE, LIFT, STILL), plane_strips(PLANE, LIFT, heavy)
    down = light.up_n_per_m - own.up_n_per_m
    assert down @ np.full(8, 1.0) == pytest.approx(3.0 * 9.80665 * 5.0 * 8.0 * 1.4, rel=1e-9)
    assert own.nose_up_n - light.nose_up_n == pytest.approx(down * 0.15 * 1.4)


def test_one_side_may_bear_less():
    turning = PlaneCondition(800.0, 0.0, 0.0, 0.0, 0.0, 0.4, 0.0, left_share=0.75)
    found = plane_strips(PLANE, LIFT, turning)
    assert found.up_n_per_m / LIFT.lift_n_per_m == pytest.approx([0.75] * 4 + [1.0] * 4)
