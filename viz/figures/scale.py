"""The scaled drawing at a glance: the error of every dimension, and how far each document stands from the drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.sheet import INKS, MARKS, sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.scale import ScaleAnswer
    from viz.sheets.format import Units


def draw(answer: ScaleAnswer, units: Units) -> Figure:
    """Return one line a dimension: its 95 % limits about the best value, and the document beside it."""
    figure, (panel,) = sheet(width_in=9.0, height_in=1.8 + 0.3 * len(answer.dimensions))
    unit, factor = quantity("residual_m").shown(units)
    places = list(range(len(answer.dimensions), 0, -1))
    for place, each in zip(places, answer.dimensions, strict=True):
        half = 1.96 * each.error_m * factor
        panel.plot([-half, half], [place, place], color=INKS[0], linewidth=5.0, solid_capstyle="butt", alpha=0.6)
        if each.residual_m is not None and each.known_m is not None:
            off = (each.known_m - each.value_m) * factor
            panel.plot([off], [place], MARKS[3], color=INKS[1], markersize=7)
            panel.annotate(
                f"{each.normalised_residual:+.1f} σ",
                (max(off, half), place),
                xytext=(8, 0),
                textcoords="offset points",
                va="center",
                fontsize=8,
            )
    panel.plot([], [], color=INKS[0], linewidth=5.0, alpha=0.6, label="95 % limits of the scaled size")
    panel.plot(
        [],
        [],
        MARKS[3],
        color=INKS[1],
        label="documented size; σ: standard errors from the size scaled without it",
    )
    panel.axvline(0.0, color=INKS[5], linewidth=0.8)
    panel.set_yticks(places, [each.name for each in answer.dimensions])
    panel.set_xlabel(f"difference from the scaled size, at full scale [{unit}]")
    panel.set_title(answer.title)
    panel.margins(x=0.1)
    panel.legend(loc="upper center", bbox_to_anchor=(0.4, -0.6 / (0.6 + 0.3 * len(places)) - 0.02), ncols=2)
    return figure
