"""The plates, boards and sheets to buy: thicknesses that are sold, pieces laid out on them, and their grades."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.nesting import nested
from viz.drawings.raw_stock import layers_of
from viz.sheets.blocks import rows

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from sim.display.assembly.data import Assembly
    from sim.display.display import Hardware
    from viz.drawings.drawing import Drawing
    from viz.drawings.flat_parts import CutPart
    from viz.drawings.marks import Point
    from viz.drawings.nesting import Laid
    from viz.sheets.blocks import Table

GAP_MM = 6.0
"""Between pieces, and at the edge: enough for a saw or a beam of up to 4 mm and its error. [mm]"""
PIECE_MM: dict[Hardware, float] = {"metric": 50.0, "inch": 50.8}
"""Sides of the piece that is bought are rounded up to this: 50 mm, or 2 in. [mm]"""
GRADES = {
    "aluminium": "EN AW-6082 T6 or AA 6061-T6 (EN 485-2, EN 755-2; ASTM B209, B221)",
    "steel": "S235JR (EN 10025-2) or ASTM A36; ground bar C45 (EN 10277) or AISI 1045",
    "brass": "CuZn39Pb3 (EN 12164) or C38500, C36000",
    "acetal": "POM copolymer, plate or rod (ISO 29988)",
    "birch plywood": "interior or exterior glue (EN 636), good on one face (ISO 2426-2, class II)",
    "polycarbonate": "clear solid sheet (ISO 11963), not ribbed, protective film left on until the end",
    "PLA": "filament for printing (or PETG)",
    "PTFE": "virgin sheet (ISO 13000-1)",
    "felt": "hard pressed wool felt, 0.32 g/cm³ or denser",
}
"""What each material is bought as; common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """One piece of plate, board or sheet with the parts that are cut from it.

    Attributes
    ----------
    material : str
        What it is.
    thickness_mm : float
        Thickness that is sold. [mm]
    number : int
        From 1, for each material and thickness.
    size : (float, float)
        Width and height of the piece to buy. [mm]
    on : tuple of (Laid, Drawing)
        Places and shapes of the parts.
    """

    material: str
    thickness_mm: float
    number: int
    size: Point
    on: tuple[tuple[Laid, Drawing], ...]


def stock_sheets(cuts: Iterable[CutPart], stock_mm: Point, hardware: Hardware) -> tuple[Sheet, ...]:
    """Return every piece to buy: of a part that is glued one board for each layer, of one that is faced the thicker.

    Parameters
    ----------
    cuts : iterable of CutPart
        The parts; those that are printed are left out.
    stock_mm : (float, float)
        Largest piece that is sold. [mm]
    hardware : {"metric", "inch"}
        System of the thicknesses.

    Raises
    ------
    InputError
        When a part is larger than the stock.
    """
    pieces: dict[tuple[str, float], list[Drawing]] = {}
    for one in cuts:
        for thickness_mm in layers_of(one, hardware):
            kind = one.part.material, round(thickness_mm, 6)
            pieces.setdefault(kind, []).extend([one.drawing] * one.quantity)
    return tuple(
        sheet
        for kind, drawings in pieces.items()
        for sheet in _sheets(*kind, drawings, stock_mm, step_mm=PIECE_MM[hardware])
    )


def _sheets(
    material: str, thickness_mm: float, drawings: Sequence[Drawing], stock_mm: Point, *, step_mm: float
) -> Iterator[Sheet]:
    laid = nested([(each.name, each.outline) for each in drawings], stock_mm, gap_mm=GAP_MM)
    for number in range(1 + max(each.sheet for each in laid)):
        on = tuple(pair for pair in zip(laid, drawings, strict=True) if pair[0].sheet == number)
        corners = [point for place, drawing in on for point in place.place(drawing.outline)]
        wide, high = (
            min(most, step_mm * ceil((max(axis) + GAP_MM) / step_mm - 1e-9))
            for axis, most in zip(zip(*corners, strict=True), stock_mm, strict=True)
        )
        yield Sheet(material, thickness_mm, number + 1, (wide, high), on)


def sheet_table(sheets: Iterable[Sheet], hardware: Hardware) -> Table:
    """Return the pieces of plate, board and sheet to buy, and what is cut from each."""
    units = units_of(hardware)
    lines = (
        (
            each.material,
            dimension_text(each.thickness_mm, units, fewer=1),
            " × ".join(dimension_text(side, units, fewer=1) for side in each.size),
            ", ".join(_counted(drawing.name for _, drawing in each.on)),
        )
        for each in sheets
    )
    title = f"Plate, board and sheet to buy, laid out with {dimension_text(GAP_MM, units)} between pieces for the saw"
    return rows(title, ["material", "thickness", "piece", "for"], lines)


def _counted(names: Iterable[str]) -> Iterator[str]:
    found: dict[str, int] = {}
    for name in names:
        found[name] = found.get(name, 0) + 1
    for name, count in found.items():
        yield f"{count} {name}" if count > 1 else name


def grade_table(assembly: Assembly) -> Table:
    """Return what each material that parts are made of is bought as."""
    used = dict.fromkeys(part.material for part in assembly.parts if part.made)
    return rows("Materials, or what is as strong", ["material", "grade"], [(name, GRADES[name]) for name in used])
