"""The same flight as one would write it for a general solver: vectors, matrices and cross products of small arrays."""

from __future__ import annotations

import math

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS

from sim.aerodynamics.forces import SPEED_FLOOR_M_S
from sim.atmosphere import density_ratio
from sim.propulsion.engine_propeller import STILL_M_S

BODY, WING, D = AIRPLANE.body, AIRPLANE.polar, AIRPLANE.derivatives
ENGINE, PROPELLER = AIRPLANE.engine, AIRPLANE.propeller
POLAR = sum(rotor.polar_inertia_kg_m2 for rotor in AIRPLANE.rotors)
ALONG = np.array([1.0, 0.0, 0.0])
INERTIA = np.diag([BODY.inertia_roll_kg_m2, BODY.inertia_pitch_kg_m2, BODY.inertia_yaw_kg_m2])
INERTIA[0, 2] = INERTIA[2, 0] = -BODY.inertia_product_kg_m2
INVERSE = np.linalg.inv(INERTIA)
HALF = np.array([WING.span_m, WING.chord_m, WING.span_m]) / 2.0
ARMS = np.array([WING.span_m, WING.chord_m, WING.span_m])
LIFT = np.array([D.lift_alpha, 0.0, 0.0, D.lift_q, 0.0, D.lift_elevator, 0.0, 0.0])
SIDE = np.array([0.0, D.side_beta, D.side_p, 0.0, D.side_r, 0.0, 0.0, D.side_rudder])
MOMENTS = np.array(
    [
        [0.0, D.roll_beta, D.roll_p, 0.0, D.roll_r, 0.0, D.roll_aileron, D.roll_rudder],
        [D.pitch_alpha, 0.0, 0.0, D.pitch_q, 0.0, D.pitch_elevator, 0.0, 0.0],
        [0.0, D.yaw_beta, D.yaw_p, 0.0, D.yaw_r, 0.0, D.yaw_aileron, D.yaw_rudder],
    ]
)
SERIES = np.array(
    [
        [PROPELLER.torque_rotation, PROPELLER.torque_advance],
        [PROPELLER.thrust_rotation, PROPELLER.thrust_advance],
    ]
)
SERIES *= np.array([PROPELLER.torque_scale, PROPELLER.thrust_scale])[:, None, None]
POWERS = 2.0 * np.arange(SERIES.shape[-1])
STEADY = np.array([0.0, D.pitch_0, 0.0])


def rates(t, state):
    """Return the rates as an array; for a shaft along x with all rotors at its speed."""
    attitude, velocity, turning, spin = state[3:7], state[7:10], state[10:13], state[13]
    density = AIRPLANE.sea_level_density_kg_m3 * density_ratio(-state[2])
    in_plane = math.hypot(velocity[0], velocity[2], SPEED_FLOOR_M_S)
    speed = math.hypot(in_plane, velocity[1])
    angles = np.array([math.atan2(velocity[2], velocity[0]), math.atan(velocity[1] / in_plane)])
    causes = np.concatenate([angles, turning * HALF / speed, CONTROLS[:3]])
    linear = WING.lift_zero + LIFT @ causes
    lift = linear / (1.0 + (linear / WING.lift_max) ** 8) ** 0.125
    drag = WING.drag_zero_lift + lift * lift / (math.pi * WING.span_efficiency * WING.aspect_ratio)
    force = 0.5 * density * speed**2 * WING.area_m2
    wind = np.array([velocity[0], 0.0, velocity[2]]) / in_plane
    across = np.array([wind[2], 0.0, -wind[0]])
    loads = force * (lift * across - drag * wind + np.array([0.0, SIDE @ causes, 0.0]))
    engine, taken, thrust = shaft(spin, velocity[0], density)
    matrix = to_earth(*attitude)
    acceleration = (loads + thrust * ALONG) / BODY.mass_kg + AIRPLANE.gravity_m_s2 * matrix[2]
    acceleration -= np.cross(turning, velocity)
    alpha_dot = (velocity[0] * acceleration[2] - velocity[2] * acceleration[0]) / in_plane**2
    moment = force * ARMS * (STEADY + MOMENTS @ causes)
    moment[1] += force * WING.chord_m * D.pitch_alpha_dot * alpha_dot * HALF[1] / speed + AIRPLANE.thrust_arm_m * thrust
    momentum = INERTIA @ turning + POLAR * (spin + turning @ ALONG) * ALONG
    turning_dot = INVERSE @ (moment - engine * ALONG - np.cross(turning, momentum))
    spin_dot = (engine - taken) / POLAR - turning_dot @ ALONG
    p, q, r = turning
    swing = np.array([[0.0, -p, -q, -r], [p, 0.0, r, -q], [q, -r, 0.0, p], [r, q, -p, 0.0]])
    return np.concatenate([matrix @ velocity, 0.5 * swing @ attitude, acceleration, turning_dot, [spin_dot]])


def shaft(spin, along, density):
    """Return the torque between engine and airframe and those of the air [N m], with the windage moved to the first."""
    share, slip = density / 1.225, math.hypot(spin, 5.0)
    firing = ENGINE.firing_torque_n_m * share * CONTROLS.throttle - ENGINE.friction_torque_n_m * spin / slip
    windage = ENGINE.windage_n_m_s2 * share * spin * slip
    turning, advance = PROPELLER.station_m * spin, PROPELLER.advance_factor * along
    wind = math.hypot(turning, advance, STILL_M_S)
    taken, thrust = SERIES @ (turning / wind) ** POWERS @ np.array([turning, advance])
    scale = 0.5 * density * PROPELLER.area_m2 * wind
    return firing, windage + scale * PROPELLER.diameter_m * taken, scale * thrust


def to_earth(e0, e1, e2, e3):
    """Return the matrix from body to earth components."""
    across = np.array([[0.0, -e3, e2], [e3, 0.0, -e1], [-e2, e1, 0.0]])
    return np.eye(3) + 2.0 * e0 * across + 2.0 * across @ across
