"""``whirlgate windows``: when the gun may fire between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz.commands.gun_options import HISTORY, check, flat, timing_options
from viz.commands.options import Command, figure_out, json_out
from viz.commands.output import picture, say
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.windows import WindowsRow, WindowsTable
    from viz.sheets.table import Block


@click.command(cls=Command, check=check)
@timing_options
@json_out
@figure_out
def command(*, as_json: bool, figure: str | None, force: bool, **options: Any) -> None:  # noqa: ANN401
    """Find the release windows between the blades, the lead angle and the steady rate of fire.

    From a scenario, for each of its powerplants at idle, cruise and full speed, or from options alone. Angles are
    the propeller's, 0 with blade 1 on the bore line.

    Example: whirlgate windows --rpm 1250 --rpm 900:1500:100 --blades 2 --blocked-deg 24 --margin-deg 4 --delay-ms 6.5
    --gun-rate 500
    """
    from sim.model.gun_options import setups
    from sim.studies.windows import windows

    answer = windows(setups(**flat(options)))
    picture(figure, "windows", answer, force=force)
    say(answer, sheet(answer), as_json=as_json)


def sheet(answer: WindowsTable) -> Iterator[Block]:
    """Print a line a speed, and why where there is no window."""
    heads = ["rpm", "blades", "lead", "windows", "open", "per min", "pattern"]
    notes = dict.fromkeys(row.note for row in answer.rows if row.note)
    legend = (
        "Blades: time from one to the next. Windows: propeller angle at release, 0 with blade 1 on the bore line. "
        "Pattern: rounds : blades."
    )
    yield table("Firing windows", heads, map(line, answer.rows), "\n".join([*notes, legend, HISTORY]))


def line(row: WindowsRow) -> list[str]:
    """Return one row of the sheet."""
    arcs = "\n".join(f"{arc.from_deg:.1f}°–{arc.to_deg:.1f}°" for arc in row.windows_deg)
    return [
        f"{row.powerplant}\n{row.rpm:g}".strip(),
        f"{row.blade_interval_ms:.2f} ms",
        f"{row.lead_deg:.1f}°",
        arcs or "none",
        f"{row.open_ms:.2f} ms" if row.windows_deg else "none",
        "not asked" if row.rounds_per_min is None else f"{row.rounds_per_min:.1f}",
        f"{row.rounds_per_pattern} : {row.intervals_per_pattern}" if row.rounds_per_pattern else "none",
    ]
