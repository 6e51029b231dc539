"""``whirlgate drag``: drag and greatest lift built up from the parts of the airplane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@powerplant_option("Powerplant with whose mass it flies.  [default: that of the balance table]")
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
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Build up zero-lift drag part by part, span efficiency and greatest lift, and set them beside what is stated.

    Wing, fuselage and tail are counted from their own tables, everything else from the table drag.part. A value of
    the tables drag, lift and section replaces its estimate everywhere.

    Example: whirlgate drag --set section.naca=4412 --figure drag.svg
    """
    from sim.model.model import model
    from sim.studies.drag import drag
    from viz.sheets.drag import sheet

    answer = drag(model(scenario, settings), powerplant=powerplant)
    picture(figure, "drag", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
