"""``whirlgate safe-range``: the speeds at which every round of a fixed cam passes clear."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import alone, asked, check, timing_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import deliver, picture

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.errors import Fault
    from viz.sheets.format import Units


def check_cam(**options: Any) -> Iterable[Fault]:  # noqa: ANN401
    """Yield the faults of the options taken together."""
    from sim.errors import Fault
    from sim.studies.safe_range import NO_DWELL

    yield from check(**options)
    if alone(options) and options["dwell_deg"] is None and options["action"] != "impulse":
        yield Fault("dwell_deg", NO_DWELL)


@click.command(cls=Command, check=check_cam)
@timing_options
@click.option(
    "--scatter-ms",
    "scatter_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    metavar="MS",
    help="Standard deviation of the whole delay. [default: stage by stage from the scenario, or 0]",
)
@click.option(
    "--sigmas",
    type=amount("1", least=0.0, most=6.0),
    default="3",
    show_default=True,
    metavar="COUNT",
    help="Limit of the scatter in standard deviations.",
)
@click.option(
    "--all",
    "every",
    is_flag=True,
    help="Add lead and clearance at each speed, the stages of the delay, and what moves the limits.",
)
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
    """Safe speed range of a fixed cam, the best propeller angle for it to open, and the sensitivity of the range.

    The cam is made for the first powerplant of a scenario, over its whole range of speeds or those given, and checked
    with every powerplant; or for a gun line given by options alone: --rpm, --blades, --blocked-deg and --dwell-deg.

    Example: whirlgate safe-range --rpm 900 --rpm 1350 --blades 2 --blocked-deg 30 --delay-ms 8 --dwell-deg 70
    --scatter-ms 0.3
    """
    from sim.studies.safe_range import safe_range
    from viz.sheets.safe_range import sheet

    model, given = asked(options)
    answer = safe_range(model, **given)
    picture(figure, "safe_range", answer, units, force=force)
    deliver(answer, sheet(answer, every=every), units, as_json=as_json)
