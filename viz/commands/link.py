"""``whirlgate link``: which link from cam to gun keeps its lead as the propeller turns faster."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, powerplant_option, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@powerplant_option("Whose propeller. [default: the first of the scenario]")
@click.option("--all", "every", is_flag=True, help="Add the stages of the delay, and the oil column with more air.")
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
    every: bool,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Lead of a rod, a shaft and an oil column from cam to gun at idle, cruise and full speed, and which keeps it.

    All three have the length, the angles and the trigger that the table link of the scenario gives. For education only:
    times and angles of a link, no part of one.

    Example: whirlgate link --set 'link.length="8 ft"' --figure link.svg
    """
    from sim.model.model import model
    from sim.studies.link import link
    from viz.sheets.link import sheet

    answer = link(model(scenario, settings), powerplant=powerplant)
    picture(figure, "link", answer, units, force=force)
    deliver(answer, sheet(answer, every=every), units, as_json=as_json)
