"""``whirlgate safe-range``: the speeds at which a cam, cut once, lets every round pass clear."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import HISTORY, check, flat, timing_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import picture, say
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.safe_range_answer import CamBand, PropellerBand, SafeBand, StageRow
    from viz.sheets.table import Block

TURN_RAD = 2.0 * math.pi


@click.command(cls=Command, check=check)
@timing_options
@click.option(
    "--dwell-deg",
    "dwell_rad",
    type=amount("rad", least=0.0, most=TURN_RAD, bare="deg"),
    help="Turn of the propeller for which the cam lets go; degrees if bare.",
)
@click.option(
    "--opens-deg",
    "opens_rad",
    type=amount("rad", least=-TURN_RAD, most=TURN_RAD, bare="deg"),
    help="Propeller angle at which it opens; degrees if bare; the best if left out.",
)
@click.option(
    "--scatter-ms",
    "scatter_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    help="Standard deviation of the whole delay; ms if bare.",
)
@click.option(
    "--sigmas", type=amount("1", least=0.0, most=6.0), default="3", show_default=True, help="Counted as limit."
)
@json_out
@figure_out
def command(*, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Find the safe speed band of a cam cut once, its best place, and what each millisecond and degree costs.

    The cam is cut for the first powerplant, over its whole range or the speeds given; the others are asked whether it
    would serve them.

    Example: whirlgate safe-range --rpm 900 --rpm 1350 --blades 2 --blocked-deg 30 --delay-ms 8 --dwell-deg 70
    --scatter-ms 0.3
    """
    from sim.studies.safe_range import asked_band

    answer = asked_band(**flat(options))
    picture(figure, "safe_range", answer, force=force)
    say(answer, sheet(answer), as_json=as_json)


def sheet(answer: CamBand) -> Iterator[Block]:
    """Print the cam, the delay stage by stage, the bands and what they cost."""
    heads = ["stage", "mean", "scatter", "turn", "scatter"]
    yield table("Delay from cam to disc, turn at the highest speed", heads, map(stage_line, answer.stages))
    yield f"Cam cut for {answer.cut_for}: opens at {answer.opens_deg:.1f}° for {answer.dwell_deg:.1f}°."
    every, apart = answer.worst_case_ms, answer.root_sum_square_ms
    yield f"{answer.sigmas:g} standard deviations: {every:.2f} ms with every stage off the same way,"
    yield f"{apart:.2f} ms with stages that stray independently.\n"
    for propeller in answer.propellers:
        yield from bands(propeller)
    yield HISTORY


def stage_line(stage: StageRow) -> list[str]:
    """Return one stage of the delay as a line."""
    times = f"{stage.mean_ms:.2f} ms", f"{stage.sd_ms:.2f} ms"
    return [stage.name, *times, f"{stage.mean_deg:.1f}°", f"{stage.sd_deg:.2f}°"]


def bands(propeller: PropellerBand) -> Iterator[Block]:
    """Print the bands behind one propeller, the speeds asked for and the price of each error."""
    rows = [["independent scatter", _list(propeller.bands)], ["worst case", _list(propeller.worst_case_bands)]]
    yield table(f"Safe speeds {propeller.powerplant}".strip(), ["counted as", "rpm"], rows)
    for speed in propeller.speeds:
        yield speed.says
    price = propeller.price
    if price:
        edges = f"{price.from_shift_1_ms_rpm:.0f} and {price.to_shift_1_ms_rpm:.0f} rpm"
        yield f"A millisecond more delay moves the edges by {edges}, one more of scatter narrows the band by"
        edges = f"{price.from_shift_1_deg_rpm:.0f} and {price.to_shift_1_deg_rpm:.0f} rpm"
        yield (
            f"{-price.width_change_1_ms_rpm:.0f} rpm. A cam a degree late moves them by {edges}, a degree more margin"
        )
        yield f"a side narrows it by {-price.width_change_1_deg_rpm:.0f} rpm."
    yield ""


def _list(found: tuple[SafeBand, ...]) -> str:
    return "\n".join(f"{each.from_rpm:.0f} to {each.to_rpm:.0f}" for each in found) or "none"
