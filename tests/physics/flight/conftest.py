"""An invented biplane in plain numbers, with a heavy rotor or a light one, turning either way."""

from dataclasses import replace

import pytest

from sim.flight.air import Derivatives, Wing
from sim.flight.limits import Travel
from sim.flight.motion import Airplane, Body
from sim.flight.power import Engine, Propeller, Rotor, matched_engine, matched_propeller

DERIVATIVES = Derivatives(
    lift_alpha=4.1,
    lift_q=2.5,
    lift_elevator=0.27,
    pitch_0=0.02,
    pitch_alpha=-0.3,
    pitch_alpha_dot=-4.5,
    pitch_q=-7.3,
    pitch_elevator=-0.8,
    side_beta=-0.16,
    side_p=-0.007,
    side_r=0.09,
    side_rudder=0.083,
    roll_beta=-0.043,
    roll_p=-0.5,
    roll_r=0.09,
    roll_aileron=-0.235,
    roll_rudder=0.003,
    yaw_beta=0.02,
    yaw_p=-0.04,
    yaw_r=-0.063,
    yaw_aileron=0.025,
    yaw_rudder=-0.041,
)
WING = Wing(
    area_m2=23.5,
    span_m=8.56,
    chord_m=1.37,
    aspect_ratio=4.07,
    span_efficiency=0.7,
    drag_zero_lift=0.042,
    lift_zero=0.3,
    lift_max=1.45,
)
BODY = Body(635.0, 870.0, 1060.0, 1750.0, 20.0)


@pytest.fixture
def biplane():
    """Return the function that makes one: ``biplane(inertia_kg_m2=16.0, sense=-1.0, derivatives={"yaw_r": 0.0})``."""

    def make(*, inertia_kg_m2=16.0, sense=1.0, derivatives=None, rotors=None, **changes) -> Airplane:
        power = {"power_w": 97e3, "speed_rad_s": 131.0}
        airplane = Airplane(
            body=BODY,
            rotors=rotors if rotors is not None else (Rotor(inertia_kg_m2),),
            wing=WING,
            derivatives=replace(DERIVATIVES, **(derivatives or {})),
            engine=matched_engine(**power, rotation=sense, friction_torque_n_m=34.0, windage_w=10e3),
            propeller=matched_propeller(**power, airspeed_m_s=36.0, efficiency=0.72),
        )
        return replace(airplane, **changes)

    return make


@pytest.fixture
def unpowered():
    """Return what takes engine and propeller out of an airplane: no thrust, no torque, the spin stays."""
    return lambda airplane: replace(airplane, engine=Engine(), propeller=Propeller())


@pytest.fixture
def travel():
    return Travel(elevator_up_rad=0.49, elevator_down_rad=0.44, aileron_rad=0.35, rudder_rad=0.44)
