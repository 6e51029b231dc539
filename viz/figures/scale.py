"""The scaled drawing at a glance: the error of every dimension, its document, and what is not to be trusted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from sim.units.text import fixed
from viz.figures.inks import MARKS, NEUTRAL, ink, series
from viz.figures.sheet import sheet
from viz.words.reader import tell, unit_behind, worded

if TYPE_CHECKING:
    from collections.abc import Iterator

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.airframe.drawing import Dimension
    from sim.studies.scale import ScaleAnswer
    from viz.sheets.format import Units


def draw(answer: ScaleAnswer, units: Units) -> Figure:
    """Return one line a dimension: its 95 % limits about the best value, the document beside it, and what is wrong."""
    figure, (panel,) = sheet(width_in=9.0, height_in=1.8 + 0.3 * len(answer.dimensions))
    unit, factor = quantity("residual_m").shown(units)
    places = list(range(len(answer.dimensions), 0, -1))
    for place, each in zip(places, answer.dimensions, strict=True):
        _line(panel, place, each, factor=factor, note=", ".join(map(worded, _notes(answer, each, units))))
    panel.plot([], [], color=ink(0), linewidth=5.0, alpha=0.6, label="95 % limits of the scaled size")
    panel.plot(
        [],
        [],
        MARKS[series(3)],
        color=ink(1),
        label="documented size; σ: standard errors from the size scaled without it",
    )
    panel.axvline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.set_yticks(places, [each.name for each in answer.dimensions])
    panel.set_xlabel(unit_behind("difference from the scaled size, at full scale", unit))
    panel.set_title(answer.title)
    panel.margins(x=0.25)
    if answer.contradictions:  # room for their notes
        left, right = panel.get_xlim()
        panel.set_xlim(left, right + 0.6 * (right - left))
    panel.legend(loc="upper center", bbox_to_anchor=(0.4, -0.6 / (0.6 + 0.3 * len(places)) - 0.02), ncols=2)
    return figure


def _line(panel: Axes, place: int, each: Dimension, *, factor: float, note: str) -> None:
    half = 1.96 * each.error_m * factor if each.error_m > 0.0 else 0.0
    if half:
        panel.plot([-half, half], [place, place], color=ink(0), linewidth=5.0, solid_capstyle="butt", alpha=0.6)
    right = half
    if each.residual_m is not None and each.known_m is not None:
        off = (each.known_m - each.value_m) * factor
        panel.plot([off], [place], MARKS[series(3)], color=ink(1), markersize=7)
        right = max(off, half)
    if note:
        panel.annotate(note, (right, place), xytext=(8, 0), textcoords="offset points", va="center", fontsize=8)


def _notes(answer: ScaleAnswer, each: Dimension, units: Units) -> Iterator[str]:
    """Yield how far the document is off, which readings are, and whether any reading is checked at all."""
    if each.normalised_residual is not None:
        yield f"{each.normalised_residual:+.1f} σ"
    if any(row.name == each.name and row.least_detectable_m is None for row in answer.documents):
        yield "nothing checks its document"
    wrong = [found for found in answer.contradictions if found.dimension == each.name]
    for found in wrong:
        yield tell("{view} off by {size}", view=found.view, size=fixed("residual_m", found.residual_m, units))
    checked = any(row.least_detectable_m is not None for row in answer.readings if row.dimension == each.name)
    if not wrong and not each.error_m > 0.0:
        yield "no limits: its readings, or those of its scale, contradict each other"
    elif not wrong and not checked and each.known_m is None:
        yield "nothing checks it"
