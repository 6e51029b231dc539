"""The invented biplane, its travel, and it without power; frozen airplanes as they fly."""

import flights
import pytest
from biplane import make

from sim.flight.control_travel import Travel
from sim.model.model import model


@pytest.fixture
def biplane():
    """Return the function that makes one: ``biplane(inertia_kg_m2=16.0, sense=-1.0, derivatives={"yaw_r": 0.0})``."""
    return make


@pytest.fixture
def unpowered():
    """Return what takes engine and propeller out of an airplane: no thrust, no torque, the spin stays."""
    return flights.unpowered


@pytest.fixture
def travel():
    return Travel(elevator_up_rad=0.49, elevator_down_rad=0.44, aileron_rad=0.35, rudder_rad=0.44)


def _name(case):
    return f"{case[0].stem}-{case[1]}"


@pytest.fixture(params=flights.FROZEN, ids=_name)
def flying(request):
    return model(request.param[0]).airplane(request.param[1])


@pytest.fixture(params=flights.BANDED, ids=_name)
def banded(request):
    return model(request.param[0]).airplane(request.param[1])
