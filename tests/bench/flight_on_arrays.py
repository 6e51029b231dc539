"""The same flight as one would write it for a general solver: vectors, matrices and cross products of small arrays."""

from __future__ import annotations

import math

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS

from sim.aerodynamics.forces import SPEED_FLOOR_M_S
from sim.aerodynamics.slipstream import SMOOTHING, SWIRL_BOUND
from sim.atmosphere import density_ratio
from sim.propulsion.engine_propeller import STILL_M_S

BODY, WING, D = AIRPLANE.body, AIRPLANE.polar, AIRPLANE.derivatives
ENGINE, PROPELLER = AIRPLANE.engine, AIRPLANE.propeller
SLIP, HUB = AIRPLANE.slipstream, np.array([AIRPLANE.disc.arm_m, 0.0, -AIRPLANE.disc.height_m])
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
    engine, windage, taken, thrust, drag_across, push_across = shaft(spin, velocity[0], density)
    swept, twist = slipstream(np.array([*velocity, *turning]), density, (thrust, taken), force * lift * across)
    hub = velocity + np.cross(turning, HUB)
    at_hub = -0.5 * drag_across * hub * (1.0 - ALONG)
    loads += swept + at_hub
    twist += np.cross(HUB, at_hub) - 0.5 * push_across * hub * (1.0 - ALONG)
    matrix = to_earth(*attitude)
    acceleration = (loads + thrust * ALONG) / BODY.mass_kg + AIRPLANE.gravity_m_s2 * matrix[2]
    acceleration -= np.cross(turning, velocity)
    alpha_dot = (velocity[0] * acceleration[2] - velocity[2] * acceleration[0]) / in_plane**2
    moment = force * ARMS * (STEADY + MOMENTS @ causes)
    moment[1] += force * WING.chord_m * D.pitch_alpha_dot * alpha_dot * HALF[1] / speed + AIRPLANE.thrust_arm_m * thrust
    moment += twist
    momentum = INERTIA @ turning + POLAR * (spin + turning @ ALONG) * ALONG
    turning_dot = INVERSE @ (moment - engine * ALONG - np.cross(turning, momentum))
    spin_dot = (engine - windage - taken) / POLAR - turning_dot @ ALONG
    p, q, r = turning
    swing = np.array([[0.0, -p, -q, -r], [p, 0.0, r, -q], [q, -r, 0.0, p], [r, q, -p, 0.0]])
    return np.concatenate([matrix @ velocity, 0.5 * swing @ attitude, acceleration, turning_dot, [spin_dot]])


def shaft(spin, along, density):
    """Return three torques [N m], thrust [N], and force and moment across the shaft over half the velocity."""
    share, slip = density / 1.225, math.hypot(spin, 5.0)
    firing = ENGINE.firing_torque_n_m * share * CONTROLS.throttle - ENGINE.friction_torque_n_m * spin / slip
    windage = ENGINE.windage_n_m_s2 * share * spin * slip
    turning, advance = PROPELLER.station_m * spin, PROPELLER.advance_factor * along
    wind = math.hypot(turning, advance, STILL_M_S)
    place, powers = np.array([turning, advance]), (turning / wind) ** POWERS
    growth = POWERS * powers * (1.0 / turning - turning / wind**2)
    value = SERIES @ powers @ place
    slope = value * turning / wind + wind * (SERIES @ growth @ place + SERIES @ powers @ ALONG[:2])
    scale = 0.5 * density * PROPELLER.area_m2 * np.array([PROPELLER.diameter_m, 1.0])
    taken, thrust = scale * wind * value
    drag_across, push_across = scale * slope / np.array([PROPELLER.station_m, 1.0 / PROPELLER.station_m])
    return firing, windage, taken, thrust, drag_across, push_across


def slipstream(moving, density, drive, lift):
    """Return force and moment of what lies in the tube of a thrust and a torque, more lift of the wing among it."""
    thrust, torque = drive
    speed = math.sqrt(moving[:3] @ moving[:3] + SPEED_FLOOR_M_S**2)
    rise = 2.0 * thrust / (density * SLIP.disc_m2)
    far = math.sqrt(0.5 * (speed**2 + rise + math.hypot(speed**2 + rise, math.sqrt(SMOOTHING) * rise)))
    gain, gain_square = far - speed, far**2 - speed**2
    radius = math.sqrt(SLIP.disc_m2 / math.pi)
    through = speed + 0.5 * gain
    given = (1.0 - SLIP.recovered_share) * torque / (density * SLIP.disc_m2 * radius)
    around = 1.5 * given / math.sqrt(math.hypot(through**2, SWIRL_BOUND * given)) * math.sqrt(far / through)
    angles = np.array([speed, moving[2], SLIP.tail_arm_m * moving[4]])
    up = gain * np.array([SLIP.tail_stream_m2, SLIP.tail_angle_m2, SLIP.tail_rate_m2]) @ angles
    up += gain_square * (SLIP.tail_setting_m2 + SLIP.elevator_m2 * CONTROLS.elevator_rad)
    slip = np.array([SLIP.fin_angle_m2, SLIP.fin_roll_m3, -SLIP.fin_rate_m2 * SLIP.fin_arm_m]) @ moving[[1, 3, 5]]
    side = SLIP.fin_share * (gain_square * SLIP.rudder_m2 * CONTROLS.rudder_rad - gain * slip)
    side += far * SLIP.fin_above_share * SLIP.fin_rate_m2 * around
    parts = (
        (SLIP.wing_share * gain / speed * lift, (-SLIP.wing_arm_m, 0.0, 0.0)),
        (np.array([0.0, 0.0, -0.5 * density * SLIP.tail_share * up]), (-SLIP.tail_arm_m, 0.0, 0.0)),
        (np.array([0.0, 0.5 * density * side, 0.0]), (-SLIP.fin_arm_m, 0.0, -SLIP.fin_height_m)),
    )
    moment = sum(np.cross(place, force) for force, place in parts)
    return sum(force for force, _ in parts), moment + SLIP.recovered_share * torque * ALONG


def to_earth(e0, e1, e2, e3):
    """Return the matrix from body to earth components."""
    across = np.array([[0.0, -e3, e2], [e3, 0.0, -e1], [-e2, e1, 0.0]])
    return np.eye(3) + 2.0 * e0 * across + 2.0 * across @ across
