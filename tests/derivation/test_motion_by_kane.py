"""Kane's method, as an independent library forms it, gives the accelerations that the right-hand side gives."""

import math
from dataclasses import replace

import numpy as np
import pytest
import sympy
from biplane import BODY, DISC, PROPELLER, SLIPSTREAM, make
from sympy.physics import mechanics

from sim.aerodynamics.forces import SPEED_FLOOR_M_S, air_loads
from sim.aerodynamics.slipstream import Drive, slipstream_loads
from sim.atmosphere import density_ratio
from sim.flight.motion import Airplane, Body, Controls, motion
from sim.propulsion.disc import disc_loads
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor, shaft_loads

AIRPLANE = make(
    body=replace(BODY, inertia_product_kg_m2=60.0),
    rotors=(Rotor(9.0), Rotor(2.5, -0.6), Rotor(0.02, 7.0)),
    engine=Engine(1.0, 800.0, 90.0, 2e-3),
    propeller=replace(PROPELLER, ratio=-0.6),
    shaft_tilt_rad=0.07,
    thrust_arm_m=0.1,
    disc=DISC,
    slipstream=SLIPSTREAM,
)
LOADS = sympy.symbols("force_x force_y force_z roll pitch yaw engine windage propeller")


@pytest.fixture(scope="module")
def accelerations():
    """Return (u, v, w, p, q, r, spin) and the loads -> accelerations, from bodies, frames and Kane's method."""
    speeds = mechanics.dynamicsymbols("u v w p q r spin")
    places = mechanics.dynamicsymbols("place:7")
    u, v, w, p, q, r, spin = speeds
    earth, frame = mechanics.ReferenceFrame("earth"), mechanics.ReferenceFrame("airframe")
    frame.set_ang_vel(earth, p * frame.x + q * frame.y + r * frame.z)
    centre = mechanics.Point("centre")
    centre.set_vel(earth, u * frame.x + v * frame.y + w * frame.z)
    body, tilt = AIRPLANE.body, AIRPLANE.shaft_tilt_rad
    inertia = mechanics.inertia(
        frame,
        body.inertia_roll_kg_m2,
        body.inertia_pitch_kg_m2,
        body.inertia_yaw_kg_m2,
        izx=-body.inertia_product_kg_m2,
    )
    along = math.cos(tilt) * frame.x - math.sin(tilt) * frame.z
    bodies = [mechanics.RigidBody("airframe", centre, frame, body.mass_kg, (inertia, centre))]

    def turning(name, ratio, polar=0.0):
        rotor = mechanics.ReferenceFrame(name)
        rotor.set_ang_vel(frame, ratio * spin * along)
        bodies.append(mechanics.RigidBody(name, centre, rotor, 0, (polar * mechanics.outer(along, along), centre)))
        return rotor

    for number, rotor in enumerate(AIRPLANE.rotors):
        turning(f"rotor{number}", rotor.ratio, rotor.polar_inertia_kg_m2)
    crank, blades = turning("crank", 1.0), turning("blades", AIRPLANE.propeller.ratio)
    force_x, force_y, force_z, roll, pitch, yaw, engine, windage, propeller = LOADS
    loads = [
        (centre, force_x * frame.x + force_y * frame.y + force_z * frame.z),
        (frame, roll * frame.x + pitch * frame.y + yaw * frame.z - engine * along),
        (crank, (engine - windage) * along),
        (blades, -propeller * along),
    ]
    rates = [place.diff() - speed for place, speed in zip(places, speeds, strict=True)]
    method = mechanics.KanesMethod(earth, places, speeds, kd_eqs=rates)
    method.kanes_equations(bodies, loads)
    matrix = sympy.lambdify((speeds, LOADS), (method.mass_matrix, method.forcing))

    def found(numbers, given):
        left, right = matrix(numbers, given)
        return np.linalg.solve(np.array(left, dtype=float), np.array(right, dtype=float))[:, 0]

    return found


def applied(state, controls, rates):
    """Return the loads on the airplane as the modules of air and power give them."""
    e0, e1, e2, e3, u, _, w = state[3:10]
    density = AIRPLANE.sea_level_density_kg_m3 * density_ratio(-state[2])
    air = air_loads(AIRPLANE.polar, AIRPLANE.derivatives)(state[7:13], density, controls)
    tilt, weight = AIRPLANE.shaft_tilt_rad, AIRPLANE.body.mass_kg * AIRPLANE.gravity_m_s2
    along = (math.cos(tilt), -math.sin(tilt))
    shaft = shaft_loads(AIRPLANE.engine, AIRPLANE.propeller)
    torque = shaft((state[13], u * along[0] + w * along[1]), density, controls)
    behind = slipstream_loads(AIRPLANE.slipstream)(
        state[7:13], density, controls, Drive(torque.thrust, torque.propeller, air.lift_per_speed)
    )
    disc = disc_loads(AIRPLANE.engine, AIRPLANE.propeller, AIRPLANE.disc, tilt)(state[7:13], state[13], density)
    x, y, z, roll, pitch, yaw = (sum(loads) for loads in zip(air[:6], behind, disc, strict=True))
    alpha_rate = (u * rates[9] - w * rates[7]) / (u * u + w * w + SPEED_FLOOR_M_S**2)
    return (
        x + torque.thrust * along[0] + weight * 2.0 * (e1 * e3 - e0 * e2),
        y + weight * 2.0 * (e2 * e3 + e0 * e1),
        z + torque.thrust * along[1] + weight * (e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3),
        roll,
        pitch + air.pitch_per_alpha_dot * alpha_rate + AIRPLANE.thrust_arm_m * torque.thrust,
        yaw,
        torque.engine,
        torque.windage,
        torque.propeller,
    )


def random_states(count):
    """Yield states at random attitudes, with speed, rates of turn and spin about those of a hard manoeuvre."""
    random = np.random.default_rng(11)
    for _ in range(count):
        attitude = random.normal(size=4)
        attitude /= np.linalg.norm(attitude)
        velocity, rates = random.normal((40.0, 0.0, 0.0), 5.0), random.normal(size=3)
        yield [*random.normal(size=2), -500.0, *attitude, *velocity, *rates, random.normal(100.0, 30.0)]


def test_the_accelerations_are_those_of_kanes_method(accelerations):
    controls = Controls(0.1, -0.05, 0.08, 0.7, 40.0)
    right_hand_side = motion(AIRPLANE)
    for state in random_states(25):
        rates = right_hand_side(state, controls)
        expected = accelerations(state[7:], applied(state, controls, rates))
        assert rates[7:] == pytest.approx(expected, rel=1e-12, abs=1e-12)


def test_without_air_the_accelerations_agree_to_rounding(accelerations):
    controls = Controls(shaft_torque_n_m=250.0)
    free = motion(
        Airplane(
            body=AIRPLANE.body,
            rotors=AIRPLANE.rotors,
            propeller=Propeller(-0.6),
            shaft_tilt_rad=AIRPLANE.shaft_tilt_rad,
            gravity_m_s2=0.0,
        )
    )
    for state in random_states(25):
        expected = accelerations(state[7:], (0.0,) * 6 + (250.0, 0.0, 0.0))
        assert free(state, controls)[7:] == pytest.approx(expected, rel=1e-12, abs=1e-12)


def test_the_attitude_turns_as_the_rates_of_turn_say():
    """The matrix of the quaternion differentiated by the given rates is the matrix times the cross product of them."""

    def matrix(e0, e1, e2, e3):
        return sympy.Quaternion(e0, e1, e2, e3).to_rotation_matrix(homogeneous=True)

    e = sympy.symbols("e0:4")
    symbolic = matrix(*e) * sum(x * x for x in e)
    slope = sympy.lambdify(
        (e, sympy.symbols("d0:4")),
        sum((symbolic.diff(x) * d for x, d in zip(e, sympy.symbols("d0:4"), strict=True)), sympy.zeros(3)),
    )
    value = sympy.lambdify((e,), symbolic)
    for state in random_states(10):
        rates = motion(AIRPLANE)(state, Controls())
        p, q, r = state[10:13]
        across = np.array([[0.0, -r, q], [r, 0.0, -p], [-q, p, 0.0]])
        now = np.array(value(state[3:7]), dtype=float)
        assert np.array(slope(state[3:7], rates[3:7])) == pytest.approx(now @ across, abs=1e-12)
        assert rates[:3] == pytest.approx(now @ state[7:10], rel=1e-12, abs=1e-12)


def test_the_same_text_runs_on_symbols():
    """Without air they are Euler's equations with a rotor; inertias of powers of two keep the numbers exact."""
    names = sympy.symbols("north east down e0 e1 e2 e3 u v w p q r spin")
    p, q, r, spin = names[10:]
    plain = Airplane(Body(1.0, 2.0, 4.0, 8.0), rotors=(Rotor(16.0),), gravity_m_s2=0.0, sea_level_density_kg_m3=0.0)
    torque = sympy.Symbol("torque")
    found = motion(plain, sympy)(names, Controls(shaft_torque_n_m=torque))
    momentum = 16.0 * (p + spin)
    assert sympy.simplify(found[10] - ((4.0 - 8.0) * q * r - torque) / 2.0) == 0
    assert sympy.simplify(found[11] - ((8.0 - 2.0) * p * r - momentum * r) / 4.0) == 0
    assert sympy.simplify(found[12] - ((2.0 - 4.0) * p * q + momentum * q) / 8.0) == 0
    assert sympy.simplify(found[13] - (torque / 16.0 - found[10])) == 0
