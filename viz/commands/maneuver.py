"""``whirlgate maneuver``: the same manoeuvre flown with each engine, to both sides."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import flight_options
from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.maneuver import Flight, Flown
    from viz.sheets.format import Units
    from viz.sheets.table import Block


@click.command(cls=Command)
@click.argument("name")
@scenario_in
@flight_options
@click.option(
    "--bank",
    "bank_rad",
    type=amount("rad", above=0.0, most=math.radians(80.0)),
    default="45 deg",
    show_default=True,
    help="That a pilot rolls to, in turn and reversal.",
)
@click.option("--share", type=amount("1", above=0.0, most=1.0), help="Of the travel, of the control that is moved.")
@click.option("--held", "held_s", type=amount("s", above=0.0, most=60.0), help="How long it is held, or ignition cut.")
@click.option("--for", "flown_s", type=amount("s", least=2.0, most=300.0), help="How long the flight is watched.")
@click.option("--csv", type=click.Path(dir_okay=False), metavar="FILE", help="Write the histories into FILE.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    *,
    name: str,
    scenario: str,
    settings: tuple[str, ...],
    bank_rad: float,
    csv: str | None,
    as_json: bool,
    figure: str | None,
    force: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Fly one manoeuvre with each engine and say what the nose, the height and the controls did.

    NAME is rudder-kick, pull, roll-in (controls frozen but one), turn, reversal (flown by a simple pilot who holds
    height and ball), blip (ignition cut and back) or slam (idle to full throttle).

    Example: whirlgate maneuver reversal --bank "45 deg" --figure reversal.svg --csv reversal.csv
    """
    from sim.scenario.reading import load
    from sim.studies.maneuver import study
    from viz.commands.flight_options import degrees

    flown = study(load(scenario, settings), name, bank_deg=degrees((bank_rad,))[0], **options)
    if csv:
        from viz.files.atomic import write_whole

        write_whole(csv, table_of(flown), force=force)
    picture(figure, "maneuver", flown, units, force=force)
    say(flown.answer, sheet(flown, units), as_json=as_json)


def table_of(flown: Flown) -> str:
    """Return the histories as CSV: a row a moment, SI, the unit of each column in its head."""
    import csv
    import io

    from sim.units.quantities import quantity

    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    names = list(flown.histories[0])
    writer.writerow(["powerplant", "side", *(f"{name} [{quantity(name).unit or '1'}]" for name in names)])
    for flight, columns in zip(flown.answer.flights, flown.histories, strict=True):
        rows = zip(*(columns[name].tolist() for name in names), strict=True)
        writer.writerows([flight.powerplant, flight.side, *(f"{value + 0.0:.9g}" for value in row)] for row in rows)
    return text.getvalue()


def sheet(flown: Flown, units: Units) -> Iterator[Block]:
    """Print what each flight came to, a column a flight."""
    answer = flown.answer
    columns = [list(_lines(flight, units)) for flight in answer.flights]
    rows = [[label, *(column[i][1] for column in columns)] for i, (label, _) in enumerate(columns[0])]
    speed = shown.amount("speed_m_s", answer.speed_m_s, units)
    heads = ["Change", *(f"{flight.powerplant} {flight.side}".strip() for flight in answer.flights)]
    yield table(f"{answer.maneuver} at {speed}: {answer.meaning}", heads, rows)
    for flight in answer.flights:
        if flight.limits:
            yield f"{flight.powerplant} {flight.side}: {'; '.join(flight.limits)}.".replace(" :", ":")
    yield ESTIMATE


def _lines(flight: Flight, units: Units) -> Iterator[tuple[str, str]]:
    for label, name in (
        ("nose up", "nose_up_deg"),
        ("nose down", "nose_down_deg"),
        ("nose right", "nose_right_deg"),
        ("nose left", "nose_left_deg"),
        ("bank right", "bank_right_deg"),
        ("bank left", "bank_left_deg"),
        ("height lost", "height_lost_m"),
        ("height gained", "height_gained_m"),
        ("most sideslip", "peak_sideslip_deg"),
    ):
        unit, factor = shown.shown(name, units)
        yield label, f"{factor * getattr(flight, name):.1f}{'' if unit == '°' else ' '}{unit}"
    turned = flight.time_to_90_s
    yield "turned 90° in", "not reached" if turned is None else shown.amount("time_s", turned, units)
    yield "load factor, farthest from 1", shown.significant(flight.peak_load_factor)
    for control in ("elevator", "aileron", "rudder"):
        yield f"most {control}", f"{getattr(flight, f'peak_{control}_share'):.0%}"
