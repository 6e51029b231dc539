"""Limits of a steady turn: lift, control travel, angular momentum of the rotor, power and engine speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.trim import Turns

Limit = Literal[
    "", "CLmax", "elevator travel", "aileron travel", "rudder travel", "spin", "power", "idling", "overspeed"
]

MAX_LIFT_RATIO: Final = 0.98
"""Greatest usable fraction of CLmax: there the bounded lift is about a fifth below the linear lift curve."""
LIFT_LIMITED_RATIO: Final = 0.7
"""Fraction of CLmax below which lift is not what prevents a turn: one that does not exist there lacks power."""
MAX_BANK_RAD: Final = np.radians(85.0)


def limits_met(turns: Turns, travel: Travel, most_rad_s: float = math.inf) -> list[Limit]:
    """Return for each turn the limit that it exceeds, or an empty string where it can be flown.

    Parameters
    ----------
    turns : Turns
        From `steady_turns`.
    travel : Travel
    most_rad_s : float
        Full speed of the engine; without it none is too fast. [rad/s]

    Notes
    -----
    Where several are exceeded the first is returned: lift, elevator, rudder, aileron, spin, power, overspeed.
    ``spin``: the gyroscopic moment cannot be balanced, although no control reaches its stop; ``idling``: the closed
    throttle still gives too much power; ``overspeed``: it balances, with the engine above its full speed.
    """
    lost = np.isnan(turns.alpha_rad)
    stalled = (lost & (turns.lift_ratio_required > LIFT_LIMITED_RATIO)) | (turns.lift_ratio > MAX_LIFT_RATIO)
    shares = travel.shares(turns)
    exceeded: list[tuple[Limit, NDArray[np.bool_]]] = [
        ("CLmax", stalled),
        ("power", lost),
        ("elevator travel", np.abs(shares["elevator"]) > 1.0),
        ("rudder travel", np.abs(shares["rudder"]) > 1.0),
        ("aileron travel", np.abs(shares["aileron"]) > 1.0),
        ("spin", ~turns.found),
        ("power", turns.throttle > 1.0),
        ("idling", turns.throttle < 0.0),
        ("overspeed", np.abs(turns.spin_rad_s) > most_rad_s),
    ]
    return [next((name for name, over in exceeded if over[i]), "") for i in range(turns.bank_rad.size)]


def steepest_bank(
    turning: Callable[[NDArray[np.float64]], Turns],
    travel: Travel,
    side: float,
    *,
    most_rad_s: float = math.inf,
    too_much: Callable[[Turns], Sequence[str]] | None = None,
) -> tuple[float, str]:
    """Return the steepest bank that can be held on one side, and the limit reached there.

    Parameters
    ----------
    turning : function
        (banks in radians) -> `Turns`.
    travel : Travel
    side : float
        +1 for right turns, −1 for left.
    most_rad_s : float
        As for `limits_met`. [rad/s]
    too_much : function or None
        Turns -> for each a further limit that it exceeds, or an empty string; told where it meets no other.

    Returns
    -------
    tuple of float and str
        Bank in radians, with its sign, exact to 0.01°; 0 where straight flight itself exceeds the limit. An empty
        string where none is met up to 85°.
    """
    low = 0.0
    limit = ""
    high = float(MAX_BANK_RAD)
    for _ in range(2):
        banks = np.linspace(low, high, 92)
        found = turning(side * banks)
        met: list[str] = list(limits_met(found, travel, most_rad_s))
        if too_much:
            met = [own or further for own, further in zip(met, too_much(found), strict=True)]
        first = next((i for i, name in enumerate(met) if name), None)
        if first is None:
            return side * high, ""
        limit = met[first]
        if first == 0:
            return side * low, limit
        low, high = float(banks[first - 1]), float(banks[first])
    return side * low, limit
