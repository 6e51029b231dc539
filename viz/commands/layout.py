"""``whirlgate layout``: section, spars, fittings and the truss nodes under them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield what keeps the nodes from being written."""
    from viz.files.table import file_faults

    yield from file_faults("--nodes", options["nodes"], (".csv",), force=options["force"])


@click.command(cls=Command, check=check)
@scenario_in
@click.option("--nodes", type=click.Path(dir_okay=False), metavar="FILE.csv", help="Write the nodes as CSV, in metres.")
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
