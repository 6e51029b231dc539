"""Paper: how each block of a report is set on a page of Letter or A4."""

from __future__ import annotations

import logging
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from fpdf import FPDF
from fpdf.fonts import FontFace

from viz.report.blocks import Picture, Points, Table, Text, Verbatim, wordy
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from collections.abc import Sequence

    from viz.report.blocks import Block

MM_PER_PT = 25.4 / 72.0
MARGIN_MM = 17.0
HEADED_MM, CAPTION_MM, LINE_MM = 40.0, 16.0, 3.6
"""What a heading wants under it on its page, what a caption takes, and a line of a table."""
TEXT_PT, TABLE_PT, SMALL_PT, LETTERS_PT = 9.0, 7.5, 8.0, 6.5
SPACED = 1.35
"""Line over letter height."""
INK, BLUE, RUST, GREY = (26, 26, 26), (11, 79, 138), (154, 58, 0), (63, 63, 63)
ANY_DAY = datetime(2000, 1, 1, tzinfo=UTC)
"""Taken out again, so that the same report gives the same bytes."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a figure stands: page from 0, left and top edge, width; and its drawing, a PDF page of its own."""

    page: int
    left_mm: float
    top_mm: float
    width_mm: float
    drawing: bytes


class Paper(FPDF):
    """Pages in the house look; figures are left room for and kept in `places`."""

    def __init__(self, size: str, *, title: str, version: str) -> None:
        super().__init__(format=size)
        self.places: list[Place] = []
        for library in ("fpdf", "fontTools"):
            logging.getLogger(library).setLevel(logging.CRITICAL)  # letters that the font lacks are boxes, not news
        self._take_fonts()
        self.set_margin(MARGIN_MM)
        self.set_auto_page_break(auto=True, margin=MARGIN_MM)
        self.set_title(title)
        self.set_lang("en")
        self.set_creator(f"whirlgate {version}")
        self.set_creation_date(ANY_DAY)
        self.add_page()

    def _take_fonts(self) -> None:
        """Take the fonts that come with matplotlib, those of the figures."""
        import matplotlib as mpl

        folder = Path(mpl.get_data_path()) / "fonts" / "ttf"
        for weight, file in (("", "DejaVuSans"), ("B", "DejaVuSans-Bold"), ("I", "DejaVuSans-Oblique")):
            self.add_font("body", weight, folder / f"{file}.ttf")
        self.add_font("letters", "", folder / "DejaVuSansMono.ttf")

    def footer(self) -> None:
        """Write the caution and the number of the page at its foot."""
        self.set_y(-12.0)
        self.set_font("body", "", 7.0)
        self.set_text_color(*GREY)
        self.cell(0.0, 4.0, ESTIMATE)
        self.set_x(self.l_margin)
        self.cell(0.0, 4.0, f"{self.page_no()} of {{nb}}", align="R")

    def paragraph(
        self,
        text: str,
        *,
        size: float = TEXT_PT,
        weight: str = "",
        ink: tuple[int, int, int] = INK,
        after_mm: float = 2.0,
    ) -> None:
        """Write a paragraph."""
        self.set_font("body", weight, size)
        self.set_text_color(*ink)
        self.multi_cell(0.0, size * SPACED * MM_PER_PT, text, align="L", new_x="LMARGIN", new_y="NEXT")
        self.ln(after_mm)

    def make_room(self, height_mm: float) -> None:
        """Go to a new page where less than that is left."""
        if self.will_page_break(height_mm):
            self.add_page()

    def heading(self, words: str, under: Sequence[Block] = ()) -> None:
        """Write the heading of a section, on the page of the figure that stands first under it."""
        figure = next((block for block in under if isinstance(block, Picture)), None)
        self.make_room(HEADED_MM + (self._size(figure)[1] + CAPTION_MM if figure else 0.0))
        self.start_section(words)
        self.ln(3.0)
        self.paragraph(words, size=14.0, weight="B", after_mm=0.5)
        self.set_draw_color(*BLUE)
        self.set_line_width(0.5)
        self.line(self.l_margin, self.y, self.w - self.r_margin, self.y)
        self.ln(3.0)

    def put(self, block: Block) -> None:
        """Set one block."""
        match block:
            case Text(text, caution):
                self.paragraph(text, ink=RUST if caution else INK)
            case Points(points, to_tick):
                self.listed(["☐" if to_tick else "•"] * len(points), points)
            case Picture():
                self._picture(block)
            case Verbatim(title, text):
                self._verbatim(title, text)
            case Table():
                self._table(block)

    def listed(self, marks: Sequence[str], lines: Sequence[str]) -> None:
        """Write lines behind their marks."""
        left = self.l_margin
        for mark, line in zip(marks, lines, strict=True):
            self.set_font("body", "", TEXT_PT)
            self.set_text_color(*INK)
            self.make_room(TEXT_PT)
            self.cell(6.0, TEXT_PT * SPACED * MM_PER_PT, mark)
            self.set_left_margin(left + 6.0)
            self.paragraph(line, after_mm=1.0)
            self.set_left_margin(left)
            self.set_x(left)
        self.ln(2.0)

    def _verbatim(self, title: str, text: str) -> None:
        self.paragraph(title, weight="B", after_mm=0.5)
        self.set_font("letters", "", LETTERS_PT)
        height = LETTERS_PT * SPACED * MM_PER_PT
        self.multi_cell(0.0, height, text, align="L", new_x="LMARGIN", new_y="NEXT", wrapmode="CHAR")
        self.ln(3.0)

    def _size(self, picture: Picture) -> tuple[float, float]:
        """Return width and height of a figure on the page. [mm]."""
        wide, high = (float(inches) * 25.4 for inches in picture.figure.get_size_inches())
        width = min(self.epw, wide * 0.75, (self.eph - HEADED_MM - CAPTION_MM) * wide / high)
        return width, width * high / wide

    def _picture(self, picture: Picture) -> None:
        from viz.figures.sheet import rendered

        width, height = self._size(picture)
        self.make_room(height + CAPTION_MM)
        left = self.l_margin + (self.epw - width) / 2.0
        self.places.append(Place(self.page_no() - 1, left, self.y, width, rendered(picture.figure, "pdf")))
        self.set_y(self.y + height + 1.0)
        said = f"Figure {len(self.places)}. {picture.title}. {picture.alt}"
        self.paragraph(said, size=SMALL_PT, ink=GREY, after_mm=4.0)

    def _table(self, table: Table) -> None:
        lines = [1 + max(cell.count("\n") for cell in row) for row in (table.heads, *table.rows)]
        whole = 10.0 + sum(LINE_MM * count + 1.4 for count in lines)
        self.make_room(whole if whole < 0.6 * self.eph else HEADED_MM)
        self.paragraph(table.title, weight="B", after_mm=0.5)
        self.set_font("body", "", TABLE_PT)
        self.set_draw_color(176, 176, 176)
        self.set_line_width(0.15)
        widths = self._widths(table)
        beside = "LEFT" if wordy(table) else "RIGHT"
        with self.table(
            width=min(sum(widths), self.epw),
            col_widths=widths,
            align="LEFT",
            text_align=("LEFT", *[beside] * (len(table.heads) - 1)),
            borders_layout="HORIZONTAL_LINES",
            headings_style=FontFace(emphasis="BOLD"),
            line_height=LINE_MM,
            padding=(0.6, 1.2),
        ) as drawn:
            for row in (table.heads, *table.rows):
                drawn.row(row)
        self.ln(1.0)
        if table.note:
            self.paragraph(table.note, size=TABLE_PT, ink=GREY, after_mm=1.0)
        self.ln(2.0)

    def _widths(self, table: Table) -> list[float]:
        """Return the width of each column: what its longest line asks, the wide ones drawn in to fit. [mm]."""
        columns = zip(*(table.heads, *table.rows), strict=True)
        asked = [
            max(self.get_string_width(line) for cell in column for line in cell.split("\n")) * 1.12 + 3.5
            for column in columns
        ]
        over = sum(asked) - self.epw
        if over <= 0.0:
            return asked
        fair = self.epw / len(asked)
        spare = sum(max(0.0, width - fair) for width in asked)
        return [width - over * max(0.0, width - fair) / spare for width in asked]
