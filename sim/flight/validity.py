"""Range in which the flight model is valid: one table of bounds, and which of them a flight passes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.atmosphere import GAS_J_KG_K, HEAT_RATIO, HIGHEST_M, LAPSE_K_M, LOWEST_M, SEA_LEVEL_K
from sim.propulsion.propeller_fit import WORKING_SHARE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.motion import Airplane
    from sim.flight.trim import Turns
    from sim.propulsion.engine_propeller import Propeller

    Array = NDArray[np.float64]

MOST_TIP_MACH: Final = 0.85
"""Along the helix: beyond it losses grow that are not counted (common practice, no source)."""
LEAST_SOUND_SHARE: Final = 0.1
"""Of the temperature at sea level, below which that of the air is not followed: keeps a wild flight real."""


@dataclass(frozen=True, slots=True)
class Bound:
    """One bound of the flight model.

    Attributes
    ----------
    name : str
        What is passed, in a word or two.
    quantity : str
        What is compared, a name of `measures`.
    least, most : float
        Ends of the valid range, in the unit of that name.
    missing : str
        What happens beyond it that linear air loads do not compute, nor strips where they are not named.
    source : str
        Of the ends.
    missing_by_strips : str
        What air loads by strips do not compute there; empty: the same.
    """

    name: str
    quantity: str
    least: float
    most: float
    missing: str
    source: str
    missing_by_strips: str = ""


BOUNDS: Final = (
    Bound(
        "stall",
        "linear_lift_ratio",
        -1.0,
        1.0,
        "the loss of lift, of roll damping and of control",
        "definition of CLmax; lift is bounded smoothly there, `sim.aerodynamics.forces.bounded_lift`",
        "the delay of the stall and its scatter",
    ),
    Bound(
        "sideslip",
        "sideslip_rad",
        math.radians(-15.0),
        math.radians(15.0),
        "the stall of the fin",
        "common practice, no source: fins of low aspect ratio are linear to about 15°",
        "what the body shields",
    ),
    Bound(
        "roll rate",
        "tip_incidence_rad",
        math.radians(-10.0),
        math.radians(10.0),
        "the stall of the wing tip that goes down",
        "common practice, no source: about the distance of cruising flight from the stall",
        "what rotation does to separated flow",
    ),
    Bound(
        "advance ratio",
        "advance_share",
        0.0,
        WORKING_SHARE,
        "accurate loads of a windmilling, stopped or backward propeller, 7 to 9 % of those at rest",
        "range of the fit to blade elements, `sim.propulsion.propeller_fit`",
    ),
    Bound(
        "tip Mach",
        "tip_mach",
        0.0,
        MOST_TIP_MACH,
        "compressibility losses of the propeller",
        "common practice, no source: losses grow above about 0.85 to 0.9",
    ),
    Bound(
        "Mach",
        "mach",
        0.0,
        0.3,
        "growth of lift with Mach number, 5 % at the bound and more beyond",
        "Prandtl and Glauert, 1/√(1 − M²) (from memory)",
    ),
    Bound(
        "altitude",
        "altitude_m",
        LOWEST_M,
        HIGHEST_M,
        "the air above the tropopause and below the table",
        "ISO 2533, Standard Atmosphere, 1975",
    ),
)
"""Every bound, in the order in which they are told."""


def bound(name: str) -> Bound:
    """Return the bound of a name."""
    return next(one for one in BOUNDS if one.name == name)


def measures(airplane: Airplane, state: Array, elevator_rad: Array) -> dict[str, Array]:
    """Return what the bounds compare, by the names of quantities, each of shape (m,).

    Parameters
    ----------
    airplane : Airplane
        With wing, derivatives and propeller.
    state : array, shape (14, m)
        As in `sim.flight.motion`.
    elevator_rad : array, shape (m,)
        [rad]

    Notes
    -----
    ``linear_lift_ratio``: lift coefficient of attached flow over CLmax. ``tip_incidence_rad``: angle by which rolling
    turns the stream at the wing tips. ``advance_share``: advance ratio over that without thrust; infinite where the
    propeller does not turn in its own sense. ``tip_mach``: along the helix.
    """
    polar, d, propeller = airplane.polar, airplane.derivatives, airplane.propeller
    altitude, (u, v, w, p, q, _, spin) = -state[2], state[7:14]
    with np.errstate(divide="ignore", invalid="ignore"):
        speed = np.sqrt(u * u + v * v + w * w)
        pitch_rate, roll_rate = 0.5 * q * polar.chord_m / speed, 0.5 * p * polar.span_m / speed
        linear = (
            polar.lift_zero + d.lift_alpha * np.arctan2(w, u) + d.lift_q * pitch_rate + d.lift_elevator * elevator_rad
        )
    along = u * math.cos(airplane.shaft_tilt_rad) - w * math.sin(airplane.shaft_tilt_rad)
    turning = airplane.engine.rotation * abs(propeller.ratio) * spin
    return {
        "linear_lift_ratio": linear / polar.lift_max,
        "sideslip_rad": np.arctan2(v, np.hypot(u, w)),
        "tip_incidence_rad": np.arctan(roll_rate),
        **speed_measures(propeller, speed_m_s=speed, along_m_s=along, turning_rad_s=turning, altitude_m=altitude),
    }


def speed_measures(
    propeller: Propeller, *, speed_m_s: Array, along_m_s: Array, turning_rad_s: Array, altitude_m: Array
) -> dict[str, Array]:
    """Return what the bounds of air and propeller compare, as `measures` does.

    Parameters
    ----------
    propeller : Propeller
        One without coefficients is none: it passes no bound of its own advance.
    speed_m_s, along_m_s : array, shape (m,)
        Airspeed, and its part along the shaft. [m/s]
    turning_rad_s : array, shape (m,)
        Speed of the propeller in its own sense. [rad/s]
    altitude_m : array, shape (m,)
        [m]
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        advance = np.where(turning_rad_s > 0.0, along_m_s / (turning_rad_s * propeller.advance_m_rad), np.inf)
    warmth = np.maximum(1.0 - LAPSE_K_M / SEA_LEVEL_K * altitude_m, LEAST_SOUND_SHARE)
    sound_m_s = np.sqrt(HEAT_RATIO * GAS_J_KG_K * SEA_LEVEL_K * warmth)
    known = np.isfinite(turning_rad_s) & bool(propeller.thrust_rotation)
    return {
        "advance_share": np.where(known, advance, np.nan),
        "tip_mach": np.hypot(0.5 * propeller.diameter_m * turning_rad_s, speed_m_s) / sound_m_s,
        "mach": speed_m_s / sound_m_s,
        "altitude_m": altitude_m,
    }


def passed(found: dict[str, Array]) -> dict[str, NDArray[np.bool_]]:
    """Return for each bound, by its name, where a flight lies beyond it; nowhere where there is no number.

    Parameters
    ----------
    found : dict of array
        Of `measures`.
    """
    return {
        one.name: (found[one.quantity] < one.least) | (found[one.quantity] > one.most)
        for one in BOUNDS
        if one.quantity in found
    }


def passed_in_turns(airplane: Airplane, turns: Turns) -> list[tuple[str, ...]]:
    """Return for each steady turn the names of the bounds that it passes.

    Parameters
    ----------
    airplane : Airplane
        That turns.
    turns : Turns
        Of `sim.flight.trim.steady_turns`; one that does not exist passes none.
    """
    beyond = passed(measures(airplane, turns.state, turns.elevator_rad))
    return [tuple(name for name, where in beyond.items() if where[i]) for i in range(turns.bank_rad.size)]


@dataclass(frozen=True, slots=True)
class ValidPart:
    """How long a flight stays within the range of validity.

    Attributes
    ----------
    valid_until_s : float or None
        Time of the first sample beyond a bound; None where there is none. [s]
    beyond : tuple of str
        Names of the bounds passed, in the order of time.
    """

    valid_until_s: float | None
    beyond: tuple[str, ...]


def valid_part(airplane: Airplane, time_s: Array, state: Array, elevator_rad: Array) -> ValidPart:
    """Return how long a flight stays within the bounds.

    Parameters
    ----------
    airplane : Airplane
        That flies.
    time_s : array, shape (m,)
        [s]
    state : array, shape (14, m)
        As in `sim.flight.motion`.
    elevator_rad : array, shape (m,)
        [rad]
    """
    first = {
        name: int(np.argmax(where))
        for name, where in passed(measures(airplane, state, elevator_rad)).items()
        if where.any()
    }
    names = tuple(sorted(first, key=first.__getitem__))
    return ValidPart(float(time_s[first[names[0]]]) if names else None, names)
