"""Modes of small disturbances with each powerplant, in straight flight and in steady turns."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass, field
from typing import TYPE_CHECKING, ClassVar

from sim.answer import ASIDE, Answer
from sim.flight import modes as disturbances
from sim.flight.free_controls import free_controls
from sim.flight.modes import Mode, system_matrix
from sim.flight.quality import EDITION, Category, level
from sim.flight.validity import passed_in_turns
from sim.studies.carried_mass import BandedMass, carried_masses
from sim.studies.turns import BEYOND_CONTROLS, checked_banks, demand_held, not_held, of_each, turns

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray

    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.model.powerplant import EngineKind
    from sim.studies.turns import Power


@dataclass(frozen=True, slots=True)
class GradedMode(Mode):
    """A mode with its level of flying qualities.

    Attributes
    ----------
    level : int or None
        By MIL-F-8785C, Class I: 1 to 3, 4 where worse; None where it is not graded.
    real_low_per_s, real_high_per_s, imag_low_rad_s, imag_high_rad_s, damping_ratio_low, damping_ratio_high,
    natural_frequency_low_rad_s, natural_frequency_high_rad_s, time_to_half_low_s, time_to_half_high_s,
    time_to_double_low_s, time_to_double_high_s, coupling_share_low, coupling_share_high : float or None
        Ends of the 90 % bands; None where no bands were asked for, and for a time that has no end.
    grows_probability, level_probability : float or None
        Of the airplanes drawn, the shares in which it grows, and in which it has the same level.
    two_roots_probability : float or None
        Of an oscillation, the share of the airplanes drawn in which two modes without one stand for it. Where both of
        them decay, overdamped, its damping ratio counts as 1.
    """

    level: int | None
    real_low_per_s: float | None = None
    real_high_per_s: float | None = None
    imag_low_rad_s: float | None = None
    imag_high_rad_s: float | None = None
    damping_ratio_low: float | None = None
    damping_ratio_high: float | None = None
    natural_frequency_low_rad_s: float | None = None
    natural_frequency_high_rad_s: float | None = None
    time_to_half_low_s: float | None = None
    time_to_half_high_s: float | None = None
    time_to_double_low_s: float | None = None
    time_to_double_high_s: float | None = None
    coupling_share_low: float | None = None
    coupling_share_high: float | None = None
    grows_probability: float | None = None
    level_probability: float | None = None
    two_roots_probability: float | None = None


@dataclass(frozen=True, slots=True)
class FlightModes:
    """The modes of one steady flight.

    Attributes
    ----------
    powerplant : str
        Its name.
    angular_momentum_kg_m2_s : float
        Of its rotor, clockwise positive. [kg m²/s]
    bank_deg : float
        Right wing down positive. [°]
    modes : tuple of GradedMode
        Longitudinal ones first.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that the steady flight passes.
    not_held : str or None
        Which limit the steady flight exceeds, and how much power it lacks; None where the airplane can fly so.
    found_probability : float or None
        Of the airplanes drawn, the share that balances in this flight; None where no bands were asked for.
    drawn_roots : array of complex or None
        All roots of the upper half plane of all airplanes drawn, for figures; not part of the JSON object. [1/s]
    """

    powerplant: str
    angular_momentum_kg_m2_s: float
    bank_deg: float
    modes: tuple[GradedMode, ...]
    beyond: tuple[str, ...]
    not_held: str | None = None
    found_probability: float | None = None
    drawn_roots: NDArray[np.complex128] | None = field(default=None, metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class ModesAnswer(Answer):
    """Modes of every powerplant at every bank asked for.

    Attributes
    ----------
    speed_m_s, altitude_m : float
        [m/s, m]
    graded_by : str
        Standard, edition, class and flight phase category.
    flights : tuple of FlightModes
        Powerplant by powerplant.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What must be known of the masses, a sentence each.
    power : str or None
        At which the airplane climbs or descends; None in level flight. Not part of the JSON object.
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    """

    main: ClassVar[str] = "flights.modes"

    speed_m_s: float
    altitude_m: float
    graded_by: str
    flights: tuple[FlightModes, ...]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    power: Power | None = field(metadata=ASIDE)
    engine_kinds: dict[str, EngineKind] = field(metadata=ASIDE)


def modes(
    model: Model,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    banks_deg: Sequence[float] = (0.0,),
    power: Power | None = None,
    category: Category = "B",
    bands: bool = False,
    seed: int = 1,
) -> ModesAnswer:
    """Return the modes of the airplane with each of its powerplants.

    Parameters
    ----------
    model : Model
        The airplane.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]
    banks_deg : sequence of float
        Bank angles of the steady turns, left negative, above −90 and below 90; 0 is straight flight. [°]
    power : str or None
        As for `sim.studies.turns.turns`.
    category : str
        Flight phase category of the grading: A, B or C.
    bands : bool
        Draw many airplanes from what is not known of this one, and give the 90 % bands of the modes.
    seed : int
        Of the draws.

    Raises
    ------
    InputError
        When a bank is out of range.
    NoAnswerError
        When there is no steady flight at a bank.
    """
    banks = checked_banks(banks_deg)
    flights: list[FlightModes] = []
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    for one, own in zip(flying, of_each(flying, lambda one: _flights(one, banks, power, category)), strict=True):
        if bands:
            from sim.studies.mode_bands import banded

            own = banded(model, one, own, power=power, category=category, seed=seed)
        flights += own
    graded_by = f"{EDITION}, Category {category}"
    return ModesAnswer(
        flying[0].speed_m_s,
        flying[0].altitude_m,
        graded_by,
        tuple(flights),
        carried_masses(model, bands=bands),
        model.remark_texts("modes"),
        power,
        model.engine_kinds,
    )


def _flights(
    flying: FlyingAirplane, banks_deg: Sequence[float], power: Power | None, category: Category
) -> list[FlightModes]:
    found = turns(flying, [math.radians(bank) for bank in banks_deg], power=power)
    momentum = flying.powerplant.polar_inertia_kg_m2 * found.spin_rad_s
    beyond = passed_in_turns(flying.airplane, found)
    return [
        FlightModes(
            powerplant=flying.name,
            angular_momentum_kg_m2_s=float(momentum[i]),
            bank_deg=bank,
            modes=graded_modes(flying, found, i, category=category),
            beyond=beyond[i],
            not_held=not_held(flying, found, i),
        )
        for i, bank in enumerate(banks_deg)
    ]


def graded_modes(
    flying: FlyingAirplane, found: Turns, index: int, *, category: Category = "B", free: bool = False
) -> tuple[GradedMode, ...]:
    """Return the modes in one of the steady turns found; with stick and pedals free none where they do not centre.

    Raises
    ------
    NoAnswerError
        When there is no such turn.
    """
    demand_held(flying, found, index, allowed=BEYOND_CONTROLS)
    state, steady = found.state[:, index].tolist(), found.controls(index)
    controls = free_controls(flying.airplane, flying.controls, state, steady) if free else steady
    if controls is None:
        return ()
    every = disturbances.modes(system_matrix(flying.airplane, state, controls))
    return tuple(GradedMode(**asdict(mode), level=level(mode, every, category)) for mode in every)
