"""What made parts are cut from: round bar and its length, sheet of a thickness that is sold, boards to glue up."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations_with_replacement
from math import ceil
from typing import TYPE_CHECKING

from sim.display.assembly.stock import stock
from sim.units.convert import mm
from sim.units.text import in_both
from viz.drawings.items import key
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.turned_parts import sides_mm, to_print, to_turn
from viz.drawings.turned_view import widest_mm
from viz.sheets.blocks import rows

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly, Part
    from sim.display.assembly.stock import Stock
    from sim.display.display import Hardware
    from viz.drawings.flat_parts import CutPart
    from viz.sheets.blocks import Table

SAW_MM, FACED_MM, HELD_MM = 3.0, 2.0, 40.0
"""A piece: the width of the saw, what both ends are faced by; a bar: what the chuck holds. Common practice, no source.
[mm]"""
SKIN_MM = 1.0
"""By which bar is thicker than the part, at least, where it is not ground to size. [mm]"""
STEP_MM = {"metric": 50.0, "inch": 50.8}
"""Lengths of bar are rounded up to this: 50 mm, or 2 in. [mm]"""
ALIKE_MM = 1e-3
"""Thicknesses nearer than this are the same. [mm]"""
SOFT = ("felt", "PTFE")
"""Materials of turned parts that are punched or cut from sheet."""
MILLED = ("acetal",)
"""Materials of printed parts that may be milled as well."""
FILAMENT = {"acetal": "PETG", "PLA": "PLA or PETG"}
"""What a part is printed of."""
SPOOL_KG = 0.1
"""Filament is counted in steps of this. [kg]"""
SPARE_MM = 3.0
"""Round a disc, for the knife. [mm]"""
MOST_BOARDS = 4


@dataclass(frozen=True, slots=True)
class Bar:
    """Round bar to buy.

    Attributes
    ----------
    name : str
        Material and kind.
    wide_mm : float
        Diameter. [mm]
    pieces : tuple
        Item number, finished length [mm] and how many, of each kind of part.
    step_mm : float
        Lengths are whole steps. [mm]
    """

    name: str
    wide_mm: float
    pieces: tuple[tuple[int, float, int], ...]
    step_mm: float = STEP_MM["metric"]

    @property
    def long_mm(self) -> float:
        """Length to buy, in whole steps. [mm]."""
        cut = sum(count * (long + SAW_MM + FACED_MM) for _, long, count in self.pieces)
        return self.step_mm * ceil((cut + HELD_MM) / self.step_mm - 1e-9)


def bars(assembly: Assembly) -> tuple[Bar, ...]:
    """Return every round bar that the turned parts are cut from."""
    found: dict[tuple[str, float], list[tuple[int, float, int]]] = {}
    for number, part in to_turn(assembly):
        if part.material in SOFT:
            continue
        count = _count(part, assembly)
        kind = _kind(part, stock(assembly.hardware))
        found.setdefault(kind, []).append((number, mm(part.thickness_m), count))
    return tuple(Bar(*kind, tuple(pieces), STEP_MM[assembly.hardware]) for kind, pieces in found.items())


def _kind(part: Part, sold: Stock) -> tuple[str, float]:
    """Return name and diameter of the bar of a part; shafts are of bar that is ground to size."""
    wide = widest_mm(part)
    if part.standard:
        return f"{part.material}, ground to h6", wide
    return part.material, next(mm(each) for each in sold.bars_m if mm(each) >= wide + SKIN_MM)


def _count(part: Part, assembly: Assembly) -> int:
    return sum(key(each) == key(part) for each in assembly.parts)


def bar_table(assembly: Assembly) -> Table:
    """Return the bars to buy and what is cut from each."""
    units = units_of(assembly.hardware)

    def told(long_mm: float) -> str:
        return dimension_text(long_mm, units)

    lines = (
        (
            bar.name,
            f"⌀{told(bar.wide_mm)}",
            dimension_text(bar.long_mm, units, fewer=1),
            "; ".join(f"item {number}: {count} of {told(long)}" for number, long, count in bar.pieces),
        )
        for bar in bars(assembly)
    )
    said = (
        f"with {told(SAW_MM)} for each saw cut, {told(FACED_MM)} to face each piece and {told(HELD_MM)} for the chuck"
    )
    return rows(f"Round bar, {said}", ["material", "diameter", "length", "finished lengths"], lines)


def soft_table(assembly: Assembly) -> Table:
    """Return the sheet of soft material that discs are cut from."""
    units = units_of(assembly.hardware)
    lines = (
        (
            part.material,
            dimension_text(mm(part.thickness_m), units),
            " × ".join(dimension_text(side, units, fewer=1) for side in _blank(part, _count(part, assembly))),
            f"item {number}: {_count(part, assembly)} of ⌀{dimension_text(widest_mm(part), units)}",
        )
        for number, part in to_turn(assembly)
        if part.material in SOFT
    )
    return rows("Soft sheet, cut with a knife or a punch", ["material", "thickness", "sheet", "discs"], lines)


def block_table(assembly: Assembly) -> tuple[Table, ...]:
    """Return what printed parts are printed of, or milled from; no table where a display has none."""
    units, found = units_of(assembly.hardware), tuple(to_print(assembly))
    lines = tuple(
        (
            str(number),
            part.name,
            str(_count(part, assembly)),
            FILAMENT[part.material],
            part.material if part.material in MILLED else "–",
            " × ".join(dimension_text(side + FACED_MM, units, fewer=1) for side in sides_mm(part)),
        )
        for number, part in found
    )
    mass = sum(part.mass_kg * _count(part, assembly) for _, part in found)
    spool = in_both("mass_kg", SPOOL_KG * ceil(mass / SPOOL_KG), 2)
    title = f"To print, {spool} of filament at least, or to mill from a block as large as this"
    heads = ["item", "part", "number", "filament", "block", "size of the block"]
    return (rows(title, heads, lines),) if lines else ()


def _blank(part: Part, count: int) -> tuple[float, float]:
    """Return width and height of a sheet that discs are cut from, side by side, with room to hold it. [mm]."""
    side = widest_mm(part) + 2.0 * SPARE_MM
    return count * side, side


def layers_of(one: CutPart, hardware: Hardware) -> tuple[float, ...]:
    """Return the sold thicknesses that a flat part is made of: one, or several glued; none of a print. [mm]."""
    if one.part.process == "printed":
        return ()
    sold = stock(hardware)
    wood = one.part.material.endswith("plywood")
    sizes = [mm(each) for each in (sold.boards_m if wood else (*sold.sheets_m, *sold.plates_m))]
    same = [size for size in sizes if abs(size - one.thickness_mm) < ALIKE_MM]
    thicker = [size for size in sizes if size > one.thickness_mm and not wood]
    return (min(same or thicker),) if same or thicker else glued(one.thickness_mm, sizes)


def made_from(one: CutPart, assembly: Assembly) -> str:
    """Return the stock whose thickness a flat part is brought to; empty where it is sold in that thickness."""
    units, layers = units_of(assembly.hardware), layers_of(one, assembly.hardware)
    if not layers:
        return "printed, or milled"
    over = sum(layers) - one.thickness_mm > ALIKE_MM
    text = " + ".join(dimension_text(each, units) for each in layers)
    if len(layers) > 1:
        return f"{text}, glued{', planed' if over else ''}"
    return f"{text}, faced" if over else ""


def glued(thick_mm: float, boards_mm: list[float]) -> tuple[float, ...]:
    """Return the fewest boards, of those the thinnest stack, that are at least so thick together. [mm].

    Examples
    --------
    >>> glued(29.0, [6.0, 9.0, 12.0, 15.0, 18.0]), glued(36.0, [6.0, 9.0, 12.0, 15.0, 18.0])
    ((15.0, 15.0), (18.0, 18.0))
    """
    for count in range(1, MOST_BOARDS + 1):
        stacks = [each for each in combinations_with_replacement(boards_mm, count) if sum(each) >= thick_mm - 1e-6]
        if stacks:
            return min(stacks, key=lambda each: (round(sum(each), 6), -min(each)))
    return tuple(max(boards_mm) for _ in range(ceil(thick_mm / max(boards_mm))))
