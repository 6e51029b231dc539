"""``whirlgate balance``: weights, centre of gravity, and where the engine must stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option("--powerplant", metavar="NAME", help="Engine to balance with.  [default: that of the balance table]")
@click.option("--items", is_flag=True, help="List every item.")
@click.option(
    "--write",
    type=click.Path(dir_okay=False),
    metavar="SCENARIO.toml",
    help="Set mass, moments of inertia and arms from the CG in this existing scenario.",
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
    items: bool,
    write: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Weight, centre of gravity and inertia from the item list, the loading envelope, and the engine position.

    Stations are aft of the datum. A weighing in the scenario is compared with the item list.

    Example: whirlgate balance --powerplant flat_four --items --figure envelope.svg
    """
    from sim.model.model import model
    from sim.studies.balance import balance
    from viz.sheets.balance import sheet

    airplane = model(scenario, settings)
    answer = balance(airplane, powerplant=powerplant)
    picture(figure, "balance", answer, units, force=force)
    notes = []
    if write:
        from sim.studies.balance_keys import balance_keys
        from viz.files.scenario_keys import write_keys

        notes.append(write_keys(write, balance_keys(airplane, answer, system=units)))
    deliver(answer, (*sheet(answer, items=items), *notes), units, as_json=as_json)
