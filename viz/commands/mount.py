"""``whirlgate mount``: the loads of each powerplant on the engine mount."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.shift import shift

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option(
    "--move",
    "engine_move_m",
    type=shift(),
    metavar="LENGTH",
    help="Move the engine on the mount from where the scenario has it, as in '2 1/2 in forward'.  [default: where its "
    "key move puts it, without one at the CG target]",
)
@powerplant_option("Engine on the mount.  [default: that of the mount or balance table]")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    engine_move_m: float | None,
    powerplant: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Limit loads of the engine on its mount: at the firewall, in every bolt and in every tube, with their margins.

    The loads of the other engines at the firewall stand beside them for comparison.

    An engine on isolators (mount.isolators) gets its natural frequencies and clearances too.

    Every engine stands where its key move puts it, one without it at the CG target, as balance finds it.

    Example: whirlgate mount --move '1 1/2 in forward' --figure mount.svg
    """
    from sim.model.model import model
    from sim.studies.mount import mount
    from viz.sheets.mount import sheet

    answer = mount(model(scenario, settings), powerplant=powerplant, engine_move_m=engine_move_m)
    picture(figure, "mount", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
