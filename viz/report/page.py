"""The report as one HTML file: nothing is fetched, nothing runs, every string is escaped."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING, Any

from viz.report.blocks import Picture, kind, wordy
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from jinja2 import Template

    from viz.report.blocks import Block, Report, Section


def page(report: Report) -> str:
    """Return the report as a page of its own."""
    return template("report.html.jinja").render(report=report, shown=numbered(report.sections))


def template(name: str) -> Template:
    """Return one of the templates beside this file; every string that it is given is escaped."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("viz.report"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    made.globals.update(kind=kind, wordy=wordy, caution=ESTIMATE, brief=name.startswith("handout"))
    return made.get_template(name)


def numbered(sections: Iterable[Section]) -> dict[str, list[tuple[Block, Any]]]:
    """Return each section's blocks, pictures with their number and drawing."""
    numbers = count(1)
    return {section.name: list(_drawn(section.blocks, numbers)) for section in sections}


def _drawn(blocks: tuple[Block, ...], numbers: Iterator[int]) -> Iterator[tuple[Block, Any]]:
    from markupsafe import Markup

    from viz.figures.sheet import rendered
    from viz.report.svg import inlined

    for block in blocks:
        if isinstance(block, Picture):
            number = next(numbers)
            drawing = inlined(rendered(block.figure).decode(), f"figure{number}", block.alt)
            yield block, (number, Markup(drawing))  # our own drawing, its words escaped by matplotlib
        else:
            yield block, None
