"""What a steady turn may ask of the pilot, the wing and the engine, and which of these it asks too much of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.flight.actuation import History
    from sim.flight.trim import Turns

Limit = Literal["", "CLmax", "elevator travel", "aileron travel", "rudder travel", "spin", "power", "idling"]

MOST_LIFT_SHARE = 0.98
"""Of CLmax: there the bounded lift has bent a quarter away from the straight lift curve."""
LIFTING_SHARE = 0.7
"""Of CLmax: where a turn that asks for less lift does not exist, it is the power given that leaves no flight path."""
STEEPEST_BANK_RAD = np.radians(85.0)


@dataclass(frozen=True, slots=True)
class Travel:
    """How far the controls go from neutral.

    Attributes
    ----------
    elevator_up_rad, elevator_down_rad : float
        Trailing edge up (nose up) and down, both positive. [rad]
    aileron_rad, rudder_rad : float
        Each way. [rad]
    """

    elevator_up_rad: float
    elevator_down_rad: float
    aileron_rad: float
    rudder_rad: float

    def shares(self, turns: Turns | History) -> dict[str, NDArray[np.float64]]:
        """Return the share of the travel of elevator, aileron and rudder in use, signed as the angle is."""
        up, down = turns.elevator_rad / self.elevator_up_rad, turns.elevator_rad / self.elevator_down_rad
        return {
            "elevator": np.where(turns.elevator_rad < 0.0, up, down),
            "aileron": turns.aileron_rad / self.aileron_rad,
            "rudder": turns.rudder_rad / self.rudder_rad,
        }


def limits_met(turns: Turns, travel: Travel) -> list[Limit]:
    """Return for each turn the limit that keeps it from being flown, or nothing where it can be.

    Parameters
    ----------
    turns : Turns
        From `steady_turns`.
    travel : Travel
        Of the controls.

    Notes
    -----
    Where several are passed the first named stands: lift, elevator, rudder, aileron, spin, power. ``spin``: its
    couple leaves no balance, though no travel shows it; ``idling``: the throttle cannot be closed far enough.
    """
    lost = np.isnan(turns.alpha_rad)
    stalled = (lost & (turns.lift_asked > LIFTING_SHARE)) | (turns.lift_share > MOST_LIFT_SHARE)
    shares = travel.shares(turns)
    passed: list[tuple[Limit, NDArray[np.bool_]]] = [
        ("CLmax", stalled),
        ("power", lost),
        ("elevator travel", np.abs(shares["elevator"]) > 1.0),
        ("rudder travel", np.abs(shares["rudder"]) > 1.0),
        ("aileron travel", np.abs(shares["aileron"]) > 1.0),
        ("spin", ~turns.found),
        ("power", turns.throttle > 1.0),
        ("idling", turns.throttle < 0.0),
    ]
    return [next((name for name, over in passed if over[i]), "") for i in range(turns.bank_rad.size)]


def steepest_bank(turning: Callable[[NDArray[np.float64]], Turns], travel: Travel, side: float) -> tuple[float, Limit]:
    """Return the steepest bank that can be held on one side, and the limit that it meets.

    Parameters
    ----------
    turning : function
        (banks in radians) -> `Turns`.
    travel : Travel
        Of the controls.
    side : float
        +1 for right turns, −1 for left.

    Returns
    -------
    tuple of float and str
        Bank in radians, with its sign, exact to 0.01°; 0 where straight flight itself meets the limit.
    """
    low = 0.0
    limit: Limit = ""
    high = float(STEEPEST_BANK_RAD)
    for _ in range(2):
        banks = np.linspace(low, high, 92)
        met = limits_met(turning(side * banks), travel)
        first = next((i for i, name in enumerate(met) if name), None)
        if first is None:
            return side * high, ""
        limit = met[first]
        if first == 0:
            return side * low, limit
        low, high = float(banks[first - 1]), float(banks[first])
    return side * low, limit
