"""An airplane that rolls on its wheels: what the air, the engine and the ground do to it at one speed and attitude."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.forces import SPEED_FLOOR_M_S, air_loads
from sim.atmosphere import density_ratio
from sim.flight.motion import motion
from sim.flight.shaft_inertia import free_shaft_inertias_kg_m2, rotor_sums
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number


@dataclass(frozen=True, slots=True)
class Gear:
    """Where the wheels stand, the airplane level; of many airplanes, distances from the centre of gravity are arrays.

    Attributes
    ----------
    ahead_m : float
        Contact of the main wheels ahead of the centre of gravity. [m]
    below_m : float
        Ground below the centre of gravity. [m]
    tail_m : float
        Contact of the tail wheel or skid behind the centre of gravity. [m]
    radius_m : float
        Of the main wheels, whose axle turns with the airplane and whose contact stays below it. [m]
    tail_down_rad : float
        Attitude on all wheels, nose up. [rad]
    track_m : float
        Between the main wheels. [m]
    """

    ahead_m: Number
    below_m: float
    tail_m: Number
    radius_m: float
    tail_down_rad: float
    track_m: float

    def at(self, pitch_rad: Number) -> tuple[Number, Number, Number]:
        """Return contact ahead of, ground below, and tail contact behind the centre of gravity, at an attitude [m]."""
        level, high = np.cos(pitch_rad), np.sin(pitch_rad)
        axle_m = self.below_m - self.radius_m
        ahead_m = self.ahead_m * level + axle_m * high
        below_m = axle_m * level - self.ahead_m * high + self.radius_m
        apart_m = (self.ahead_m + self.tail_m) / np.cos(self.tail_down_rad)  # both on the ground, tail down
        return ahead_m, below_m, apart_m - ahead_m


@dataclass(frozen=True, slots=True)
class Rolling:
    """One instant of a roll in a straight line, or many: numbers or arrays.

    Attributes
    ----------
    pull_n : float
        Force along the ground, forward positive, friction of wheels and tail taken off. [N]
    load_n : float
        What all wheels carry; below 0 the airplane is off the ground. [N]
    tail_load_n : float
        Of it the tail; below 0 the tail is up. [N]
    swing_n_m : float
        Yawing moment about the main wheels that the rudder leaves, nose right positive. [N m]
    tilt_n_m : float
        Rolling moment about the ground that the two main wheels must carry, right wing down positive. [N m]
    held_n_m : float
        The most that they carry of it: with it the wheel on the other side is about to lift. [N m]
    spin_rate_rad_s2 : float
        Acceleration of the engine shaft, clockwise positive. [rad/s²]
    """

    pull_n: Number
    load_n: Number
    tail_load_n: Number
    swing_n_m: Number
    tilt_n_m: Number
    held_n_m: Number
    spin_rate_rad_s2: Number


@dataclass(frozen=True, slots=True)
class Field:
    """Ground and air of a run.

    Attributes
    ----------
    friction, tail_friction : float
        Rolling friction over load of the main wheels, and of the tail wheel or skid; arrays for many airplanes.
    altitude_m : float
        [m]
    wing_above_m : float
        Of the middle of the wing above the ground; the ground takes some of its induced drag. [m]
    braked : bool
        Whether `friction` is that of braked wheels, which the pilot lets go where the tail would come up.
    """

    friction: Number
    tail_friction: Number
    altitude_m: float
    wing_above_m: float
    braked: bool = False


class OnWheels:
    """What acts on an airplane that rolls, or on many of them, by the equations of motion, wheels aside.

    Parameters
    ----------
    airplane, gear, field : Airplane, Gear, Field
        Of many airplanes one entry each; what is asked of them is then an array whose last axis is theirs.
    spin_rad_s : callable
        Airspeed along the shaft [m/s] -> speed of the shaft with its sign [rad/s].
    """

    def __init__(self, airplane: Airplane, gear: Gear, field: Field, spin_rad_s: Callable[[Number], Number]) -> None:
        self._airplane, self._gear, self._field = airplane, gear, field
        self._rates, self._spin = motion(airplane, ARRAY_MATH), spin_rad_s
        self._air = air_loads(airplane.polar, airplane.derivatives, ARRAY_MATH)
        self._density_kg_m3 = airplane.sea_level_density_kg_m3 * density_ratio(field.altitude_m)
        self._inertias_kg_m2 = free_shaft_inertias_kg_m2(airplane)
        rotors, tilt = rotor_sums(airplane), airplane.shaft_tilt_rad
        coupled = rotors.coupling / rotors.shaft if airplane.rotors else 0.0
        self._shaft = coupled * np.cos(tilt), -coupled * np.sin(tilt)

    def rolling(
        self,
        speed_m_s: Number,
        pitch_rad: Number,
        controls: Controls,
        *,
        pitching_rad_s: Number = 0.0,
        across_m_s: Number = 0.0,
        spin_rad_s: Number = None,
    ) -> Rolling:
        """Return what acts.

        Parameters
        ----------
        speed_m_s : float or array
            Through the air, along the ground. [m/s]
        pitch_rad, pitching_rad_s : float or array
            Attitude and its rate, nose up positive. [rad, rad/s]
        controls : Controls
        across_m_s : float or array
            Wind across the run, from the right positive. [m/s]
        spin_rad_s : float or array
            Of the shaft with its sign; None for that of the speed. [rad/s]

        Notes
        -----
        Forces are masses times the accelerations that the equations of motion give without wheels, slipstream, disc and
        rotor in them. The ground takes from the induced drag the share that it leaves a wing at this height. The main
        wheels hold the path: what pushes the airplane aside acts on them, ahead of the centre of gravity, and the one
        that it loads more drags more. The tail holds nothing sideways: a skid on the ground helps, and is not counted.
        """
        body, gear, field = self._airplane.body, self._gear, self._field
        level, high = np.cos(pitch_rad), np.sin(pitch_rad)
        u, w = speed_m_s * level, speed_m_s * high
        moving = (u, across_m_s, w, 0.0, pitching_rad_s, 0.0)
        attitude = (np.cos(0.5 * pitch_rad), 0.0, np.sin(0.5 * pitch_rad), 0.0)
        spin = self._spin(u) if spin_rad_s is None else spin_rad_s
        rates = self._rates((0.0, 0.0, -field.altitude_m, *attitude, *moving, spin), controls)
        air = self._air(moving, self._density_kg_m3, controls)
        forward, down = rates[7] + pitching_rad_s * w, rates[9] - pitching_rad_s * u  # of the path, not of the axes
        pull_n = body.mass_kg * (forward * level + down * high)
        load_n = body.mass_kg * (down * level - forward * high)
        pull_n = pull_n + self._less_induced_n(speed_m_s, air.x * high - air.z * level)
        ahead_m, below_m, tail_m = gear.at(pitch_rad)
        # without wheels the airplane would fall, and the equations see that as a rate of the angle of attack
        falling = (u * rates[9] - w * rates[7]) / (u * u + w * w + SPEED_FLOOR_M_S**2)
        nose_up = body.inertia_pitch_kg_m2 * rates[11] - air.pitch_per_alpha_dot * (falling - pitching_rad_s)
        carried, friction = np.maximum(load_n, 0.0), field.friction
        if field.braked:
            tail_light = (nose_up / np.maximum(carried, LEAST_LOAD_N) + ahead_m) / below_m
            friction = np.maximum(np.minimum(friction, tail_light), 0.0)
        tail = nose_up + carried * ahead_m - friction * carried * below_m
        tail = tail / (tail_m + ahead_m + (field.tail_friction - friction) * below_m)
        tail_down_n = np.minimum(np.maximum(tail, 0.0), carried)
        pull_n = pull_n - friction * (carried - tail_down_n) - field.tail_friction * tail_down_n
        xx, xz, zz = self._inertias_kg_m2
        aside_n = body.mass_kg * rates[8]
        rolling, yawing = xx * rates[10] + xz * rates[12], xz * rates[10] + zz * rates[12]
        # along and across the ground, not the airplane's axes
        tilt = rolling * level + yawing * high + below_m * aside_n
        held = 0.5 * gear.track_m * (carried - tail_down_n)
        dragged = friction * np.minimum(np.maximum(tilt, -held), held)
        swing = yawing * level - rolling * high - ahead_m * aside_n + dragged
        along, across = self._shaft
        shaft_rate = rates[13] + along * rates[10] + across * rates[12]  # the wheels keep the airplane from turning
        return Rolling(pull_n, load_n, tail, swing, tilt, held, shaft_rate)

    def _less_induced_n(self, speed_m_s: Number, lift_n: Number) -> Number:
        """Return the induced drag, of the air outside the slipstream, that the ground takes away [N]."""
        polar = self._airplane.polar
        pressed = 0.5 * self._density_kg_m3 * speed_m_s**2 * polar.area_m2
        left = ground_share(self._field.wing_above_m / polar.span_m)
        bounded = np.maximum(pressed, LEAST_PRESSED_N)
        return (1.0 - left) * polar.induced * lift_n**2 / bounded


LEAST_PRESSED_N, LEAST_LOAD_N = 1e-9, 1.0
"""Dynamic pressure times area below which there is no lift to divide by it, and load below which brakes do nothing."""


def ground_share(height_share: float) -> float:
    """Return the share of the induced drag that is left near the ground.

    Parameters
    ----------
    height_share : float
        Height of the wing above the ground over the span, above 0.

    References
    ----------
    McCormick, Aerodynamics, Aeronautics and Flight Mechanics: (16 h/b)² / (1 + (16 h/b)²), after Lanchester and
    Hoerner (from memory).

    Examples
    --------
    >>> [round(ground_share(share), 3) for share in (0.05, 0.1, 0.2, 0.3)]
    [0.39, 0.719, 0.911, 0.958]
    """
    square = (16.0 * height_share) ** 2
    return square / (1.0 + square)
