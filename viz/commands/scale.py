"""``whirlgate scale``: real dimensions from caliper readings off a drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.against import against_in
from viz.commands.options import Command, figure_out, json_out
from viz.commands.output import deliver, picture
from viz.commands.written import Named

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@click.argument("drawing", metavar="[FILE]", required=False, default="tollgate")
@click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="TABLE.KEY=VALUE",
    help="Change one value of the drawing; repeatable. Example: --set known.wing.span='28 ft 2 in'",
)
@against_in(noun="drawing")
@click.option(
    "--write",
    type=Named(dir_okay=False),
    metavar="SCENARIO.toml",
    help="Set the dimensions in this existing scenario.",
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    drawing: str,
    settings: tuple[str, ...],
    write: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Scale a drawing: real dimensions with their errors, from caliper readings and the few known dimensions.

    FILE (TOML) holds the readings and known dimensions (whirlgate new --drawing FILE writes one to start from);
    without it the bundled drawing is scaled. Each direction of each sheet has its own scale, because copies stretch
    unevenly; local distortion of the paper is estimated from what is read in several views, or given. Inconsistent
    readings are named and left out; readings and documents that nothing checks are named with what would check
    them. A document without ± gets an estimated one. Sheets whose scales along and across differ by more than a copier
    makes are not to be used, and nothing is written.

    A dimension with the name of a scenario key is written there: wing.span, item.pilot.station,
    weighing.support.left.station.

    Example: whirlgate scale threeview.toml --set distortion='0.2 %' --write camp.toml
    """
    from sim.model.drawing import drawing as measured
    from sim.studies.scale import scale
    from viz.sheets.scale import sheet

    answer = scale(measured(drawing, settings))
    picture(figure, "scale", answer, units, force=force)
    notes = []
    if write:
        from viz.files.scenario_keys import write_dimensions

        notes.append(write_dimensions(write, answer, units))
    deliver(answer, (*sheet(answer, written=bool(write)), *notes), units, as_json=as_json)
