"""The rigid-body engine `mujoco` moves a free body with a hinged rotor as the right-hand side does."""

import math

import numpy as np
import pytest

from sim.flight.motion import Airplane, Body, Controls, right_hand_side
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Rotor

mujoco = pytest.importorskip("mujoco")

TILT, POLAR, ACROSS, MASS, ROTOR_MASS = 0.1, 12.0, 7.0, 500.0, 135.0
INERTIA = np.array([[600.0, 0.0, -30.0], [0.0, 900.0, 0.0], [-30.0, 0.0, 1400.0]])
ALONG = np.array([math.cos(TILT), 0.0, -math.sin(TILT)])
START = (0.0, 0.0, 0.0, 0.8, 0.36, -0.48, 0.0, 40.0, 3.0, -2.0, 0.5, -0.6, 0.4, 125.0)
MODEL = f"""
<mujoco>
  <option timestep="0.00025" integrator="RK4" gravity="0 0 0"><flag contact="disable"/></option>
  <worldbody>
    <body>
      <freejoint/>
      <inertial pos="0 0 0" mass="{MASS}" fullinertia="600 900 1400 0 -30 0"/>
      <body>
        <joint type="hinge" axis="{ALONG[0]} 0 {ALONG[2]}"/>
        <inertial pos="0 0 0" mass="{ROTOR_MASS}" diaginertia="{POLAR} {ACROSS} {ACROSS}"
                  euler="0 {math.degrees(TILT)} 0"/>
      </body>
    </body>
  </worldbody>
</mujoco>
"""


def seen_from_earth(state):
    """Return the matrix from body to earth components."""
    e0, e1, e2, e3 = state[3:7]
    x = np.array([[0.0, -e3, e2], [e3, 0.0, -e1], [-e2, e1, 0.0]])
    return np.eye(3) + 2.0 * e0 * x + 2.0 * x @ x


def theirs(torque_n_m, seconds):
    """Return the state that the engine reaches."""
    model = mujoco.MjModel.from_xml_string(MODEL)
    data = mujoco.MjData(model)
    data.qpos[:7], data.qvel[:3] = START[:7], seen_from_earth(START) @ START[7:10]
    data.qvel[3:] = START[10:]
    data.qfrc_applied[6] = torque_n_m
    mujoco.mj_step(model, data, round(seconds / model.opt.timestep))
    place = data.qpos[:7].copy()
    velocity = seen_from_earth([*place]).T @ data.qvel[:3]
    return np.array([*place, *velocity, *data.qvel[3:]])


def ours(torque_n_m, seconds):
    """Return the state that the right-hand side reaches; the rotor's inertia across the shaft is the airframe's."""
    whole = INERTIA + ACROSS * (np.eye(3) - np.outer(ALONG, ALONG))
    body = Body(MASS + ROTOR_MASS, whole[0, 0], whole[1, 1], whole[2, 2], -whole[0, 2])
    airplane = Airplane(
        body, rotors=(Rotor(POLAR),), shaft_tilt_rad=TILT, gravity_m_s2=0.0, sea_level_density_kg_m3=0.0
    )
    f = right_hand_side(airplane, Controls(shaft_torque_n_m=torque_n_m))
    return solve(f, START, (0.0, seconds), rtol=1e-13, atol=1e-13).states[-1]


@pytest.mark.parametrize("torque_n_m", [0.0, 150.0, -300.0])
def test_five_seconds_agree(torque_n_m):
    assert ours(torque_n_m, 5.0) == pytest.approx(theirs(torque_n_m, 5.0), rel=1e-8, abs=1e-8)
