"""Foremost centre of gravity that full up elevator can trim near the stall, gliding and in level flight.

Both limits are found at the angle of attack where the linear lift curve, with the elevator full up, reaches CLmax: the
textbook's stall, to which the linear pitching moment belongs. The bounded lift of the equations of motion is there
92 % of CLmax, and the speed 3 to 4 % above the stalling speed; CLmax itself it only approaches, at no finite angle. At
1.1 times the stalling speed both limits would lie 3 to 6 % of the chord farther ahead: a stall's is the safer one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from sim.aerodynamics.forces import bounded_lift

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.motion import Airplane

LEAST_LIFT_RATIO = 0.05
"""Linear lift over CLmax at the fast end of the search for level flight."""
STEPS = 200


@dataclass(frozen=True, slots=True)
class TrimmedLimit:
    """A foremost centre of gravity, and the steady flight that sets it.

    Attributes
    ----------
    limit_m : float
        From the present centre of gravity, aft positive; not-a-number where there is no such flight. [m]
    limit_speed_m_s : float
        Airspeed of that flight. [m/s]
    set_by : str
        What keeps the flight from being slower: ``lift`` or ``power``.
    """

    limit_m: float
    limit_speed_m_s: float
    set_by: Literal["lift", "power"]


@dataclass(frozen=True, slots=True)
class FullUpElevator:
    """An airplane whose elevator is full up, in steady straight flight at one weight and density.

    Attributes
    ----------
    airplane : Airplane
        About the present centre of gravity.
    elevator_up_rad : float
        Travel of the elevator, trailing edge up, positive. [rad]
    density_kg_m3 : float
        Air density. [kg/m³]
    """

    airplane: Airplane
    elevator_up_rad: float
    density_kg_m3: float

    def alpha_rad(self, lift_ratio: float) -> float:
        """Return the angle of attack [rad] at which the linear lift is this fraction of CLmax."""
        polar, d = self.airplane.polar, self.airplane.derivatives
        lift = lift_ratio * polar.lift_max
        return (lift - polar.lift_zero + d.lift_elevator * self.elevator_up_rad) / d.lift_alpha

    def gliding(self, alpha_rad: float) -> float:
        """Return the foremost centre of gravity in a glide without thrust [m], aft positive.

        Parameters
        ----------
        alpha_rad : float
            Angle of attack of the glide. [rad]
        """
        linear, moment = self._linear(alpha_rad)
        return -self.airplane.polar.chord_m * moment / linear

    def glide_speed_m_s(self, alpha_rad: float) -> float:
        """Return the airspeed of a glide without thrust [m/s].

        Parameters
        ----------
        alpha_rad : float
            Angle of attack of the glide. [rad]
        """
        return self._speed_m_s(math.hypot(*self._lift_and_drag(alpha_rad)))

    def level(self, alpha_rad: float) -> tuple[float, float, float]:
        """Return foremost centre of gravity [m], airspeed [m/s] and thrust [N] in level flight.

        Parameters
        ----------
        alpha_rad : float
            Angle of attack of the flight; all is not-a-number where it turns the shaft across the path. [rad]
        """
        plane, polar = self.airplane, self.airplane.polar
        inclined = alpha_rad + plane.shaft_tilt_rad
        if inclined >= 0.5 * math.pi:
            return math.nan, math.nan, math.nan
        linear, moment = self._linear(alpha_rad)
        lift, drag = self._lift_and_drag(alpha_rad)
        thrust = drag / math.cos(inclined)
        speed = self._speed_m_s(lift + thrust * math.sin(inclined))
        limit = -(polar.chord_m * moment + plane.thrust_arm_m * thrust)
        limit /= linear + math.sin(plane.shaft_tilt_rad) * thrust
        return limit, speed, 0.5 * self.density_kg_m3 * speed**2 * polar.area_m2 * thrust

    def _linear(self, alpha_rad: float) -> tuple[float, float]:
        """Return the linear coefficients of lift and of pitching moment about the present centre of gravity."""
        polar, d = self.airplane.polar, self.airplane.derivatives
        lift = polar.lift_zero + d.lift_alpha * alpha_rad - d.lift_elevator * self.elevator_up_rad
        return lift, d.pitch_0 + d.pitch_alpha * alpha_rad - d.pitch_elevator * self.elevator_up_rad

    def _lift_and_drag(self, alpha_rad: float) -> tuple[float, float]:
        polar = self.airplane.polar
        lift = float(bounded_lift(self._linear(alpha_rad)[0], polar.lift_max, math.sqrt))
        return lift, polar.drag_zero_lift + polar.induced * lift**2

    def _speed_m_s(self, carrying: float) -> float:
        """Return the airspeed at which a force coefficient carries the weight, not-a-number where it pulls down."""
        if carrying <= 0.0:
            return math.nan
        weight_n = self.airplane.body.mass_kg * self.airplane.gravity_m_s2
        return math.sqrt(2.0 * weight_n / (self.density_kg_m3 * self.airplane.polar.area_m2 * carrying))


def limit_in_glide(full_up: FullUpElevator) -> TrimmedLimit:
    """Return the foremost centre of gravity at which full up elevator holds the stall's angle of attack without thrust.

    Parameters
    ----------
    full_up : FullUpElevator
        The airplane.

    Notes
    -----
    Moment over linear lift, −c Cm/CL, with the elevator full up: what the end of the flare asks for in a three-point
    landing. Out of ground effect, which takes downwash from the tail and asks for more elevator: the limit lies
    farther aft near the ground. A propeller that turns idle is taken to have no thrust. The linear lift stands for the
    normal force, which with bounded lift and drag is 7 to 10 % less on three airplanes tried: with it the limit would
    lie by that part of its distance farther ahead. A moment curve that bends at the stall is not modelled.

    References
    ----------
    Perkins & Hage, Airplane Performance, Stability and Control, 1949, chapter 5: the foremost centre of gravity from
    the elevator needed for CLmax in the landing; Etkin & Reid, 3rd ed. 1996, sections 2.4 and 3.7 (both from memory).
    TM 55-1500-342-23, Army Aviation Maintenance: Weight and Balance, paragraph 2-13: the forward limit is where full up
    elevator is needed for the high angle of attack of a landing.
    """
    alpha = full_up.alpha_rad(1.0)
    return TrimmedLimit(full_up.gliding(alpha), full_up.glide_speed_m_s(alpha), "lift")


def limit_in_level_flight(full_up: FullUpElevator, full_thrust_n: Callable[[float], float]) -> TrimmedLimit:
    """Return the foremost centre of gravity at which full up elevator trims the slowest level flight.

    Parameters
    ----------
    full_up : FullUpElevator
        The airplane.
    full_thrust_n : callable
        Airspeed along the shaft [m/s] -> greatest thrust [N].

    Notes
    -----
    The slowest level flight is that at the stall's angle of attack, or, where full power does not sustain it, that of
    the greatest angle of attack which full power sustains. The thrust carries part of the weight and turns the
    airplane about its centre of gravity; the slipstream over the tail, which adds to the elevator's power, is not
    included, so that the true limit lies farther ahead for a tail in the slipstream.
    """
    stall = full_up.alpha_rad(1.0)
    alpha = _slowest_alpha_rad(full_up, full_thrust_n)
    if math.isnan(alpha):
        return TrimmedLimit(math.nan, math.nan, "power")
    limit, speed, _ = full_up.level(alpha)
    return TrimmedLimit(limit, speed, "lift" if alpha == stall else "power")


def _slowest_alpha_rad(full_up: FullUpElevator, full_thrust_n: Callable[[float], float]) -> float:
    """Return the greatest angle of attack up to the stall at which full power sustains level flight, or none."""
    from scipy.optimize import brentq

    def excess_n(alpha: float) -> float:
        _, speed, thrust = full_up.level(alpha)
        return full_thrust_n(speed * math.cos(alpha + full_up.airplane.shaft_tilt_rad)) - thrust

    high = full_up.alpha_rad(1.0)
    if excess_n(high) >= 0.0:
        return high
    step = (high - full_up.alpha_rad(LEAST_LIFT_RATIO)) / STEPS
    for low in (high - step * count for count in range(1, STEPS + 1)):
        if excess_n(low) >= 0.0 > excess_n(low + step):
            return float(brentq(excess_n, low, low + step, xtol=1e-14))
    return math.nan
