"""Where a spin entry begins when no speed is asked for: near the stall, straight or in a turn to its own side."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from sim.errors import NoAnswerError
from sim.studies.stall_entry import level_stall_m_s
from sim.studies.turns import flown_turns, not_held
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

SLOW: Final = 1.15
"""Speed of an entry near the stall, over that of the stall at the same bank."""
BANK_STEP_DEG: Final = 5


def slow_start(model: Model, bank_rad: float, altitude_m: float | None) -> tuple[FlyingAirplane, ...]:
    """Return the airplane with every powerplant at the speed from which a spin is entered.

    Parameters
    ----------
    model : Model
        The airplane.
    bank_rad : float
        Of the turn to either side that it begins from, at least 0. [rad]
    altitude_m : float or None
        None for that of the scenario. [m]

    Raises
    ------
    NoAnswerError
        Where that turn is not held: names the limit, and a bank with which each is.
    """
    flying = _at(model, bank_rad, altitude_m)
    lack = _lack(flying, bank_rad)
    if lack is None or not bank_rad:
        return flying
    steepest = math.ceil(math.degrees(bank_rad) / BANK_STEP_DEG) - 1
    for bank_deg in range(BANK_STEP_DEG * steepest, 0, -BANK_STEP_DEG):
        less_rad = math.radians(bank_deg)
        if _lack(_at(model, less_rad, altitude_m), less_rad) is None:
            message = f"{lack}; bank {brief('bank_deg', float(bank_deg))} or less"
            raise NoAnswerError(message)
    return flying


def _at(model: Model, bank_rad: float, altitude_m: float | None) -> tuple[FlyingAirplane, ...]:
    stall_m_s = max(level_stall_m_s(one) for one in model.airplanes(altitude_m=altitude_m))
    return model.airplanes(speed_m_s=SLOW * stall_m_s / math.sqrt(math.cos(bank_rad)), altitude_m=altitude_m)


def _lack(flying: tuple[FlyingAirplane, ...], bank_rad: float) -> str | None:
    """Return in words which limit the turn of a powerplant exceeds to one side; None where each is held."""
    each = (not_held(one, flown_turns(one, side * bank_rad), 0) for one in flying for side in (1.0, -1.0))
    return next((lack for lack in each if lack), None)
