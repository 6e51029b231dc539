"""``whirlgate cooling``: why guns were kept warm."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option(
    "--altitude",
    "altitude_m",
    type=amount("m", least=-1000.0, most=11000.0),
    metavar="LENGTH",
    help="Altitude above sea level. [default: that of the scenario's table warmth]",
)
@click.option(
    "--speed",
    "speed_m_s",
    type=amount("m/s", above=0.0, most=340.0),
    metavar="SPEED",
    help="True airspeed. [default: that of the scenario's table warmth]",
)
@click.option(
    "--duration",
    "duration_s",
    type=amount("s", above=0.0, most=86400.0, example="60 min"),
    default="60 min",
    show_default=True,
    metavar="TIME",
    help="Duration of the flight.",
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
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Temperature of a gun's receiver in flight, bare or cowled, silent or firing, and the time until its oil stiffens.

    For education only.

    Example: whirlgate cooling --altitude "18000 ft" --speed "85 mph" --figure cooling.svg
    """
    from sim.model.model import model
    from sim.studies.cooling import cooling
    from viz.sheets.cooling import sheet

    answer = cooling(model(scenario, settings), **options)
    picture(figure, "cooling", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
