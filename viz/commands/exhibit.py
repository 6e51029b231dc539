"""``whirlgate exhibit``: an inert interrupter display, sized, checked and ready to cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.gun_options import ideal_option
from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.progress import bar

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option(
    "--out",
    "folder",
    type=click.Path(file_okay=False),
    metavar="FOLDER",
    help="Write DXF, SVG, STL and the drawing sheet to this folder.",
)
@ideal_option()
@figure_out
@json_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    folder: str,
    ideal: bool,
    figure: str,
    force: bool,
    as_json: bool,
) -> None:
    """Size an inert interrupter display: cam, follower, spring, drive and guard, each with its checks.

    A scaled propeller, turned by hand, drives a cam, a roller follower and a lamp that shows when a gun could have
    fired: with the windows of the scenario's fixed cam, or those of the ideal one with --ideal. It cannot fire
    anything; a scenario that asks for a working gun part is refused.

    Example: whirlgate exhibit --out display
    """
    from sim.model.model import model
    from sim.studies.exhibit import exhibit
    from viz.sheets.exhibit import sheet

    airplane = model(scenario, settings)
    answer = exhibit(airplane, ideal=ideal, progress=lambda circles: bar(circles, len(circles), "trying cams"))
    if folder:
        from viz.drawings.folder import contents, write

        for path in write(folder, contents(answer), force=force):
            click.echo(f"wrote {path}", err=True)
    picture(figure, "exhibit", answer, units, force=force)
    deliver(answer, sheet(answer, written=bool(folder)), units, as_json=as_json)
