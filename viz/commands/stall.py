"""``whirlgate stall``: stalls with each powerplant, idle to full power, straight and in turns; autorotation."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import altitude_option, bands_options
from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.written import Written

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.sheets.format import Units


def _shown(asked: Iterable[Any]) -> Iterator[Any]:
    """Show a bar while the stalls are flown with one powerplant, or many airplanes at once for its bands."""
    from viz.commands.progress import bar

    counted = list(asked)
    return bar(counted, len(counted), "stalls")


@click.command(cls=Command)
@scenario_in
@click.option(
    "--bank",
    "banks_deg",
    metavar="ANGLE",
    multiple=True,
    type=amount("deg", least=-60.0, most=60.0, example="30 deg"),
    help="Bank held into the stall, left negative, as in '-30 deg'; repeatable.  [default: 0, 30 and -30 deg]",
)
@click.option(
    "--reaction",
    "reaction_s",
    metavar="TIME",
    type=amount("s", least=0.0, most=10.0, example="1 s"),
    default="1 s",
    show_default=True,
    help="From the stall to the first movement of the pilot.",
)
@click.option(
    "--pull",
    "pull_s",
    metavar="TIME",
    type=amount("s", least=10.0, most=120.0, example="60 s"),
    default="25 s",
    show_default=True,
    help="From trim until the stick is at its stop: the longer, the slower the entry.",
)
@altitude_option
@click.option("--csv", type=Written(".csv"), metavar="FILE.csv", help="Write the time histories, in SI units.")
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
    banks_deg: tuple[float, ...],
    csv: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Stall the airplane with each powerplant: speed, first panel to let go, roll before the pilot reacts, height lost.

    Idle, cruise and full power, straight and in turns; then the angles of attack at which it autorotates.

    Flies some twenty stalls in time, which takes ten to twenty seconds; --bands flies each with 64 airplanes more, a
    minute or so. It compares engines; it certifies nothing.

    Example: whirlgate stall --bank '0 deg' --pull '60 s' --figure stall.svg --csv stall.csv
    """
    from sim.model.model import model
    from sim.studies.stall import BANKS_DEG, stall
    from viz.sheets.stall import sheet

    answer = stall(model(scenario, settings), banks_deg=banks_deg or BANKS_DEG, progress=_shown, **options)
    if csv:
        from viz.files.atomic import write_whole
        from viz.files.histories import stall_table

        write_whole(csv, stall_table(answer), force=force)
    picture(figure, "stall", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
