"""The bundled airplane could exist: common practice for its class, and the bodies add up."""

import math

import pytest

from sim.model.model import Model
from sim.rotor.cylinders import Reciprocating
from sim.rotor.parts import Wheel, fixed_parts, momentum_inertia, rotary_parts
from sim.rotor.propeller_inertia import inertia_from_mass
from sim.scenario.reading import load
from sim.synchronizer.blocked_arc import blocked_arc_rad, helix_rad, projected_width_m


@pytest.fixture(scope="module")
def tollgate():
    return load("tollgate")


def reciprocating(engine) -> Reciprocating:
    parts = engine.parts
    return Reciprocating(
        engine.cylinders,
        parts.crank_radius_m,
        parts.rod_length_m,
        parts.piston_mass_kg,
        parts.rod_mass_kg,
        parts.rod_centre_share,
        parts.rod_gyration_share * parts.rod_length_m,
    )


def test_it_is_of_the_size_asked_for(tollgate):
    assert tollgate.wing.span_m / 0.3048 == pytest.approx(28, abs=0.5)
    assert tollgate.airplane.mass_kg / 0.45359237 == pytest.approx(1400)
    assert {name: engine.kind for name, engine in tollgate.powerplant.items()} == {
        "rotary": "rotary",
        "flat_four": "fixed",
    }


def test_it_stalls_where_such_biplanes_do(tollgate):
    """Between the slowest and the fastest of five types in Loftin, Quest for Performance: 47 to 61 mph, less loaded."""
    stall_m_s = Model(tollgate).polar.stall_m_s(tollgate.airplane.mass_kg * 9.80665, 1.225)
    assert 40 < stall_m_s / 0.44704 < 47
    assert tollgate.flight.speed_m_s > 1.5 * stall_m_s


def test_its_radii_of_gyration_are_those_of_its_size(tollgate):
    airplane = tollgate.airplane
    roll, pitch, yaw = (
        math.sqrt(inertia / airplane.mass_kg)
        for inertia in (airplane.inertia_roll_kg_m2, airplane.inertia_pitch_kg_m2, airplane.inertia_yaw_kg_m2)
    )
    assert 0.20 < 2.0 * roll / tollgate.wing.span_m < 0.32
    assert 0.35 < 2.0 * pitch / tollgate.fuselage.length_m < 0.50
    assert 0.35 < 4.0 * yaw / (tollgate.wing.span_m + tollgate.fuselage.length_m) < 0.52


def test_most_of_the_rotary_spins(tollgate):
    engine = tollgate.powerplant["rotary"]
    keys = ("cylinder_mass_kg", "cylinder_radius_m", "cylinder_length_m", "cylinder_diameter_m")
    keys += ("crankcase_mass_kg", "crankcase_radius_m", "crankcase_inner_radius_m")
    parts = rotary_parts(reciprocating(engine), **{key: getattr(engine.parts, key) for key in keys})
    assert 10.0 < momentum_inertia(parts) < 12.0
    assert 0.65 < sum(part.mass_kg for part in parts) / engine.mass_kg < 0.85
    assert 4.0 < engine.propeller.polar_inertia_kg_m2 < 5.0


def test_the_swung_propeller_agrees_with_its_mass(tollgate):
    propeller = tollgate.powerplant["rotary"].propeller
    by_mass = inertia_from_mass(propeller.mass_kg, propeller.diameter_m)
    assert propeller.polar_inertia_kg_m2 == pytest.approx(by_mass, rel=0.25)


def test_little_of_the_flat_four_spins(tollgate):
    engine = tollgate.powerplant["flat_four"]
    parts = engine.parts
    wheels = (
        Wheel("crankshaft", parts.crankshaft_mass_kg, parts.crankshaft_gyration_radius_m),
        Wheel("flywheel", parts.flywheel_mass_kg, parts.flywheel_gyration_radius_m),
        Wheel("accessories", parts.accessories_mass_kg, parts.accessories_gyration_radius_m, parts.accessories_ratio),
    )
    assert 0.05 < momentum_inertia(fixed_parts(wheels, reciprocating(engine))) < 0.3
    assert 0.5 * engine.propeller.diameter_m * engine.speed_rad_s < 0.85 * 340.0


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
def test_there_is_room_to_fire_between_the_blades(tollgate, name):
    gun, propeller = tollgate.gun, tollgate.powerplant[name].propeller
    chord_m = propeller.blade_chord_m or gun.blade_chord_m
    thickness_m = propeller.blade_thickness_m or gun.blade_thickness_m
    width_m = projected_width_m(chord_m, thickness_m, helix_rad(propeller.pitch_m, gun.bore_radius_m))
    blocked = blocked_arc_rad(width_m, gun.bullet_diameter_m, gun.bore_radius_m) + 2.0 * gun.margin_rad
    assert 15.0 < math.degrees(blocked) < 40.0
