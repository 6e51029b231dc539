"""An invented airplane, whole and without air, weight and engine."""

from dataclasses import replace

import pytest

from sim.flight.air import Derivatives, Wing
from sim.flight.motion import Airplane, Body
from sim.flight.power import Rotor, matched_engine, matched_propeller


def make_airplane(rotation=1.0):
    """Return a biplane with a rotary of the 130 hp class; the other way round when rotation is −1."""
    return Airplane(
        body=Body(635.0, 700.0, 1000.0, 1500.0, 20.0),
        rotors=(Rotor(9.0), Rotor(2.5)),
        wing=Wing(
            area_m2=17.0,
            span_m=8.5,
            chord_m=1.1,
            aspect_ratio=5.0,
            span_efficiency=0.8,
            drag_zero_lift=0.045,
            lift_zero=0.3,
            lift_max=1.4,
        ),
        derivatives=Derivatives(
            lift_alpha=4.5,
            lift_q=4.0,
            lift_elevator=0.35,
            pitch_0=0.02,
            pitch_alpha=-0.7,
            pitch_alpha_dot=-4.0,
            pitch_q=-10.0,
            pitch_elevator=-0.9,
            side_beta=-0.5,
            side_p=0.01,
            side_r=0.2,
            side_rudder=0.15,
            roll_beta=-0.07,
            roll_p=-0.4,
            roll_r=0.1,
            roll_aileron=-0.13,
            roll_rudder=0.01,
            yaw_beta=0.07,
            yaw_p=-0.05,
            yaw_r=-0.12,
            yaw_aileron=-0.003,
            yaw_rudder=-0.07,
        ),
        engine=matched_engine(
            power_w=97e3, speed_rad_s=131.0, rotation=rotation, friction_torque_n_m=90.0, windage_w=3000.0
        ),
        propeller=matched_propeller(power_w=97e3, speed_rad_s=131.0, airspeed_m_s=45.0, efficiency=0.75),
        shaft_tilt_rad=0.03,
        thrust_arm_m=0.08,
    )


@pytest.fixture
def biplane():
    return make_airplane()


@pytest.fixture
def mirrored():
    return make_airplane(rotation=-1.0)


@pytest.fixture
def free(biplane):
    """The same without air, weight and engine torque."""
    plain = replace(biplane.engine, firing_torque_n_m=0.0, friction_torque_n_m=0.0)
    return replace(biplane, engine=plain, sea_level_density_kg_m3=0.0, gravity_m_s2=0.0)


@pytest.fixture
def tumbling():
    """A state that turns about all axes, with the shaft turning."""
    return (0.0, 0.0, -500.0, 0.8, 0.36, -0.48, 0.0, 40.0, 3.0, -2.0, 0.9, -0.6, 0.7, 125.0)
