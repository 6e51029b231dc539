"""The span loading of each plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity, shown
from viz.figures.inks import series, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.wings import WingsAnswer
    from viz.sheets.format import Units


def draw(answer: WingsAnswer, units: Units) -> Figure:
    """Return one panel: circulation of each plane against the place along the span."""
    figure, (panel,) = sheet(height_in=4.5)
    _, factor = shown("spanwise_m", units)
    for index, plane in enumerate(answer.planes):
        y = [factor * place for place in plane.spanwise_m]
        name = f"plane {index + 1}, {plane.share:.1%} of the lift"
        panel.plot(y, plane.loading_per_rad, label=name, **style(series(index)))
    panel.set_ylim(bottom=min(0.0, *(min(plane.loading_per_rad) for plane in answer.planes)))
    panel.set_xlabel(axis_label("spanwise_m", units))
    loading = quantity("loading_per_rad")
    panel.set_ylabel(f"circulation {loading.symbol} [{loading.unit}]")
    panel.set_title("Span loading of each plane")
    panel.legend(loc="lower center")
    return figure
