"""The report as PDF, laid out by fpdf2 with the vector figures set in by pypdf.

Both libraries are plain Python: no system package is needed, unlike with converters of HTML that lay text out through
pango. Against pages drawn by matplotlib they give running paragraphs, tables whose heads come again on the next page,
bookmarks and text that can be searched; against pictures of the figures, lines that stay sharp at any size.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from pypdf import PdfReader, PdfWriter, Transformation

from viz.report.paper import BLUE, GREY, MM_PER_PT, RUST, Paper
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from viz.report.blocks import Report
    from viz.report.paper import Place


def document(report: Report, size: str) -> bytes:
    """Return the report as a PDF file on ``letter`` or ``a4``."""
    paper = Paper(size, title=report.title, version=report.version)
    paper.paragraph(report.title, size=20.0, weight="B")
    if report.note:
        paper.paragraph(report.note, size=10.5, ink=GREY)
    paper.paragraph(ESTIMATE, ink=RUST)
    paper.heading("The answer")
    for answer in report.answers:
        paper.make_room(30.0)
        paper.paragraph(answer.reader, size=11.0, weight="B", ink=BLUE, after_mm=0.5)
        paper.paragraph(answer.question, weight="I")
        paper.listed([f"{number}." for number in range(1, 1 + len(answer.sentences))], answer.sentences)
    for section in report.sections:
        paper.heading(section.heading, section.blocks[:2])
        for block in section.blocks:
            paper.put(block)
    return _with_figures(bytes(paper.output()), paper.places)


def _with_figures(pages: bytes, places: list[Place]) -> bytes:
    """Return the pages with every figure set in where room was left for it."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pages)))
    for place in places:
        page = writer.pages[place.page]
        drawing = PdfReader(io.BytesIO(place.drawing)).pages[0]
        scale = place.width_mm / MM_PER_PT / float(drawing.mediabox.width)
        bottom = float(page.mediabox.height) - place.top_mm / MM_PER_PT - scale * float(drawing.mediabox.height)
        fitted = Transformation().scale(scale).translate(place.left_mm / MM_PER_PT, bottom)
        page.merge_transformed_page(drawing, fitted)
        page.compress_content_streams()
    writer.metadata = {name: text for name, text in (writer.metadata or {}).items() if name != "/CreationDate"}
    writer.compress_identical_objects()
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()
