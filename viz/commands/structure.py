"""``whirlgate structure``: load cases of the wing, and the load and margin of every spar, strut and wire."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@powerplant_option("Engine fitted.  [default: that of the balance table, or the first]")
@click.option(
    "--without",
    multiple=True,
    metavar="NAME",
    help="Strut, rib or wire left out, as this command names it; repeatable. Example: --without 'front flying wire, "
    "left'; without a side both are.",
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    powerplant: str | None,
    without: tuple[str, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Spars, struts and wires of the wing: load, margin of safety and worst load case of each.

    Loads come from the vortex lattice, spread to the spars; spars bend under load and thrust together, wires go slack.

    What the others carry when one is gone: --without; a wing that falls then is told so.

    Example: whirlgate structure --set structure.load_factor=4.4 --figure truss.svg
    """
    from sim.model.model import model
    from sim.studies.structure import structure
    from viz.sheets.structure import sheet

    answer = structure(model(scenario, settings), powerplant=powerplant, without=without)
    picture(figure, "structure", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
