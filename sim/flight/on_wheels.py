"""An airplane that rolls on its wheels: what the air, the engine and the ground do to it at one speed and attitude."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.aerodynamics.forces import SPEED_FLOOR_M_S, air_loads
from sim.atmosphere import density_ratio
from sim.flight.motion import motion

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.motion import Airplane, Controls


@dataclass(frozen=True, slots=True)
class Gear:
    """Where the wheels stand, the airplane level.

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
    """

    ahead_m: float
    below_m: float
    tail_m: float
    radius_m: float
    tail_down_rad: float

    def at(self, pitch_rad: float) -> tuple[float, float, float]:
        """Return contact ahead of, ground below, and tail contact behind the centre of gravity, at an attitude [m]."""
        level, high = math.cos(pitch_rad), math.sin(pitch_rad)
        axle_m = self.below_m - self.radius_m
        ahead_m = self.ahead_m * level + axle_m * high
        below_m = axle_m * level - self.ahead_m * high + self.radius_m
        apart_m = (self.ahead_m + self.tail_m) / math.cos(self.tail_down_rad)  # both on the ground, tail down
        return ahead_m, below_m, apart_m - ahead_m


@dataclass(frozen=True, slots=True)
class Rolling:
    """One instant of a roll in a straight line.

    Attributes
    ----------
    pull_n : float
        Force along the ground without friction, forward positive. [N]
    load_n : float
        What all wheels carry; below 0 the airplane is off the ground. [N]
    tail_load_n : float
        Of it the tail; below 0 the tail is up. [N]
    yaw_rad_s2 : float
        Angular acceleration in yaw that the wheels must hold or the rudder, nose right positive. [rad/s²]
    """

    pull_n: float
    load_n: float
    tail_load_n: float
    yaw_rad_s2: float


@dataclass(frozen=True, slots=True)
class Field:
    """Ground and air of a run.

    Attributes
    ----------
    friction, tail_friction : float
        Rolling friction over load of the main wheels, and of the tail wheel or skid.
    altitude_m : float
        [m]
    wing_above_m : float
        Of the middle of the wing above the ground; the ground takes some of its induced drag. [m]
    """

    friction: float
    tail_friction: float
    altitude_m: float
    wing_above_m: float


class OnWheels:
    """What acts on an airplane that rolls, by the equations of motion, wheels aside."""

    def __init__(self, airplane: Airplane, gear: Gear, field: Field, spin_rad_s: Callable[[float], float]) -> None:
        self._airplane, self._gear, self._field = airplane, gear, field
        self._rates, self._spin = motion(airplane), spin_rad_s
        self._air = air_loads(airplane.polar, airplane.derivatives)
        self._density_kg_m3 = airplane.sea_level_density_kg_m3 * density_ratio(field.altitude_m)

    def rolling(
        self, speed_m_s: float, pitch_rad: float, controls: Controls, *, pitching_rad_s: float = 0.0
    ) -> Rolling:
        """Return what acts.

        Parameters
        ----------
        speed_m_s : float
            Through the air, along the ground. [m/s]
        pitch_rad, pitching_rad_s : float
            Attitude and its rate, nose up positive. [rad, rad/s]
        controls : Controls

        Notes
        -----
        Forces are masses times the accelerations that the equations of motion give without wheels, slipstream, disc and
        rotor in them. The ground takes from the induced drag the share that it leaves a wing at this height.
        """
        body, gear, field = self._airplane.body, self._gear, self._field
        level, high = math.cos(pitch_rad), math.sin(pitch_rad)
        half = 0.5 * pitch_rad
        u, w = speed_m_s * level, speed_m_s * high
        moving = (u, 0.0, w, 0.0, pitching_rad_s, 0.0)
        attitude = (math.cos(half), 0.0, math.sin(half), 0.0)
        rates = self._rates((0.0, 0.0, -field.altitude_m, *attitude, *moving, self._spin(u)), controls)
        air = self._air(moving, self._density_kg_m3, controls)
        forward, down = rates[7] + pitching_rad_s * w, rates[9] - pitching_rad_s * u  # of the path, not of the axes
        pull_n = body.mass_kg * (forward * level + down * high)
        load_n = body.mass_kg * (down * level - forward * high)
        pull_n += self._less_induced_n(speed_m_s, air.x * high - air.z * level)
        ahead_m, below_m, tail_m = gear.at(pitch_rad)
        # without wheels the airplane would fall, and the equations see that as a rate of the angle of attack
        falling = (u * rates[9] - w * rates[7]) / (u * u + w * w + SPEED_FLOOR_M_S**2)
        nose_up = body.inertia_pitch_kg_m2 * rates[11] - air.pitch_per_alpha_dot * (falling - pitching_rad_s)
        carried = max(load_n, 0.0)
        tail = nose_up + carried * ahead_m - field.friction * carried * below_m
        tail /= tail_m + ahead_m + (field.tail_friction - field.friction) * below_m
        return Rolling(pull_n, load_n, tail, rates[12])

    def _less_induced_n(self, speed_m_s: float, lift_n: float) -> float:
        """Return the induced drag, of the air outside the slipstream, that the ground takes away [N]."""
        polar = self._airplane.polar
        pressed = 0.5 * self._density_kg_m3 * speed_m_s**2 * polar.area_m2
        if pressed <= 0.0:
            return 0.0
        left = ground_share(self._field.wing_above_m / polar.span_m)
        return float((1.0 - left) * polar.induced * lift_n**2 / pressed)


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
