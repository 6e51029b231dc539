"""``whirlgate balance``: weights, centre of gravity, and where the engine must stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets.balance import sheet

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option("--powerplant", metavar="NAME", help="Balance with this engine; else the one the balance table names.")
@click.option("--items", is_flag=True, help="List every item as it was counted.")
@click.option(
    "--write", type=click.Path(dir_okay=False), metavar="SCENARIO.toml", help="Set mass, inertia and arms here."
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    powerplant: str | None,
    items: bool,
    write: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Add up the item list, follow the centre of gravity through every loading, and place the engine.

    Stations are aft of the datum. A weighing in the scenario is set beside the list.

    Example: whirlgate balance --powerplant flat_four --items --figure envelope.svg
    """
    from sim.scenario.reading import load
    from sim.studies.balance import balance

    opened = load(scenario, settings)
    answer = balance(opened, powerplant)
    written_to = ""
    picture(figure, "balance", answer, units, force=force)
    if write:
        from sim.studies.balance_keys import scenario_keys
        from viz.files.scenario_keys import write_keys

        keys = scenario_keys(opened, answer, system=units)
        write_keys(write, keys)
        written_to = f"Written to {write}: {', '.join(keys)}."
    say(answer, sheet(answer, units, items=items), as_json=as_json)
    if written_to and not as_json:
        click.echo(written_to)
