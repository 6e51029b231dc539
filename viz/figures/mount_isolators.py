"""Natural frequencies of an engine on its isolators above the rates at which it shakes them, on one scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.inks import NEUTRAL, ink
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import tell, unit_behind

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from sim.studies.mount_isolators import IsolatedEngine
    from viz.sheets.format import Units


def draw_isolators(panel: Axes, answer: IsolatedEngine, units: Units) -> None:
    """Draw a row for each natural frequency, a point, and for each rate, a bar from idle to full speed."""
    from matplotlib.ticker import LogLocator, NullFormatter, StrMethodFormatter

    unit, factor = quantity("natural_rad_s").shown(units)
    rows = [one.name for one in answer.modes] + [one.name for one in answer.rates]
    for row, one in enumerate(answer.modes):
        panel.plot(factor * one.natural_rad_s, row, "D", color=ink(0), markersize=6)
    for row, rate in enumerate(answer.rates, len(answer.modes)):
        panel.plot(
            [factor * rate.idle_rad_s, factor * rate.full_rad_s],
            [row, row],
            color=ink(1),
            linewidth=6.0,
            solid_capstyle="butt",
        )
    panel.axhline(len(answer.modes) - 0.5, color=NEUTRAL, linewidth=0.8)
    panel.set_xscale("log")
    panel.xaxis.set_major_locator(LogLocator(subs=(1.0, 2.0, 5.0)))
    panel.xaxis.set_major_formatter(StrMethodFormatter("{x:g}"))
    panel.xaxis.set_minor_formatter(NullFormatter())
    panel.set_yticks(range(len(rows)), rows)
    panel.invert_yaxis()
    panel.margins(x=0.1)
    panel.grid(visible=True, axis="x", which="both")
    panel.set_xlabel(unit_behind("natural frequency, and rate from idle to full speed", unit))
    lowest = text_of(Value("natural_rad_s", answer.modes[0].natural_rad_s), units)
    panel.set_title(
        tell(
            "Engine on its isolators: lowest natural\nfrequency {frequency}, {mode}",
            frequency=lowest,
            mode=answer.modes[0].name,
        )
    )
