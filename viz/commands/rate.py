"""``whirlgate rate``: rounds a minute against propeller speed."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import HISTORY, check_rate, flat, timing_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import picture, say
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rate import RatePoint, Staircase
    from viz.sheets.table import Block

MOST_LINES = 24
"""Of a table that a person reads."""


@click.command(cls=Command, check=check_rate)
@timing_options
@click.option(
    "--longest",
    type=amount("1", least=1.0, most=400.0),
    default="12",
    show_default=True,
    help="Longest pattern, rounds.",
)
@click.option(
    "--cycle-scatter-ms",
    "cycle_sd_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    help="Of the gun's cycle, for a second curve; ms if bare.",
)
@click.option("--map", "over_rates", is_flag=True, help="Over the gun's own rate as well.")
@json_out
@figure_out
def command(*, as_json: bool, figure: str | None, force: bool, longest: float, **options: Any) -> None:  # noqa: ANN401
    """Draw the staircase of the rate of fire and list the plateaus on which rounds and blades are locked.

    Edges are exact, not scanned.

    Example: whirlgate rate --rpm 900:1500:10 --blades 2 --blocked-deg 32 --gun-rate 500 --figure staircase.svg
    """
    from sim.studies.rate import asked_rate

    answer = asked_rate(most_rounds=int(longest), **flat(options))
    picture(figure, "rate", answer, force=force)
    say(answer, chain.from_iterable(map(sheet, answer.staircases)), as_json=as_json)


def sheet(staircase: Staircase) -> Iterator[Block]:
    """Print the widest plateaus, a line each; of a single speed its rate."""
    own = f"The gun alone fires {staircase.gun_rounds_per_min:g} a minute."
    title = "Locked rates of fire" + (f": {staircase.powerplant}" if staircase.powerplant else "")
    if len({row.rpm for row in staircase.rows}) == 1:
        yield f"{title}\n\n{_at_one_speed(staircase.rows[0])}\n{own}\n{HISTORY}\n"
        return
    every = staircase.plateaus
    widest = sorted(every, key=lambda step: step.from_rpm - step.to_rpm)[:MOST_LINES]
    rows = [
        [
            f"{step.rounds_per_pattern} : {step.intervals_per_pattern}",
            f"{step.from_rpm:.2f}",
            f"{step.to_rpm:.2f}",
            f"{step.from_rounds_per_min:.1f} to {step.to_rounds_per_min:.1f}",
        ]
        for step in sorted(widest, key=lambda step: step.from_rpm)
    ]
    who = "These patterns"
    if len(every) > MOST_LINES:
        who = f"All {len(every)} plateaus, of which these are the {MOST_LINES} widest and --json lists the rest,"
    cover = f"{who} cover {100.0 * staircase.covered_share:.1f} % of the range; longer ones fill the rest."
    heads = ["rounds : blades", "from rpm", "to rpm", "rounds/min"]
    yield table(title, heads, rows, f"{own} {cover}\n{HISTORY}")


def _at_one_speed(row: RatePoint) -> str:
    pattern = f", {row.rounds_per_pattern} in {row.intervals_per_pattern} blades" if row.rounds_per_pattern else ""
    return f"At {row.rpm:g} rpm: {row.rounds_per_min:.1f} rounds a minute{pattern}."
