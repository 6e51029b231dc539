"""``whirlgate windows``: when the gun may fire between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import asked, check, ideal_option, timing_options
from viz.commands.options import Command, figure_out, json_out
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command, check=check)
@timing_options
@ideal_option()
@click.option("--all", "every", is_flag=True, help="Add how long the windows are open, and what the words mean.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    as_json: bool,
    figure: str | None,
    force: bool,
    every: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Find the release windows between the blades, the lead angle and the steady rate of fire.

    For each powerplant of a scenario at idle, cruise and full speed, or for a gun line given by options alone: --rpm,
    --blades and --blocked-deg, with --gun-rate for the rate of fire. The cam is that of the scenario, cut once; without
    one, or with --ideal, it is the ideal one, fitted to each speed. Angles are propeller angles, 0 with blade 1 on the
    bore line.

    Example: whirlgate windows --rpm 1250 --rpm 900:1500:100 --blades 2 --blocked-deg 24 --margin-deg 4 --delay-ms 6.5
    --gun-rate 500
    """
    from sim.studies.windows import windows
    from viz.sheets.windows import sheet

    model, given = asked(options)
    answer = windows(model, **given)
    picture(figure, "windows", answer, units, force=force)
    deliver(answer, sheet(answer, every=every), units, as_json=as_json)
