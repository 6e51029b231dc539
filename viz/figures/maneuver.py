"""A manoeuvre with each engine and to both sides, overlaid in time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.sheet import INKS, STROKES, cautioned, sheet
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.maneuver import Flown
    from viz.sheets.format import Units

PANELS = (
    ("pitch_deg", "nose up + / down −", True),
    ("heading_deg", "nose right + / left −", True),
    ("bank_deg", "bank right + / left −", False),
    ("altitude_m", "height gained", True),
    ("elevator_deg", "elevator: forward + / back −", False),
    ("aileron_deg", "aileron: left + / right −", False),
    ("rudder_deg", "rudder: left + / right −", False),
    ("spin_rad_s", "engine: clockwise +", False),
)
"""Column, label, and whether it is drawn from its start."""


def draw(flown: Flown, units: Units) -> Figure:
    """Return eight panels over time; colour tells the engine, stroke engine and side."""
    from viz.sheets.format import shown

    figure, panels = sheet(4, 2, width_in=9.5, height_in=11.5)
    engines = list(dict.fromkeys(flight.powerplant for flight in flown.answer.flights))
    sides = list(dict.fromkeys(flight.side for flight in flown.answer.flights))
    for panel, (name, label, from_start) in zip(panels, PANELS, strict=True):
        for flight, columns in zip(flown.answer.flights, flown.histories, strict=True):
            engine, (unit, factor) = engines.index(flight.powerplant), shown(name, units)
            values = factor * (columns[name] - columns[name][0] if from_start else columns[name])
            panel.plot(
                columns["time_s"],
                values,
                color=INKS[engine % len(INKS)],
                linestyle=STROKES[(engine * len(sides) + sides.index(flight.side)) % len(STROKES)],
                label=f"{flight.powerplant} {flight.side}".strip(),
            )
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.set_ylabel(f"{label} [{unit}]")
        panel.set_xlabel("time [s]")
    figure.suptitle(f"{flown.answer.maneuver}: {flown.answer.meaning}")
    panels[0].legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=2, handlelength=3.5)
    return cautioned(figure, ESTIMATE)
