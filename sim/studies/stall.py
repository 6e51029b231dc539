"""Stalls of an airplane with each powerplant: idle to full power, straight and in turns; and where it autorotates."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Final

from sim.answer import ASIDE, Answer
from sim.studies.autorotation import AutorotationAnswer, autorotation
from sim.studies.carried_mass import BandedMass, carried_masses
from sim.studies.stall_entry import StallEntry, banded, stall_flight, throttles
from sim.studies.turns import checked_banks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.stall_entry import StallFlight
    from sim.studies.turns import Power

BANKS_DEG: Final = (0.0, 30.0, -30.0)
REACTION_S: Final = 1.0
"""From the stall to the first movement of the pilot: common practice, no source."""


@dataclass(frozen=True, slots=True)
class StallOf:
    """Stalls with one powerplant.

    Attributes
    ----------
    entries : tuple of StallEntry
        Power by power, bank by bank.
    """

    entries: tuple[StallEntry, ...]


@dataclass(frozen=True, slots=True)
class StallAnswer(Answer):
    """The answer of ``whirlgate stall``.

    Attributes
    ----------
    title : str
        Name of the airplane.
    altitude_m, reaction_s : float
        Altitude at which the stalls begin, and time before the pilot reacts. [m, s]
    powerplants : dict of StallOf
        With each powerplant.
    autorotation : AutorotationAnswer
        Of the airplane without power.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    flights : dict of tuple of StallFlight
        Records, power by power and bank by bank; not in JSON.
    """

    main: ClassVar[str] = "powerplants"

    title: str
    altitude_m: float
    reaction_s: float
    powerplants: dict[str, StallOf]
    autorotation: AutorotationAnswer
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    flights: dict[str, tuple[StallFlight, ...]] = field(metadata=ASIDE)


def stall(
    model: Model,
    *,
    banks_deg: Sequence[float] = BANKS_DEG,
    altitude_m: float | None = None,
    reaction_s: float = REACTION_S,
    bands: bool = False,
    seed: int = 1,
    progress: Callable[[Iterable[tuple[Power, float]]], Iterable[tuple[Power, float]]] = iter,
) -> StallAnswer:
    """Return the stalls of an airplane with each powerplant, and its autorotation.

    Parameters
    ----------
    model : Model
        The airplane, its flights by strips.
    banks_deg : sequence of float
        Held on the approach, above −90 and below 90, right positive. [°]
    altitude_m : float or None
        None for that of the scenario. [m]
    reaction_s : float
        From the stall to the first movement of the pilot, 0 to 10. [s]
    bands : bool
        Give the 90 % bands of the stalling speeds.
    seed : int
        Of the draws.
    progress : callable
        Wraps the stalls that are flown with one powerplant, to show progress.

    Raises
    ------
    InputError
        Where a bank is out of range, or flights have linear air loads.
    NoAnswerError
        Where a flight diverges.

    Notes
    -----
    From 1.25 times the stalling speed the stick comes back from trim to its stop in 25 s, the throttle stays, ailerons
    and rudder hold bank and ball. The stall is the greatest mean lift coefficient of the strips of the wing. Then the
    controls stay for the time of reaction; then full throttle, wings levelled, and a load factor of at most
    .8 (V/Vs)² and 1.5 until the descent has stopped. A model of strips compares engines; it certifies no recovery.
    """
    banks = checked_banks(banks_deg)
    flying = model.airplanes(altitude_m=altitude_m)
    rolling = autorotation(model)
    flights = {one.name: _flights(one, banks, reaction_s, progress) for one in flying}
    found = {one.name: _entries(model, one, flights[one.name], bands=bands, seed=seed) for one in flying}
    return StallAnswer(
        title=model.title,
        altitude_m=flying[0].altitude_m,
        reaction_s=reaction_s,
        powerplants=found,
        autorotation=rolling,
        masses=carried_masses(model, bands=bands),
        remarks=model.remark_texts("masses"),
        flights=flights,
    )


def _flights(
    flying: FlyingAirplane,
    banks_deg: Sequence[float],
    reaction_s: float,
    progress: Callable[[Iterable[tuple[Power, float]]], Iterable[tuple[Power, float]]],
) -> tuple[StallFlight, ...]:
    found = throttles(flying)
    asked = [(power, bank) for power in found for bank in banks_deg]
    return tuple(
        stall_flight(flying, power, bank, throttle=found[power], reaction_s=reaction_s)
        for power, bank in progress(asked)
    )


def _entries(
    model: Model, flying: FlyingAirplane, flights: Sequence[StallFlight], *, bands: bool, seed: int
) -> StallOf:
    entries = tuple(flight.entry for flight in flights)
    return StallOf(banded(model, flying, entries, seed) if bands else entries)
