"""``whirlgate cooling``: why guns were kept warm."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import HISTORY
from viz.commands.options import Command, amount, figure_out, json_out, scenario_in
from viz.commands.output import picture, say
from viz.sheets import format as shown
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.cooling import Cooling, WarmthAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block

BAND = "Oil stiff after a time, in brackets from and to: the film's correlation may be off by a fifth either way."


@click.command(cls=Command)
@scenario_in
@click.option("--altitude", "altitude_m", type=amount("m", least=-1000.0, most=11000.0), help="Above sea level.")
@click.option("--speed", "speed_m_s", type=amount("m/s", above=0.0, most=340.0), help="True airspeed.")
@click.option(
    "--duration", "duration_s", type=amount("s", above=0.0, most=86400.0), default="60 min", show_default=True
)
@json_out
@figure_out
@click.pass_obj
def command(units: Units, *, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Cool a gun's receiver in the airstream: bare or cowled, silent or firing; when its oil stiffens.

    For education only.

    Example: whirlgate cooling --altitude "18000 ft" --speed "85 mph" --figure warmth.svg
    """
    from sim.studies.cooling import asked_warmth

    answer = asked_warmth(**options)
    picture(figure, "cooling", answer, units, force=force)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: WarmthAnswer, units: Units) -> Iterator[Block]:
    """Print a line a case."""
    place = (
        f"{shown.amount('altitude_m', answer.altitude_m, units)}, {shown.amount('speed_m_s', answer.speed_m_s, units)}"
    )
    outside = f"air {degrees(answer.air_k, units)}, oil stiff at {degrees(answer.oil_stiff_k, units)}"
    heads = ["receiver", "at the end", "settles", "oil stiff", "clearance lost"]
    rows = [line(case, units) for case in answer.cases]
    notes = f"Brass closing on steel as it cools; education only.\n{BAND}\n{HISTORY}"
    yield table(f"Cooling for {answer.time_s[-1] / 60.0:.0f} min at {place}; {outside}", heads, rows, notes)


def line(case: Cooling, units: Units) -> list[str]:
    """Return one case as a line."""
    return [
        case.name,
        degrees(case.temperature_k[-1], units),
        degrees(case.settled_k, units),
        stiff(case),
        f"{case.clearance_lost_mm:.3f} mm" if units == "si" else f"{case.clearance_lost_mm / 25.4:.5f} in",
    ]


def stiff(case: Cooling) -> str:
    """Say when the oil stiffens, with the band."""
    if case.stiff_earliest_s is None:
        return "stays fluid"
    ends = [case.stiff_earliest_s, case.stiff_latest_s]
    first, last = ("later" if end is None else f"{end / 60.0:.0f}" for end in ends)
    likely = "later" if case.stiff_after_s is None else f"{case.stiff_after_s / 60.0:.0f} min"
    return f"{likely} ({first}–{last})"


def degrees(temperature_k: float, units: Units) -> str:
    """Return a temperature as people read one."""
    celsius = temperature_k - 273.15
    return f"{celsius:.0f} °C" if units == "si" else f"{celsius * 1.8 + 32.0:.0f} °F"
