"""``whirlgate derivatives``: every aerodynamic derivative with its standard deviation and its source."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import flight_options, powerplant_option
from viz.commands.options import Command, json_out, scenario_in
from viz.commands.output import deliver

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@powerplant_option("Powerplant whose propeller is included.  [default: the first of the scenario]")
@flight_options
@json_out
@click.pass_obj
def command(units: Units, /, *, scenario: str, settings: tuple[str, ...], as_json: bool, **options: Any) -> None:  # noqa: ANN401
    """List every aerodynamic derivative with its value, standard deviation and source.

    Values are estimated from the geometry; one given in the table derivatives of the scenario replaces the estimate.

    Example: whirlgate derivatives --set derivatives.yaw_beta=0.03
    """
    from sim.model.model import model
    from sim.studies.derivatives import derivatives
    from viz.sheets.derivatives import sheet

    answer = derivatives(model(scenario, settings), **options)
    deliver(answer, sheet(answer), units, as_json=as_json)
