"""``whirlgate maneuver``: the same manoeuvre flown with each powerplant, to both sides."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import bands_options, flight_options
from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import deliver, picture
from viz.commands.written import Written

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.sheets.format import Units


def _shown(parts: Iterable[int]) -> Iterator[int]:
    """Show a bar while the airplanes drawn fly with one powerplant."""
    from viz.commands.progress import bar

    counted = list(parts)
    return bar(counted, len(counted), "airplanes drawn")


@click.command(cls=Command)
@click.argument("name")
@scenario_in
@flight_options
@click.option(
    "--bank",
    "bank_deg",
    metavar="ANGLE",
    type=amount("deg", above=0.0, most=80.0, example="45 deg"),
    help="Target bank angle of turn and reversal; bank from which spin-entry begins, an accelerated stall.  "
    "[default: 45 deg; spin-entry from straight flight]",
)
@click.option(
    "--share",
    metavar="NUMBER",
    type=amount("1", above=0.0, most=1.0),
    help="Deflection from trim as a fraction of travel; rudder-kick, pull, roll-in, and of the ailerons in spin-entry. "
    " [default: 0.3 for pull, "
    "0.5 for the others]",
)
@click.option(
    "--held",
    "held_s",
    metavar="TIME",
    type=amount("s", above=0.0, most=60.0, example="1 s"),
    help="Duration of the deflection or, in blip, of the ignition cut.  [default: 1 s; 4 s for spin-entry]",
)
@click.option(
    "--for",
    "flown_s",
    metavar="TIME",
    type=amount("s", least=2.0, most=300.0, example="10 s"),
    help="Time simulated.  [default: 8 to 25 s, by manoeuvre]",
)
@click.option("--csv", type=Written(".csv"), metavar="FILE.csv", help="Write the time histories, in SI units.")
@json_out
@figure_out
@bands_options
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    name: str,
    scenario: str,
    settings: tuple[str, ...],
    csv: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Fly one manoeuvre with each powerplant and list the largest changes of attitude, height and controls.

    NAME is rudder-kick, pull or roll-in (one control moved, the others fixed), turn or reversal (flown by a simple
    pilot model that holds altitude and centres the ball), blip (ignition cut and restored), slam (from idle to full
    throttle), take-off (from standstill, the tail raised, to the climb) or spin-entry (near the stall: stick back and
    controls crossed, hands off, recovery).

    How far each number may be off: --bands, which flies 256 airplanes more with each powerplant and takes some seconds.

    Example: whirlgate maneuver reversal --bank '45 deg' --bands --figure reversal.svg --csv reversal.csv
    """
    from sim.model.model import model
    from sim.studies.maneuver import maneuver
    from viz.sheets.maneuver import sheet

    answer = maneuver(model(scenario, settings), name, progress=_shown, **options)
    if csv:
        from viz.files.atomic import write_whole
        from viz.files.histories import maneuver_table

        write_whole(csv, maneuver_table(answer), force=force)
    picture(figure, "maneuver", answer, units, force=force)
    deliver(answer, sheet(answer), units, as_json=as_json)
