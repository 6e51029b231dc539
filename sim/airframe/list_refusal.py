"""A list that scales make absurd, refused with its likely cause: somebody or something aboard, or not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.airframe.weighing_slips import other_unit
from sim.airframe.weighing_suspects import suspects
from sim.errors import Fault, InputError
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed
    from sim.airframe.weighing_findings import AboardGuess


def refuse_negative(
    items: Sequence[Item], masses_kg: Sequence[float], weighed: Weighed, there: Collection[str]
) -> None:
    """Refuse a correction of the list that leaves an item less than nothing.

    Parameters
    ----------
    items : sequence of Item
        Everything with mass, as listed, with errors.
    masses_kg : sequence of float
        What the scales make of their masses. [kg]
    weighed : Weighed
        By the scales.
    there : collection of str
        Names of the items that stood on the scales.

    Raises
    ------
    InputError
        Where one of the masses is below 0. Small items known within a small part go below 0 before the large one that
        is wrong, so what was aboard is looked for first, see `sim.airframe.weighing_suspects`.
    """
    lost = [item.name for item, mass_kg in zip(items, masses_kg, strict=True) if mass_kg < 0.0]
    if not lost:
        return
    stood = [item for item in items if item.name in there]
    absent = [item for item in items if item.name not in there and not item.added]
    found = suspects(stood, absent, USEFUL, weighed)
    listed_kg = sum(item.mass_kg for item in stood)
    unit = other_unit(weighed.mass_kg, listed_kg)
    likely = f"{unit}: check the unit of the readings. Else " if unit else ""
    if found.aboard and not unit:
        likely = f"{_aboard(found.aboard, weighed.mass_kg - listed_kg, found.gap_station_m)} Else "
    raise InputError(
        [
            Fault(
                "weighing",
                f"cannot be of the airplane in the item list: {likely}{lost[0]} would have to weigh less than nothing; "
                "check tares, attitudes (nose up positive), places of the supports, weighing.aboard and the items",
            )
        ]
    )


def _aboard(guess: AboardGuess, over_kg: float, gap_station_m: float | None) -> str:
    """Return the question who or what was aboard, and the cure."""
    name = guess.group if guess.whole else guess.items[0]
    if not guess.whole:
        cure = f"weigh again {'with' if guess.left_out else 'without'} it"
    elif guess.left_out:
        cure = f"take {name} out of weighing.aboard"
    else:
        cure = f"add {name} to weighing.aboard"
    at = "" if gap_station_m is None else f" at station {_both('station_m', gap_station_m)}"
    return (
        f"the scales read {_both('mass_kg', abs(over_kg))} {'less' if over_kg < 0.0 else 'more'} than the list{at}: "
        f"was the {name}, {_both('mass_kg', guess.mass_kg)} at station {_both('station_m', guess.station_m)} by the "
        f"list, {'left out' if guess.left_out else 'aboard'}? If so, {cure}."
    )


def _both(name: str, value: float) -> str:
    """Return a value in words for a shop of either system."""
    si, us = (fixed(name, value, system, 0) for system in ("si", "us"))
    return f"{si} ({us})"
