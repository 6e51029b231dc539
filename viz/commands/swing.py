"""``whirlgate swing``: polar inertia from a swinging test."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from viz.commands.options import Command, Word, amount, json_out
from viz.commands.output import deliver
from viz.commands.written import Named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from sim.studies.swing import SwingAnswer
    from viz.sheets.format import Units

EXAMPLES = {"times_s": ", as in --time 52.4s --time 52.6s", "swings": ", as in --swings 20"}
"""Parameter -> how a command line gives one that is missing."""
PAIRS = (("write", "key"), ("key", "write"), ("span_m", "chord_m"), ("chord_m", "span_m"))
"""Options of which neither stands alone."""


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield which readings the method lacks or has no use for, and a half-given place to write to."""
    from dataclasses import replace

    from sim.errors import Fault
    from sim.studies.swing import PARAMETERS, body_faults, reading_faults

    readings = {name: options[option] for name, option in PARAMETERS.items() if options[option] is not None}
    counts = {name: options[name] for name in ("swings", "planes")}
    for fault in reading_faults(options["method"], readings, options["times_s"], counts):
        missing = fault.what.startswith("is missing")
        yield replace(fault, what=fault.what + EXAMPLES.get(fault.where, "")) if missing else fault
    wings = {name: options[name] for name in ("span_m", "chord_m", "planes")}
    yield from body_faults(options["body"], options["axis"], wings)
    for name, other in PAIRS:
        if options[name] is not None and options[other] is None:
            yield Fault(other, f"is missing; `{name}` needs it")


def reading(unit: str, **limits: float) -> Any:  # noqa: ANN401
    """Return the type of a reading, which may have a tolerance."""
    return amount(unit, toleranced=True, **limits)


@click.command(cls=Command, check=check)
@click.option(
    "--method",
    type=Word(["bifilar", "trifilar", "compound"]),
    default="bifilar",
    show_default=True,
    help="Two wires, three wires, or a compound pendulum.",
)
@click.option("--mass", "mass_kg", type=reading("kg", above=0.0), metavar="MASS", help="Mass of the body.")
@click.option(
    "--radius",
    "radius_m",
    type=reading("m", above=0.0),
    metavar="LENGTH",
    help="Distance of each wire from the vertical axis of swing; bifilar and trifilar.",
)
@click.option(
    "--length",
    "length_m",
    type=reading("m", above=0.0),
    metavar="LENGTH",
    help="Length of the wires; bifilar and trifilar.",
)
@click.option(
    "--arm",
    "arm_m",
    type=reading("m", above=0.0),
    metavar="LENGTH",
    help="Distance from the pivot to the mass centre; compound.",
)
@click.option(
    "--carrier-mass",
    "carrier_mass_kg",
    type=reading("kg", least=0.0),
    metavar="MASS",
    help="Mass of the empty carrier; bifilar and trifilar. [default: 0]",
)
@click.option(
    "--carrier-inertia",
    "carrier_inertia_kg_m2",
    type=reading("kg m^2", least=0.0),
    metavar="INERTIA",
    help="Polar inertia of the empty carrier; bifilar and trifilar. [default: 0]",
)
@click.option(
    "--time",
    "times_s",
    multiple=True,
    type=reading("s", above=0.0),
    metavar="TIME",
    help="One timing; repeatable; a single one needs a tolerance.",
)
@click.option(
    "--swings", type=amount("1", least=1.0), metavar="COUNT", help="Number of full oscillations in each timing."
)
@click.option(
    "--amplitude",
    "amplitude_deg",
    type=amount("deg", least=0.0, most=math.degrees(0.6)),
    default="0 °",
    show_default=True,
    metavar="ANGLE",
    help="Largest angle from rest, to one side.",
)
@click.option(
    "--body",
    type=Word(["propeller", "engine", "airplane"]),
    default="propeller",
    show_default=True,
    help="What was swung.",
)
@click.option(
    "--axis",
    type=Word(["roll", "pitch", "yaw"]),
    help="Axis of an airplane that was swung.  [default: roll]",
)
@click.option(
    "--span",
    "span_m",
    type=amount("m", above=0.0),
    metavar="LENGTH",
    help="Wing span of an airplane, to estimate the added inertia of the air in roll; needs --chord.",
)
@click.option("--chord", "chord_m", type=amount("m", above=0.0), metavar="LENGTH", help="Wing chord; needs --span.")
@click.option(
    "--planes",
    type=amount("1", least=1.0),
    metavar="COUNT",
    help="Number of wings, 2 for a biplane; with --span.  [default: 2]",
)
@click.option(
    "--write",
    type=Named(dir_okay=False),
    metavar="SCENARIO.toml",
    help="Set the inertia and its standard error in this existing scenario; needs --key.",
)
@click.option(
    "--key", metavar="TABLE.KEY", help="Key to set, as in powerplant.rotary.propeller.polar_inertia; needs --write."
)
@json_out
@click.pass_obj
def command(units: Units, /, *, as_json: bool, write: str | None, key: str | None, **options: Any) -> None:  # noqa: ANN401
    """Moment of inertia of a body from a swinging test: on two wires, on three wires, or as a compound pendulum.

    Readings take a tolerance, one standard deviation: "24.0 lb ± 0.1 lb".

    Example: whirlgate swing --mass "24 lb ± 0.1 lb" --radius "6 in ± 1/16 in" --length "8 ft ± 1/4 in" --swings 10
    --time "47.3 s" --time "47.6 s" --time "47.4 s"
    """
    from sim.studies.swing import swing
    from viz.sheets.swing import sheet

    answer = swing(**options)
    text = _written(answer, units, write, key) if write and key else ""
    deliver(answer, sheet(answer, written=bool(text)), units, as_json=as_json)
    if text and not as_json:
        click.echo(f"Written to {write}: {key} = {text}.")


def _written(answer: SwingAnswer, units: Units, file: str, key: str) -> str:
    """Write the inertia into a scenario and return it as it stands there."""
    from sim.units.text import written
    from viz.files.scenario_keys import write_keys

    text = written("kg m^2", answer.polar_inertia_kg_m2, answer.standard_error_kg_m2, system=units)
    write_keys(file, {key: text})
    return text
