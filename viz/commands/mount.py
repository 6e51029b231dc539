"""``whirlgate mount``: what each powerplant asks of the engine mount."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import SHOP
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.mount_answer import MountAnswer, MountCase, WorstBolt, WorstTube
    from viz.sheets.format import Units
    from viz.sheets.table import Block

STAND = (
    "Limit loads on the airframe where the shaft axis meets the firewall: ahead, right and down; right wing down, nose "
    "up and nose right positive. Ultimate is 1.5 times these."
)
ELASTIC = "Elastic method, tension positive, a push is carried by the pad; preload, prying and fit are not in it."
TRUSS = (
    "Tubes as a pin-jointed truss; margin at ultimate load (Euler, or Johnson for stocky tubes; yield in a pull): "
    "above 0 holds. Welded joints bend the tubes as well: a licensed engineer must check the mount."
)


@click.command(cls=Command)
@scenario_in
@click.option(
    "--move",
    type=amount("m"),
    help="Engines moved from where they are drawn, aft positive; without it, to where they balance.",
)
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    move: float | None,
    as_json: bool,
    figure: str | None,
    force: bool,
) -> None:
    """Find the loads of each powerplant on its mount: firewall, every bolt, every tube.

    Example: whirlgate mount --move "-1 1/2 in" --figure bolts.svg
    """
    from sim.scenario.reading import load
    from sim.studies.mount import mount_loads

    answer = mount_loads(load(scenario, settings), engine_move_m=move)
    picture(figure, "mount", answer, units, force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: MountAnswer, units: Units) -> Iterator[Block]:
    """Print the cases of each powerplant, then the worst of each bolt and tube."""
    force_unit, moment_unit = (shown.shown(name, units)[0] for name in ("force_n", "moment_n_m"))
    heads = ["Case", "ahead", "right", "down", "roll", "pitch", "yaw", *(["worst bolt"] if answer.worst_bolts else [])]
    for name, hung in answer.hung.items():
        mass, ahead = shown.amount("mass_kg", hung.mass_kg, units), shown.amount("ahead_m", hung.ahead_m, units)
        move = shown.signed("move_m", answer.engine_move_m[name], units, ("aft", "ahead"))
        title = (
            f"Mount loads [{force_unit}, {moment_unit}], {name}: {mass} hung {ahead} ahead of the firewall, {move} of "
            "where it is drawn"
        )
        rows = [case_line(case, units) for case in answer.cases if case.powerplant == name]
        yield table(title, heads, rows, STAND)
    if answer.worst_bolts:
        heads = ["Bolt", "tension", "shear", "stress", "engine", "in the case"]
        yield table("Worst of each bolt", heads, [bolt_line(row, units) for row in answer.worst_bolts], ELASTIC)
    if answer.worst_tubes:
        heads = ["Tube", "pull or push", "Euler margin", "margin", "engine", "in the case"]
        title = f"Worst of each tube; the truss has {answer.redundancy or 'none'} more than it needs"
        yield table(title, heads, [tube_line(row, units) for row in answer.worst_tubes], TRUSS)
    yield SHOP


def case_line(case: MountCase, units: Units) -> list[str]:
    """Return one row of a powerplant's cases."""
    force, moment = shown.shown("force_n", units)[1], shown.shown("moment_n_m", units)[1]
    return [
        case.name,
        *(f"{force * part:.0f}" for part in case.limit_force_n),
        *(f"{moment * part:.0f}" for part in case.limit_moment_n_m),
        *([words(case.worst_bolt)] if case.worst_bolt else []),
    ]


def bolt_line(row: WorstBolt, units: Units) -> list[str]:
    """Return the worst case of one bolt."""
    loads = (("axial_n", row.axial_n), ("shear_n", row.shear_n), ("stress_pa", row.stress_pa))
    return [
        words(row.bolt),
        *(shown.amount(name, value, units) for name, value in loads),
        words(row.powerplant),
        row.case,
    ]


def tube_line(row: WorstTube, units: Units) -> list[str]:
    """Return the worst case of one tube."""
    load = f"{shown.amount('axial_n', abs(row.axial_n), units)} {'push' if row.axial_n < 0.0 else 'pull'}"
    margins = [f"{value:.2f}" if value < float("inf") else "none" for value in (row.euler_margin, row.margin)]
    return [words(row.tube), load, *margins, words(row.powerplant), row.case]


def words(name: str) -> str:
    """Return a key of the scenario as words, so that it can be broken between lines."""
    return name.replace("_", " ")
