"""``whirlgate field``: take-off and landing runs, swing, glide and stance with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import altitude_option, bands_options
from viz.commands.options import Command, Word, amount, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@scenario_in
@click.option(
    "--surface",
    type=Word(["concrete", "short grass", "long grass", "soft ground"]),
    default="short grass",
    show_default=True,
    help="Ground of the field.",
)
@click.option(
    "--headwind",
    "headwind_m_s",
    metavar="SPEED",
    type=amount("m/s", least=0.0, most=15.0, example="8 mph"),
    default="0 m/s",
    help="Wind along the field, against the run, as in '8 mph'.  [default: none]",
)
@click.option(
    "--raising",
    "raising_s",
    metavar="TIME",
    type=amount("s", least=0.3, most=20.0, example="1.5 s"),
    default="2 s",
    show_default=True,
    help="Time in which the pilot brings the tail up.",
)
@click.option(
    "--blip-on",
    "blip_on_s",
    metavar="TIME",
    type=amount("s", least=0.1, most=10.0, example="0.5 s"),
    default="0.5 s",
    show_default=True,
    help="Of a rotary kept running on the landing run: time with the ignition on.",
)
@click.option(
    "--blip-every",
    "blip_every_s",
    metavar="TIME",
    type=amount("s", least=0.2, most=20.0, example="3 s"),
    default="3 s",
    show_default=True,
    help="From one such time to the next.",
)
@altitude_option
@json_out
@figure_out
@bands_options
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Take-off and landing of a tail-wheel airplane: runs, rudder as the tail comes up, wind across, glide, stance.

    The swing as the tail comes up is that of the engine which turns with its propeller beside a fixed one, and takes
    from the wind across the run that the rudder holds. How far each number may be off: --bands.

    Example: whirlgate field --surface 'long grass' --headwind '8 mph' --bands --figure run.svg
    """
    from sim.model.model import model
    from sim.studies.field import field
    from viz.sheets.field import sheet

    answer = field(model(scenario, settings), **options)
    picture(figure, "field", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
