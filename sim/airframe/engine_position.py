"""The engine position that puts the centre of gravity on target, and the effect of each step of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.loading import Loading
    from sim.airframe.mean_chord import MeanChord

EIGHTH_M = INCH_M / 8.0
MOST_STEPS = 400
"""Steps of 1/8 in that a table holds: a move beyond 25 in each way is not a matter of the mount's length."""


@dataclass(frozen=True, slots=True)
class EnginePosition:
    """One position of the engine.

    Attributes
    ----------
    engine_move_m : float
        From where it is drawn, aft positive. [m]
    cg_station_m, cg_percent_mac : float
        Loaded centre of gravity that it gives. [m aft of the datum, % of the mean chord]
    """

    engine_move_m: float
    cg_station_m: float
    cg_percent_mac: float


def move_to_target(*, mass_kg: float, cg_station_m: float, target_station_m: float, moved_mass_kg: float) -> float:
    """Return how far the engine must move, aft positive, to bring the centre of gravity to the target [m].

    Parameters
    ----------
    mass_kg, cg_station_m : float
        The loaded airplane with the engine where it is drawn. [kg, m]
    target_station_m : float
        Where its centre of gravity should be. [m]
    moved_mass_kg : float
        Everything that moves with the engine, above 0. [kg]

    Raises
    ------
    NoAnswerError
        When nothing moves with the engine.

    References
    ----------
    FAA-H-8083-1, Weight and Balance Handbook: weight shifted over weight total is CG moved over distance shifted.

    Examples
    --------
    >>> round(move_to_target(mass_kg=600.0, cg_station_m=2.0, target_station_m=1.98, moved_mass_kg=120.0), 9)
    -0.1
    """
    if moved_mass_kg <= 0.0:
        message = "nothing moves with the engine; give the powerplant a mass or set moves_with_engine on its items"
        raise NoAnswerError(message)
    return (target_station_m - cg_station_m) * mass_kg / moved_mass_kg


def positions(
    *,
    mass_kg: float,
    cg_station_m: float,
    moved_mass_kg: float,
    first_move_m: float,
    last_move_m: float,
    chord: MeanChord,
) -> tuple[EnginePosition, ...]:
    """Return positions 1/8 in apart that cover the moves from the first to the last, the drawn one among them.

    Parameters
    ----------
    mass_kg, cg_station_m, moved_mass_kg : float
        As in `move_to_target`. [kg, m, kg]
    first_move_m, last_move_m : float
        Moves to cover, aft positive. [m]
    chord : MeanChord
        What the percentages are of.
    """
    first, last = int(first_move_m // EIGHTH_M), -int(-last_move_m // EIGHTH_M)
    half = MOST_STEPS // 2
    first, last = max(first, -half), min(last, half)
    moves = [count * EIGHTH_M for count in range(first, last + 1)]
    stations = [cg_station_m + move * moved_mass_kg / mass_kg for move in moves]
    return tuple(
        EnginePosition(move, station_m, chord.percent(station_m))
        for move, station_m in zip(moves, stations, strict=True)
    )


def spaced(steps: Sequence[EnginePosition], most: int) -> tuple[float, tuple[EnginePosition, ...]]:
    """Return steps 1/8 in apart, or 1/4, 1/2, 1 in and so on apart so that at most so many remain, and how far [m].

    Parameters
    ----------
    steps : sequence of EnginePosition
        As from `positions`.
    most : int
        At least 1.
    """
    counted = [(round(step.engine_move_m / EIGHTH_M), step) for step in steps]
    apart = 1
    while len(counted) > most:
        apart *= 2
        counted = [(count, step) for count, step in counted if count % apart == 0]
    return apart * EIGHTH_M, tuple(step for _, step in counted)


def ballast_kg(
    *, mass_kg: float, cg_station_m: float, target_station_m: float, ballast_station_m: float
) -> float | None:
    """Return the ballast at a station that replaces a move of the engine, or None where it cannot [kg].

    Parameters
    ----------
    mass_kg, cg_station_m : float
        The loaded airplane without it. [kg, m]
    target_station_m, ballast_station_m : float
        Where the centre of gravity should be, and where the ballast would be placed. [m]

    Notes
    -----
    None where the ballast is on the wrong side of the target: tail ballast cannot bring it forward.

    References
    ----------
    FAA-H-8083-1: ballast = weight x CG change needed / distance from ballast to the wanted CG.

    Examples
    --------
    >>> round(ballast_kg(mass_kg=600.0, cg_station_m=2.0, target_station_m=2.1, ballast_station_m=5.1), 9)
    20.0
    """
    shift_m, arm_m = target_station_m - cg_station_m, ballast_station_m - target_station_m
    if shift_m == 0.0:
        return 0.0
    return None if arm_m * shift_m <= 0.0 else mass_kg * shift_m / arm_m


def moves_that_serve(
    loadings: Sequence[Loading], *, moved_mass_kg: float, forward_limit_m: float, aft_limit_m: float
) -> tuple[float, float] | None:
    """Return the range of moves that keeps every loading within the limits, or None where there is none [m].

    Parameters
    ----------
    loadings : sequence of Loading
        Every loading to be flown, with the engine where it is drawn.
    moved_mass_kg : float
        Everything that moves with the engine. [kg]
    forward_limit_m, aft_limit_m : float
        Stations that bound the centre of gravity. [m]
    """
    if moved_mass_kg <= 0.0:
        return None
    foremost = max((forward_limit_m - at.cg_station_m) * at.mass_kg / moved_mass_kg for at in loadings)
    aftmost = min((aft_limit_m - at.cg_station_m) * at.mass_kg / moved_mass_kg for at in loadings)
    return (foremost, aftmost) if foremost <= aftmost else None
