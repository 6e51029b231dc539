"""Bands of handling: the same turns with many airplanes, drawn from what is not known of this one."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.flight.many_airplanes import Draws, drawn_airplanes, repeated
from sim.flight.turn_limits import limits_met
from sim.studies.turns import turns

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.handling import PowerplantHandling
    from sim.studies.turns import Power

    Array = NDArray[np.float64]

DRAWS: Final = 256
BAND: Final = (0.05, 0.95)
"""Quantiles at the ends of a 90 % band."""


def drawn_flying(model: Model, flying: FlyingAirplane, seed: int) -> FlyingAirplane:
    """Return an airplane as many, drawn from its errors; two powerplants of one airframe err together in the airframe.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        With its most likely numbers.
    seed : int
        Of the draws.
    """
    many = drawn_airplanes(flying.airplane, model.uncertainty(flying), Draws(DRAWS, seed), own=flying.name)
    return replace(flying, airplane=many)


def drawn_turns(many: FlyingAirplane, bank_rad: Sequence[float] | Array, power: Power | None = None) -> Turns:
    """Return the steady turns of every airplane of `drawn_flying` at every bank, airplane by airplane."""
    each = replace(many, airplane=repeated(many.airplane, len(bank_rad)))
    return turns(each, np.tile(bank_rad, DRAWS), power=power)


def banded(
    model: Model, flying: FlyingAirplane, found: PowerplantHandling, *, power: Power | None, seed: int
) -> PowerplantHandling:
    """Return handling with the 90 % band of each control's share in each turn.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        With one powerplant.
    found : PowerplantHandling
        Its handling without bands.
    power : str or None
        As in `sim.studies.handling.handling`.
    seed : int
        Of the draws.

    Notes
    -----
    Of those airplanes alone that have a balanced turn at all; `holds_probability` counts the others as not holding it.
    """
    banks = np.radians([turn.bank_deg for turn in found.turns])
    every = drawn_turns(drawn_flying(model, flying, seed), banks, power)
    holds = np.array([not limit for limit in limits_met(every, flying.travel)]).reshape(DRAWS, -1).mean(axis=0)
    shares = {name: quantiles(share) for name, share in flying.travel.shares(every.only_found()).items()}
    rows = []
    for i, turn in enumerate(found.turns):
        ends: dict[str, Any] = {
            f"{name}_share_{end}": float(row[i]) for name, both in shares.items() for end, row in both.items()
        }
        rows.append(replace(turn, **ends, holds_probability=float(holds[i])))
    return replace(found, turns=tuple(rows))


def quantiles(values: Array) -> dict[str, Array]:
    """Return the ends of the 90 % band, ``low`` and ``high``, for values drawn one airplane after the other."""
    rows = values.reshape(DRAWS, -1)
    with np.errstate(invalid="ignore"):
        low, high = np.nanquantile(rows, BAND, axis=0)
    return {"low": low, "high": high}
