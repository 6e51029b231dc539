"""``whirlgate modes``: modes of small disturbances with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import asks_about_turns, bands_options
from viz.commands.options import Command
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@asks_about_turns("0 deg, straight flight")
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
    """Find the modes of small disturbances with each powerplant, in straight flight or in steady turns.

    A mode is named by the motions that take part in it. Its coupling is the part that lateral motions have in a
    longitudinal mode, and longitudinal motions in a lateral one.

    How far each number may be off, and in what share of airplanes a mode grows: --bands.

    Example: whirlgate modes --bank '0 deg' --bank '45 deg' --bands --figure roots.svg
    """
    from sim.model.model import model
    from sim.studies.modes import modes
    from viz.sheets.modes import sheet

    answer = modes(model(scenario, settings), banks_deg=banks_deg or (0.0,), **options)
    picture(figure, "modes", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
