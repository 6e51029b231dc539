"""Templates at true size of the flat parts, to paste on and saw by: several on a page, or one on several pages.

A page has the same room on A4 and on US Letter. A board with straight edges that is larger than a page has none: it
is sawn along a ruler, and would take a hundred pages.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shapely import LineString, box

from viz.drawings.flat_parts import cut_parts
from viz.drawings.hole_numbers import hole_numbers
from viz.drawings.lengths import shop_length
from viz.drawings.marks import Note, Ring, Stroke, box_of, shifted
from viz.drawings.outline_table import is_box
from viz.drawings.svg import view_svg
from viz.drawings.tiles import OVERLAP_MM, Tiling, registers, used
from viz.drawings.view import View, part
from viz.files.typst import string, text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from shapely.geometry import Polygon

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.drawings.flat_parts import CutPart
    from viz.drawings.marks import Box, Mark, Point
    from viz.sheets.format import Units
    from viz.sheets.typst import Pages

ROOM_MM = 180.0, 200.0
"""What a page leaves for templates, on A4 and on US Letter. [mm]"""
APART_MM = 6.0
"""Between the templates on a page. [mm]"""
NAME_MM = 7.0
"""Below a template, for its name. [mm]"""
SAID_MM = 14.0
"""What the words on the first page take of its room. [mm]"""
FIRST = (
    "At full size, seen from the front. Print at 100 %, not fitted to the page, and measure the line of 100 mm below "
    "on each page. Paste on, punch the middles of the holes, and saw outside the line. A part larger than a page is "
    "on several: cut along the frame, lay the pages over one another by the width of the overlap, crosses in circles "
    "on each other, and check the overall size by the part's own page. Paper gives 0.5 mm (0.02 in) at best: holes "
    "with a class, and all that is to be within 0.1 mm (0.004 in), are measured from the tables. A board with "
    "straight edges larger than a page is marked out from its own page."
)
CIRCLE = 48
"""Corners in a quarter of a circle that a page cuts off."""


def templates(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the pages of all templates, those that share a page first."""
    if assembly.hardware == "inch":
        yield '#set page(paper: "us-letter")'
    sheets = _sheets(exhibit, pages.units)
    for number, (title, marks) in enumerate(sheets):
        view = View((*marks, _frame()), 1.0, f"{title}, at full size.")
        name = f"template-{number}.svg"
        pages.files[name] = view_svg(view)
        wide, high = view.size
        yield f"= {text(title)}" if not number else f"#heading(outlined: false)[{text(title)}]"
        yield '#scale-of("1 : 1")'
        if not number:
            yield f"#text(size: 8pt)[{text(FIRST)}]"
        yield f"#view({string(name)}, {wide:.4f}, {high:.4f}, {string(view.description)})"


def _sheets(exhibit: Exhibit, units: Units) -> list[tuple[str, list[Mark]]]:
    """Return title and marks of every page."""
    every = [(one, _marks(one, units)) for one in cut_parts(exhibit)]
    small = [marks for _, marks in every if _fits(marks)]
    sheets = [("Templates at full size", each) for each in _packed(small)]
    for one, marks in every:
        if not _fits(marks) and not straight(one):
            sheets += _tiled(one, marks)
    return sheets


def straight(one: CutPart) -> bool:
    """Return whether a part has straight edges alone, and no slot: it is marked out by ruler."""
    return is_box(one.drawing.outline) and not one.flat.cut_slots


def _marks(one: CutPart, units: Units) -> list[Mark]:
    """Return a part at full size with its holes numbered, its lower left corner at 0, and its name below it."""
    shapes = list(part(one.drawing, 1.0))
    shapes += hole_numbers(one.drawing, 1.0, shapes)
    left, low, right, _ = box_of(shapes)
    name = f"{one.part.name}, {one.quantity} of {shop_length(one.flat.thickness_m, units)} {one.part.material}"
    long = Note(name, ((left + right) / 2.0, low - NAME_MM / 2.0), "thin")
    shapes.append(long)
    left, low, *_ = box_of(shapes)
    return [shifted(each, (-left, -low)) for each in shapes]


def _fits(marks: Iterable[Mark]) -> bool:
    left, low, right, high = box_of(marks)
    return right - left <= ROOM_MM[0] - 2.0 and high - low <= ROOM_MM[1] - 2.0 - SAID_MM


def _frame() -> Mark:
    wide, high = ROOM_MM
    return Stroke([(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)], "thin", closed=True)


def _packed(templates: list[list[Mark]]) -> Iterator[list[Mark]]:
    """Yield what stands on each page: in rows from the top, the highest first."""
    waiting = sorted(templates, key=lambda marks: -box_of(marks)[3])
    wide, high = ROOM_MM
    while waiting:
        page: list[Mark] = []
        top = high - 1.0
        while waiting:
            row = _row(waiting, wide - 2.0, top - 1.0)
            if not row:
                break
            across, deep = 1.0, max(box_of(marks)[3] for marks in row)
            for marks in row:
                page += [shifted(each, (across, top - deep)) for each in marks]
                across += box_of(marks)[2] + APART_MM
            waiting = [each for each in waiting if not any(each is taken for taken in row)]
            top -= deep + APART_MM
        yield page


def _row(waiting: list[list[Mark]], wide: float, high: float) -> list[list[Mark]]:
    row: list[list[Mark]] = []
    for marks in waiting:
        _, _, right, top = box_of(marks)
        if top <= high and right <= wide:
            row.append(marks)
            wide -= right + APART_MM
    return row


def _tiled(one: CutPart, marks: list[Mark]) -> Iterator[tuple[str, list[Mark]]]:
    """Yield title and marks of every page that a part larger than one takes; those with nothing are left out."""
    _, _, right, high = box_of(marks)
    (room_x, room_y), (step_x, step_y) = ROOM_MM, (ROOM_MM[0] - OVERLAP_MM, ROOM_MM[1] - OVERLAP_MM)
    columns, rows = (max(1, -int(-(side - OVERLAP_MM) // step)) for side, step in ((right, step_x), (high, step_y)))
    divided = Tiling(ROOM_MM, ROOM_MM, columns, rows)
    whole = View(tuple(marks), 1.0, one.part.name)
    whole = replace(whole, marks=(*marks, *registers(whole, divided)))
    left, _, _, top = box_of(marks)
    for column, row in used(View(tuple(marks), 1.0, ""), divided):
        x, y = left + column * step_x, top - row * step_y - room_y
        cut = _cut(whole.marks, (x, y, x + room_x, y + room_y))
        place = f"row {row + 1} of {rows} from the top, column {column + 1} of {columns}"
        yield f"{one.part.name.capitalize()}, template: {place}", [shifted(each, (-x, -y)) for each in cut]


def _cut(marks: Iterable[Mark], sheet: Box) -> Iterator[Mark]:
    """Yield what of some marks lies on a sheet; words that do not lie on it whole are left out."""
    frame = box(*sheet)
    for mark in marks:
        if isinstance(mark, Note):
            left, low, right, high = box_of([mark])
            if frame.contains(box(left, low, right, high)):
                yield mark
        elif isinstance(mark, Ring) and frame.contains(_disc(mark)):
            yield mark
        else:
            rim = list(_disc(mark).exterior.coords) if isinstance(mark, Ring) else _chain(mark)
            layer = mark.layer
            for points in _pieces(LineString(rim), frame):
                yield Stroke(points, mark.pen, layer=layer)


def _chain(mark: Stroke) -> list[Point]:
    return [*mark.points, mark.points[0]] if mark.closed else mark.points


def _disc(ring: Ring) -> Polygon:
    from shapely import Point as Spot

    return Spot(ring.centre).buffer(ring.diameter_mm / 2.0, quad_segs=CIRCLE)


def _pieces(line: LineString, frame: Polygon) -> Iterator[list[Point]]:
    met = line.intersection(frame)
    for piece in getattr(met, "geoms", [met]):
        if isinstance(piece, LineString) and piece.length > 0.0:
            yield [(float(x), float(y)) for x, y in piece.coords]
