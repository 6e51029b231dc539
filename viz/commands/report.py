"""``whirlgate report``: every answer about a scenario on one page to keep."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from sim.errors import Fault
from viz.options import Command, Word, force, scenario_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.format import Units

FILES = ("out", "pdf", "handout")


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what is wrong with the options taken together."""
    if not any(options[name] for name in FILES):
        yield Fault("--out", "is missing; say where to write: --out FILE.html, --pdf FILE.pdf or --handout FILE.html")


@click.command(cls=Command, check=check)
@scenario_in
@click.option("--out", type=click.Path(dir_okay=False), metavar="FILE.html", help="Write the report, one HTML file.")
@click.option("--pdf", type=click.Path(dir_okay=False), metavar="FILE.pdf", help="Write the same as PDF.")
@click.option(
    "--handout", type=click.Path(dir_okay=False), metavar="FILE.html", help="Write the two pages for visitors."
)
@click.option(
    "--paper", type=Word(["letter", "a4"]), help="Of the PDF; Letter with US units and A4 with SI if not given."
)
@force
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    force: bool,
    paper: str | None,
    **files: str | None,
) -> None:
    """Write a report that can be kept: the answer first, then every sheet and figure, cautions, how to get it again.

    Example: whirlgate report tollgate --out report.html --pdf report.pdf --handout handout.html
    """
    from sim.studies.scenario import load
    from viz.files import write_whole
    from viz.report.findings import Findings
    from viz.report.media import written

    found = Findings(load(scenario, settings), units, called=scenario, settings=settings)
    for path, content in written(found, files, paper=paper or ("letter" if units == "us" else "a4"), progress=bar):
        click.echo(f"wrote {write_whole(path, content, force=force)}", err=True)


def bar(sections: Iterable[Any]) -> Iterator[Any]:
    """Show on stderr how far the work is, where that is a terminal."""
    stream = click.get_text_stream("stderr")
    if not stream.isatty():
        yield from sections
        return
    with click.progressbar(sections, label="reporting", file=stream) as shown:
        yield from shown
