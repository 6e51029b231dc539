"""Stall, lift-off, climb, cruise and top speed of an airplane, from its drag polar and the available thrust."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sim.errors import NoAnswerError
from sim.told import told
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.polar import Polar

LIFT_OFF: Final = 1.1
"""Lift-off speed over stalling speed (common practice for a light single-seater on grass)."""


@dataclass(frozen=True, slots=True)
class Speeds:
    """Speeds at one weight and altitude with one powerplant.

    Attributes
    ----------
    stall_m_s, liftoff_m_s : float
        Stalling speed in level flight, and 1.1 times it. [m/s]
    cruise_m_s : float or None
        Level speed at cruise power; None where that does not sustain level flight. [m/s]
    top_m_s : float
        Level speed at full power. [m/s]
    best_climb_m_s, climb_rate_m_s : float
        Airspeed of the fastest climb, and its climb rate. [m/s]
    lift_drag_max : float
        Greatest lift-to-drag ratio.
    stall_low_m_s, stall_high_m_s, liftoff_low_m_s, liftoff_high_m_s, cruise_low_m_s, cruise_high_m_s, top_low_m_s,
    top_high_m_s, best_climb_low_m_s, best_climb_high_m_s, climb_rate_low_m_s, climb_rate_high_m_s : float or None
        Ends of the 90 % bands; None where no bands were asked for. [m/s]
    lift_drag_max_low, lift_drag_max_high : float or None
        Likewise.
    level_flight_probability, cruise_probability : float or None
        Of the airplanes drawn, the shares that full and cruise power sustain in level flight.
    """

    stall_m_s: float
    liftoff_m_s: float
    cruise_m_s: float | None
    top_m_s: float
    best_climb_m_s: float
    climb_rate_m_s: float
    lift_drag_max: float
    stall_low_m_s: float | None = None
    stall_high_m_s: float | None = None
    liftoff_low_m_s: float | None = None
    liftoff_high_m_s: float | None = None
    cruise_low_m_s: float | None = None
    cruise_high_m_s: float | None = None
    top_low_m_s: float | None = None
    top_high_m_s: float | None = None
    best_climb_low_m_s: float | None = None
    best_climb_high_m_s: float | None = None
    climb_rate_low_m_s: float | None = None
    climb_rate_high_m_s: float | None = None
    lift_drag_max_low: float | None = None
    lift_drag_max_high: float | None = None
    level_flight_probability: float | None = None
    cruise_probability: float | None = None


def speeds(
    polar: Polar,
    *,
    weight_n: float,
    density_kg_m3: float,
    full_thrust_n: Callable[[float], float],
    cruise_thrust_n: Callable[[float], float],
    called: str = "",
) -> Speeds:
    """Return the speeds of an airplane.

    Parameters
    ----------
    polar : Polar
    weight_n, density_kg_m3 : float
        [N, kg/m³]
    full_thrust_n, cruise_thrust_n : callable
        Airspeed [m/s] -> thrust [N], decreasing with speed.
    called : str
        Name of the engine, for the error message.

    Raises
    ------
    NoAnswerError
        Where full power does not sustain level flight at any speed.

    Notes
    -----
    Thrust acts along the flight path and climb angles are small: the climb rate is too high by 1 − cos of the climb
    angle, under 1 % up to 8°. The drag in the propeller's slipstream is not included; it costs biplanes of the period
    3 to 8 %.

    References
    ----------
    Loftin, Quest for Performance, NASA SP-468, Appendix C; von Mises, Theory of Flight, chapter XIV.
    """
    stall = polar.stall_m_s(weight_n, density_kg_m3)

    def excess_w(thrust_n: Callable[[float], float], speed_m_s: float) -> float:
        drag_n: float = polar.drag_n(weight_n, density_kg_m3, speed_m_s)
        return (thrust_n(speed_m_s) - drag_n) * speed_m_s

    best_climb = _greatest(lambda speed: excess_w(full_thrust_n, speed), stall)
    climb_w = excess_w(full_thrust_n, best_climb)
    if climb_w < 0.0:
        who = told("full power of {engine}", engine=called) if called else "full power"
        nearest, short = (
            f"{fixed(name, value, 'si', 1)} ({fixed(name, value, 'us', 1)})"
            for name, value in (("speed_m_s", best_climb), ("power_w", -climb_w))
        )
        message = told(
            "{who} does not sustain level flight: the least deficit is {short}, at {nearest}; reduce the weight, fly "
            "lower or give more power",
            who=who,
            short=short,
            nearest=nearest,
        )
        raise NoAnswerError(message)
    cruise_peak = _greatest(lambda speed: excess_w(cruise_thrust_n, speed), stall)
    sustained = excess_w(cruise_thrust_n, cruise_peak) >= 0.0
    return Speeds(
        stall_m_s=stall,
        liftoff_m_s=LIFT_OFF * stall,
        cruise_m_s=_zero_excess(lambda speed: excess_w(cruise_thrust_n, speed), cruise_peak) if sustained else None,
        top_m_s=_zero_excess(lambda speed: excess_w(full_thrust_n, speed), best_climb),
        best_climb_m_s=best_climb,
        climb_rate_m_s=climb_w / weight_n,
        lift_drag_max=polar.lift_drag_max,
    )


def _greatest(excess_w: Callable[[float], float], stall_m_s: float) -> float:
    """Return the speed of greatest excess power at or above the stall; it has a single peak."""
    from scipy.optimize import minimize_scalar

    high = 2.0 * stall_m_s
    while excess_w(high) > excess_w(0.5 * high) and high < 1e4 * stall_m_s:
        high *= 2.0
    found = minimize_scalar(lambda speed: -excess_w(speed), bounds=(stall_m_s, high), options={"xatol": 1e-9 * high})
    return max((float(found.x), stall_m_s), key=excess_w)


def _zero_excess(excess_w: Callable[[float], float], from_m_s: float) -> float:
    """Return the speed above the peak at which the excess power is zero."""
    from scipy.optimize import brentq

    high = 1.01 * from_m_s
    while excess_w(high) > 0.0:
        high *= 1.5
    return float(brentq(excess_w, from_m_s, high, xtol=1e-12)) if excess_w(from_m_s) > 0.0 else from_m_s
