"""Responses of the nose to a short rudder and a short elevator input, all powerplants overlaid."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from viz.figures.inks import cross, engine_places, style
from viz.figures.sheet import sheet
from viz.sheets.compare import INPUTS
from viz.words.reader import axis_label, tell, worded

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.compare import Comparison
    from viz.sheets.format import Units

ROWS = ("pitch_deg", "yaw_deg")
KINDS = {"rotary": "{name} (rotary)", "fixed": "{name} (fixed)"}
HELD_S = 0.5
"""Duration of the inputs, shaded."""
UPWARD = 26
"""Letters to a line of what is written upward."""


def draw(answer: Comparison, units: Units) -> Figure:
    """Return pitch above yaw, a column for each input, a line for each powerplant."""
    figure, panels = sheet(len(ROWS), len(INPUTS), width_in=9.0, height_in=6.0)
    places = engine_places({name: one.kind for name, one in answer.powerplants.items()})
    for name, found in answer.powerplants.items():
        called = name if name == found.kind else tell(KINDS[found.kind], name=name)
        for column, one in enumerate(found.disturbances):
            for row, axis in enumerate(ROWS):
                panel = panels[row * len(INPUTS) + column]
                panel.plot(one.time_s, getattr(one, axis), label=called, **style(places[name]))
                if one.valid_until_s is not None:
                    end = int(one.time_s.searchsorted(one.valid_until_s))
                    panel.plot(one.time_s[end], getattr(one, axis)[end], **cross(places[name]))
    for column, title in enumerate(INPUTS.values()):
        panels[column].set_title(title)
        panels[len(INPUTS) + column].set_xlabel(axis_label("time_s", units))
    for number, panel in enumerate(panels):
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.axvspan(0.0, HELD_S, color="#ececec", zorder=0, label="control deflected")
        panel.set_ylabel(fill(axis_label(ROWS[number // len(INPUTS)], units), UPWARD))
    ends = any(one.beyond for found in answer.powerplants.values() for one in found.disturbances)
    meant = ["total response", *(["validity ends at a cross"] if ends else [])]
    panels[1].legend(loc="best", title="\n".join(map(worded, meant)))
    return figure
