"""The report as PDF: its sections as Typst, figures as vectors, headings as bookmarks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sim.units.quantities import caution
from viz.files.typst import pdf, string, text
from viz.sheets.text import text_of
from viz.sheets.typst import Pages, look
from viz.words.reader import worded

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.blocks import Report
    from viz.sheets.format import Units

PAPERS = {"letter": "us-letter", "a4": "a4"}


def document(report: Report, size: str, units: Units) -> bytes:
    """Return the report as a PDF file on ``letter`` or ``a4``."""
    pages = Pages(units)
    source = "\n\n".join(_source(report, size, pages))
    return pdf(source, pages.files, fonts=[_fonts()])


def _source(report: Report, size: str, pages: Pages) -> Iterator[str]:
    number = f"#box[#counter(page).display() {worded('of')} #counter(page).final().first()]"
    foot = f"[#set text(8pt); {text(worded(caution('estimate')))} #h(1fr) {number}]"
    yield f"#set document(title: {string(report.title)}, author: {string(f'whirlgate {report.version}')})"
    yield f'#set page(paper: "{PAPERS[size]}", margin: 12mm, footer: context {foot})'
    yield look()
    yield f'#text(size: 20pt, weight: "bold")[{text(report.title)}]'
    if report.note:
        yield f"#note[{text(report.note)}]"
    yield f"#caution[{text(worded(caution('estimate')))}]"
    yield pages.markup(report.opening)
    yield f"= {text(worded('The answer'))}"
    for answer in report.answers:
        yield f"== {text(worded(answer.reader))}"
        yield f"_{text(worded(answer.question))}_"
        yield "\n".join(f"+ {text(text_of(sentence, pages.units))}" for sentence in answer.sentences)
    for section in report.sections:
        yield f"= {text(worded(section.heading))}"
        yield pages.markup(section.blocks)


def _fonts() -> Path:
    """Return the folder of the fonts that come with matplotlib, those of the figures."""
    import matplotlib as mpl

    return Path(mpl.get_data_path()) / "fonts" / "ttf"
