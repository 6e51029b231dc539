"""The report as one HTML file: nothing is fetched, nothing runs, every string is escaped."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING, Any

from sim.units.quantities import caution
from viz.report.blocks import Section
from viz.sheets.html import drawn, template

if TYPE_CHECKING:
    from collections.abc import Iterable

    from viz.report.blocks import Report
    from viz.sheets.blocks import Block
    from viz.sheets.format import Units


OPENING = "opening"
"""Name under which a page finds what stands before its sections."""


def page(report: Report, units: Units) -> str:
    """Return the report as a page of its own."""
    made = template("report.html.jinja", units, caution=caution("estimate"))
    return made.render(report=report, shown=numbered((Section(OPENING, "", report.opening), *report.sections)))


def handout_page(title: str, pages: tuple[Section, ...], units: Units) -> str:
    """Return the pages for visitors as one file."""
    made = template("handout.html.jinja", units, caution=caution("estimate"), brief=True)
    return made.render(title=title, pages=pages, shown=numbered(pages))


def numbered(sections: Iterable[Section]) -> dict[str, list[tuple[Block, Any]]]:
    """Return each section's blocks, pictures with their number and drawing."""
    numbers = count(1)
    return {section.name: list(drawn(section.blocks, numbers)) for section in sections}
