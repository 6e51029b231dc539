"""``whirlgate compare``: every powerplant of a scenario in the same airplane, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.flight_options import bands_options
from viz.commands.gun_options import ideal_option
from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@json_out
@figure_out
@bands_options
@ideal_option()
@click.option(
    "--strikes",
    is_flag=True,
    help="Add how many rounds of a thousand strike a blade with the gear, beside those without; some seconds.",
)
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
    bands: bool,
    ideal: bool,
    strikes: bool,
    seed: int,
) -> None:
    """Compare the powerplants: angular momentum, gyroscopic moments in turns, control response, firing windows.

    The figure draws the control responses; whirlgate windows and burst draw windows and strikes.

    Example: whirlgate compare tollgate --bands --figure compare.svg
    """
    from sim.model.model import model
    from sim.studies.compare import compare
    from viz.sheets.compare import sheet

    answer = compare(model(scenario, settings), ideal=ideal, strikes=strikes, bands=bands, seed=seed)
    picture(figure, "compare", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
