"""``whirlgate rate``: rounds per minute against propeller speed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import asked, check_rate, ideal_option, timing_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.errors import Fault
    from viz.sheets.format import Units


def check(**options: Any) -> Iterator[Fault]:  # noqa: ANN401
    """Yield the faults of the options, and those of what is to be drawn of them."""
    from sim.errors import Fault

    yield from check_rate(**options)
    if options["over_rates"] and not (options["figure"] or options["as_json"]):
        yield Fault("over_rates", "is drawn or listed, not printed; give --figure FILE or --json as well")


@click.command(cls=Command, check=check)
@timing_options
@ideal_option()
@click.option(
    "--longest",
    type=amount("1", least=1.0, most=400.0, example="12"),
    default="12",
    show_default=True,
    metavar="COUNT",
    help="Most rounds in a repeating pattern.",
)
@click.option(
    "--cycle-scatter-ms",
    "cycle_sd_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    metavar="MS",
    help="Standard deviation of the gun's cycle, for a second curve. [default: that of the scenario, or 0]",
)
@click.option(
    "--map",
    "over_rates",
    is_flag=True,
    help="With --figure or --json: map the rate of fire over the rate of the unsynchronized gun as well.",
)
@click.option("--all", "every", is_flag=True, help="List every plateau, not only the widest.")
@json_out
@figure_out
@click.pass_obj
def command(
    units: Units,
    /,
    *,
    as_json: bool,
    figure: str | None,
    force: bool,
    every: bool,
    **options: Any,  # noqa: ANN401
) -> None:
    """Rate of fire against propeller speed, and the plateaus on which the ratio of rounds to blade intervals is fixed.

    For each powerplant of a scenario from idle to full speed, or for a gun line given by options alone: --rpm,
    --blades, --blocked-deg and --gun-rate. The ends of the plateaus are exact; the step of --rpm sets only the
    points of the curve with scatter.

    Example: whirlgate rate --gun-rate 500 --rpm 900:1500:10 --blades 2 --blocked-deg 32 --figure staircase.svg
    """
    from sim.studies.rate import rate
    from viz.sheets.rate import sheet

    model, given = asked(options)
    answer = rate(model, **given)
    picture(figure, "rate", answer, units, force=force)
    deliver(answer, sheet(answer, every=every), units, as_json=as_json)
