"""``whirlgate layout``: section, spars, fittings and the truss nodes under them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import SHOP
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.layout import LayoutAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block


@click.command(cls=Command)
@scenario_in
@click.option("--nodes", type=click.Path(dir_okay=False), metavar="FILE.csv", help="Write the nodes as CSV, in metres.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    nodes: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Fit the spars into the wing section and place every fitting, and the truss nodes that stand under them.

    Stations are aft of the datum, waterlines up, buttlines right; the left side is the mirror.

    Example: whirlgate layout --nodes nodes.csv --figure side.svg
    """
    from sim.scenario.reading import load
    from sim.studies.layout import study

    answer = study(load(scenario, settings))
    picture(figure, "layout", answer, units, force=force)
    if nodes:
        from viz.files.atomic import write_whole

        write_whole(nodes, as_csv(answer), force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def as_csv(answer: LayoutAnswer) -> str:
    """Return the nodes a line each, both sides, units in the heads."""
    import csv
    import io

    stream = io.StringIO()
    rows = csv.writer(stream, lineterminator="\n")
    rows.writerow(["node", "kind", "side", "station [m]", "waterline [m]", "buttline [m]"])
    for node in answer.nodes:
        for side, sign in (("right", 1.0), ("left", -1.0)):
            place = (node.station_m, node.waterline_m, sign * node.buttline_m)
            rows.writerow([node.name, node.kind, side, *(f"{value:.6f}" for value in place)])
    return stream.getvalue()


def sheet(answer: LayoutAnswer, units: Units) -> Iterator[Block]:
    """Print the section, its spars, the nodes and the struts."""

    def small(value_m: float) -> str:
        return shown.fixed("depth_m", value_m, units)

    rows = [
        ["chord", small(answer.chord_m)],
        ["greatest depth", f"{small(answer.section_depth_m)} at {small(answer.deepest_from_leading_edge_m)}"],
        ["area", shown.amount("section_area_m2", answer.section_area_m2, units)],
        ["middle of the area aft of the leading edge", small(answer.centroid_from_leading_edge_m)],
        ["middle of the area above the chord", small(answer.centroid_above_chord_m)],
        ["angle without lift", f"{answer.zero_lift_deg:.2f}°"],
        ["lift slope, per radian", f"{answer.lift_slope:.3f}"],
        ["moment about the quarter chord", f"{answer.pitch_quarter_chord:.4f}"],
    ]
    thin = "Angle, slope and moment by thin-airfoil theory; measured slopes are 5 to 10 % less."
    yield table(f"Section {answer.section}", ["Quantity", "Value"], rows, thin)
    spars = [
        [spar.name, *map(small, (spar.from_leading_edge_m, spar.section_depth_m, spar.spar_depth_m))]
        for spar in answer.spars
    ]
    yield table("Spars", ["Spar", "From leading edge", "Section depth", "Deepest spar"], spars)
    nodes = [[node.name, *map(small, (node.station_m, node.waterline_m, node.buttline_m))] for node in answer.nodes]
    yield table("Nodes, right side", ["Node", "Station", "Waterline", "Buttline"], nodes)
    struts = [[member.name, small(member.length_m)] for member in answer.members]
    yield table("Struts, pin to pin", ["Strut", "Length"], struts, "\n".join((*answer.remarks, SHOP)))
