"""Sheets of the parts that are cut from plate, board or sheet: each drawn, with what a shop has to know to make it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.lamp_error import CUTTING_M
from sim.units.convert import mm
from viz.drawings.bores import is_round
from viz.drawings.drawing import DrawnExhibit
from viz.drawings.flat_parts import cut_parts, faces, seen
from viz.drawings.gaps import FLAT_M
from viz.drawings.lengths import shop_length
from viz.drawings.outline_table import cam_radius_table, outline_tables, scribe_table
from viz.drawings.preparation import tolerance
from viz.drawings.sheet_markup import part_title, placed, scale_of
from viz.drawings.tables import cam_table, hole_table, limited
from viz.drawings.turned_view import classes, widest_mm
from viz.drawings.view import ratio
from viz.drawings.views import cam_view, plate_view
from viz.files.typst import text
from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part
    from sim.studies.exhibit import Exhibit
    from viz.drawings.flat_parts import CutPart
    from viz.sheets.format import Units
    from viz.sheets.typst import Pages

CAM_MM = 178.0, 120.0
"""What the cam may take. [mm]"""
PLATE_MM = 112.0, 226.0
"""What a part beside its table of holes may take. [mm]"""
WHOLE_MM = 178.0, 205.0
"""What a part above its table of holes may take, where it is drawn larger so. [mm]"""


def cam(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the sheets of the cam: its drawing, its data, and its edge in numbers."""
    cam = next(one for one in cut_parts(exhibit) if one.part.name == "cam")
    yield f"= {part_title(cam.part, assembly)}"
    view = cam_view(DrawnExhibit(exhibit, (cam.flat,), (cam.drawing,)), CAM_MM)
    made = f"1 of {cam.part.material}, {shop_length(cam.flat.thickness_m, pages.units)}, engraved face in front"
    edge = shop_length(CUTTING_M, pages.units)
    true = tolerance(cam.part.material, pages.units)
    yield text(f"{made}. Edge of the track within {edge}, smooth, not broken. {true}")
    yield scale_of(ratio(view.scale))
    yield placed(pages, "cam", view)
    cutter = Value("cutter_radius_m", exhibit.display.cam.cutter_radius_m, nominal=True)
    said = "Scale {scale}. Dashed: centre of a cutter of {cutter} radius. Chain line: base circle."
    yield pages.markup(
        [say(said, scale=ratio(view.scale), cutter=cutter), cam_table(exhibit), hole_table(cam.flat, pages.units)]
    )
    yield f"= {part_title(cam.part, assembly)}, in numbers"
    yield pages.markup([scribe_table(cam.drawing, pages.units), cam_radius_table(cam.drawing, pages.units)])


def plates(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield a sheet for each flat part but the cam: its drawing, and its holes where it has any."""
    for one in cut_parts(exhibit):
        if one.part.name == "cam":
            continue
        view = plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, PLATE_MM, WHOLE_MM)
        yield f"= {part_title(one.part, assembly)}"
        yield text(f"{_made(one, pages.units)}. Scale {ratio(view.scale)}. {_true(one.part, pages.units)}")
        holed = bool(one.flat.holes or one.flat.cut_slots)
        through = " All holes and slots go through." if holed else ""
        yield f"{text(seen(one.part) + through + _engraved(one, pages.units))} {scale_of(ratio(view.scale))}"
        table = pages.markup([hole_table(one.flat, pages.units, faces(one.part))]) if holed else text("No holes.")
        picture = placed(pages, f"plate-{one.file}", view)
        columns = f"{PLATE_MM[0]}mm, 1fr" if view.size[0] <= PLATE_MM[0] else "1fr"
        yield f"#grid(columns: ({columns},), column-gutter: 6mm, row-gutter: 4mm, [{picture}], [{table}])"
        cutouts = one.drawing.openings[len(one.flat.cut_slots) :]
        told = outline_tables(one.drawing, cutouts, pages.units)
        yield pages.markup([*told, *([scribe_table(one.drawing, pages.units)] if one.drawing.scribes else [])])


def _engraved(one: CutPart, units: Units) -> str:
    """Return how the scale of the cover is engraved."""
    if one.part.name != "cover" or not one.flat.scribes:
        return ""
    high = shop_length(one.flat.scribes[0].letter_m, units)
    return f" Engrave in front; figures {high}, dark paint in them."


def _true(part: Part, units: Units) -> str:
    """Return how true a part is, and how flat where a narrow gap asks for it."""
    flat = f" Flat within {shop_length(FLAT_M, units)}." if part.name == "propeller" else ""
    return tolerance(part.material, units) + flat


def _made(one: CutPart, units: Units) -> str:
    """Return how many there are, of what, how thick, and what the part is fitted to."""
    fit = f"; {one.part.fit}" if one.part.fit else ""
    if is_round(one.part.slabs[0].outline_m) and classes(one.part)[0]:
        fit += f"; outside {limited(classes(one.part)[0], widest_mm(one.part) / mm(1.0), units)}"
    return f"{one.quantity} of {one.part.material}, {shop_length(one.flat.thickness_m, units)}{fit}"
