"""The invented biplane with two rotors and a tilted shaft: whole, mirrored, and without air, weight and engine."""

from dataclasses import replace

import pytest
from biplane import DISC, SLIPSTREAM, make

from sim.propulsion.engine_propeller import Rotor

WHOLE = {
    "rotors": (Rotor(9.0), Rotor(2.5)),
    "shaft_tilt_rad": 0.03,
    "thrust_arm_m": 0.08,
    "disc": DISC,
    "slipstream": SLIPSTREAM,
}


@pytest.fixture
def biplane():
    return make(**WHOLE)


@pytest.fixture
def mirrored():
    return make(sense=-1.0, **WHOLE)


@pytest.fixture
def free(biplane):
    """The same without air, weight and engine torque."""
    plain = replace(biplane.engine, firing_torque_n_m=0.0, friction_torque_n_m=0.0)
    return replace(biplane, engine=plain, sea_level_density_kg_m3=0.0, gravity_m_s2=0.0)


@pytest.fixture
def tumbling():
    """A state that turns about all axes, with the shaft turning."""
    return (0.0, 0.0, -500.0, 0.8, 0.36, -0.48, 0.0, 40.0, 3.0, -2.0, 0.9, -0.6, 0.7, 125.0)
