"""``whirlgate swing``: polar inertia from a swinging test."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, amount, json_out
from viz.commands.output import say
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.errors import Fault
    from sim.studies.swing import SwingAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block

READINGS = ("mass", "radius", "length", "arm", "carrier_mass", "carrier_inertia")


def check(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Return which readings the method lacks or has no use for, and a half-given place to write to."""
    from sim.errors import Fault
    from sim.studies.swing import reading_faults

    readings = {name: options[name] for name in READINGS}
    counts = {name: options[name] for name in ("swings", "planes")}
    yield from reading_faults(options["method"], readings, options["times"], counts)
    for name, other in (("write", "key"), ("key", "write"), ("span", "chord"), ("chord", "span")):
        if options[name] is not None and options[other] is None:
            yield Fault(f"--{other}", f"is missing; --{name} needs it")


@click.command(cls=Command, check=check)
@click.option("--method", type=Word(["bifilar", "trifilar", "compound"]), default="bifilar", show_default=True)
@click.option("--mass", type=amount("kg", above=0.0, toleranced=True), help="Of the body.")
@click.option("--radius", type=amount("m", above=0.0, toleranced=True), help="Wires from the upright axis.")
@click.option("--length", type=amount("m", above=0.0, toleranced=True), help="Of the wires.")
@click.option("--arm", type=amount("m", above=0.0, toleranced=True), help="Compound: pivot to mass centre.")
@click.option("--carrier-mass", type=amount("kg", least=0.0, toleranced=True), help="Of what holds the body.")
@click.option("--carrier-inertia", type=amount("kg m^2", least=0.0, toleranced=True), help="Of it, swung empty.")
@click.option("--time", "times", multiple=True, type=amount("s", above=0.0, toleranced=True), help="A timing; repeat.")
@click.option("--swings", type=amount("1", least=1.0), help="Swings to and fro in each timing.")
@click.option("--amplitude", type=amount("rad", least=0.0, most=0.6), default="0 °", help="To one side.")
@click.option("--body", type=Word(["propeller", "engine", "airplane"]), default="propeller", show_default=True)
@click.option("--axis", type=Word(["roll", "pitch", "yaw"]), default="roll", help="An airplane's.")
@click.option("--span", type=amount("m", above=0.0), help="An airplane's, for the air its wings carry.")
@click.option("--chord", type=amount("m", above=0.0), help="With --span.")
@click.option(
    "--planes", type=amount("1", least=1.0), default="2", show_default=True, help="Wings one above the other."
)
@click.option("--write", type=click.Path(dir_okay=False), metavar="SCENARIO.toml", help="Set --key in this scenario.")
@click.option("--key", metavar="TABLE.KEY", help="As in powerplant.rotary.propeller.polar_inertia.")
@json_out
@click.pass_obj
def command(units: Units, *, as_json: bool, write: str | None, key: str | None, **options: Any) -> None:  # noqa: ANN401
    """Find a polar inertia by swinging: on two or three wires, or about a pivot.

    Readings take a tolerance, one standard deviation: "24.0 lb ± 0.1 lb".

    Example: whirlgate swing --mass "24 lb ± 0.1 lb" --radius "6 in ± 1/16 in" --length "8 ft ± 1/4 in" --swings 10
    --time "47.3 s" --time "47.6 s" --time "47.4 s"
    """
    from sim.studies.swing import swing_test

    span_m, chord_m = options.pop("span"), options.pop("chord")
    answer = swing_test(
        options.pop("method"),
        {name: options.pop(name) for name in READINGS},
        amplitude_rad=options.pop("amplitude"),
        wing=(span_m, chord_m) if span_m else None,
        **options,
    )
    written_to = ""
    if write and key:
        from sim.units.text import written
        from viz.files.scenario_keys import write_keys

        value, error = answer.polar_inertia_kg_m2, answer.standard_error_kg_m2
        text = written("kg m^2", value, error, system=units)
        write_keys(write, {key: text})
        written_to = f"Written to {write}: {key} = {text}."
    say(answer, sheet(answer, units), as_json=as_json)
    if written_to and not as_json:
        click.echo(written_to)


def sheet(answer: SwingAnswer, units: Units) -> Iterator[Block]:
    """Print the inertia with its error and what the reader must know."""
    unit, factor = shown.shown("polar_inertia_kg_m2", units)
    low, high = (shown.significant(value * factor, 4) for value in (answer.low_kg_m2, answer.high_kg_m2))
    error = shown.significant(answer.standard_error_kg_m2 * factor, 2)
    rows = [
        ("polar inertia", f"{shown.significant(answer.polar_inertia_kg_m2 * factor, 4)} ± {error} {unit}"),
        ("95 of 100 such tests hold it", f"{low} to {high} {unit}"),
        ("radius of gyration", shown.amount("gyration_radius_m", answer.gyration_radius_m, units)),
        ("period", f"{answer.period_s:.4g} s"),
        ("largest error", answer.largest_error),
    ]
    yield table("Swinging test", ["Quantity", "Value"], rows, "\n".join((*answer.notes, ESTIMATE)))
