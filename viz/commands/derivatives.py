"""``whirlgate derivatives``: every aerodynamic derivative, where it comes from and how far to trust it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.flight_options import flight_options
from viz.commands.options import Command, json_out, scenario_in
from viz.commands.output import say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.derivatives import DerivativesAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block


@click.command(cls=Command)
@scenario_in
@click.option("--powerplant", metavar="NAME", help="Whose propeller runs; the first of the scenario if not given.")
@flight_options
@json_out
@click.pass_obj
def command(units: Units, *, scenario: str, settings: tuple[str, ...], as_json: bool, **options: Any) -> None:  # noqa: ANN401
    """List every aerodynamic derivative with its value, its origin and its error band.

    Estimates come from the scenario's geometry; a value in its table derivatives takes the place of its estimate.

    Example: whirlgate derivatives --set derivatives.yaw_beta=0.03
    """
    from sim.scenario.reading import load
    from sim.studies.derivatives import study

    answer = study(load(scenario, settings), **options)
    say(answer, sheet(answer, units), as_json=as_json)


def sheet(answer: DerivativesAnswer, units: Units) -> Iterator[Block]:
    """Print the derivatives, a line each."""
    from sim.units.quantities import quantity

    rows = [
        [
            f"{name}  {quantity(name).symbol}",
            f"{found.value:.4f}",
            f"± {found.band:.4f}" if found.band else "",
            "estimated from geometry" if found.origin == "estimated" else "given",
        ]
        for name, found in answer.derivatives.items()
    ]
    area, span, chord = (shown.amount(name, getattr(answer, name), units) for name in ("area_m2", "span_m", "chord_m"))
    speed = shown.amount("speed_m_s", answer.speed_m_s, units)
    note = (
        f"Referred to {area}, span {span}, chord {chord}. Equivalent monoplane: aspect ratio {answer.aspect:.2f}, "
        f"span factor {answer.span_factor:.3f}. Per radian, rates as q c/2V, p b/2V, r b/2V; at {speed} with the "
        f"propeller of the {answer.powerplant}. The band is one standard deviation of the estimate."
    )
    yield table("Aerodynamic derivatives", ["Derivative", "Value", "Band", "Origin"], rows, note)
    yield ESTIMATE
