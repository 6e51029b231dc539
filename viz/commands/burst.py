"""``whirlgate burst``: many bursts through the propeller, simulated and exact."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import asked, check_rate, ideal_option, one_speed_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import deliver, picture
from viz.commands.seed import seed_option

if TYPE_CHECKING:
    from collections.abc import Iterable

    from viz.sheets.format import Units

FROM_SCENARIO = "[default: that of the scenario, or 0]"


@click.command(cls=Command, check=check_rate)
@one_speed_options
@click.option(
    "--rounds",
    type=amount("1", least=100.0, most=1e9, example="1000000"),
    default="1000000",
    show_default=True,
    metavar="COUNT",
    help="Least number of rounds simulated.",
)
@click.option(
    "--rounds-per-burst",
    type=amount("1", least=2.0, most=1000.0, example="20"),
    metavar="COUNT",
    help="Rounds of one gun in a burst. [default: that of the scenario, or 20]",
)
@click.option(
    "--speed-ripple",
    type=amount("1", least=0.0, most=0.5),
    metavar="SHARE",
    help=f"Greatest deviation of the propeller speed within a turn, over its mean. {FROM_SCENARIO}",
)
@click.option(
    "--ripple-per-rev",
    type=amount("1", least=1.0, most=24.0, example="2"),
    metavar="COUNT",
    help="Ripples of the speed in a turn of the propeller. [default: that of the scenario, or 1]",
)
@click.option(
    "--ripple-peak-deg",
    type=amount("deg", least=-360.0, most=360.0, bare="deg"),
    metavar="DEG",
    help=f"Propeller angle at which a ripple is fastest. {FROM_SCENARIO}",
)
@click.option(
    "--rounds-per-sortie",
    type=amount("1", least=1.0, most=10000.0, example="500"),
    metavar="COUNT",
    help="Rounds of one gun in a sortie, for the chance of a strike. [default: that of the scenario, or 500]",
)
@click.option(
    "--guns",
    type=amount("1", least=1.0, most=2.0, example="2"),
    metavar="COUNT",
    help="Number of synchronized guns. [default: that of the scenario, or 1]",
)
@click.option(
    "--cycle-scatter-ms",
    "cycle_sd_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    metavar="MS",
    help=f"Standard deviation of the gun's cycle. {FROM_SCENARIO}",
)
@click.option(
    "--scatter-ms",
    "scatter_s",
    type=amount("s", least=0.0, most=0.1, bare="ms"),
    metavar="MS",
    help=f"Standard deviation of the whole delay. {FROM_SCENARIO}",
)
@click.option(
    "--hang-share",
    type=amount("1", least=0.0, most=0.5),
    metavar="SHARE",
    help=f"Fraction of rounds that hang fire. {FROM_SCENARIO}",
)
@click.option(
    "--hang-ms",
    "hang_s",
    type=amount("s", least=0.0, most=1.0, bare="ms"),
    metavar="MS",
    help=f"Mean additional delay of a round that hangs fire. {FROM_SCENARIO}",
)
@click.option(
    "--speed-scatter",
    "speed_sd",
    type=amount("1", least=0.0, most=0.2),
    metavar="SHARE",
    help=f"Relative standard deviation of the propeller speed from burst to burst. {FROM_SCENARIO}",
)
@click.option(
    "--speed-drift",
    "drift_per_s",
    type=amount("1/s", least=-1.0, most=1.0, example="-0.02 1/s"),
    metavar="PER_S",
    help=f'Relative change of the propeller speed during a burst, as in "-0.02 1/s". {FROM_SCENARIO}',
)
@ideal_option()
@click.option(
    "--untimed",
    is_flag=True,
    help="Fire without the gear: the gun fires whenever it is ready.",
)
@seed_option("the random numbers")
@click.option("--all", "every", is_flag=True, help="Add time between rounds, angle of passage and what the words mean.")
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
    """Simulate many bursts with all scatter: strikes on the blades, rate of fire, and propeller angle at passage.

    With the first powerplant of a scenario at full speed, or for a gun line given by options alone: one --rpm,
    --blades, --blocked-deg and --gun-rate. The exact solution is printed beside it where there is one, also for strike
    probabilities too small to simulate; and what the same gun would strike without the gear.

    The cycle scatters by the inverse Gaussian law, which is never negative; the delay and the speed by normal laws, the
    latter cut off at four standard deviations; hang-fires are exponential.

    The figure lays the passages behind all blades over each other and draws them at each; that of whirlgate windows
    shows which blade the rounds of a window meet.

    Example: whirlgate burst tollgate --rpm 1150 --rounds 2000000 --seed 7 --figure disc.svg
    """
    from sim.studies.burst import burst
    from viz.sheets.burst import sheet

    model, given = asked(options)
    answer = burst(model, **given, progress=bar)
    picture(figure, "burst", answer, units, force=force)
    deliver(answer, sheet(answer, every=every), units, as_json=as_json)


def bar(numbers: Iterable[int]) -> Iterable[int]:
    """Show progress on stderr, where that is a terminal."""
    if not sys.stderr.isatty():
        yield from numbers
        return
    with click.progressbar(numbers, label="simulating", file=sys.stderr) as shown_numbers:
        yield from shown_numbers
