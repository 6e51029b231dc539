"""``whirlgate handling``: steady turns to the left and to the right, and modes, with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import asks_about_turns, bands_options
from viz.commands.options import Command
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.model import Model
    from sim.studies.handling_answer import Handling
    from viz.sheets.blocks import Block
    from viz.sheets.format import Units


@click.command(cls=Command)
@asks_about_turns("every 15 deg from -60 to 60 deg")
@bands_options
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    banks_deg: tuple[float, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Find control positions, forces and limits in steady turns, and the modes, with each powerplant.

    Every turn is flown with the ball centred. Control positions are in percent of the travel from neutral; forces are
    those that the pilot holds at stick and pedals, in turns and in straight flight.

    How far each number may be off: --bands.

    Example: whirlgate handling --speed '70 mph' --bank '-45 deg' --bank '45 deg' --bands --figure handling.svg
    """
    from sim.model.model import model
    from sim.studies.handling import BANKS_DEG, SWEEP_DEG, handling

    asked = model(scenario, settings)
    answer = handling(asked, banks_deg=banks_deg or BANKS_DEG, **options)
    if figure:
        picture(figure, "handling", handling(asked, banks_deg=SWEEP_DEG, **options), units, force=force)
    deliver(answer, _sheets(answer, asked, options, banks_deg), units, as_json=as_json)


def _sheets(answer: Handling, asked: Model, options: dict[str, Any], banks_deg: tuple[float, ...]) -> Iterator[Block]:
    """Yield turns and modes, then the rotor's effect in level flight."""
    from sim.errors import NoAnswerError
    from sim.studies.rotor_effect import rotor_effect
    from viz.sheets import handling
    from viz.sheets import rotor_effect as effect
    from viz.sheets.blocks import Run, next_steps, say

    yield from handling.sheet(answer, options["category"])
    found = None
    try:
        found = rotor_effect(asked, **{name: options[name] for name in options if name != "power"})
        yield from effect.sheet(found)
    except NoAnswerError as error:
        yield say("{why}", why=str(error))
    yield next_steps(
        effect.modes_of_a_turn(found, bank_is_given=bool(banks_deg)),
        say("a turn in time, with {run}", run=Run("maneuver turn")),
        say("all of it on paper, with {run}", run=Run("report", "--out report.html")),
    )
