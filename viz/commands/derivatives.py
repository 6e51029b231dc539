"""``whirlgate derivatives``: every derivative with its standard deviation and source, and the loads along the spans."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import flight_options
from viz.commands.options import Command, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@powerplant_option(
    "Powerplant, for mass and centre of gravity; the derivatives are power off.  [default: first of the scenario]"
)
@flight_options
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """List every aerodynamic derivative with its value, standard deviation and source, and who bears the lift.

    Values are estimated from the geometry; one given in the table derivatives of the scenario replaces the estimate.
    The figure draws the lift along the span of every plane and of the tailplane, and the downwash there.

    Example: whirlgate derivatives --set derivatives.yaw_beta=0.03 --figure loads.svg
    """
    from sim.model.model import model
    from sim.studies.derivatives import derivatives
    from viz.sheets.derivatives import sheet

    answer = derivatives(model(scenario, settings), **options)
    picture(figure, "derivatives", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
