"""Without slipstream and disc and with derivatives that are constants the equations are those of the textbook.

Written here anew with matrices: coefficients times dynamic pressure, lift and drag turned from wind axes, the tensor of
inertia, and airframe and shaft as one linear system (Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, sections 4.3 to
4.6, from memory).
"""

from dataclasses import fields, replace
from math import atan2, cos, sin

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.aerodynamics.forces import bounded_lift
from sim.aerodynamics.slipstream import Slipstream
from sim.atmosphere import density_ratio
from sim.flight.motion import Controls, motion
from sim.model.model import model
from sim.propulsion.disc import Disc
from sim.propulsion.engine_propeller import shaft_loads

CONTROLS = Controls(elevator_rad=-0.07, aileron_rad=0.05, rudder_rad=0.11, throttle=0.8)


def frozen(file, powerplant):
    """Return an airplane whose derivatives are all given and none grows with the lift, alone in the air."""
    airplane = model(file).airplane(powerplant).airplane
    growing = {field.name: 0.0 for field in fields(airplane.derivatives) if field.name.endswith("_per_lift")}
    given = replace(airplane.derivatives, side_p=-0.031, yaw_aileron=0.012, roll_rudder=0.007, **growing)
    return replace(airplane, derivatives=given, slipstream=Slipstream(), disc=Disc())


def textbook(airplane, state):
    """Return the rates of u, v, w, p, q, r and spin."""
    down, quaternion, velocity, rates, spin = state[2], state[3:7], state[7:10], state[10:13], state[13]
    d, polar, body = airplane.derivatives, airplane.polar, airplane.body
    density = airplane.sea_level_density_kg_m3 * density_ratio(-down)
    speed = np.linalg.norm(velocity)
    alpha, beta = atan2(velocity[2], velocity[0]), atan2(velocity[1], np.hypot(velocity[0], velocity[2]))
    pressure = 0.5 * density * speed**2 * polar.area_m2
    roll, pitch, yaw = rates * np.array([polar.span_m, polar.chord_m, polar.span_m]) / (2.0 * speed)
    elevator, aileron, rudder = CONTROLS[:3]
    lift = polar.lift_zero + np.dot([d.lift_alpha, d.lift_q, d.lift_elevator], [alpha, pitch, elevator])
    lift = bounded_lift(lift, polar.lift_max, np.sqrt)
    drag = polar.drag_zero_lift + lift**2 / (np.pi * polar.aspect_ratio * polar.span_efficiency)
    side = np.dot([d.side_beta, d.side_p, d.side_r, d.side_rudder], [beta, roll, yaw, rudder])
    # lift and drag lie in the plane of symmetry, so only the turn by the incidence is theirs
    turn = np.array([[cos(alpha), -sin(alpha)], [sin(alpha), cos(alpha)]])
    along_x, along_z = pressure * turn @ np.array([-drag, -lift])
    shaft = shaft_loads(airplane.engine, airplane.propeller)(
        (spin, np.dot(axis := _axis(airplane), velocity)), density, CONTROLS
    )
    weight = body.mass_kg * airplane.gravity_m_s2 * _to_body(quaternion)[:, 2]
    force = np.array([along_x, pressure * side, along_z]) + shaft.thrust * axis + weight
    acceleration = force / body.mass_kg - np.cross(rates, velocity)
    alpha_dot = (velocity[0] * acceleration[2] - velocity[2] * acceleration[0]) / (velocity[0] ** 2 + velocity[2] ** 2)
    lateral = np.array([beta, roll, yaw, aileron, rudder])
    moment = pressure * np.array(
        [
            polar.span_m * np.dot([d.roll_beta, d.roll_p, d.roll_r, d.roll_aileron, d.roll_rudder], lateral),
            polar.chord_m
            * (
                d.pitch_0
                + np.dot([d.pitch_alpha, d.pitch_q, d.pitch_elevator], [alpha, pitch, elevator])
                + d.pitch_alpha_dot * alpha_dot * polar.chord_m / (2.0 * speed)
            ),
            polar.span_m * np.dot([d.yaw_beta, d.yaw_p, d.yaw_r, d.yaw_aileron, d.yaw_rudder], lateral),
        ]
    )
    moment += np.array([0.0, airplane.thrust_arm_m * shaft.thrust, 0.0])
    return np.concatenate([acceleration, _turned(airplane, moment, rates, spin, shaft, axis)])


def _axis(airplane):
    return np.array([cos(airplane.shaft_tilt_rad), 0.0, -sin(airplane.shaft_tilt_rad)])


def _to_body(quaternion):
    """Return the matrix of earth to body components, from the product of quaternions."""
    a, vector = quaternion[0], quaternion[1:]
    cross = np.array([[0, -vector[2], vector[1]], [vector[2], 0, -vector[0]], [-vector[1], vector[0], 0]])
    return (a * a - vector @ vector) * np.eye(3) + 2.0 * np.outer(vector, vector) - 2.0 * a * cross


def _turned(airplane, moment, rates, spin, shaft, axis):
    """Return the rates of p, q, r and spin: rotors and airframe as four equations with four unknowns."""
    body = airplane.body
    inertia = np.diag([body.inertia_roll_kg_m2, body.inertia_pitch_kg_m2, body.inertia_yaw_kg_m2])
    inertia[0, 2] = inertia[2, 0] = -body.inertia_product_kg_m2
    own = [(rotor.polar_inertia_kg_m2, rotor.ratio) for rotor in airplane.rotors]
    polar, coupled, turning = (sum(kg * ratio**power for kg, ratio in own) for power in (0, 1, 2))
    whole = np.zeros((4, 4))
    whole[:3, :3] = inertia + polar * np.outer(axis, axis)
    whole[:3, 3] = whole[3, :3] = coupled * axis
    whole[3, 3] = turning
    momentum = whole[:3, :3] @ rates + coupled * spin * axis
    right = np.append(
        moment - np.cross(rates, momentum) - (shaft.windage + shaft.propeller) * axis,
        shaft.engine - shaft.windage - airplane.propeller.ratio * shaft.propeller,
    )
    return np.linalg.solve(whole, right)


@pytest.mark.parametrize("file", [BIPLANE, TRIPLANE])
@pytest.mark.parametrize("powerplant", [0, 1])
def test_constant_coefficients_without_slipstream_are_the_textbook_s(file, powerplant):
    airplane = frozen(file, list(model(file).powerplants)[powerplant])
    rng, rates = np.random.default_rng(3), motion(airplane)
    for _ in range(40):
        quaternion = rng.normal(size=4)
        state = np.concatenate(
            [
                [0.0, 0.0, -rng.uniform(0.0, 2000.0)],
                quaternion / np.linalg.norm(quaternion),
                rng.uniform([25.0, -6.0, -4.0], [50.0, 6.0, 7.0]),
                rng.uniform(-0.8, 0.8, 3),
                [rng.uniform(90.0, 140.0)],
            ]
        )
        found, expected = np.array(rates(tuple(state), CONTROLS))[7:], textbook(airplane, state)
        assert found == pytest.approx(expected, rel=1e-7, abs=1e-7)
