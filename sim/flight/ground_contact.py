"""The ground under an airplane in motion: wheels that spring, roll and hold sideways, with the equations of motion."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.aerodynamics.forces import SPEED_FLOOR_M_S, air_loads
from sim.atmosphere import GRAVITY_M_S2, density_ratio
from sim.flight.motion import motion_of_floats
from sim.flight.shaft_inertia import free_shaft_inertias_kg_m2, rotor_sums

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.flight.motion import Airplane, Controls
    from sim.flight.on_wheels import Field, Gear

    Vector = tuple[float, float, float]
    Rates = Callable[[Sequence[float], Controls], tuple[float, ...]]

SINKING_M = 0.03
"""Tyre and springing under their load at rest: common practice, no source."""
DAMPING_RATIO = 0.5
"""Of that springing: common practice, no source."""
SIDE_FRICTION = 0.5
"""Greatest force across a wheel or skid over its load, on grass: common practice, no source."""
CREEP_M_S = 0.05
"""Speed over the ground about which friction changes sign, smoothly."""


@dataclass(frozen=True, slots=True)
class Wheel:
    """A wheel or skid.

    Attributes
    ----------
    forward_m, right_m, down_m : float
        Of its axle from the centre of gravity, in body axes. [m]
    radius_m : float
        From the axle down to where it touches without load. [m]
    stiffness_n_per_m : float
        Of tyre and springing. [N/m]
    damping_s : float
        Force over the speed of its sinking, over the stiffness. [s]
    rolling_friction, side_friction : float
        Force along and across over the load.
    """

    forward_m: float
    right_m: float
    down_m: float
    radius_m: float
    stiffness_n_per_m: float
    damping_s: float
    rolling_friction: float
    side_friction: float


def three_wheels(
    gear: Gear, field: Field, mass_kg: float, *, side_friction: float = SIDE_FRICTION, sinking_m: float = SINKING_M
) -> tuple[Wheel, ...]:
    """Return main wheels, left and right, and the tail, which stand as the gear says under their loads at rest.

    Parameters
    ----------
    gear, field : Gear, Field
        Of one airplane.
    mass_kg : float
        [kg]
    side_friction, sinking_m : float
        Of all, and how far each springs under its load at rest. [1, m]
    """
    ahead_m, _, behind_m = gear.at(gear.tail_down_rad)
    weight_n, apart_m = mass_kg * GRAVITY_M_S2, ahead_m + behind_m
    loads_n = 0.5 * weight_n * behind_m / apart_m, weight_n * ahead_m / apart_m
    axle_m, level, high = gear.below_m - gear.radius_m, math.cos(gear.tail_down_rad), math.sin(gear.tail_down_rad)
    below_m = gear.at(gear.tail_down_rad)[1]
    # where the tail touches on all wheels, turned back into body axes
    tail = -behind_m * level - below_m * high, -behind_m * high + below_m * level

    def wheel(place: Vector, radius_m: float, load_n: float, friction: float) -> Wheel:
        stiffness = load_n / sinking_m
        damping = 2.0 * DAMPING_RATIO * math.sqrt(sinking_m / GRAVITY_M_S2)
        return Wheel(*place, radius_m + sinking_m, stiffness, damping, friction, side_friction)

    half_m = 0.5 * gear.track_m
    return (
        *(wheel((gear.ahead_m, side * half_m, axle_m), gear.radius_m, loads_n[0], field.friction) for side in (-1, 1)),
        wheel((tail[0], 0.0, tail[1]), 0.0, loads_n[1], field.tail_friction),
    )


def grounded(airplane: Airplane, wheels: tuple[Wheel, ...], altitude_m: float) -> Rates:
    """Return (state, controls) -> rates of the 14 states, as `motion` does, with the forces of the wheels.

    Parameters
    ----------
    airplane : Airplane
    wheels : tuple of Wheel
    altitude_m : float
        Of the level ground. [m]

    Notes
    -----
    A wheel touches under its axle, springs and damps in proportion and pushes alone. Along its heading it rolls with
    friction, across it holds up to `side_friction` times its load. The ground takes nothing from the induced drag.
    """
    free, act = motion_of_floats(airplane), _reaction(airplane)

    def rates(state: Sequence[float], controls: Controls) -> tuple[float, ...]:
        found = free(state, controls)
        turned, velocity, spins = _to_earth(state[3:7]), state[7:10], state[10:13]
        down_m = state[2] + altitude_m
        force, moment = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
        for wheel in wheels:
            pushed = _pushed(wheel, down_m, turned, (velocity, spins))
            if pushed is None:
                continue
            push, arm = pushed
            for i, turn in enumerate(_cross(arm, push)):
                force[i] += push[i]
                moment[i] += turn
        return act(found, state, force, moment) if any(force) else found

    return rates


def load_n(wheel: Wheel, state: Sequence[float], altitude_m: float) -> float:
    """Return what a wheel carries in a state as `motion` has it [N]."""
    turned = _to_earth(state[3:7])
    pushed = _pushed(wheel, state[2] + altitude_m, turned, (state[7:10], state[10:13]))
    return 0.0 if pushed is None else -_row(turned[2], pushed[0])


def _pushed(
    wheel: Wheel, down_m: float, turned: tuple[Vector, ...], moving: tuple[Sequence[float], Sequence[float]]
) -> tuple[Vector, Vector] | None:
    """Return the force of the ground on a wheel and the place of its contact, in body axes; None off the ground."""
    axle = wheel.forward_m, wheel.right_m, wheel.down_m
    sunk_m = down_m + _row(turned[2], axle) + wheel.radius_m
    if sunk_m <= 0.0:
        return None
    below = tuple(wheel.radius_m * one for one in turned[2])  # straight down, in body axes
    arm = axle[0] + below[0], axle[1] + below[1], axle[2] + below[2]
    velocity, spins = moving
    over = [one + other for one, other in zip(velocity, _cross(spins, arm), strict=True)]
    north, east, sinking = (_row(row, over) for row in turned)
    load = wheel.stiffness_n_per_m * (sunk_m + wheel.damping_s * sinking)
    if load <= 0.0:
        return None
    length = math.hypot(turned[0][0], turned[1][0])
    ahead, aside = turned[0][0] / length, turned[1][0] / length
    along, across = north * ahead + east * aside, east * ahead - north * aside
    rolls = -wheel.rolling_friction * load * along / math.hypot(along, CREEP_M_S)
    holds = -wheel.side_friction * load * across / math.hypot(across, CREEP_M_S)
    earth = rolls * ahead - holds * aside, rolls * aside + holds * ahead, -load
    x, y, z = (sum(turned[row][column] * earth[row] for row in range(3)) for column in range(3))
    return (x, y, z), arm


def _reaction(airplane: Airplane) -> Callable[..., tuple[float, ...]]:
    """Return what adds a force and a moment in body axes to rates without them."""
    body, tilt = airplane.body, airplane.shaft_tilt_rad
    air = air_loads(airplane.polar, airplane.derivatives)
    xx, xz, zz = free_shaft_inertias_kg_m2(airplane)
    determinant = xx * zz - xz * xz
    rotors = rotor_sums(airplane)
    coupled = rotors.coupling / rotors.shaft if airplane.rotors else 0.0

    def act(
        found: tuple[float, ...], state: Sequence[float], force: Sequence[float], moment: Sequence[float]
    ) -> tuple[float, ...]:
        u, v, w = (push / body.mass_kg for push in force)
        falling = (state[7] * w - state[9] * u) / (state[7] ** 2 + state[9] ** 2 + SPEED_FLOOR_M_S**2)
        density = airplane.sea_level_density_kg_m3 * density_ratio(-state[2])
        damped = air(state[7:13], density, (0.0, 0.0, 0.0, 0.0)).pitch_per_alpha_dot * falling
        p = (zz * moment[0] - xz * moment[2]) / determinant
        r = (xx * moment[2] - xz * moment[0]) / determinant
        q = (moment[1] + damped) / body.inertia_pitch_kg_m2
        spin = -coupled * (math.cos(tilt) * p - math.sin(tilt) * r)
        more = (*(0.0,) * 7, u, v, w, p, q, r, spin)
        return tuple(one + other for one, other in zip(found, more, strict=True))

    return act


def _to_earth(quaternion: Sequence[float]) -> tuple[Vector, ...]:
    """Return the rows north, east, down of the matrix that turns body into earth components."""
    e0, e1, e2, e3 = quaternion
    return (
        (e0 * e0 + e1 * e1 - e2 * e2 - e3 * e3, 2.0 * (e1 * e2 - e0 * e3), 2.0 * (e1 * e3 + e0 * e2)),
        (2.0 * (e1 * e2 + e0 * e3), e0 * e0 - e1 * e1 + e2 * e2 - e3 * e3, 2.0 * (e2 * e3 - e0 * e1)),
        (2.0 * (e1 * e3 - e0 * e2), 2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3),
    )


def _row(row: Sequence[float], vector: Sequence[float]) -> float:
    return row[0] * vector[0] + row[1] * vector[1] + row[2] * vector[2]


def _cross(one: Sequence[float], other: Sequence[float]) -> Vector:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )
