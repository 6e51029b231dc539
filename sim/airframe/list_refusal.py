"""A list that scales make absurd, refused with where to look first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.airframe.weighing_slips import other_unit
from sim.airframe.weighing_suspects import suspects
from sim.errors import Fault, InputError
from sim.units.text import fixed_in_both

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed


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
        Where one of the masses is below 0: small items known within a small part go below 0 before the large one that
        is wrong, so the groups that may be are named, see `sim.airframe.weighing_suspects`.
    """
    lost = [item.name for item, mass_kg in zip(items, masses_kg, strict=True) if mass_kg < 0.0]
    if not lost:
        return
    stood = [item for item in items if item.name in there]
    absent = [item for item in items if item.name not in there and not item.added]
    found = suspects(stood, absent, USEFUL, weighed)
    listed_kg = sum(item.mass_kg for item in stood)
    by_scales, by_list = (fixed_in_both("mass_kg", kg, 0) for kg in (weighed.mass_kg, listed_kg))
    unit = other_unit(weighed.mass_kg, listed_kg)
    likely = f"{unit}: check the unit of the readings. Else " if unit else ""
    suspected = [one.group for one in found.suspicions[:2]]
    first = f"the items of {' and '.join(suspected)} first, then " if suspected and not likely else ""
    raise InputError(
        [
            Fault(
                "weighing",
                f"cannot be of the airplane in the item list, {by_scales} on the scales and {by_list} in the list: "
                f"{likely}{lost[0]} would have to weigh less than nothing; "
                f"check {first}tares, attitudes (nose up positive), places of the supports, weighing.aboard and the "
                "items",
            )
        ]
    )
