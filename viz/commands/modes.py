"""``whirlgate modes``: how small disturbances die out or grow with each engine."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import SIDE, asks_about_turns, degrees
from viz.commands.options import Command
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.handling import MODE_HEADS, mode_rows, wrapped
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.modes import ModesAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block


@click.command(cls=Command)
@asks_about_turns
@click.pass_obj
def command(
    units: Units,
    *,
    scenario: str,
    settings: tuple[str, ...],
    banks_rad: tuple[float, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Find the modes of the airplane with each of its engines, in straight flight or in steady turns.

    A mode is named by the motions that take part in it; its coupling is the share of the other group's motions.

    Example: whirlgate modes --bank "0 deg" --bank "45 deg" --figure roots.svg
    """
    from sim.scenario.reading import load
    from sim.studies.modes import study

    answer = study(load(scenario, settings), banks_deg=degrees(banks_rad) or (0.0,), **options)
    picture(figure, "roots", answer, force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: ModesAnswer, units: Units) -> Iterator[Block]:
    """Print the modes of each flight, and what grades them."""
    for flight in answer.flights:
        bank = f"at {abs(flight.bank_deg):g}° {SIDE[flight.bank_deg < 0.0]}" if flight.bank_deg else "straight"
        speed = shown.amount("speed_m_s", answer.speed_m_s, units)
        yield table(f"{flight.powerplant}: {bank}, {speed}, roots in 1/s", MODE_HEADS, mode_rows(flight.modes))
    yield wrapped(f"Levels by {answer.graded_by}; coupled: share of the other group's motions.") + f"\n{ESTIMATE}"
