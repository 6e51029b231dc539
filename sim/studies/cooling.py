"""How a gun's receiver cools in flight: bare or cowled, silent or firing, with the uncertainty of the correlation."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from math import inf
from typing import TYPE_CHECKING

import numpy as np

from sim.answer import Answer
from sim.atmosphere import air
from sim.synchronizer.convection import UNCERTAINTY
from sim.synchronizer.cooling import (
    clearance_lost_m,
    course,
    exposed,
    first_above_s,
    first_below_s,
    settled_k,
    temperatures_k,
)
from sim.synchronizer.gun_line import neat
from sim.units.convert import per_min

if TYPE_CHECKING:
    from sim.model.model import Model
    from sim.synchronizer.cooling import Exposure

POINTS = 181


NAMES = {
    (False, False): "bare, silent",
    (False, True): "bare, firing",
    (True, False): "cowled, silent",
    (True, True): "cowled, firing",
}
"""Whether the gun is under a cowling, and whether it fires."""


@dataclass(frozen=True, slots=True)
class CoolingCase:
    """One case: best estimate, and with the heat transfer coefficient 20 % lower and higher.

    Attributes
    ----------
    name : str
        ``bare, firing``.
    cowled, firing : bool
        Under a cowling or bare; firing at its mean rate or silent.
    flow_k, flow_m_s : float
        Temperature and speed of the air that flows across it. [K, m/s]
    film_w_m2_k : float
        Heat transfer coefficient of the air film at the start. [W/(m² K)]
    heat_w : float
        Mean heat input by firing; 0 while silent. [W]
    given_off_w : tuple of float
        Heat given off to the air, at the times of the answer; negative where the air warms it. [W]
    temperature_k, slowest_k, fastest_k : tuple of float
        Temperature of the part that holds the oil, at the times of the answer; the latter two with the lower and the
        higher coefficient. [K]
    settled_k : float
        Steady temperature. [K]
    stiff_after_s, stiff_earliest_s, stiff_latest_s : float or None
        When the oil no longer flows; 0 where it is stiff at the start, None where it flows for the time considered. [s]
    fluid_after_s, fluid_earliest_s, fluid_latest_s : float or None
        When oil that is stiff at the start flows; None where it does not for the time considered, or flows at the
        start. [s]
    stays_fluid : bool
        Whether the oil flows for ever: at the steady temperature too, with the higher coefficient as well.
    clearance_lost_m : float
        How far brass has closed on steel across the fit by the end; negative where it has opened. [m]
    """

    name: str
    cowled: bool
    firing: bool
    flow_k: float
    flow_m_s: float
    film_w_m2_k: float
    heat_w: float
    given_off_w: tuple[float, ...]
    temperature_k: tuple[float, ...]
    slowest_k: tuple[float, ...]
    fastest_k: tuple[float, ...]
    settled_k: float
    stiff_after_s: float | None
    stiff_earliest_s: float | None
    stiff_latest_s: float | None
    fluid_after_s: float | None
    fluid_earliest_s: float | None
    fluid_latest_s: float | None
    stays_fluid: bool
    clearance_lost_m: float


@dataclass(frozen=True, slots=True)
class CoolingAnswer(Answer):
    """Every case over the same time.

    Attributes
    ----------
    altitude_m, speed_m_s : float
        Altitude and true airspeed. [m, m/s]
    air_k, start_k, oil_stiff_k : float
        Temperature of the air, of the receiver at the start, and at which the oil no longer flows. [K]
    heat_per_round_j, mean_rounds_per_min : float
        Heat that a round leaves in the receiver, and mean rate of fire over the flight. [J, 1/min]
    time_s : tuple of float
        Time from the start. [s]
    cases : tuple of CoolingCase
        Bare and cowled, silent and firing.
    """

    altitude_m: float
    speed_m_s: float
    air_k: float
    start_k: float
    oil_stiff_k: float
    heat_per_round_j: float
    mean_rounds_per_min: float
    time_s: tuple[float, ...]
    cases: tuple[CoolingCase, ...]


def cooling(
    model: Model, *, altitude_m: float | None = None, speed_m_s: float | None = None, duration_s: float = 3600.0
) -> CoolingAnswer:
    """Return the cooling of a gun's receiver over a time from its start.

    Parameters
    ----------
    model : Model
        With a receiver.
    altitude_m, speed_m_s : float or None
        Altitude, −2000 to 11000, and true airspeed, above 0; None for the model's. [m, m/s]
    duration_s : float
        Time considered, above 0. [s]

    Raises
    ------
    InputError
        When the model has no receiver, or the altitude lies outside the standard atmosphere.

    Notes
    -----
    Standard air at the altitude from the first moment on: the climb is left out, so the cold comes early. Air under a
    cowling flows at a fraction of the airspeed and is warmed by the engine. Known error: the band, ±20 % of the heat
    transfer coefficient; with two lumped capacities the coldest place within a part is not known.
    """
    receiver = model.receiver
    altitude_m = model.receiver_altitude_m if altitude_m is None else altitude_m
    speed_m_s = model.receiver_speed_m_s if speed_m_s is None else speed_m_s
    outside, times = air(altitude_m), np.linspace(0.0, duration_s, POINTS)
    return CoolingAnswer(
        altitude_m=altitude_m,
        speed_m_s=speed_m_s,
        air_k=outside.temperature_k,
        start_k=receiver.start_k,
        oil_stiff_k=receiver.oil_stiff_k,
        heat_per_round_j=model.heat_per_round_j,
        mean_rounds_per_min=neat(per_min(model.mean_rate_per_s)),
        time_s=tuple(times.tolist()),
        cases=tuple(
            _case(exposed(receiver, outside, speed_m_s, cowled=cowled, firing=firing), times, cowled, firing)
            for cowled, firing in product((False, True), repeat=2)
        ),
    )


def _case(case: Exposure, times_s: np.ndarray, cowled: bool, firing: bool) -> CoolingCase:
    receiver, best = case.receiver, course(case, times_s.tolist())
    low, high = (replace(case, coefficient_factor=factor) for factor in (1.0 - UNCERTAINTY, 1.0 + UNCERTAINTY))
    likely = best.temperature_k
    slowest, fastest = (temperatures_k(each, times_s.tolist()) for each in (low, high))
    curves, limit_k = (likely, slowest, fastest), receiver.oil_stiff_k
    starts_stiff = receiver.start_k < limit_k
    stiff = _band(tuple(first_below_s(times_s, curve, limit_k) for curve in curves))
    fluid = _band(tuple(first_above_s(times_s, curve, limit_k) if starts_stiff else None for curve in curves))
    return CoolingCase(
        name=NAMES[cowled, firing],
        cowled=cowled,
        firing=firing,
        flow_k=case.air_k,
        flow_m_s=case.speed_m_s,
        film_w_m2_k=case.film_w_m2_k(receiver.start_k),
        heat_w=case.heat_w,
        given_off_w=tuple(best.given_off_w.tolist()),
        temperature_k=tuple(likely.tolist()),
        slowest_k=tuple(slowest.tolist()),
        fastest_k=tuple(fastest.tolist()),
        settled_k=settled_k(case),
        stiff_after_s=stiff[0],
        stiff_earliest_s=stiff[1],
        stiff_latest_s=stiff[2],
        fluid_after_s=fluid[0],
        fluid_earliest_s=fluid[1],
        fluid_latest_s=fluid[2],
        stays_fluid=stiff[1] is None and settled_k(high) >= limit_k,
        clearance_lost_m=clearance_lost_m(receiver.fit_width_m, receiver.start_k - float(likely[-1])),
    )


def _band(times_s: tuple[float | None, ...]) -> tuple[float | None, float | None, float | None]:
    """Return the best estimate, the earliest and the latest; None is later than any time."""
    ascending = sorted(times_s, key=lambda time_s: inf if time_s is None else time_s)
    return times_s[0], ascending[0], ascending[-1]
