"""Responses of the nose to a short rudder and a short elevator input, all powerplants overlaid."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.inks import cross, engine_places, style
from viz.figures.sheet import sheet
from viz.sheets.compare import INPUTS

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.compare import Comparison
    from viz.sheets.format import Units

ROWS = ("pitch_deg", "yaw_deg")
HELD_S = 0.5
"""Duration of the inputs, shaded."""
UPWARD = 26
"""Letters to a line of what is written upward."""


def draw(answer: Comparison, units: Units) -> Figure:
    """Return pitch above yaw, a column for each input, a line for each powerplant."""
    figure, panels = sheet(len(ROWS), len(INPUTS), width_in=9.0, height_in=6.0)
    places = engine_places({name: one.kind for name, one in answer.powerplants.items()})
    for name, found in answer.powerplants.items():
        for column, one in enumerate(found.disturbances):
            for row, axis in enumerate(ROWS):
                panel = panels[row * len(INPUTS) + column]
                panel.plot(one.time_s, getattr(one, axis), label=f"{name} ({found.kind})", **style(places[name]))
                if one.valid_until_s is not None:
                    end = int(one.time_s.searchsorted(one.valid_until_s))
                    panel.plot(one.time_s[end], getattr(one, axis)[end], **cross(places[name]))
    for column, title in enumerate(INPUTS.values()):
        panels[column].set_title(title)
        panels[len(INPUTS) + column].set_xlabel(quantity("time_s").label(units))
    for number, panel in enumerate(panels):
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.axvspan(0.0, HELD_S, color="#ececec", zorder=0, label="control deflected")
        panel.set_ylabel(fill(quantity(ROWS[number // len(INPUTS)]).label(units), UPWARD))
    ends = any(one.beyond for found in answer.powerplants.values() for one in found.disturbances)
    panels[1].legend(loc="best", title="total response" + ("\nvalidity ends at a cross" if ends else ""))
    return figure
