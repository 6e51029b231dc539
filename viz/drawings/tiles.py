"""A view as PDF at true scale: on one sheet where it fits, else on several that are joined at register marks."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import TYPE_CHECKING

from viz.drawings.crossing import Lines
from viz.drawings.marks import Ring, Stroke, box_of, overlap
from viz.drawings.papers import PAPERS
from viz.drawings.scale_line import scale_line
from viz.drawings.svg import view_svg
from viz.drawings.view import ratio
from viz.files.typst import pdf, string, text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.drawings.marks import Mark, Point
    from viz.drawings.view import View

MARGIN_MM = 10.0
FOOT_MM = 8.0
"""Kept below a sheet of several for its number and the line to check its scale by."""
OVERLAP_MM = 10.0
"""By which a sheet of several lies over the next."""
REGISTER_MM = 4.0
"""Length of an arm of a register mark."""
REGISTERS = 2
"""Register marks along the seam of two sheets."""
LAYER = "register marks"


@dataclass(frozen=True, slots=True)
class Tiling:
    """How a drawing is divided among sheets.

    Attributes
    ----------
    paper_mm, room_mm : (width, height)
        Of a sheet, and of what is drawn on it. [mm]
    columns, rows : int
        Sheets side by side, and one below the other.
    """

    paper_mm: Point
    room_mm: Point
    columns: int
    rows: int

    @property
    def step_mm(self) -> Point:
        """From one sheet to the next. [mm]."""
        return self.room_mm[0] - OVERLAP_MM, self.room_mm[1] - OVERLAP_MM


def room_on(paper: str, *, landscape: bool = True) -> Point:
    """Return what one whole sheet has room for, width and height [mm]."""
    short, long = PAPERS[paper]
    wide, high = (long, short) if landscape else (short, long)
    return wide - 2.0 * MARGIN_MM, high - 2.0 * MARGIN_MM


def tiling(size: Point, paper: str) -> Tiling:
    """Return the division with the fewest sheets, upright or landscape.

    Parameters
    ----------
    size : (width, height)
        Of the drawing. [mm]
    paper : str
        Of `PAPERS`.
    """
    found = []
    for landscape in (True, False):
        short, long = PAPERS[paper]
        sheet = (long, short) if landscape else (short, long)
        wide, high = room_on(paper, landscape=landscape)
        if size[0] <= wide and size[1] <= high:
            return Tiling(sheet, (wide, high), 1, 1)
        room = wide, high - FOOT_MM
        columns, rows = (
            max(1, ceil((side - OVERLAP_MM) / (most - OVERLAP_MM))) for side, most in zip(size, room, strict=True)
        )
        found.append(Tiling(sheet, room, columns, rows))
    return min(found, key=lambda one: one.columns * one.rows)


def view_pdf(view: View, paper: str) -> bytes:
    """Return a view as the bytes of a PDF file, on as many sheets of a paper as it takes.

    Parameters
    ----------
    view : View
        At its own size.
    paper : str
        ``a4``, ``a3``, ``letter`` or ``tabloid``.
    """
    divided = tiling(view.size, paper)
    marked = replace(view, marks=(*view.marks, *registers(view, divided)))
    source = "\n".join([scale_line(), *_source(marked, divided)])
    return pdf(source, {"drawing.svg": view_svg(marked)})


def registers(view: View, divided: Tiling) -> Iterator[Mark]:
    """Yield crosses in circles in the middle of every overlap, on both sheets of each seam."""
    left, bottom, right, top = box_of(view.marks)
    (step_x, step_y), (room_x, room_y) = divided.step_mm, divided.room_mm
    seams_x = [left + number * step_x + 0.5 * OVERLAP_MM for number in range(1, divided.columns)]
    seams_y = [top - number * step_y - 0.5 * OVERLAP_MM for number in range(1, divided.rows)]
    shares = [(place + 0.5) / REGISTERS for place in range(REGISTERS)]
    along_x = [left + n * step_x + share * room_x for n in range(divided.columns) for share in shares]
    along_y = [top - n * step_y - share * room_y for n in range(divided.rows) for share in shares]
    spots = [(x, y) for x in seams_x for y in along_y] + [(x, y) for x in along_x for y in seams_y]
    for x, y in spots:
        if left + REGISTER_MM < x < right - REGISTER_MM and bottom + REGISTER_MM < y < top - REGISTER_MM:
            yield Ring((x, y), REGISTER_MM, "thin", LAYER)
            yield Stroke([(x - REGISTER_MM, y), (x + REGISTER_MM, y)], "thin", layer=LAYER)
            yield Stroke([(x, y - REGISTER_MM), (x, y + REGISTER_MM)], "thin", layer=LAYER)


def _source(view: View, divided: Tiling) -> Iterator[str]:
    wide, high = divided.paper_mm
    yield f"#set document(title: {string(view.description)})"
    yield f"#set page(width: {wide:.4f}mm, height: {high:.4f}mm, margin: {MARGIN_MM}mm)"
    yield '#set text(font: "Libertinus Serif", size: 7pt)'
    yield (
        f'#let whole = image(file("drawing.svg"), width: {view.size[0]:.4f}mm, height: {view.size[1]:.4f}mm, '
        f"alt: {string(view.description)})"
    )
    if divided.columns * divided.rows == 1:
        yield "#align(center + horizon, whole)"
        return
    (room_x, room_y), (step_x, step_y) = divided.room_mm, divided.step_mm
    for number, (column, row) in enumerate(used(view, divided)):
        moved = f"dx: {-column * step_x:.4f}mm, dy: {-row * step_y:.4f}mm"
        told = text(_told(view, divided, (column, row)))
        if number:
            yield "#pagebreak()"
        yield f"#block(clip: true, width: {room_x:.4f}mm, height: {room_y:.4f}mm, place({moved}, whole))"
        yield f"#v(2mm, weak: true)\n#grid(columns: (102mm, 1fr), column-gutter: 6mm, scale-line, [{told}])"


def used(view: View, divided: Tiling) -> Iterator[tuple[int, int]]:
    """Yield column and row of every sheet that anything is drawn on."""
    left, _, _, top = box_of(view.marks)
    (room_x, room_y), (step_x, step_y) = divided.room_mm, divided.step_mm
    drawn, words = Lines(view.marks), [box_of([mark]) for mark in view.marks if not isinstance(mark, Stroke)]
    for row in range(divided.rows):
        for column in range(divided.columns):
            x, y = left + column * step_x, top - row * step_y
            sheet = (x, y - room_y, x + room_x, y)
            if drawn.through(sheet) or any(overlap(sheet, box) for box in words):
                yield column, row


def _told(view: View, divided: Tiling, place: tuple[int, int]) -> str:
    """Return which sheet it is and how it is joined to the others."""
    column, row = place
    return (
        f"Row {row + 1} of {divided.rows}, column {column + 1} of {divided.columns}, scale {ratio(view.scale)}. "
        "Join the sheets at the crosses in circles."
    )
