"""The report from its studies to page and PDF, against its figures alone: their studies, drawing and rendering."""

from functools import cache

from side_by_side import say, seconds

from sim.scenario.reading import load
from viz.report.build import SECTIONS, told
from viz.report.drawings import cores
from viz.report.findings import Findings
from viz.report.media import written
from viz.sheets.blocks import Picture

SCENARIO = load("tollgate")


def findings() -> Findings:
    """Return findings that know nothing yet."""
    return Findings(SCENARIO, "us", called="tollgate", processes=cores())


@cache
def drawing_parts():
    """Return the parts of the report that hold a figure; not when this file loads, which every worker does."""
    found = findings()
    parts = [part for _, _, parts in SECTIONS for part in parts]
    return [part for part in parts if any(isinstance(block, Picture) for block in told(part, found))]


def figures() -> int:
    """Draw and render every figure of the report, asking its studies for them and no table."""
    found = findings()
    pictures = (next(block for block in told(part, found) if isinstance(block, Picture)) for part in drawing_parts())
    return sum(len(picture.drawing().svg) for picture in pictures)


def report() -> int:
    """Make the page and the PDF."""
    files = {"out": "report.html", "pdf": "report.pdf", "handout": None}
    whole = written(findings(), files, paper="letter", progress=lambda sections, _count, _label: sections)
    return sum(len(content) for _, content in whole)


def main() -> None:
    """Print the ratios."""
    alone, whole = seconds(figures, report)
    say(f"report with its PDF, {len(drawing_parts())} figures / its figures alone ({alone:.1f} s)", whole / alone, 1.0)


if __name__ == "__main__":
    main()
