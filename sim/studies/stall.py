"""Stalls of an airplane with each powerplant: idle to full power, straight and in turns; and where it autorotates."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar, Final

from sim.answer import ASIDE, Answer
from sim.studies.autorotation import AutorotationAnswer, autorotation
from sim.studies.carried_mass import BandedMass, carried_masses
from sim.studies.stall_bands import banded
from sim.studies.stall_entry import PULL_S, StallEntry, level_stall_m_s, stall_flight, throttles
from sim.studies.turns import checked_banks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.model.model import Model
    from sim.model.powerplant import EngineKind
    from sim.studies.stall_entry import StallFlight

    Progress = Callable[[Iterable[Any]], Iterable[Any]]

BANKS_DEG: Final = (0.0, 30.0, -30.0)
REACTION_S: Final = 1.0
"""From the stall to the first movement of the pilot: common practice, no source."""


@dataclass(frozen=True, slots=True)
class StallOf:
    """Stalls with one powerplant.

    Attributes
    ----------
    stall_m_s : float
        That of level flight without the lift of the thrust, at load factor 1. [m/s]
    entries : tuple of StallEntry
        Power by power, bank by bank.
    """

    stall_m_s: float
    entries: tuple[StallEntry, ...]


@dataclass(frozen=True, slots=True)
class StallAnswer(Answer):
    """The answer of ``whirlgate stall``.

    Attributes
    ----------
    title : str
        Name of the airplane.
    altitude_m, reaction_s, pull_s : float
        Altitude at which the stalls begin, time before the pilot reacts, and that of the pull before. [m, s, s]
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
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    """

    main: ClassVar[str] = "powerplants"

    title: str
    altitude_m: float
    reaction_s: float
    pull_s: float
    powerplants: dict[str, StallOf]
    autorotation: AutorotationAnswer
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    flights: dict[str, tuple[StallFlight, ...]] = field(metadata=ASIDE)
    engine_kinds: dict[str, EngineKind] = field(metadata=ASIDE)


def stall(
    model: Model,
    *,
    banks_deg: Sequence[float] = BANKS_DEG,
    altitude_m: float | None = None,
    reaction_s: float = REACTION_S,
    pull_s: float = PULL_S,
    bands: bool = False,
    seed: int = 1,
    progress: Progress = iter,
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
    pull_s : float
        From trim to the stop of the stick on the way into the stall, 10 to 120. [s]
    bands : bool
        Fly many airplanes, drawn from what is not known of this one, and give the 90 % bands of speed, roll and height.
    seed : int
        Of the draws.
    progress : callable
        Wraps the stalls that are flown with one powerplant, and the parts of the draws' flights, to show progress.

    Raises
    ------
    InputError
        Where a bank is out of range, or flights have linear air loads.
    NoAnswerError
        Where a flight diverges.

    Notes
    -----
    From 1.25 times the stalling speed the stick comes back from trim to its stop, the throttle stays, ailerons
    and rudder hold bank and ball. The stall is the greatest mean lift coefficient of the strips of the wing. Then the
    controls stay for the time of reaction; then full throttle, wings levelled, and a load factor of at most
    .8 (V/Vs)² and 1.5 until the descent has stopped. A model of strips compares engines; it certifies no recovery.
    """
    banks = checked_banks(banks_deg)
    flying = model.airplanes(altitude_m=altitude_m)
    rolling = autorotation(model)
    settings = {one.name: throttles(one) for one in flying}
    flights = {
        one.name: tuple(
            stall_flight(one, power, bank, throttle=settings[one.name][power], reaction_s=reaction_s, pull_s=pull_s)
            for power, bank in progress([(power, bank) for power in settings[one.name] for bank in banks])
        )
        for one in flying
    }
    entries = {name: tuple(flight.entry for flight in own) for name, own in flights.items()}
    if bands:
        entries = {
            one.name: banded(
                model,
                one,
                entries[one.name],
                throttles=settings[one.name],
                reaction_s=reaction_s,
                pull_s=pull_s,
                seed=seed,
                progress=progress,
            )
            for one in flying
        }
    return StallAnswer(
        title=model.title,
        altitude_m=flying[0].altitude_m,
        reaction_s=reaction_s,
        pull_s=pull_s,
        powerplants={one.name: StallOf(level_stall_m_s(one), entries[one.name]) for one in flying},
        autorotation=rolling,
        masses=carried_masses(model, bands=bands),
        remarks=model.remark_texts("masses"),
        flights=flights,
        engine_kinds=model.engine_kinds,
    )
