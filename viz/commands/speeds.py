"""``whirlgate speeds``: stall, lift-off, climb, cruise and top speed with each engine."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.speeds import Speeds, SpeedsAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block

NOTE = (
    "Level flight, ball centred, still air. Lift-off is 1.1 times the stall. Cruise and top: the engine at cruise and "
    "at full speed, throttled back where the propeller would drive it faster."
)


@click.command(cls=Command)
@scenario_in
@click.option("--weight", "mass_kg", type=amount("kg", above=0.0), help="Instead of the scenario's gross weight.")
@click.option(
    "--altitude", "altitude_m", type=amount("m", least=-1000.0, most=11000.0), help="Instead of its altitude."
)
@click.option("--powerplant", metavar="NAME", help="Whose speeds stand at the top of the JSON object.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: float | str | None,
) -> None:
    """Find the speeds of the airplane with each of its engines, from drag polar, power and propeller.

    Example: whirlgate speeds --weight "1350 lb" --altitude "3000 ft" --figure power.svg
    """
    from sim.scenario.reading import load
    from sim.studies.speeds import study

    answer = study(load(scenario, settings), **options)
    picture(figure, "speeds", answer, units, force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: SpeedsAnswer, units: Units) -> Iterator[Block]:
    """Print a column an engine."""
    mass, height = (
        shown.amount(name, value, units, digits)
        for name, value, digits in (("mass_kg", answer.mass_kg, 4), ("altitude_m", answer.altitude_m, 4))
    )
    rows = [
        ["stall", *_each(answer, "stall_m_s", units)],
        ["lift-off", *_each(answer, "liftoff_m_s", units)],
        ["best climb at", *_each(answer, "best_climb_m_s", units)],
        ["climb", *(_climb(own, units) for own in answer.powerplants.values())],
        ["cruise", *_each(answer, "cruise_m_s", units)],
        ["top", *_each(answer, "top_m_s", units)],
        ["greatest lift over drag", *(f"{own.lift_drag_max:.1f}" for own in answer.powerplants.values())],
    ]
    note = "\n".join((*(f"No column: {why}." for why in answer.too_weak.values()), NOTE, ESTIMATE))
    yield table(f"{answer.title} at {mass} and {height}", ["", *answer.powerplants], rows, note)


def _each(answer: SpeedsAnswer, name: str, units: Units) -> list[str]:
    found = [getattr(own, name) for own in answer.powerplants.values()]
    return ["does not hold" if speed is None else shown.amount(name, speed, units) for speed in found]


def _climb(own: Speeds, units: Units) -> str:
    if units == "si":
        return shown.amount("climb_rate_m_s", own.climb_rate_m_s, units)
    return f"{own.climb_rate_m_s * 60.0 / 0.3048:.0f} ft/min"
