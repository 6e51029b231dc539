"""The invented biplane, its travel, and it without power."""

from dataclasses import replace

import pytest
from biplane import make

from sim.flight.control_travel import Travel
from sim.propulsion.engine_propeller import Engine, Propeller


@pytest.fixture
def biplane():
    """Return the function that makes one: ``biplane(inertia_kg_m2=16.0, sense=-1.0, derivatives={"yaw_r": 0.0})``."""
    return make


@pytest.fixture
def unpowered():
    """Return what takes engine and propeller out of an airplane: no thrust, no torque, the spin stays."""
    return lambda airplane: replace(airplane, engine=Engine(), propeller=Propeller())


@pytest.fixture
def travel():
    return Travel(elevator_up_rad=0.49, elevator_down_rad=0.44, aileron_rad=0.35, rudder_rad=0.44)
