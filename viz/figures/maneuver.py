"""A manoeuvre with each powerplant and to both sides, overlaid in time."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.sheet import INKS, STROKES, sheet
from viz.sheets.maneuver import called

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.maneuver import ManeuverAnswer
    from viz.sheets.format import Units

PANELS = (
    ("pitch_deg", "pitch_deg", True),
    ("heading_deg", "yaw_deg", True),
    ("bank_deg", "bank_deg", False),
    ("altitude_m", "height_m", True),
    ("elevator_deg", "elevator_deg", False),
    ("aileron_deg", "aileron_deg", False),
    ("rudder_deg", "rudder_deg", False),
    ("spin_rad_s", "spin_rad_s", False),
)
"""Column of a history, the quantity that is drawn, and whether it is measured from the start of the flight."""

UPWARD = 24
"""Letters to a line of what is written upward."""


def draw(answer: ManeuverAnswer, units: Units) -> Figure:
    """Return eight panels over time; colour distinguishes powerplants, line style powerplants and sides."""
    figure, panels = sheet(4, 2, width_in=9.5, height_in=11.5)
    engines = list(dict.fromkeys(flight.powerplant for flight in answer.flights))
    sides = list(dict.fromkeys(flight.side for flight in answer.flights))
    for panel, (column, name, from_start) in zip(panels, PANELS, strict=True):
        for flight, columns in zip(answer.flights, answer.histories, strict=True):
            engine, factor = engines.index(flight.powerplant), quantity(name).shown(units)[1]
            values = columns[column] - (columns[column][0] if from_start else 0.0)
            panel.plot(
                columns["time_s"],
                factor * values,
                color=INKS[engine % len(INKS)],
                linestyle=STROKES[(engine * len(sides) + sides.index(flight.side)) % len(STROKES)],
                label=called(flight),
            )
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.set_ylabel(fill(quantity(name).label(units), UPWARD))
        panel.set_xlabel(quantity("time_s").label(units))
    figure.suptitle(f"{answer.maneuver}: {answer.meaning}")
    panels[0].legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=2, handlelength=3.5)
    return figure
