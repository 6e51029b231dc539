"""Bands of the steepest bank: that of each airplane drawn, halved down between a bank that it holds and one not."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.many_airplanes import only_of
from sim.flight.turn_limits import MAX_BANK_RAD
from sim.studies.turns import flown_limits, turns

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane
    from sim.studies.turns import Power

    Array = NDArray[np.float64]

COARSE_DEG: Final = (-60.0, -45.0, -30.0, -15.0, 0.0, 15.0, 30.0, 45.0, 60.0)
"""Banks that must be among those at which it is known what each airplane holds. [°]"""
HALVINGS: Final = 4
"""Of 15°, beyond 60° of 25°: each bank is known to half a degree, or to eight tenths, far within the band."""
SIDES: Final = (-1.0, 1.0)


def drawn_steepest_rad(
    many: FlyingAirplane, banks_rad: Array, held: NDArray[np.bool_], power: Power | None
) -> tuple[Array, Array]:
    """Return the steepest bank that each of many airplanes can hold to the left and to the right.

    Parameters
    ----------
    many : FlyingAirplane
        Of `sim.studies.bands.drawn_flying`.
    banks_rad : array, shape (n,)
        In any order, `COARSE_DEG` among them. [rad]
    held : array of bool, shape (draws, n)
        Which of these each airplane can hold.
    power : str or None
        As in `sim.studies.turns.turns`.

    Returns
    -------
    tuple of two arrays, shape (draws,)
        With their signs; 0 where an airplane cannot even fly straight. [rad]

    Notes
    -----
    The first limit met from straight flight on, as `sim.flight.turn_limits.steepest_bank` in finer steps.
    """
    brackets = [_bracket(banks_rad, held, side) for side in SIDES]
    low, high = (np.concatenate([side * ends[k] for side, ends in zip(SIDES, brackets, strict=True)]) for k in (0, 1))
    count = len(held)
    twice = replace(many, airplane=only_of(many.airplane, np.tile(np.arange(count), len(SIDES))))
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        holds = np.array([not limit for limit in flown_limits(many, turns(twice, middle, power=power))])
        low, high = np.where(holds, middle, low), np.where(holds, high, middle)
    found = 0.5 * (low + high)
    straight = np.tile(held[:, np.flatnonzero(banks_rad == 0.0)[0]], len(SIDES))
    left, right = np.where(straight, found, 0.0).reshape(len(SIDES), count)
    return left, right


def _bracket(banks_rad: Array, held: NDArray[np.bool_], side: float) -> tuple[Array, Array]:
    """Return the last bank held before the first that is not, and that one; `MAX_BANK_RAD` where all are."""
    order = np.argsort(side * banks_rad)
    order = order[side * banks_rad[order] >= 0.0]
    steep, holds = side * banks_rad[order], held[:, order]
    first = np.where(holds.all(axis=1), len(order), holds.argmin(axis=1))
    ends = np.append(steep, max(float(MAX_BANK_RAD), steep[-1]))
    return ends[np.maximum(first - 1, 0)], ends[first]
