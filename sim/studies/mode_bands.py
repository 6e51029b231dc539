"""Bands of modes: the roots of many airplanes, drawn from what is not known of this one, each beside its own mode."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.flight import modes as disturbances
from sim.flight.many_airplanes import only_of
from sim.flight.modes import Mode, system_matrices
from sim.flight.motion import Controls
from sim.flight.quality import level
from sim.studies.bands import DRAWS, drawn_flying, drawn_turns, ends_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.flight.quality import Category
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.modes import FlightModes, GradedMode
    from sim.studies.turns import Power

    Modes = tuple[Mode, ...]

PARTS = {"roll": ("roll and spiral",), "spiral": ("roll and spiral",), "roll and spiral": ("spiral", "roll")}
"""Mode -> those that stand for it in an airplane that has none of its name."""


def banded(
    model: Model,
    flying: FlyingAirplane,
    flights: Sequence[FlightModes],
    *,
    power: Power | None,
    category: Category,
    seed: int,
) -> list[FlightModes]:
    """Return the flights of one powerplant with the bands of their modes, and the roots drawn.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        With one powerplant.
    flights : sequence of FlightModes
        Without bands.
    power : str or None
        As in `sim.studies.modes.modes`.
    category : str
        As there.
    seed : int
        Of the draws.

    Notes
    -----
    Of those airplanes alone that balance in the flight.
    """
    banks = np.radians([flight.bank_deg for flight in flights])
    many = drawn_flying(model, flying, seed)
    every = drawn_turns(many, banks, power)
    rows = [np.flatnonzero(every.found & (np.arange(every.found.size) % len(banks) == i)) for i in range(len(banks))]
    found = []
    for flight, row in zip(flights, rows, strict=True):
        drawn = drawn_modes(many, every, row, row // len(banks))
        graded = with_bands(flight.modes, drawn, category)
        found.append(replace(flight, modes=graded, found_probability=len(drawn) / DRAWS, drawn_roots=roots_of(drawn)))
    return found


def roots_of(drawn: Sequence[Modes]) -> NDArray[np.complex128]:
    """Return the roots of many airplanes in one row, of pairs the upper one [1/s]."""
    return np.array([complex(mode.real_per_s, mode.imag_rad_s) for own in drawn for mode in own], complex)


def with_bands(modes: Sequence[GradedMode], drawn: Sequence[Modes], category: Category) -> tuple[GradedMode, ...]:
    """Return the modes of one flight with their bands.

    Parameters
    ----------
    modes : sequence of GradedMode
        All of the flight, without bands.
    drawn : sequence of tuple of Mode
        Those of each airplane drawn.
    category : str
        Flight phase category of the grading.
    """
    return tuple(_banded(mode, modes, drawn, category) for mode in modes)


def drawn_modes(
    many: FlyingAirplane, every: Turns, chosen: NDArray[np.intp], airplanes: NDArray[np.intp]
) -> list[Modes]:
    """Return the modes of some of many airplanes.

    Parameters
    ----------
    many : FlyingAirplane
        Of `sim.studies.bands.drawn_flying`.
    every : Turns
        Of them, of `sim.studies.bands.drawn_turns`.
    chosen, airplanes : array of int
        Which turns, and which airplane each is of.
    """
    controls = Controls(*(c[chosen] for c in (every.elevator_rad, every.aileron_rad, every.rudder_rad, every.throttle)))
    matrices = system_matrices(only_of(many.airplane, airplanes), every.state[:, chosen], controls)
    return [disturbances.modes(matrix) for matrix in matrices]


def _banded(mode: GradedMode, beside: Sequence[GradedMode], drawn: Sequence[Modes], category: Category) -> GradedMode:
    """Return a mode with its bands: `beside` are the modes of the same flight."""
    place = [other for other in beside if other.name == mode.name].index(mode)
    alike = sum(other.name == mode.name for other in beside)
    pairs = [(same, own) for own in drawn if (same := counterpart(mode, place, alike, own))]
    values: dict[str, list[float | None]] = {
        name: [getattr(same, name) for same, _ in pairs]
        for name in ("real_per_s", "imag_rad_s", "damping_ratio", "natural_frequency_rad_s", "coupling_share")
        if getattr(mode, name) is not None
    }
    if "damping_ratio" in values:
        values["damping_ratio"] = [
            None if ratio is None else min(max(ratio, -1.0), 1.0) for ratio in values["damping_ratio"]
        ]
    if mode.time_to_half_s is not None:
        values["time_to_half_s"] = [_time(-same.real_per_s) for same, _ in pairs]
    elif mode.time_to_double_s is not None:
        values["time_to_double_s"] = [_time(same.real_per_s) for same, _ in pairs]
    ends: dict[str, Any] = ends_of({name: np.array(row, float) for name, row in values.items()}) if pairs else {}
    return replace(
        mode,
        **ends,
        grows_probability=float(np.mean([same.real_per_s > 0.0 for same, _ in pairs])) if pairs else None,
        level_probability=_level_share(mode, pairs, category) if pairs and mode.level is not None else None,
        two_roots_probability=float(np.mean([same.imag_rad_s == 0.0 for same, _ in pairs]))
        if pairs and mode.imag_rad_s
        else None,
    )


def counterpart(mode: Mode, place: int, alike: int, drawn: Modes) -> Mode | None:
    """Return what stands in another airplane for a mode of this one, None where it has nothing like it.

    Parameters
    ----------
    mode : Mode
        Of this airplane.
    place, alike : int
        Which of its modes of that name it is, the slowest first, and how many there are.
    drawn : tuple of Mode
        All of the other.

    Notes
    -----
    An oscillation stands for each of two roots without one; two of these for an oscillation, with the undamped
    frequency and damping ratio of their product, and the real part of the one that decays more slowly.
    """
    same = [other for other in drawn if other.name == mode.name]
    names = iter(PARTS.get(mode.name, ()))
    while not same and (name := next(names, None)):
        same = [other for other in drawn if other.name == name]
    if not same:
        return None
    if len(same) == alike:
        return same[place]
    return same[0] if len(same) == 1 else _as_pair(same)


def _as_pair(roots: Sequence[Mode]) -> Mode:
    slow, fast = sorted((one.real_per_s for one in roots[:2]), reverse=True)
    frequency = math.sqrt(slow * fast) if slow * fast > 0.0 else None
    return replace(
        roots[0],
        real_per_s=slow,
        imag_rad_s=0.0,
        natural_frequency_rad_s=frequency,
        damping_ratio=-0.5 * (slow + fast) / frequency if frequency else None,
    )


def _time(rate_per_s: float) -> float:
    """Return the time in which an amplitude changes by a factor of two at a rate, infinite where it never does."""
    return math.log(2.0) / rate_per_s if rate_per_s > 0.0 else math.inf


def _level_share(mode: GradedMode, pairs: Sequence[tuple[Mode, Modes]], category: Category) -> float:
    return float(np.mean([level(same, own, category) == mode.level for same, own in pairs]))
