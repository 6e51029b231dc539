"""The disc of an exercise with its marks, and an empty chart to draw them into."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.figures.disc import EDGE, face, panels, put

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.disc_exercise import DiscExercise
    from viz.sheets.format import Units

STEP_DEG = 30.0


def draw(answer: DiscExercise, units: Units) -> Figure:  # noqa: ARG001 - angles and speeds are alike in both
    """Return the disc as it comes back from the range, and paper with axes."""
    figure, disc, chart = panels()
    fastest = max(mark.rpm for mark in answer.marks)
    face(disc, fastest)
    put(disc, answer.marks, answer.marks, fastest)
    chart.set_xlim(0.0, EDGE * fastest)
    least = math.floor(min(answer.stated_opens_deg, 0.0) / STEP_DEG) * STEP_DEG
    chart.set_ylim(least, least + 8.0 * STEP_DEG)
    chart.minorticks_on()
    chart.grid(visible=True, which="minor", linewidth=0.3)
    return figure
