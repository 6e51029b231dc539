"""``whirlgate windows``: when the gun may fire between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from viz import format as shown
from viz.options import Command, json_out
from viz.timing import HISTORY, flat, timing_options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.errors import Fault
    from sim.studies.windows import WindowsRow, WindowsTable


def check(spin_rad_s: tuple[tuple[float, ...], ...] = (), **options: object) -> Iterable[Fault]:
    """Return the faults of the options taken together."""
    from sim.studies.timing import setup_faults

    return setup_faults({**options, "spin_rad_s": flat(spin_rad_s)})


@click.command(cls=Command, check=check)
@timing_options
@json_out
def command(*, as_json: bool, spin_rad_s: tuple[tuple[float, ...], ...], **options: Any) -> None:  # noqa: ANN401
    """Find the release windows between the blades, the lead angle and the steady rate of fire.

    Angles are the propeller's, 0 with blade 1 on the bore line.

    Example: whirlgate windows --rpm 1250 --rpm 900:1500:100 --blades 2 --blocked-deg 24 --margin-deg 4 --delay-ms 6.5
    --gun-rate 500
    """
    from sim.studies.timing import setup_of_options
    from sim.studies.windows import windows

    answer = windows([setup_of_options(flat(spin_rad_s), **options)])
    if as_json:
        click.echo(shown.as_json(answer))
    else:
        sheet(answer)


def sheet(answer: WindowsTable) -> None:
    """Print a line a speed, and why where there is no window."""
    heads = ["rpm", "blade every", "lead", "windows", "open for", "rounds/min", "pattern"]
    notes = dict.fromkeys(row.note for row in answer.rows if row.note)
    legend = "Angles of the propeller, 0 with blade 1 on the bore line; pattern: rounds : blades."
    shown.table("Firing windows", heads, map(line, answer.rows), "\n".join([*notes, legend, HISTORY]))


def line(row: WindowsRow) -> list[str]:
    """Return one row of the sheet."""
    arcs = "\n".join(f"{arc.from_deg:.1f}°–{arc.to_deg:.1f}°" for arc in row.windows_deg)
    return [
        f"{row.powerplant} {row.rpm:g}".strip(),
        f"{row.blade_interval_ms:.2f} ms",
        f"{row.lead_deg:.1f}°",
        arcs or "none",
        f"{row.open_ms:.2f} ms" if row.windows_deg else "none",
        "not asked" if row.rounds_per_min is None else f"{row.rounds_per_min:.1f}",
        f"{row.rounds_per_pattern} : {row.intervals_per_pattern}" if row.rounds_per_pattern else "none",
    ]
