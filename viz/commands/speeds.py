"""``whirlgate speeds``: stall, lift-off, climb, cruise and top speed with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import altitude_option, bands_options
from viz.commands.options import Command, amount, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option(
    "--weight",
    "mass_kg",
    metavar="MASS",
    type=amount("kg", above=0.0, example="1350 lb"),
    help="Gross weight, as in '1350 lb'.  [default: that of the scenario]",
)
@altitude_option
@powerplant_option("Powerplant whose speeds come first in the JSON object.  [default: that of the balance table]")
@json_out
@figure_out
@bands_options
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
    """Find stall, climb, cruise and top speed with each powerplant, from drag polar, engine power and propeller.

    How far each number may be off: --bands.

    Example: whirlgate speeds --weight '1350 lb' --altitude '3000 ft' --bands --figure power.svg
    """
    from sim.model.model import model
    from sim.studies.speeds import speeds
    from viz.sheets.speeds import sheet

    answer = speeds(model(scenario, settings), **options)
    picture(figure, "speeds", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
