"""Many airplanes in the place of one, drawn from what is not known of it, and the 90 % bands of what they do."""

from __future__ import annotations

import math
from dataclasses import replace
from statistics import NormalDist
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.many_airplanes import Draws, drawn_airplanes, repeated
from sim.rotor.couple import gyroscopic_moment
from sim.studies.turns import turns
from sim.units.quantities import band_ends

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import ArrayLike, NDArray

    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
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


def rotor_inertias_kg_m2(many: FlyingAirplane) -> Array:
    """Return the angular momentum per rad/s of the engine shaft of each airplane of `drawn_flying` [kg m²]."""
    inertia = sum(rotor.polar_inertia_kg_m2 * rotor.ratio for rotor in many.airplane.rotors)
    return np.broadcast_to(np.asarray(inertia, float), (DRAWS,))


def gyroscopic_moments(many: FlyingAirplane, every: Turns) -> tuple[Array, Array]:
    """Return the pitching and the yawing moment of the rotors in the turns of `drawn_turns`, a row an airplane [N m].

    Nose up and nose right positive; not-a-number where a turn was not found.
    """
    found = every.only_found()
    _, pitch_rate, yaw_rate = found.state[10:13].reshape(3, DRAWS, -1)
    momentum = rotor_inertias_kg_m2(many)[:, None] * found.spin_rad_s.reshape(DRAWS, -1)
    pitch, yaw = gyroscopic_moment(momentum, pitch_rate, yaw_rate)
    return pitch, yaw


def normal_ends(name: str, value: float, error: float) -> dict[str, float]:
    """Return both ends of the 90 % band of a number that errs normally, by their names; none without an error."""
    half = NormalDist().inv_cdf(BAND[1]) * error
    return dict(zip(band_ends(name), (value - half, value + half), strict=True)) if error else {}


def quantiles(values: ArrayLike) -> tuple[Array, Array]:
    """Return the lower and the upper end of the 90 % band of each column, a row an airplane.

    Not-a-number is left out; plus and minus infinity count as larger and smaller than every number.
    """
    known = np.sort(np.asarray(values, float), axis=0)  # not-a-number goes to the end
    last = np.maximum((~np.isnan(known)).sum(axis=0) - 1, 0)
    at = np.multiply.outer(BAND, last)
    under = at.astype(int)
    below, above = (np.take_along_axis(known, row, axis=0) for row in (under, np.minimum(under + 1, last)))
    with np.errstate(invalid="ignore"):
        low, high = below + (at - under) * (above - below)
    return low, high


def ends_of(drawn: Mapping[str, ArrayLike]) -> dict[str, float | None]:
    """Return both ends of the 90 % band of each quantity, by the names of the ends.

    Parameters
    ----------
    drawn : Mapping of str to array
        Name of the quantity -> one value an airplane, as `quantiles` takes them.

    Returns
    -------
    dict of str to float or None
        None where an end is not finite, or no airplane has a value.
    """
    ends: dict[str, float | None] = {}
    for name, values in drawn.items():
        known = np.asarray(values, float)
        both = quantiles(known) if np.isfinite(known).any() else (np.nan, np.nan)
        for end, value in zip(band_ends(name), map(float, both), strict=True):
            ends[end] = value if math.isfinite(value) else None
    return ends
