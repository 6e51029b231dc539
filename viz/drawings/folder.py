"""Everything a workshop needs, as files of one folder."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from sim.display.assembly.stock import stock
from sim.errors import Fault, InputError, refuse
from sim.units.convert import mm
from viz.drawings.flat_parts import cut_parts
from viz.drawings.lengths import shop_length, units_of
from viz.files.atomic import THERE, write_whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.display.display import Hardware
    from sim.studies.exhibit import Exhibit
    from viz.drawings.flat_parts import CutPart
    from viz.sheets.format import Units


@dataclass(frozen=True, slots=True)
class Cutting:
    """How the parts are cut.

    Attributes
    ----------
    kerf_m : float
        Width that the beam or cutter takes away, 0 for files of the parts at their own size. [m]
    fit_m : float
        By which holes and openings become wider than drawn. [m]
    stock_m : (float, float)
        Width and height of a sheet of stock. [m]
    """

    kerf_m: float = 0.0
    fit_m: float = 0.0
    stock_m: tuple[float, float] = (1.22, 1.22)


def contents(exhibit: Exhibit, cutting: Cutting = Cutting()) -> dict[str, bytes]:
    """Return name and content of every file.

    A DXF and an SVG a flat part, a DXF a sheet of stock, an STL a printed part and a bar to check a print by, the
    whole display in three dimensions as DXF, and the builder's book.

    Raises
    ------
    InputError
        When a hole is no wider than the kerf, or a part is larger than the stock.
    NoAnswerError
        When a check fails: nothing is cut for a display that fails one.
    """
    from viz.drawings.book import book
    from viz.drawings.dxf import dxf
    from viz.drawings.kerf import compensated
    from viz.drawings.solid_dxf import assembly_dxf
    from viz.drawings.solid_stl import check_bar, part_stl
    from viz.drawings.svg import part_svg

    kerf_mm, fit_mm = mm(cutting.kerf_m), mm(cutting.fit_m)
    cuts = [
        replace(one, drawing=compensated(one.drawing, kerf_mm=kerf_mm, fit_mm=fit_mm)) for one in cut_parts(exhibit)
    ]
    units = units_of(exhibit.display.hardware)
    made: dict[str, bytes] = {}
    for one in cuts:
        title = _title(one, cutting, units)
        made[f"{one.file}.dxf"] = dxf(one.drawing, title).encode()
        made[f"{one.file}.svg"] = part_svg(one.drawing, title).encode()
    made |= nests(cuts, cutting.stock_m, exhibit.display.hardware)
    threads = stock(exhibit.display.hardware).threads.values()
    drills = {mm(each.diameter_m): mm(each.drill_m) for each in threads}
    for part in exhibit.parts:
        if part.process == "printed":
            made[f"{part.name.replace(' ', '-')}.stl"] = part_stl(part, drills)
    assert exhibit.assembly is not None
    whole = {"assembly.dxf": assembly_dxf(exhibit.assembly)}
    return made | whole | {"check-bar.stl": check_bar(), "book.pdf": book(exhibit, cutting.stock_m)}


def nests(cuts: Sequence[CutPart], stock_m: tuple[float, float], hardware: Hardware = "metric") -> dict[str, bytes]:
    """Return a DXF of every sheet of stock, the parts of each material and sold thickness together."""
    from viz.drawings.dxf import nest_dxf
    from viz.drawings.stock_sheets import stock_sheets

    made, units = {}, units_of(hardware)
    for sheet in stock_sheets(cuts, (mm(stock_m[0]), mm(stock_m[1])), hardware):
        thick = shop_length(sheet.thickness_mm / mm(1.0), units)
        title = f"{sheet.material}, {thick}, sheet {sheet.number}; inert display, millimetres"
        name = f"stock-{sheet.material.replace(' ', '-')}-{sheet.thickness_mm:g}-{sheet.number}.dxf"
        made[name] = nest_dxf(sheet.on, sheet.size, title).encode()
    return made


def _title(one: CutPart, cutting: Cutting, units: Units) -> str:
    cut = f", path for a kerf of {shop_length(cutting.kerf_m, units)}" if cutting.kerf_m else ""
    fit = f", holes wider by {shop_length(cutting.fit_m, units)}" if cutting.fit_m else ""
    name = f"{one.quantity} × {one.part.name}" if one.quantity > 1 else one.part.name
    return f"{name}, {shop_length(one.flat.thickness_m, units)} plate{cut}{fit}, inert display, millimetres"


def write(folder: str | Path, files: dict[str, bytes], *, force: bool = False) -> list[Path]:
    """Write the files into a folder, made if need be; all or none, and never over others without `force`.

    Raises
    ------
    InputError
        For every file that is already there, or when the folder cannot be made.
    """
    place = Path(folder)
    there = [place / name for name in files if (place / name).exists()]
    if there and not force:
        raise InputError([Fault(str(path), THERE) for path in there])
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        refuse("folder", f'must be a folder that can be made, got "{folder}": {error.strerror}')
    return [write_whole(place / name, content, force=force) for name, content in files.items()]
