"""``whirlgate report``: every answer about a scenario on one page to keep."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.against import against_in
from viz.commands.options import Command, Word, airplane_in, force, units_asked
from viz.commands.page import address_faults
from viz.commands.written import Written
from viz.words.catalogue import languages
from viz.words.say import own_units

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units

FILES = {"out": (".html", ".htm"), "pdf": (".pdf",), "handout": (".html", ".htm")}
"""Option -> what its file may end in."""


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what is wrong with the options taken together, before any work is done."""
    from sim.errors import Fault

    paths = [options[name] for name in FILES if options[name]]
    if not paths:
        yield Fault("--out", "is missing; say where to write: --out FILE.html, --pdf FILE.pdf or --handout FILE.html")
    if paths and options["paper"] and not options["pdf"]:
        yield Fault("paper", "is that of the PDF; give --pdf FILE.pdf as well, or leave it out")
    if paths and options["qr"] and not options["handout"]:
        yield Fault("--qr", "is that of the handout; give --handout FILE.html as well, or leave it out")
    if options["qr"]:
        yield from address_faults(options["qr"])
    if len(set(paths)) < len(paths):
        yield Fault("--handout", f'must be another file than --out, got "{options["handout"]}"')


@click.command(cls=Command, check=check)
@airplane_in
@against_in(exposed=True)
@click.option("--out", type=Written(*FILES["out"]), metavar="FILE.html", help="Write the report, one HTML file.")
@click.option("--pdf", type=Written(*FILES["pdf"]), metavar="FILE.pdf", help="Write the report as PDF.")
@click.option(
    "--handout",
    type=Written(*FILES["handout"]),
    metavar="FILE.html",
    help="Write the two-page handout for visitors, one HTML file.",
)
@click.option(
    "--paper", type=Word(["letter", "a4"]), help="Paper size of the PDF.  [default: letter with US units, a4 with SI]"
)
@click.option(
    "--language",
    type=Word(languages()),
    help="Language of all of them; metric outside English.  [default: english]",
)
@click.option("--qr", metavar="ADDRESS", help="Put the code of this address, where the page is, on the handout.")
@force
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    against: str | None,
    against_set: tuple[str, ...],
    force: bool,
    paper: str | None,
    language: str | None,
    qr: str | None,
    **files: str | None,
) -> None:
    """Write a report: the answers, then every sheet and figure, assumptions, cautions and the command that made it.

    With --against or --against-set a section lists what differs from the other airplane.

    Example: whirlgate report tollgate --out report.html --pdf report.pdf --handout handout.html
    """
    from sim.scenario.reading import load
    from viz.commands.other_airplane import other_scenario
    from viz.commands.progress import bar
    from viz.files.atomic import write_whole
    from viz.report.drawings import cores
    from viz.report.findings import Findings
    from viz.report.media import written
    from viz.report.other_airplane import OtherAirplane
    from viz.sheets.difference import called

    spoken = language or "english"
    units = units if units_asked() else own_units(spoken)
    changed = other_scenario(scenario, settings, against, against_set)
    other = None
    if changed:
        name = called(scenario, against, against_set)
        other = OtherAirplane(Findings(changed, units, called=name), name, against, against_set)
    own = load(scenario, settings)
    found = Findings(own, units, called=scenario, settings=settings, processes=cores(), other=other)
    size = paper or ("letter" if units == "us" else "a4")
    for path, content in written(found, files, paper=size, progress=bar, language=spoken, address=qr):
        click.echo(f"wrote {write_whole(path, content, force=force)}", err=True)
