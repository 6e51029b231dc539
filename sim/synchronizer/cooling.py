"""Why guns were kept warm: a receiver as one or two lumps of metal in the airstream. For education only."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp, pi, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.synchronizer.convection import cylinder_film_w_m2_k

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

STEEL_J_KG_K: Final = 470.0
STEEL_PER_K: Final = 11.7e-6
BRASS_PER_K: Final = 18.7e-6
"""Heat that steel holds, and how steel and brass expand."""


@dataclass(frozen=True, slots=True)
class Receiver:
    """The metal and the air about it.

    Attributes
    ----------
    mass_kg, inner_mass_kg : float
        Of the part in the airstream, and of the part that only it touches, 0 for none. [kg]
    conductance_w_k : float
        Between the two. [W/K]
    width_m, length_m : float
        As a cylinder across the air. [m]
    speed_m_s, air_k, pressure_pa : float
        The air that blows across it. [m/s, K, Pa]
    heat_w : float
        Left by firing, on the average: in the inner part, where there is one. [W]
    film_factor : float
        In the place of 1, what the correlation may be off by.
    """

    mass_kg: float
    inner_mass_kg: float
    conductance_w_k: float
    width_m: float
    length_m: float
    speed_m_s: float
    air_k: float
    pressure_pa: float
    heat_w: float = 0.0
    film_factor: float = 1.0

    @property
    def area_m2(self) -> float:
        """Of the cylinder's side, in m²."""
        return pi * self.width_m * self.length_m

    def to_air_w_k(self, body_k: float) -> float:
        """Return the heat that passes to the air per kelvin, in W/K."""
        film = cylinder_film_w_m2_k(
            width_m=self.width_m,
            speed_m_s=self.speed_m_s,
            air_k=self.air_k,
            body_k=body_k,
            pressure_pa=self.pressure_pa,
        )
        return self.film_factor * film * self.area_m2


def temperatures_k(receiver: Receiver, start_k: float, times_s: Sequence[float]) -> NDArray[np.float64]:
    """Return the temperature of the part that holds the oil, the inner one where there is one, at times from 0 on. [K].

    Parameters
    ----------
    receiver : Receiver
        Metal and air.
    start_k : float
        Of both parts. [K]
    times_s : sequence of float
        Ascending, the first 0. [s]

    Notes
    -----
    Between two times the film is held at its middle value and the linear equations are solved exactly, so that parts
    that touch well need no small steps; of second order in what the film changes. Each part is of one temperature:
    right within 5 % while its Biot number is below 0.1, which steel as thick as a receiver keeps.
    """
    outer_k = inner_k = start_k
    found = [start_k]
    for before, after in pairwise(times_s):
        step_s = after - before
        middle_k, _ = _step(receiver, (outer_k, inner_k), outer_k, 0.5 * step_s)
        outer_k, inner_k = _step(receiver, (outer_k, inner_k), middle_k, step_s)
        found.append(inner_k if receiver.inner_mass_kg else outer_k)
    return np.array(found)


def _step(receiver: Receiver, state_k: tuple[float, float], film_at_k: float, step_s: float) -> tuple[float, float]:
    """Return both temperatures a time later, exactly for the film that a body at `film_at_k` has."""
    loss, between = receiver.to_air_w_k(film_at_k), receiver.conductance_w_k
    outer_heat, inner_heat = STEEL_J_KG_K * receiver.mass_kg, STEEL_J_KG_K * receiver.inner_mass_kg
    outer_rest_k = receiver.air_k + receiver.heat_w / loss
    if not receiver.inner_mass_kg:
        away_k = (state_k[0] - outer_rest_k) * exp(-step_s * loss / outer_heat)
        return outer_rest_k + away_k, outer_rest_k + away_k
    inner_rest_k = outer_rest_k + receiver.heat_w / between
    x, y = state_k[0] - outer_rest_k, state_k[1] - inner_rest_k
    a, b, c, d = (loss + between) / outer_heat, -between / outer_heat, -between / inner_heat, between / inner_heat
    root = sqrt(((a - d) / 2.0) ** 2 + b * c)
    fast, slow = (a + d) / 2.0 + root, (a * d - b * c) / ((a + d) / 2.0 + root)
    gone, left = exp(-fast * step_s), exp(-slow * step_s)
    whole, part = (fast * left - slow * gone) / (fast - slow), (gone - left) / (fast - slow)
    return (
        outer_rest_k + whole * x + part * (a * x + b * y),
        inner_rest_k + whole * y + part * (c * x + d * y),
    )


def settled_k(receiver: Receiver) -> float:
    """Return the temperature that the part with the oil settles to, in kelvin."""
    outer_k = receiver.air_k
    for _ in range(60):
        outer_k = receiver.air_k + receiver.heat_w / receiver.to_air_w_k(outer_k)
    return outer_k + (receiver.heat_w / receiver.conductance_w_k if receiver.inner_mass_kg else 0.0)


def first_below_s(times_s: NDArray[np.float64], temperature_k: NDArray[np.float64], limit_k: float) -> float | None:
    """Return when a temperature first falls to a limit, between its points on a straight line; None if it does not."""
    below = np.flatnonzero(temperature_k <= limit_k)
    if below.size == 0:
        return None
    after = int(below[0])
    if after == 0:
        return float(times_s[0])
    drop = temperature_k[after - 1] - temperature_k[after]
    share = (temperature_k[after - 1] - limit_k) / drop
    return float(times_s[after - 1] + share * (times_s[after] - times_s[after - 1]))


def clearance_lost_m(width_m: float, cooled_by_k: float) -> float:
    """Return by how much brass closes on steel inside it when both are cooled, in metres; negative: it opens."""
    return (BRASS_PER_K - STEEL_PER_K) * width_m * cooled_by_k
