"""The gun line of a model: what it takes from the engine that turns its propeller."""

import math

import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.model.model import model


@pytest.mark.parametrize(
    ("engine", "gear", "propeller"),
    [
        ("clockwise", 1.3, "clockwise"),
        ("anticlockwise", 0.7, "anticlockwise"),
        ("clockwise", -0.7, "anticlockwise"),
        ("anticlockwise", -1.3, "clockwise"),
    ],
)
def test_a_gear_that_reverses_turns_the_propeller_against_its_engine(engine, gear, propeller):
    line = model(
        BIPLANE, [f"powerplant.flat_four.rotation={engine}", f"powerplant.flat_four.gear_ratio={gear}"]
    ).gun_line("flat_four")
    assert line.rotation == propeller


def test_the_gun_meets_the_propeller_at_its_own_speeds_and_not_at_those_of_the_geared_engine():
    """Idle 910, cruise 2790, full speed 3080 rpm of an engine with a gear of 0.573."""
    line = built(TRIPLANE).gun_line("geared_six")
    rpm = [spin * 30.0 / math.pi for spin in line.spin_rad_s]
    assert rpm == pytest.approx([0.573 * 910.0, 0.573 * 2790.0, 0.573 * 3080.0])
