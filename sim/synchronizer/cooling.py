"""Cooling of a gun's receiver in flight: one or two lumped thermal capacities in a cross-flow. For education only."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import exp, pi, sqrt
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.synchronizer.convection import cylinder_coefficient_w_m2_k

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.atmosphere import Air

STEEL_J_KG_K: Final = 470.0
"""Specific heat of steel."""
STEEL_PER_K: Final = 11.7e-6
BRASS_PER_K: Final = 18.7e-6
"""Coefficients of linear thermal expansion."""


@dataclass(frozen=True, slots=True)
class Receiver:
    """The metal of a receiver, its oil and its cowling.

    Attributes
    ----------
    mass_kg, inner_mass_kg : float
        Mass of the part in the airstream, and of the part inside that only it touches, 0 for none. [kg]
    conductance_w_k : float
        Thermal conductance of the contact between the two. [W/K]
    width_m, length_m : float
        Diameter and length of the cylinder that stands for it. [m]
    start_k, oil_stiff_k : float
        Temperature at the start, and that at which its oil no longer flows. [K]
    heat_w : float
        Mean heat input while it fires. [W]
    cowl_speed_share, cowl_rise_k : float
        Under a cowling: speed of the air over airspeed, and how much warmer the engine makes it. [-, K]
    fit_width_m : float
        Diameter of a brass part that fits round a steel one. [m]
    """

    mass_kg: float
    inner_mass_kg: float
    conductance_w_k: float
    width_m: float
    length_m: float
    start_k: float
    oil_stiff_k: float
    heat_w: float = 0.0
    cowl_speed_share: float = 1.0
    cowl_rise_k: float = 0.0
    fit_width_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Exposure:
    """A receiver in its airflow.

    Attributes
    ----------
    receiver : Receiver
        The metal.
    speed_m_s, air_k, pressure_pa : float
        Speed, temperature and pressure of the air that flows across it. [m/s, K, Pa]
    heat_w : float
        Heat input: into the inner part, where there is one. [W]
    coefficient_factor : float
        Factor on the heat transfer coefficient, for its uncertainty.
    """

    receiver: Receiver
    speed_m_s: float
    air_k: float
    pressure_pa: float
    heat_w: float = 0.0
    coefficient_factor: float = 1.0

    def film_w_m2_k(self, body_k: float) -> float:
        """Return the heat transfer coefficient of the air film about a surface at `body_k`, in W/(m² K)."""
        return self.coefficient_factor * cylinder_coefficient_w_m2_k(
            width_m=self.receiver.width_m,
            speed_m_s=self.speed_m_s,
            air_k=self.air_k,
            body_k=body_k,
            pressure_pa=self.pressure_pa,
        )

    def loss_w_k(self, body_k: float) -> float:
        """Return the heat given off to the air per kelvin of difference, in W/K."""
        return self.film_w_m2_k(body_k) * pi * self.receiver.width_m * self.receiver.length_m


def exposed(receiver: Receiver, air: Air, speed_m_s: float, *, cowled: bool, firing: bool) -> Exposure:
    """Return a receiver in flight, bare or under its cowling, silent or firing.

    Parameters
    ----------
    receiver : Receiver
        The metal.
    air : Air
        The atmosphere at the altitude of flight.
    speed_m_s : float
        True airspeed, above 0. [m/s]
    cowled, firing : bool
        Whether it is under its cowling, and whether it fires at its mean rate.
    """
    return Exposure(
        receiver,
        speed_m_s=speed_m_s * (receiver.cowl_speed_share if cowled else 1.0),
        air_k=air.temperature_k + (receiver.cowl_rise_k if cowled else 0.0),
        pressure_pa=air.pressure_pa,
        heat_w=receiver.heat_w if firing else 0.0,
    )


def temperatures_k(case: Exposure, times_s: Sequence[float]) -> NDArray[np.float64]:
    """Return the temperature of the part that holds the oil, the inner one where there is one, over time. [K]."""
    return course(case, times_s).temperature_k


@dataclass(frozen=True, slots=True)
class Course:
    """What a receiver goes through over time.

    Attributes
    ----------
    temperature_k : numpy.ndarray
        Temperature of the part that holds the oil, the inner one where there is one. [K]
    given_off_w : numpy.ndarray
        Heat that the part in the airstream gives off to the air. [W]
    """

    temperature_k: NDArray[np.float64]
    given_off_w: NDArray[np.float64]


def course(case: Exposure, times_s: Sequence[float]) -> Course:
    """Return the temperature of the part that holds the oil, and the heat given off, over time.

    Parameters
    ----------
    case : Exposure
        Receiver and airflow.
    times_s : sequence of float
        Ascending, the first 0. [s]

    Notes
    -----
    Between two times the heat transfer coefficient is held at its value in the middle and the linear equations are
    solved exactly, so that parts in good contact need no small steps; second order in the change of the coefficient.
    Each part has one temperature: right within 5 % while its Biot number is below 0.1, which a receiver's steel
    keeps.
    """
    outer_k = inner_k = case.receiver.start_k
    outer, oil = [outer_k], [outer_k]
    for before, after in pairwise(times_s):
        step_s = after - before
        middle_k, _ = _step(case, (outer_k, inner_k), outer_k, 0.5 * step_s)
        outer_k, inner_k = _step(case, (outer_k, inner_k), middle_k, step_s)
        outer.append(outer_k)
        oil.append(inner_k if case.receiver.inner_mass_kg else outer_k)
    return Course(np.array(oil), np.array([case.loss_w_k(each) * (each - case.air_k) for each in outer]))


def _step(case: Exposure, state_k: tuple[float, float], surface_k: float, step_s: float) -> tuple[float, float]:
    """Return both temperatures a time later, exactly for the coefficient of a surface at `surface_k`."""
    receiver = case.receiver
    loss, between = case.loss_w_k(surface_k), receiver.conductance_w_k
    outer_heat, inner_heat = STEEL_J_KG_K * receiver.mass_kg, STEEL_J_KG_K * receiver.inner_mass_kg
    outer_rest_k = case.air_k + case.heat_w / loss
    if not receiver.inner_mass_kg:
        away_k = (state_k[0] - outer_rest_k) * exp(-step_s * loss / outer_heat)
        return outer_rest_k + away_k, outer_rest_k + away_k
    inner_rest_k = outer_rest_k + case.heat_w / between
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


def settled_k(case: Exposure) -> float:
    """Return the steady temperature of the part that holds the oil, in kelvin."""
    outer_k = case.air_k
    for _ in range(60):
        outer_k = case.air_k + case.heat_w / case.loss_w_k(outer_k)
    return outer_k + (case.heat_w / case.receiver.conductance_w_k if case.receiver.inner_mass_kg else 0.0)


def first_below_s(times_s: NDArray[np.float64], temperature_k: NDArray[np.float64], limit_k: float) -> float | None:
    """Return when a temperature first falls to a limit, interpolated linearly; None if it does not."""
    below = np.flatnonzero(temperature_k <= limit_k)
    if below.size == 0:
        return None
    after = int(below[0])
    if after == 0:
        return float(times_s[0])
    drop = temperature_k[after - 1] - temperature_k[after]
    share = (temperature_k[after - 1] - limit_k) / drop
    return float(times_s[after - 1] + share * (times_s[after] - times_s[after - 1]))


def first_above_s(times_s: NDArray[np.float64], temperature_k: NDArray[np.float64], limit_k: float) -> float | None:
    """Return when a temperature first rises to a limit, interpolated linearly; None if it does not."""
    return first_below_s(times_s, -temperature_k, -limit_k)


def clearance_lost_m(width_m: float, cooled_by_k: float) -> float:
    """Return how far brass closes on steel inside it as both cool, in metres; negative: the fit opens."""
    return (BRASS_PER_K - STEEL_PER_K) * width_m * cooled_by_k
