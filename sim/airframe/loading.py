"""The loadings of an airplane: every pilot, from full tanks to empty, and the centre of gravity of each."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.airframe.masses import total

if TYPE_CHECKING:
    from collections.abc import Sequence

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
    """

    forward_limit: float
    aft_limit: float
    target: float
    pilot_lightest_kg: float | None = None
    pilot_heaviest_kg: float | None = None
    ballast_station_m: float | None = None


@dataclass(frozen=True, slots=True)
class Loading:
    """One loading of the airplane.

    Attributes
    ----------
    name : str
        Pilot and state of the tanks.
    mass_kg, cg_station_m : float
        Weight, and centre of gravity aft of the datum. [kg, m]
    """

    name: str
    mass_kg: float
    cg_station_m: float


PILOT, FUEL = "pilot", "fuel"
USEFUL = (PILOT, FUEL)
"""Groups that are not part of the empty airplane."""


def loadings(items: Sequence[Item], pilots_kg: Sequence[float]) -> tuple[Loading, ...]:
    """Return the loadings with each pilot, from full tanks down to empty ones.

    Parameters
    ----------
    items : sequence of Item
        The loaded airplane; groups ``pilot`` and ``fuel`` are the changing ones. Tanks empty one after the other in
        their order: between these points the centre of gravity moves one way, so they hold its extremes.
    pilots_kg : sequence of float
        Pilot weights, shared among the items of the group in proportion. [kg]

    Returns
    -------
    tuple of Loading
        For each pilot in turn: full, then after each tank.
    """
    tanks = [item.name for item in items if item.group == FUEL]
    aboard_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    points = []
    for pilot_kg in pilots_kg:
        scale = pilot_kg / aboard_kg if aboard_kg else 0.0
        flown = [replace(i, mass_kg=i.mass_kg * scale) if i.group == PILOT else i for i in items]
        for burned in range(len(tanks) + 1):
            left = total(item for item in flown if item.name not in tanks[:burned])
            points.append(
                Loading(f"{_who(pilot_kg, pilots_kg)}, {_what(burned, len(tanks))}", left.mass_kg, left.cg_station_m)
            )
    return tuple(points)


def _who(pilot_kg: float, pilots_kg: Sequence[float]) -> str:
    if len(set(pilots_kg)) == 1:
        return "pilot" if pilot_kg > 0.0 else "no pilot"
    return {min(pilots_kg): "lightest pilot", max(pilots_kg): "heaviest pilot"}.get(pilot_kg, "usual pilot")


def _what(burned: int, tanks: int) -> str:
    if tanks == 0:
        return "no fuel"
    if burned == 0:
        return "full tanks"
    return "empty tanks" if burned == tanks else f"{burned} of {tanks} tanks empty"
