"""The report as one HTML file: nothing is fetched, nothing runs, every string is escaped."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count
from typing import TYPE_CHECKING, Any

from sim.units.quantities import caution
from viz.report.blocks import Section
from viz.sheets.html import drawn, template
from viz.words.catalogue import locale
from viz.words.reader import language

if TYPE_CHECKING:
    from collections.abc import Iterable

    from viz.report.blocks import Report
    from viz.sheets.blocks import Block
    from viz.sheets.format import Units


OPENING = "opening"
"""Name under which a page finds what stands before its sections."""


def page(report: Report, units: Units) -> str:
    """Return the report as a page of its own."""
    made = template("report.html.jinja", units, caution=caution("estimate"), language=str(locale(language())))
    return made.render(report=report, shown=numbered((Section(OPENING, "", report.opening), *report.sections)))


@dataclass(frozen=True, slots=True)
class HandoutPage:
    """A page for visitors: its place, its question, and sentences and pictures that answer it."""

    name: str
    heading: str
    blocks: tuple[Block, ...]


def handout_page(
    pages: tuple[HandoutPage, ...], *, language: str, title: str, foot: str, code: tuple[str, str] | None = None
) -> str:
    """Return the pages for visitors as one file.

    Parameters
    ----------
    pages : tuple of HandoutPage
        In their order.
    language : str
        Its code, ``fr``.
    title, foot : str
        Of the airplane; what stands last.
    code : tuple of str or None
        Address that a code of squares leads to, and the words beside it.
    """
    from markupsafe import Markup, escape

    from viz.page.code import code as squares

    drawn_code = None
    if code:
        address, words = code
        drawing = squares(address).decode()
        role = f'<svg role="img" aria-label="{escape(words)}"'
        drawn_code = (Markup(drawing[drawing.index("<svg") :].replace("<svg", role, 1)), words, address)
    shown = numbered(Section(one.name, one.heading, one.blocks) for one in pages)
    made = template("handout.html.jinja", "si", brief=True)
    return made.render(title=title, pages=pages, language=language, foot=foot, code=drawn_code, shown=shown)


def numbered(sections: Iterable[Section]) -> dict[str, list[tuple[Block, Any]]]:
    """Return each section's blocks, pictures with their number and drawing."""
    numbers = count(1)
    return {section.name: list(drawn(section.blocks, numbers)) for section in sections}
