"""``whirlgate burst``: many bursts through the propeller, counted and exact."""

from __future__ import annotations

import math
import sys
from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import HISTORY, check_rate, flat, timing_options
from viz.commands.options import Command, amount, figure_out, json_out
from viz.commands.output import picture, say
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.studies.burst_answer import BurstAnswer
    from viz.sheets.table import Block

TURN_RAD = 2.0 * math.pi
TIME = {"least": 0.0, "most": 0.1, "bare": "ms"}


@click.command(cls=Command, check=check_rate)
@timing_options
@click.option("--rounds", type=amount("1", least=100.0, most=1e9), default="1000000", show_default=True, help="Fired.")
@click.option("--rounds-per-burst", type=amount("1", least=2.0, most=1000.0), help="20 if nothing says so.")
@click.option("--guns", type=amount("1", least=1.0, most=2.0), help="Each timed alike; 1 if nothing says so.")
@click.option("--cycle-scatter-ms", "cycle_sd_s", type=amount("s", **TIME), help="Of the gun's cycle; ms if bare.")
@click.option("--scatter-ms", "scatter_s", type=amount("s", **TIME), help="Of the whole delay; ms if bare.")
@click.option("--hang-share", type=amount("1", least=0.0, most=0.5), help="Share of rounds whose primer hangs.")
@click.option("--hang-ms", "hang_s", type=amount("s", least=0.0, most=1.0, bare="ms"), help="By how long; ms if bare.")
@click.option("--speed-scatter", "speed_sd", type=amount("1", least=0.0, most=0.2), help="Burst to burst, as a share.")
@click.option("--speed-drift", "drift_per_s", type=amount("1/s", least=-1.0, most=1.0), help='As in "-0.02 1/s".')
@click.option(
    "--fitted", is_flag=True, help="A window fitted to the speed, in the place of the scenario's cam, cut once."
)
@click.option(
    "--dwell-deg", "dwell_rad", type=amount("rad", least=0.0, most=TURN_RAD, bare="deg"), help="A cam cut so, once."
)
@click.option(
    "--opens-deg", "opens_rad", type=amount("rad", least=-TURN_RAD, most=TURN_RAD, bare="deg"), help="Where it opens."
)
@click.option("--seed", type=amount("1", least=0.0, most=2.0**53), default="1", show_default=True)
@json_out
@figure_out
def command(*, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Fire many bursts with all that scatters, and count strikes, rate and where rounds passed.

    From a scenario's first powerplant at full speed, or as options say. Beside it stands the exact answer, which also
    gives chances too rare to count.

    Example: whirlgate burst tollgate --rpm 1150 --rounds 2000000 --seed 7 --figure disc.svg
    """
    from sim.studies.burst import asked_burst

    whole = {name: int(options.pop(name)) for name in ("rounds", "seed")}
    some = {name: options.pop(name) for name in ("guns", "rounds_per_burst")}
    counts = {name: int(value) for name, value in some.items() if value is not None}
    answer = asked_burst(**whole, **counts, progress=bar, **flat(options))
    picture(figure, "burst", answer, force=force)
    say(answer, sheet(answer), as_json=as_json)


def bar(numbers: Iterable[int]) -> Iterable[int]:
    """Show on stderr how far the work is, where that is a terminal."""
    if not sys.stderr.isatty():
        yield from numbers
        return
    with click.progressbar(numbers, label="firing", file=sys.stderr) as shown_numbers:
        yield from shown_numbers


def sheet(answer: BurstAnswer) -> Iterator[Block]:
    """Print what was counted beside what is exact."""
    exact = answer.exact
    low, high = answer.interval_95_per_1000
    rows = [
        ["strikes per 1000", f"{answer.strikes_per_1000:.4g}", f"{exact.strikes_per_1000:.4g}" if exact else "none"],
        ["95 % between", f"{low:.4g} and {high:.4g}", ""],
        ["rounds a minute", f"{answer.rounds_per_min:.2f}", f"{exact.rounds_per_min:.2f}" if exact else "none"],
        ["margin kept", f"{100 * answer.margin_kept_share:.3f} %", _share(exact.margin_kept_share if exact else None)],
        ["between rounds, mean", f"{answer.interval_ms.mean:.2f} ms", ""],
        ["least and most", f"{answer.interval_ms.min:.1f} and {answer.interval_ms.max:.1f} ms", ""],
        ["passed after the blade", f"{answer.pass_angle_deg.mean:.1f}° ± {answer.pass_angle_deg.sd:.1f}°", ""],
    ]
    name = f"{answer.powerplant} " if answer.powerplant else ""
    title = f"{answer.rounds:,} rounds at {name}{answer.rpm:.0f} rpm, seed {answer.seed}"
    yield table(title, ["", "counted", "exact"], rows, "\n".join(part for part in (answer.exact_note, HISTORY) if part))


def _share(value: float | None) -> str:
    return "none" if value is None else f"{100 * value:.3f} %"
