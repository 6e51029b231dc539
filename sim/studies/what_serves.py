"""What keeps every loading of an airplane within its limits: moves of the engine, ballast, another item, pilots."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING, TypedDict

from sim.airframe.engine_position import ballast_kg, ballast_that_serves
from sim.airframe.loading import FUEL, PILOT, loadings, pilots_kg
from sim.airframe.masses import total
from sim.studies.balance_answer import BallastPlace, ItemShift

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.studies.balanced import Balanced

MOVABLE = ("electrics", FUEL)
"""Groups whose items may move in the place of the engine: batteries and tanks."""


class WhatServes(TypedDict):
    """The fields of a balance on ballast, items moved, and moves and pilots within the limits."""

    ballast_kg: float | None
    ballast_per_step_kg: float | None
    ballast: tuple[BallastPlace, ...]
    shifts: tuple[ItemShift, ...]
    serves_from_m: float | None
    serves_to_m: float | None
    pilot_least_kg: float | None
    pilot_most_kg: float | None
    pilots_kg: tuple[float, ...]


def what_serves(found: Balanced, step_on_m: float, moved_m: Mapping[str, float]) -> WhatServes:
    """Return the fields of a balance on ballast, items moved, and moves and pilots within the limits.

    Parameters
    ----------
    found : Balanced
        The airplane.
    step_on_m : float
        Its centre of gravity with the engine a step farther aft. [m aft of the datum]
    moved_m : mapping of float
        How far the scenario moves its items already, by their names. [m]
    """
    served_m, pilot_kg = found.served_m or (None, None), _pilots_that_serve(found)
    return {
        "ballast_kg": _tail_ballast_kg(found, found.target_m),
        "ballast_per_step_kg": _tail_ballast_kg(found, step_on_m),
        "ballast": tuple(sorted(_ballast(found), key=_least_first)),
        "shifts": tuple(_shifts(found, moved_m)),
        "serves_from_m": served_m[0],
        "serves_to_m": served_m[1],
        "pilot_least_kg": pilot_kg[0],
        "pilot_most_kg": pilot_kg[1],
        "pilots_kg": tuple(kg for kg in pilots_kg(found.state.items, found.limits) if kg > 0.0),
    }


def _pilots_that_serve(found: Balanced) -> tuple[float | None, float | None]:
    """Return the lightest and the heaviest pilot with whom every loading is within the limits."""
    seats = [item for item in found.state.items if item.group == PILOT and item.mass_kg > 0.0]
    if not seats:
        return None, None
    nobody = [loading.state.whole() for loading in loadings(found.state, [0.0])]
    forward_m, aft_m = found.bounds_m
    served = ballast_that_serves(
        nobody, station_m=total(seats).cg_station_m, forward_limit_m=forward_m, aft_limit_m=aft_m
    )
    return (served[0], served[1] if served[1] < inf else None) if served else (None, None)


def _tail_ballast_kg(found: Balanced, wanted_m: float) -> float | None:
    station_m = found.limits.ballast_station_m
    return None if station_m is None else _ballast_kg(found, wanted_m, station_m)


def _ballast_kg(found: Balanced, wanted_m: float, station_m: float) -> float | None:
    return ballast_kg(
        mass_kg=found.whole.mass_kg,
        cg_station_m=found.whole.cg_station_m,
        target_station_m=wanted_m,
        ballast_station_m=station_m,
    )


def _ballast(found: Balanced) -> Iterator[BallastPlace]:
    tail_m = found.limits.ballast_station_m
    places = {**({} if tail_m is None else {"tail": tail_m}), **found.limits.ballast_places}
    forward_m, aft_m = found.bounds_m
    for place, station_m in places.items():
        served = ballast_that_serves(found.each, station_m=station_m, forward_limit_m=forward_m, aft_limit_m=aft_m)
        yield BallastPlace(
            place,
            station_m,
            to_target_kg=_ballast_kg(found, found.target_m, station_m),
            least_kg=served[0] if served else None,
            most_kg=served[1] if served and served[1] < inf else None,
        )


def _least_first(one: BallastPlace) -> tuple[bool, float]:
    return one.to_target_kg is None, one.to_target_kg or 0.0


def _shifts(found: Balanced, moved_m: Mapping[str, float]) -> Iterator[ItemShift]:
    """Yield batteries and tanks, each with the move that does what that of the engine would, inside the airplane.

    A tank stays behind what moves with the engine.
    """
    stations_m = [item.station_m for item in found.state.items]
    behind_m = min(item.station_m for item in found.state.items if not item.moves_with_engine)
    needed = found.whole.mass_kg * (found.target_m - found.whole.cg_station_m)
    for item in found.state.items:
        if item.group in MOVABLE and item.mass_kg > 0.0:
            shift_m = needed / item.mass_kg
            foremost_m = behind_m if item.group == FUEL else min(stations_m)
            if foremost_m <= item.station_m + shift_m <= max(stations_m):
                yield ItemShift(
                    item.name, shift_m, item.station_m + shift_m, move_m=moved_m.get(item.name, 0.0) + shift_m
                )
