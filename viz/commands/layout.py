"""``whirlgate layout``: section, spars, fittings and the truss nodes under them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.written import Written

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option("--nodes", type=Written(".csv"), metavar="FILE.csv", help="Write the nodes as CSV, in metres.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    nodes: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Wing section, spars that fit into it, fittings, fuselage truss nodes, and struts and wires from pin to pin.

    Stations are aft of the datum, waterlines up, buttlines right of the plane of symmetry; the left side is the mirror
    image.

    Example: whirlgate layout --nodes nodes.csv --figure side.svg
    """
    from sim.model.model import model
    from sim.studies.layout import layout
    from viz.sheets.layout import sheet

    answer = layout(model(scenario, settings))
    picture(figure, "layout", answer, units, force=force)
    if nodes:
        from viz.files.nodes import write_nodes

        write_nodes(nodes, answer.nodes, force=force)
        click.echo(f"wrote {nodes}", err=True)
    deliver(answer, sheet(answer), units, as_json=as_json)
