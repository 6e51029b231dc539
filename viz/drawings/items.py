"""What the parts list of a whole display says: each kind of part and screw once, with the number it has in drawings."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.display.assembly.data import Fastener
from sim.display.assembly.screws import WOOD

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.display.assembly.data import Assembly, Part

HEADS = {"socket": "socket head screw", "sunk": "countersunk socket screw", "hex": "hexagon head bolt"}
"""Head of a screw -> what is asked for in a shop."""
STRENGTH = {"metric": "8.8", "inch": "grade 5"}
"""Property class of ISO 898-1, or grade of SAE J429, that screws have at least."""


@dataclass(frozen=True, slots=True)
class Item:
    """A line of the parts list.

    Attributes
    ----------
    number : int
        Of the item, from 1.
    name, material, standard, fit : str
        What it is; empty where nothing is asked.
    quantity : int
        How many there are.
    each_kg : float
        Mass of one. [kg]
    made : bool
        Whether it is made, not bought.
    long_m : float
        Extent of one along the shaft. [m]
    """

    number: int
    name: str
    quantity: int
    material: str
    standard: str
    fit: str
    each_kg: float
    made: bool
    long_m: float

    @property
    def mass_kg(self) -> float:
        """Mass of all of them. [kg]."""
        return self.quantity * self.each_kg


def key(each: Part | Fastener) -> tuple[object, ...]:
    """Return what makes two parts one item: all but their place."""
    if isinstance(each, Fastener):
        return each.name, each.standard, each.washers, each.nut
    return each.name, each.material, each.standard, round(each.thickness_m, 7), round(each.mass_kg, 6)


def numbers(assembly: Assembly) -> dict[tuple[object, ...], int]:
    """Return the number of each kind of part, then of each kind of screw, in the order of assembly."""
    kinds = dict.fromkeys(key(each) for each in assembly.pieces)
    return {kind: number for number, kind in enumerate(kinds, start=1)}


def items(assembly: Assembly) -> tuple[Item, ...]:
    """Return the parts list."""
    made: list[Item] = []
    for kind, number in numbers(assembly).items():
        alike = [each for each in assembly.pieces if key(each) == kind]
        mass_kg = sum(each.mass_kg for each in alike) / len(alike)
        made.append(_item(number, alike[0], len(alike), mass_kg))
    return tuple(made)


def taken_items(pieces: Sequence[Part | Fastener], assembly: Assembly) -> str:
    """Return what kinds of pieces are among some: number of the item, its name, and how many, where more than one."""
    found = numbers(assembly)
    counted = Counter((found[key(each)], each.name) for each in pieces)
    return ", ".join(
        f"{number} {name}{f' (×{count})' if count > 1 else ''}" for (number, name), count in sorted(counted.items())
    )


def _item(number: int, each: Part | Fastener, quantity: int, mass_kg: float) -> Item:
    if isinstance(each, Fastener):
        nut = each.nut if _no_nut(each) else f"nut {each.nut}"
        standard = "; ".join((each.standard, *(f"washer {one}" for one in each.washers), nut))
        return Item(number, each.name, quantity, "steel", standard, "", mass_kg, made=False, long_m=each.length_m)
    told = quantity, each.material, each.standard, each.fit, mass_kg
    return Item(number, each.name, *told, made=each.made, long_m=each.thickness_m)


def buying_list(assembly: Assembly) -> tuple[tuple[str, int], ...]:
    """Return the designation and the number of everything that is bought ready, washers and nuts too, no stock."""
    return tuple(Counter(standard for standard, _ in _bought(assembly)).items())


def bought_for(assembly: Assembly) -> dict[str, str]:
    """Return for which items each designation of the buying list is bought, as their numbers."""
    of: dict[str, dict[int, None]] = {}
    for standard, number in _bought(assembly):
        of.setdefault(standard, {})[number] = None
    return {standard: ", ".join(map(str, found)) for standard, found in of.items()}


def _bought(assembly: Assembly) -> Iterator[tuple[str, int]]:
    """Yield designation and item number of every piece that is bought ready."""
    found = numbers(assembly)
    for part in assembly.parts:
        if part.standard and not part.made:
            yield part.standard, found[key(part)]
    for screw in assembly.fasteners:
        nuts = () if _no_nut(screw) else (screw.nut,)
        for standard in (screw.standard, *screw.washers, *nuts):
            yield standard, found[key(screw)]


def called(assembly: Assembly) -> dict[str, str]:
    """Return what each designation of the buying list is in plain words."""
    said = {part.standard: part.name for part in assembly.parts if part.standard}
    for screw in assembly.fasteners:
        said[screw.standard] = (
            "wood screw" if screw.thread == WOOD else f"{HEADS[screw.head]}, {STRENGTH[assembly.hardware]}"
        )
        said |= dict.fromkeys(screw.washers, "washer") | ({} if _no_nut(screw) else {screw.nut: "self-locking nut"})
    return said


def _no_nut(screw: Fastener) -> bool:
    """Return whether a screw goes into a thread or into wood."""
    return screw.nut.startswith(("tapped", "in "))
