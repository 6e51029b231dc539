"""Forces at the controls: gearing, weight, mirror, and the tail's lift that they follow from."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.aerodynamics.tail_loads import fin_side, tail_lift
from sim.atmosphere import air
from sim.flight.control_forces import control_forces, hands_off_turn_rad
from sim.flight.control_system import drawn_system, repeated_system
from sim.flight.force_limits import held
from sim.flight.many_airplanes import Draws
from sim.studies.turns import turns

BANKS = np.radians([-50.0, -20.0, 0.0, 20.0, 50.0])
CASES = [(BIPLANE, "rotary"), (TRIPLANE, "geared_six"), (PARASOL, "upright_four")]


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0].stem}-{case[1]}")
def flying(request):
    return built(request.param[0]).airplane(request.param[1])


def forces(flying, system=None, found=None):
    found = turns(flying, BANKS) if found is None else found
    return np.array(control_forces(flying.airplane, system or flying.controls, found))


def test_twice_the_travel_in_the_cockpit_halves_the_force(flying):
    once = forces(flying)
    for row, name in enumerate(("elevator", "aileron", "rudder")):
        key = f"{name}_gearing_per_m"
        easier = forces(flying, replace(flying.controls, **{key: 0.5 * getattr(flying.controls, key)}))
        expected = once.copy()
        expected[row] *= 0.5
        assert easier == pytest.approx(expected, rel=1e-12)


def test_the_weight_of_the_elevator_is_a_pull_that_grows_with_the_load_factor(flying):
    found, system = turns(flying, BANKS), flying.controls
    light = forces(flying, replace(system, elevator_weight_n_m=0.0), found)
    heavy = forces(flying, replace(system, elevator_weight_n_m=17.0), found)
    assert heavy[0] - light[0] == pytest.approx(system.elevator_gearing_per_m * 17.0 * found.load_factor, rel=1e-9)
    assert heavy[1:] == pytest.approx(light[1:], rel=1e-12)


@pytest.mark.parametrize("engine", ["rotary", "flat_four"])
def test_an_engine_that_turns_the_other_way_mirrors_every_force(engine):
    ahead = built(BIPLANE).airplane(engine)
    back = built(BIPLANE, f"powerplant.{engine}.rotation=anticlockwise").airplane(engine)
    stick, side, pedal = forces(ahead)
    other = forces(back)
    assert other[0] == pytest.approx(stick[::-1], rel=1e-7)
    assert other[1] == pytest.approx(-side[::-1], rel=1e-7)
    assert other[2] == pytest.approx(-pedal[::-1], rel=1e-7)
    assert np.abs(stick - stick[::-1]).max() > 2.0, "and left and right differ"


def test_the_rotary_differs_more_from_left_to_right_than_the_fixed_engine():
    differences = {}
    for engine in ("rotary", "flat_four"):
        stick, _, pedal = forces(built(BIPLANE).airplane(engine))
        differences[engine] = abs(stick[0] - stick[-1]), abs(pedal[0] + pedal[-1])
    assert all(more > less for more, less in zip(differences["rotary"], differences["flat_four"], strict=True))


def test_the_elevator_s_moment_by_hand(flying):
    """Of the lift of the tail in flight and tube, and of deflection at that lift, from the numbers of one turn."""
    found, slip, law = turns(flying, BANKS), flying.airplane.slipstream, flying.controls.elevator
    i = 4
    u, v, w, _, q, _ = found.state[7:13, i]
    density = air(flying.altitude_m).density_kg_m3
    speed = float(np.sqrt(u * u + v * v + w * w))
    no_stream = replace(flying.airplane, slipstream=replace(slip, tail_share=0.0, fin_share=0.0, fin_above_share=0.0))
    pressure = 0.5 * density * speed**2
    lift = tail_lift(slip, (speed, w, q), found.elevator_rad[i], (0.5 * density * speed, pressure))
    incidence = lift / (TAIL_PRESSURE * pressure * law.lift_area_m2) - law.effectiveness * found.elevator_rad[i]
    coefficient = law.angle_per_rad * incidence + law.deflection_per_rad * found.elevator_rad[i]
    moment = TAIL_PRESSURE * pressure * law.volume_m3 * coefficient
    weight = flying.controls.elevator_weight_n_m * found.load_factor[i]
    stick = control_forces(no_stream, flying.controls, found).stick_n[i]
    assert stick == pytest.approx(flying.controls.elevator_gearing_per_m * (moment + weight), rel=1e-9)


def test_tail_and_fin_have_the_moments_of_the_derivatives(flying):
    """Power off: what they give of Cmδ, Cmq, Cnδ and Cnr about the centre of gravity, by their arms."""
    slip, polar = flying.airplane.slipstream, flying.airplane.polar
    area, span, chord = polar.area_m2, polar.span_m, polar.chord_m
    density, speed = 1.1, 37.0
    stream = (0.5 * density * speed, 0.5 * density * speed**2)
    by_elevator = tail_lift(slip, (speed, 0.0, 0.0), 0.1, stream) - tail_lift(slip, (speed, 0.0, 0.0), 0.0, stream)
    by_rudder = fin_side(slip, (0.0, 0.0, 0.0), 0.1, stream)
    by_yaw = fin_side(slip, (0.0, 0.0, 0.2), 0.0, stream)
    d = flying.airplane.derivatives
    assert -slip.tail_arm_m * by_elevator == pytest.approx(stream[1] * area * chord * d.pitch_elevator * 0.1, rel=0.05)
    assert -slip.fin_arm_m * by_rudder == pytest.approx(stream[1] * area * span * d.yaw_rudder * 0.1, rel=0.05)
    turned = 0.5 * 0.2 * span / speed
    assert 0.0 < -slip.fin_arm_m * by_yaw / (stream[1] * area * span * d.yaw_r * turned) < 1.05


def test_hands_off_with_the_tailplane_turned_as_said():
    """The scenario with that incidence needs no stick force at that speed, by the whole model again."""
    plain = built(TRIPLANE).airplane("rotary")
    found = turns(plain, [0.0])
    turn_deg = float(np.degrees(hands_off_turn_rad(plain.airplane, plain.controls, found))[0])
    assert abs(turn_deg) > 0.1
    now = np.degrees(built(TRIPLANE).airframe.tailplane.incidence_rad)
    turned = built(TRIPLANE, f"tailplane.incidence={now + turn_deg} °").airplane("rotary")
    before, after = (float(forces(one, found=turns(one, [0.0]))[0, 0]) for one in (plain, turned))
    assert abs(after) < 0.01 * abs(before)


def test_an_overbalanced_rudder_pushes_the_other_foot():
    """A whole tail hinged behind a quarter of its chord: the air helps the pilot, and beyond it he holds it back."""
    feet = []
    for balance in (0.1, 1.0 / 3.0, 0.6):
        one = built(BIPLANE, "rudder.chord_share=1", f"rudder.balance_share={balance}").airplane("rotary")
        feet.append(forces(one)[2])
    assert np.abs(feet[1]).max() < 1e-6
    assert np.sign(feet[0]).tolist() == (-np.sign(feet[2])).tolist()


def test_many_controls_are_those_one_by_one():
    system = built(TRIPLANE).airplane("rotary").controls
    many = drawn_system(system, Draws(5, 3))
    assert many.elevator.horn_per_rad == 0.0
    assert len({float(value) for value in many.elevator.plain_angle_per_rad}) == 5
    again = repeated_system(many, 2)
    assert again.rudder.plain_deflection_per_rad.tolist() == [
        value for value in many.rudder.plain_deflection_per_rad.tolist() for _ in range(2)
    ]
    assert again.elevator_gearing_per_m[::2].tolist() == many.elevator_gearing_per_m.tolist()


def test_a_whole_surface_drawn_still_has_all_its_lift_in_one_place():
    whole = built(BIPLANE, "rudder.chord_share=1", "rudder.balance_share=0.2").airplane("rotary").controls
    drawn = drawn_system(whole, Draws(40, 1)).rudder
    assert drawn.by_deflection_m3 == pytest.approx(0.0, abs=1e-12)
    assert drawn.by_lift_m.std() > 0.0


def test_how_long_forces_are_held_at_their_limits():
    pound = 4.4482216152605
    at = np.array([[10.0, 10.1, 60.0, 60.1, 0.0, 0.0, np.nan], [5.0, 0.0, 0.0, 0.0, 5.1, 30.1, 0.0], [20.0] * 7])
    told = held(at * pound * (1.0 - 1e-12))
    assert told == ["minutes", "a moment", "a moment", "no", "a moment", "no", None]
