"""The gun line of a model: what it takes from the engine that turns its propeller."""

import pytest
from airplanes import BIPLANE

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
