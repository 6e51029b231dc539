"""The engine position that puts the centre of gravity on target, and the effect of each step of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, inf
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Total
    from sim.airframe.mean_chord import MeanChord

HALF_INCH_M = 0.5 * INCH_M
"""Step in which a mount is usually set longer or shorter: common practice, no source."""
STEPS_M = {"us": HALF_INCH_M, "si": 0.01}
"""The step of a shop that works in inches, and of one in metres."""
MOST_MOVE_M = 3.0
"""Of an engine from where it is drawn, either way; farther is a wrong mass or place."""
ROUNDING = 1e-9
MOST_STEPS = 400
"""Of a table; a move of more steps each way is not a matter of the mount's length."""


@dataclass(frozen=True, slots=True)
class EnginePosition:
    """One position of the engine.

    Attributes
    ----------
    engine_move_m : float
        From where it stands, aft positive. [m]
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
        The loaded airplane with the engine where it stands. [kg, m]
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
    step_m: float = HALF_INCH_M,
) -> tuple[EnginePosition, ...]:
    """Return positions a step apart that cover the moves from the first to the last, the drawn one among them.

    Parameters
    ----------
    mass_kg, cg_station_m, moved_mass_kg : float
        As in `move_to_target`. [kg, m, kg]
    first_move_m, last_move_m : float
        Moves to cover, aft positive. [m]
    chord : MeanChord
        What the percentages are of.
    step_m : float
        Above 0. [m]
    """
    first, last = floor(first_move_m / step_m + ROUNDING), ceil(last_move_m / step_m - ROUNDING)
    half = MOST_STEPS // 2
    first, last = max(first, -half), min(last, half)
    moves = [count * step_m for count in range(first, last + 1)]
    stations = [cg_station_m + move * moved_mass_kg / mass_kg for move in moves]
    return tuple(
        EnginePosition(move, station_m, chord.percent(station_m))
        for move, station_m in zip(moves, stations, strict=True)
    )


def spaced(steps: Sequence[EnginePosition], most: int) -> tuple[float, tuple[EnginePosition, ...]]:
    """Return steps as far apart as they are, or twice, four times and so on, and how far that is [m].

    Parameters
    ----------
    steps : sequence of EnginePosition
        As from `positions`.
    most : int
        Of which remain, at least 1.
    """
    step_m = steps[1].engine_move_m - steps[0].engine_move_m if len(steps) > 1 else HALF_INCH_M
    counted = [(round(step.engine_move_m / step_m), step) for step in steps]
    apart = 1
    while len(counted) > most:
        apart *= 2
        counted = [(count, step) for count, step in counted if count % apart == 0]
    return apart * step_m, tuple(step for _, step in counted)


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


def move_error(state: MassState, target_station_m: float) -> float:
    """Return the standard error of the move that brings the centre of gravity to the target [m].

    Parameters
    ----------
    state : MassState
        The loaded airplane, with something that moves with the engine.
    target_station_m : float
        Where its centre of gravity should be, aft of the datum. [m]

    Notes
    -----
    The move is Σ m (target − x) / Σ m of what moves; its derivatives by every mass and station are exact.
    """
    moved_kg = sum(item.mass_kg for item in state.items if item.moves_with_engine)
    move_m = sum(item.mass_kg * (target_station_m - item.station_m) for item in state.items) / moved_kg
    return state.error(
        [
            (target_station_m - item.station_m - (move_m if item.moves_with_engine else 0.0)) / moved_kg
            for item in state.items
        ],
        [-item.mass_kg / moved_kg for item in state.items],
    )


def ballast_that_serves(
    loadings: Sequence[Total], *, station_m: float, forward_limit_m: float, aft_limit_m: float
) -> tuple[float, float] | None:
    """Return least and greatest ballast at a station with which every loading is within the limits, or None [kg].

    Parameters
    ----------
    loadings : sequence of Total
        Every loading to be flown, without the ballast.
    station_m : float
        Of the ballast, aft of the datum. [m]
    forward_limit_m, aft_limit_m : float
        Stations that bound the centre of gravity. [m]

    Notes
    -----
    With ballast b at s a loading of mass M at x is ahead of the aft limit a where M (x − a) ≤ b (a − s): a bound on b
    from below where the ballast lies ahead of the limit, from above where it lies behind; likewise the forward limit.
    """
    least, most = 0.0, inf
    for loading in loadings:
        for limit_m, sense in ((aft_limit_m, 1.0), (forward_limit_m, -1.0)):
            needed, lever = sense * loading.mass_kg * (loading.cg_station_m - limit_m), sense * (limit_m - station_m)
            if lever > 0.0:
                least = max(least, needed / lever)
            elif lever < 0.0:
                most = min(most, needed / lever)
            elif needed > 0.0:
                return None
    return (least, most) if least <= most else None


def moves_that_serve(
    loadings: Sequence[Total], *, moved_mass_kg: float, forward_limit_m: float, aft_limit_m: float
) -> tuple[float, float] | None:
    """Return the range of moves that keeps every loading within the limits, or None where there is none [m].

    Parameters
    ----------
    loadings : sequence of Total
        Every loading to be flown, with the engine where it stands.
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
