"""The loadings of an airplane: every pilot, passengers, baggage, and from full tanks to empty."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import product
from typing import TYPE_CHECKING

from sim.told import together, told

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Item


@dataclass(frozen=True, slots=True)
class CgLimits:
    """Where the centre of gravity may lie, and who flies.

    Attributes
    ----------
    forward_limit, aft_limit, target : float
        Foremost, aftmost and wanted centre of gravity of the loaded airplane, shares of the mean chord.
    pilot_lightest_kg, pilot_heaviest_kg : float or None
        Pilots that the envelope is drawn for besides the one in the item list. [kg]
    ballast_station_m : float or None
        Where tail ballast would be placed, aft of the datum; None where none may be. [m]
    ballast_places : dict of float
        Where other ballast may be placed, aft of the datum, by name. [m]
    """

    forward_limit: float
    aft_limit: float
    target: float
    pilot_lightest_kg: float | None = None
    pilot_heaviest_kg: float | None = None
    ballast_station_m: float | None = None
    ballast_places: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False)
class Loading:
    """One loading of the airplane.

    Attributes
    ----------
    name : str
        Who and what is aboard, and the state of the tanks.
    state : MassState
        Every item, those not aboard without mass.
    """

    name: str
    state: MassState


PILOT, PASSENGER, BAGGAGE, FUEL = "pilot", "passenger", "baggage", "fuel"
USEFUL = (PILOT, PASSENGER, BAGGAGE, FUEL)
"""Groups that are not part of the empty airplane."""


def loadings(state: MassState, pilots_kg: Sequence[float]) -> tuple[Loading, ...]:
    """Return the loadings with each pilot, with and without passengers and baggage, from full tanks to empty ones.

    Parameters
    ----------
    state : MassState
        The loaded airplane; the groups in `USEFUL` are the changing ones. Tanks empty one after the other in their
        order: between these points the centre of gravity moves one way, so they hold its extremes. Passengers take
        their seats in their order.
    pilots_kg : sequence of float
        Pilot weights, shared among the items of the group in proportion. [kg]

    Returns
    -------
    tuple of Loading
        For each pilot and each load in turn: full, then after each tank.
    """
    tanks, seats, baggage = (_named(state, group) for group in (FUEL, PASSENGER, BAGGAGE))
    points = []
    for pilot_kg in pilots_kg:
        flown = with_pilot(state, pilot_kg)
        for seated, loaded in product(range(len(seats) + 1), (False, True) if baggage else (False,)):
            left_out = [*seats[seated:], *([] if loaded else baggage)]
            aboard = [_who(pilot_kg, pilots_kg), *_passengers(seated, len(seats)), *(["baggage"] if loaded else [])]
            for burned in range(len(tanks) + 1):
                name = together([*aboard, _what(burned, len(tanks))], ", ")
                points.append(Loading(name, flown.scaled(dict.fromkeys([*left_out, *tanks[:burned]], 0.0))))
    return tuple(points)


def _named(state: MassState, group: str) -> list[str]:
    return [item.name for item in state.items if item.group == group]


def pilots_kg(items: Sequence[Item], limits: CgLimits) -> list[float]:
    """Return the weights of the pilots that fly: lightest, listed and heaviest, 0 where no pilot is listed [kg]."""
    usual_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    if usual_kg <= 0.0:
        return [0.0]
    return sorted({kg for kg in (limits.pilot_lightest_kg, usual_kg, limits.pilot_heaviest_kg) if kg is not None})


def with_pilot(state: MassState, pilot_kg: float) -> MassState:
    """Return the state with a pilot of a known weight, shared among the items of the group in proportion [kg]."""
    aboard_kg = sum(item.mass_kg for item in state.items if item.group == PILOT)
    seats = sum(item.group == PILOT for item in state.items)

    def seated(item: Item) -> Item:
        share = item.mass_kg / aboard_kg if aboard_kg else 1.0 / seats
        return replace(item, mass_kg=share * pilot_kg, mass_error_kg=0.0)

    return state.changed(lambda item: seated(item) if item.group == PILOT else item)


def _passengers(seated: int, seats: int) -> list[str]:
    if seated == 0:
        return []
    if seats == 1:
        return ["passenger"]
    several = "{seated} of {seats} passengers"
    return [told("1 of {seats} passengers" if seated == 1 else several, seated=seated, seats=seats)]


def _who(pilot_kg: float, pilots_kg: Sequence[float]) -> str:
    if len(set(pilots_kg)) == 1:
        return "pilot" if pilot_kg > 0.0 else "no pilot"
    return {min(pilots_kg): "lightest pilot", max(pilots_kg): "heaviest pilot"}.get(pilot_kg, "usual pilot")


def _what(burned: int, tanks: int) -> str:
    if tanks == 0:
        return "no fuel"
    if burned == 0:
        return "full tanks"
    if burned == tanks:
        return "empty tanks"
    several = "{burned} of {tanks} tanks empty"
    return told("1 of {tanks} tanks empty" if burned == 1 else several, burned=burned, tanks=tanks)
