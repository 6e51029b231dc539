"""Temperature of a receiver over time, bare and cowled, with the uncertainty of the correlation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.sheet import INKS, sheet, style

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.figure import Figure

    from sim.studies.cooling import CoolingAnswer
    from viz.sheets.format import Units


def draw(answer: CoolingAnswer, units: Units) -> Figure:
    """Return two panels, bare and under a cowling, each silent and firing."""
    figure, panels = sheet(1, 2, width_in=9.0, height_in=4.6)
    time = quantity("duration_s")
    minutes = [time.number(each, units) for each in answer.time_s]
    for panel, cowled in zip(panels, (False, True), strict=True):
        for index, case in enumerate(each for each in answer.cases if each.cowled == cowled):
            look = style(index)
            slow, likely, fast = (
                _shown(curve, units) for curve in (case.slowest_k, case.temperature_k, case.fastest_k)
            )
            panel.fill_between(minutes, fast, slow, color=look["color"], alpha=0.2, linewidth=0)
            panel.plot(minutes, likely, label="firing" if case.firing else "silent", **look)
        (stiff,) = _shown([answer.oil_stiff_k], units)
        panel.axhline(stiff, color=INKS[5], linewidth=1.0, linestyle=":", label="oil no longer flows")
        panel.set_title("under a cowling" if cowled else "bare in the airstream")
        panel.set_xlabel(f"time [{time.shown(units)[0]}]")
    lowest, highest = (pick(panel.get_ylim()[end] for panel in panels) for end, pick in ((0, min), (1, max)))
    for panel in panels:
        panel.set_ylim(lowest, highest)
    panels[0].legend(loc="best", title="shaded: heat transfer coefficient ± 20 %")
    panels[0].set_ylabel(f"temperature of the part that holds the oil [{quantity('settled_k').shown(units)[0]}]")
    return figure


def _shown(curve_k: Sequence[float], units: Units) -> list[float]:
    return [quantity("settled_k").number(each, units) for each in curve_k]
