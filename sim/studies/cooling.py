"""How a gun's receiver cools in flight: bare or cowled, silent or firing, with the correlation's own uncertainty."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import Answer
from sim.atmosphere import air
from sim.errors import refuse
from sim.scenario.reading import DEMO, load
from sim.synchronizer.convection import BAND
from sim.synchronizer.cooling import Receiver, clearance_lost_m, first_below_s, settled_k, temperatures_k

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.scenario.tables import Scenario
    from sim.scenario.timing import WarmthTable

POINTS = 181


@dataclass(frozen=True, slots=True)
class Cooling:
    """One case: likely, and with the film a fifth weaker and stronger.

    Attributes
    ----------
    name : str
        In words.
    cowled, firing : bool
        Under a cowling or bare; firing at the scenario's mean rate or silent.
    temperature_k, slowest_k, fastest_k : tuple of float
        Of the part that holds the oil, at the times of the answer; the latter two with the band of the correlation,
        weaker and stronger. [K]
    settled_k : float
        What it settles to. [K]
    stiff_after_s, stiff_earliest_s, stiff_latest_s : float or None
        When the oil no longer flows; None where it stays fluid for the time looked at. [s]
    clearance_lost_mm : float
        By which brass has closed on steel across the scenario's fit by the end; negative: opened. [mm]
    """

    name: str
    cowled: bool
    firing: bool
    temperature_k: tuple[float, ...]
    slowest_k: tuple[float, ...]
    fastest_k: tuple[float, ...]
    settled_k: float
    stiff_after_s: float | None
    stiff_earliest_s: float | None
    stiff_latest_s: float | None
    clearance_lost_mm: float


@dataclass(frozen=True, slots=True)
class WarmthAnswer(Answer):
    """Every case over the same time.

    Attributes
    ----------
    altitude_m, speed_m_s : float
        Of the airplane. [m, m/s]
    air_k, start_k, oil_stiff_k : float
        Air outside, receiver at the start, and oil no longer flowing. [K]
    time_s : tuple of float
        From leaving the shed. [s]
    cases : tuple of Cooling
        Bare and cowled, silent and firing.
    """

    main: ClassVar[str] = "cases"

    altitude_m: float
    speed_m_s: float
    air_k: float
    start_k: float
    oil_stiff_k: float
    time_s: tuple[float, ...]
    cases: tuple[Cooling, ...]


def asked_warmth(
    scenario: str | None = None,
    settings: Sequence[str] = (),
    *,
    loaded: Scenario | None = None,
    altitude_m: float | None = None,
    speed_m_s: float | None = None,
    duration_s: float = 3600.0,
) -> WarmthAnswer:
    """Return the cooling of a scenario's receiver, at its own or another height and speed.

    `loaded` is a scenario that is read already, in the place of one that is named.

    Raises
    ------
    InputError
        Every fault of the scenario; and where it has no table `warmth`.
    """
    table = (loaded or load(scenario or DEMO, settings)).warmth
    if table is None:
        refuse("warmth", "is missing; the table of the receiver, as in the bundled scenario")
    changed = {"altitude_m": altitude_m, "speed_m_s": speed_m_s}
    return warmth(table.model_copy(update={name: new for name, new in changed.items() if new is not None}), duration_s)


def warmth(table: WarmthTable, duration_s: float) -> WarmthAnswer:
    """Return the cooling of a receiver over a time [s] from its start.

    Notes
    -----
    Standard air at the height from the first moment on: the climb is left out, so the cold comes early. Air under a
    cowling is taken at a share of the airspeed and warmed by the engine. Known error: the band drawn, ±20 % of the
    film; two lumps cannot tell where in a part it is coldest.
    """
    outside = air(table.altitude_m)
    times = np.linspace(0.0, duration_s, POINTS)
    return WarmthAnswer(
        altitude_m=table.altitude_m,
        speed_m_s=table.speed_m_s,
        air_k=outside.temperature_k,
        start_k=table.start_k,
        oil_stiff_k=table.oil_stiff_k,
        time_s=tuple(times.tolist()),
        cases=tuple(
            _case(table, times, cowled=cowled, firing=firing) for cowled, firing in product((False, True), repeat=2)
        ),
    )


def _case(table: WarmthTable, times_s: np.ndarray, *, cowled: bool, firing: bool) -> Cooling:
    likely, slowest, fastest = (
        temperatures_k(_receiver(table, cowled=cowled, firing=firing, factor=factor), table.start_k, times_s.tolist())
        for factor in (1.0, 1.0 - BAND, 1.0 + BAND)
    )
    after, latest, earliest = (first_below_s(times_s, curve, table.oil_stiff_k) for curve in (likely, slowest, fastest))
    return Cooling(
        name=f"{'cowled' if cowled else 'bare'}, {'firing' if firing else 'silent'}",
        cowled=cowled,
        firing=firing,
        temperature_k=tuple(likely.tolist()),
        slowest_k=tuple(slowest.tolist()),
        fastest_k=tuple(fastest.tolist()),
        settled_k=settled_k(_receiver(table, cowled=cowled, firing=firing, factor=1.0)),
        stiff_after_s=after,
        stiff_earliest_s=earliest,
        stiff_latest_s=latest,
        clearance_lost_mm=1e3 * clearance_lost_m(table.fit_width_m, table.start_k - float(likely[-1])),
    )


def _receiver(table: WarmthTable, *, cowled: bool, firing: bool, factor: float) -> Receiver:
    outside = air(table.altitude_m)
    return Receiver(
        mass_kg=table.mass_kg,
        inner_mass_kg=table.inner_mass_kg,
        conductance_w_k=table.contact_conductance,
        width_m=table.width_m,
        length_m=table.length_m,
        speed_m_s=table.speed_m_s * (table.cowl_speed_share if cowled else 1.0),
        air_k=outside.temperature_k + (table.cowl_rise_k if cowled else 0.0),
        pressure_pa=outside.pressure_pa,
        heat_w=table.heat_per_round_j * table.fire_rate_per_s if firing else 0.0,
        film_factor=factor,
    )
