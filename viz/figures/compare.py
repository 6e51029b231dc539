"""The same kick and the same pull with every engine: how the nose moves, overlaid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.sheet import cautioned, sheet, style
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.compare import Comparison

TITLES = {
    "rudder kick": "10° of right rudder for half a second",
    "pull-up": "5° of up elevator for half a second",
}
ROWS = (("pitch_deg", "nose up + / down − [°]"), ("yaw_deg", "nose right + / left − [°]"))


def draw(answer: Comparison) -> Figure:
    """Return pitch above yaw, a column an input, a stroke a powerplant."""
    figure, panels = sheet(len(ROWS), len(TITLES), width_in=9.0, height_in=6.0)
    for index, (name, found) in enumerate(answer.powerplants.items()):
        for column, one in enumerate(found.disturbances):
            for row, (axis, _) in enumerate(ROWS):
                panel = panels[row * len(TITLES) + column]
                panel.plot(one.time_s, getattr(one, axis), label=f"{name} ({found.kind})", **style(index))
    for column, title in enumerate(TITLES.values()):
        panels[column].set_title(title)
        panels[len(TITLES) + column].set_xlabel("time [s]")
    for number, panel in enumerate(panels):
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.axvspan(0.0, 0.5, color="#ececec", zorder=0)
        panel.set_ylabel(ROWS[number // len(TITLES)][1])
    panels[0].legend(loc="best")
    return cautioned(figure, ESTIMATE)
