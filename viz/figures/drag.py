"""Drag area of every part, largest on top, with one standard deviation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.inks import NEUTRAL, ink
from viz.figures.sheet import sheet
from viz.sheets.format import amount
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.drag import DragAnswer
    from viz.sheets.format import Units

HATCHES = {"section": "//", "tail surface": "//", "flat-sided": "..", "streamline": ".."}
"""Of the bars of wing, tail and fuselage, so that they are told apart without colour."""


def draw(answer: DragAnswer, units: Units) -> Figure:
    """Return one panel: a bar for each part."""
    parts = sorted(answer.parts, key=lambda part: part.drag_area_m2)
    figure, (panel,) = sheet(height_in=2.0 + 0.24 * len(parts))
    factor = quantity("drag_area_m2").shown(units)[1]
    places = range(len(parts))
    panel.barh(
        places,
        [factor * part.drag_area_m2 for part in parts],
        xerr=[factor * part.drag_area_band_m2 for part in parts],
        color="#c9d8e6",
        edgecolor=ink(0),
        hatch=[HATCHES.get(part.kind, "") for part in parts],
        error_kw={"ecolor": NEUTRAL, "capsize": 2.5, "elinewidth": 1.0},
    )
    panel.set_yticks(list(places), [_label(part.name, part.count, part.drag_share) for part in parts])
    panel.grid(visible=False, axis="y")
    panel.set_xlim(left=0.0)
    panel.set_xlabel(axis_label("drag_area_m2", units))
    whole = answer.coefficients["drag_zero_lift"]
    area = amount("area_m2", answer.area_m2, units)
    panel.set_title(
        tell(
            "Drag without lift, {title}: CD0 {value} ± {band} on {area}",
            title=answer.title,
            value=f"{whole.value:.4f}",
            band=f"{whole.band:.4f}",
            area=area,
        )
    )
    return figure


def _label(name: str, count: int, share: float) -> str:
    many = f"{count} x " if count > 1 else ""
    return f"{many}{name.replace('_', ' ')}, {share:.0%}"
