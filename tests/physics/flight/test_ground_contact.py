"""Wheels on the ground: statics, friction, and an independent engine of rigid bodies, its ground as stiff as ours."""

import math

import numpy as np
import pytest

from sim.flight.ground_contact import SINKING_M, grounded, load_n, three_wheels
from sim.flight.motion import Airplane, Body, Controls
from sim.flight.on_wheels import Field, Gear
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Rotor

GEAR = Gear(ahead_m=0.31, below_m=1.37, tail_m=4.03, radius_m=0.29, tail_down_rad=math.radians(13.0), track_m=1.62)
BODY = Body(612.0, 700.0, 1000.0, 1500.0)
ALTITUDE_M = 350.0


def standing(pitch_rad=GEAR.tail_down_rad, *, speed_m_s=0.0, spin_rad_s=0.0):
    """Return the state of an airplane that stands as its gear says, or rolls so."""
    half = 0.5 * pitch_rad
    below = GEAR.at(pitch_rad)[1]
    u, w = speed_m_s * math.cos(pitch_rad), speed_m_s * math.sin(pitch_rad)
    attitude = (math.cos(half), 0.0, math.sin(half), 0.0)
    return (0.0, 0.0, -ALTITUDE_M - below, *attitude, u, 0.0, w, 0.0, 0.0, 0.0, spin_rad_s)


def on_ground(friction=0.05, tail_friction=0.35, *, rotors=(), **look):
    airplane = Airplane(BODY, rotors=rotors, sea_level_density_kg_m3=0.0)
    field = Field(friction, tail_friction, ALTITUDE_M, 1.9)
    wheels = three_wheels(GEAR, field, BODY.mass_kg, **look)
    return wheels, grounded(airplane, wheels, ALTITUDE_M)


def test_at_rest_it_stands_still_on_loads_by_the_lever_law():
    wheels, rates = on_ground()
    found = rates(standing(), Controls())
    assert max(map(abs, found)) < 1e-9
    ahead, _, behind = GEAR.at(GEAR.tail_down_rad)
    left, right, tail = (load_n(wheel, standing(), ALTITUDE_M) for wheel in wheels)
    assert left == pytest.approx(right)
    assert left + right + tail == pytest.approx(612.0 * 9.80665)
    assert (left + right) * ahead == pytest.approx(tail * behind)


def test_lifted_by_more_than_it_sinks_it_falls_freely():
    _, rates = on_ground()
    state = list(standing())
    state[2] -= 1.01 * SINKING_M
    found = rates(state, Controls())
    assert math.hypot(found[7], found[9]) == pytest.approx(9.80665)
    assert found[10:13] == pytest.approx((0.0, 0.0, 0.0))


def test_an_even_roll_slows_by_friction_over_mass():
    _, rates = on_ground(0.06, 0.06)
    solved = solve(lambda t, y: rates(y, Controls()), standing(speed_m_s=15.0), np.linspace(0.0, 3.0, 31))
    speed = np.hypot(solved.states[:, 7], solved.states[:, 9])
    assert (speed[-1] - speed[0]) / 3.0 == pytest.approx(-0.06 * 9.80665, rel=0.01)
    assert np.abs(solved.states[:, 8]).max() < 1e-9  # straight


def test_energy_only_falls():
    _, rates = on_ground(rotors=(Rotor(8.0),))
    start = list(standing(speed_m_s=12.0, spin_rad_s=120.0))
    start[8], start[12] = 1.0, 0.3
    solved = solve(lambda t, y: rates(y, Controls()), tuple(start), np.linspace(0.0, 2.0, 101))
    _, _, down, *_, u, v, w, p, q, r, spin = solved.states.T
    height = -down - ALTITUDE_M
    kept = 0.5 * 612.0 * (u**2 + v**2 + w**2) + 0.5 * (700.0 * p**2 + 1000.0 * q**2 + 1500.0 * r**2)
    kept += 612.0 * 9.80665 * height + 0.5 * 8.0 * (spin + p) ** 2
    assert kept[-1] < kept[0]
    assert np.diff(kept).max() < 0.02 * kept[0]  # what the springs give back is not counted in it


XML = """
<mujoco>
  <option timestep="0.0002" gravity="0 0 9.80665" integrator="RK4" cone="elliptic"/>
  <worldbody>
    <geom name="ground" type="plane" pos="0 0 0" zaxis="0 0 -1" size="500 500 1" {contact}/>
    <body name="airplane" pos="0 0 {height}" quat="{quat}">
      <freejoint/>
      <inertial pos="0 0 0" mass="{mass}" diaginertia="700 1000 1500"/>
      {wheels}
      <body name="rotor">
        <joint name="shaft" type="hinge" axis="1 0 0" armature="0" damping="0"/>
        <inertial pos="0 0 0" mass="1e-6" diaginertia="{polar} {across} {across}"/>
      </body>
    </body>
  </worldbody>
</mujoco>
"""
"""Axes as ours: x forward, y right, z down, so that weight pulls along z and the ground faces up."""


def other_engine(wheels, start, friction, *, polar=1e-6, sinking_m=SINKING_M):
    """Return the same airplane in the other engine: its contacts are stiffer, so its wheels are as ours sunk."""
    mujoco = pytest.importorskip("mujoco", reason="the independent engine of rigid bodies, extra `test`")
    contact = (
        f'condim="{3 if friction else 1}" friction="{friction or 1} 0 0" solref="0.004 1" solimp="0.99 0.999 0.001"'
    )
    balls = []
    for number, wheel in enumerate(wheels):
        radius = max(wheel.radius_m - sinking_m, 0.01)
        shift = wheel.radius_m - sinking_m - radius
        place = f"{wheel.forward_m} {wheel.right_m} {wheel.down_m + shift}"
        balls.append(f'<geom name="wheel{number}" type="sphere" size="{radius}" pos="{place}" {contact} mass="0"/>')
    model = mujoco.MjModel.from_xml_string(
        XML.format(
            contact=contact,
            height=start[2] + ALTITUDE_M,
            quat=" ".join(map(str, start[3:7])),
            mass=BODY.mass_kg,
            wheels="\n".join(balls),
            polar=polar,
            across=max(0.51 * polar, 1e-6),
        )
    )
    data = mujoco.MjData(model)
    turned = np.zeros(9)
    mujoco.mju_quat2Mat(turned, np.array(start[3:7]))
    data.qvel[:3] = turned.reshape(3, 3) @ start[7:10]
    data.qvel[3:6] = start[10:13]
    data.qvel[6] = start[13]
    return mujoco, model, data


def test_loads_at_rest_beside_the_other_engine():
    wheels, _ = on_ground()
    mujoco, model, data = other_engine(wheels, standing(), 0.5)
    for _ in range(10000):
        mujoco.mj_step(model, data)
    forces, found = np.zeros(6), {}
    for number in range(data.ncon):
        mujoco.mj_contactForce(model, data, number, forces)
        pair = data.contact[number].geom
        found[model.geom(max(pair)).name] = forces[0]
    ours = [load_n(wheel, standing(), ALTITUDE_M) for wheel in wheels]
    assert [found[f"wheel{number}"] for number in range(3)] == pytest.approx(ours, rel=0.02)


def test_a_roll_beside_the_other_engine():
    """Its wheels do not turn: they slide, with the friction of ours along and across."""
    wheels, rates = on_ground(0.06, 0.06, side_friction=0.06)
    start = standing(speed_m_s=15.0)
    mujoco, model, data = other_engine(wheels, start, 0.06)
    for _ in range(10000):
        mujoco.mj_step(model, data)
    ours = solve(lambda t, y: rates(y, Controls()), start, np.array([0.0, 2.0])).states[-1]
    assert data.qpos[0] == pytest.approx(ours[0], rel=0.005)
    assert data.qvel[0] == pytest.approx(math.hypot(ours[7], ours[9]), rel=0.01)


@pytest.mark.parametrize(("sinking_m", "apart"), [(0.004, 0.1), (0.001, 0.05), (0.0003, 0.025)])
def test_the_tail_coming_up_with_a_spinning_rotor_beside_the_other_engine(sinking_m, apart):
    """A steady nose-down moment, no friction: the rotor turns the nose to the left, the nearer the stiffer ours are."""
    rotor, spin, moment, time_s = 12.0, 150.0, -4300.0, 0.7
    wheels, rates = on_ground(0.0, 0.0, rotors=(Rotor(rotor),), side_friction=0.0, sinking_m=sinking_m)
    start = standing(speed_m_s=12.0, spin_rad_s=spin)
    mujoco, model, data = other_engine(wheels, start, 0.0, polar=rotor, sinking_m=sinking_m)
    turned = np.zeros(9)
    for _ in range(round(time_s / model.opt.timestep)):
        mujoco.mju_quat2Mat(turned, data.qpos[3:7])
        data.xfrc_applied[model.body("airplane").id, 3:6] = turned.reshape(3, 3) @ [0.0, moment, 0.0]
        mujoco.mj_step(model, data)

    def pushed(t, state):
        found = list(rates(state, Controls()))
        found[11] += moment / BODY.inertia_pitch_kg_m2
        return tuple(found)

    ours = solve(pushed, start, np.array([0.0, time_s])).states[-1]
    (pitch, heading), (its_pitch, its_heading) = angles(ours[3:7]), angles(data.qpos[3:7])
    assert pitch < math.radians(9.0)  # the tail is on its way up
    assert heading < math.radians(-3.0)  # and the nose goes left
    assert its_pitch == pytest.approx(pitch, abs=math.radians(1.0))
    assert its_heading == pytest.approx(heading, rel=apart)


def angles(quaternion):
    """Return pitch and heading [rad]."""
    e0, e1, e2, e3 = quaternion
    pitch = math.asin(2.0 * (e0 * e2 - e1 * e3))
    return pitch, math.atan2(2.0 * (e1 * e2 + e0 * e3), e0**2 + e1**2 - e2**2 - e3**2)
