"""A powerplant's tables become rotors, and no momentum is lost on the way."""

import pytest

from sim.model.powerplant import powerplant
from sim.scenario.powerplant import FixedTable, RotaryTable

PROPELLER = {"diameter": "2.6 m", "blades": 2, "pitch": "2.4 m", "efficiency": 0.72, "mass": "16 kg"}
ENGINE = {
    "rotation": "clockwise",
    "power": "130 hp",
    "speed": "1250 rpm",
    "cruise_speed": "1150 rpm",
    "idle_speed": "500 rpm",
    "mass": "380 lb",
    "propeller": PROPELLER,
}
RUNNING = {"piston_mass": "1.1 kg", "rod_mass": "0.9 kg", "crank_radius": "85 mm", "rod_length": "290 mm"}
CYLINDERS = {
    "cylinder_mass": "7.7 kg",
    "cylinder_radius": "350 mm",
    "crankcase_mass": "38 kg",
    "crankcase_radius": "0.2 m",
}
CRANKSHAFT = {"crankshaft_mass": "18 kg", "crankshaft_gyration_radius": "46 mm"}


def rotary(**changes):
    table = ENGINE | {"kind": "rotary", "cylinders": 9, "parts": RUNNING | CYLINDERS} | changes
    return powerplant("rotary", RotaryTable.model_validate(table))


def fixed(parts=RUNNING | CRANKSHAFT, **changes):
    table = ENGINE | {"kind": "fixed", "cylinders": 4, "parts": parts, "speed": "2600 rpm"} | changes
    return powerplant("fixed", FixedTable.model_validate(table))


def test_a_rotary_is_cylinders_crankcase_pistons_rods_and_propeller():
    assert [part.name for part in rotary().contributions] == ["cylinders", "crankcase", "pistons", "rods", "propeller"]


@pytest.mark.parametrize("gear_ratio", [1.0, 0.5, -0.5])
@pytest.mark.parametrize("rotation", ["clockwise", "anticlockwise"])
def test_the_rotors_carry_the_momentum(gear_ratio, rotation):
    for turning in (rotary(gear_ratio=gear_ratio, rotation=rotation), fixed(gear_ratio=gear_ratio, rotation=rotation)):
        carried = sum(rotor.polar_inertia_kg_m2 * rotor.ratio for rotor in turning.rotors)
        assert turning.momentum_kg_m2_s(130.0) == pytest.approx(turning.sense * carried * 130.0, rel=1e-14)
        assert len(turning.rotors) == (1 if gear_ratio == 1.0 else 2)


def test_a_rotary_carries_many_times_the_momentum_of_a_fixed_engine():
    """Each with a propeller that suits its speed."""
    small = fixed(propeller=PROPELLER | {"diameter": "1.9 m", "mass": "11 kg"})
    assert rotary().momentum_kg_m2_s(131.0) > 3.0 * small.momentum_kg_m2_s(272.0) > 0.0


def test_an_inertia_may_be_given_outright():
    given = rotary(parts=None, polar_inertia="20 kg m^2", propeller=PROPELLER | {"polar_inertia": "4 kg m^2"})
    assert given.polar_inertia_kg_m2 == pytest.approx(24.0)
    assert given.propeller.polar_inertia_kg_m2 == 4.0
    assert given.ripple_share == 0.0


def test_only_a_two_blade_propeller_pulses():
    assert fixed().pulsing_momentum_kg_m2_s(100.0) == pytest.approx(100.0 * fixed().propeller.polar_inertia_kg_m2)
    assert fixed(propeller=PROPELLER | {"blades": 3}).pulsing_momentum_kg_m2_s(100.0) == 0.0


def test_accessories_that_turn_backward_take_away():
    accessories = {"accessories_mass": "3 kg", "accessories_gyration_radius": "40 mm", "accessories_ratio": -1.5}
    less = fixed().polar_inertia_kg_m2 - fixed(RUNNING | CRANKSHAFT | accessories).polar_inertia_kg_m2
    assert less == pytest.approx(1.5 * 3.0 * 0.04**2)


def test_the_ripple_of_nine_pistons_is_beyond_notice():
    assert 0.0 < rotary().ripple_share < 1e-6
