"""A manoeuvre with each powerplant and to both sides, overlaid in time."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.units.quantities import quantity
from viz.figures.inks import INKS, STROKES, cross, engine_places
from viz.figures.sheet import sheet
from viz.sheets.maneuver import called
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from numpy.typing import NDArray

    from sim.studies.maneuver_answer import ManeuverAnswer
    from viz.sheets.format import Units

PANELS = (
    ("pitch_deg", "pitch_deg", True),
    ("heading_deg", "yaw_deg", True),
    ("bank_deg", "bank_deg", False),
    ("altitude_m", "height_m", True),
    ("speed_m_s", "speed_m_s", False),
    ("load_factor", "load_factor", False),
    ("alpha_deg", "alpha_deg", False),
    ("sideslip_deg", "sideslip_deg", False),
    ("spin_rad_s", "spin_rad_s", False),
    ("elevator_deg", "elevator_deg", False),
    ("aileron_deg", "aileron_deg", False),
    ("rudder_deg", "rudder_deg", False),
)
"""Column of a history, the quantity that is drawn, and whether it is measured from the start of the flight."""
SPIN_PANELS = (
    ("alpha_deg", "alpha_deg", False),
    ("path_rate_deg_s", "path_rate_deg_s", False),
    ("turned_deg", "turned_deg", False),
    *(PANELS[3:6]),
    ("throttle", "throttle", False),
    *PANELS[7:],
)
"""Of a spin entry, whose attitude passes the vertical."""

SHADE: dict[str, Any] = {"color": "#808080", "alpha": 0.16, "linewidth": 0.0}
"""Of the time in which a flight is beyond the range of validity."""
HALF_TURN_DEG = 180.0
UPWARD = 24
"""Letters to a line of what is written upward."""


def draw(answer: ManeuverAnswer, units: Units) -> Figure:
    """Return twelve panels over time; colour distinguishes powerplants, line style powerplants and sides.

    From the first flight that leaves the range of validity on they are shaded; a cross is where each leaves it.
    """
    figure, panels = sheet(4, 3, width_in=12.5, height_in=11.5)
    engines = list(dict.fromkeys(flight.powerplant for flight in answer.flights))
    places = engine_places(answer.engine_kinds)
    sides = list(dict.fromkeys(flight.side for flight in answer.flights))
    shaded = answer.bands or ({},) * len(answer.flights)
    drawn = SPIN_PANELS if answer.maneuver == "spin-entry" else PANELS
    for panel, (column, name, from_start) in zip(panels, drawn, strict=True):
        for flight, columns, bands in zip(answer.flights, answer.histories, shaded, strict=True):
            place = places[flight.powerplant]
            engine, factor = engines.index(flight.powerplant), quantity(name).shown(units)[1]
            values = columns[column] - (columns[column][0] if from_start else 0.0)
            panel.plot(
                columns["time_s"],
                factor * _unbroken(values, column),
                color=INKS[place],
                linestyle=STROKES[(engine * len(sides) + sides.index(flight.side)) % len(STROKES)],
                label=called(flight),
            )
            if column in bands:
                low, high = (factor * end for end in bands[column])
                ink = INKS[place]
                panel.fill_between(columns["time_s"], low, high, color=ink, alpha=0.12, linewidth=0.0)
            if flight.valid_until_s is not None:
                end = int(columns["time_s"].searchsorted(flight.valid_until_s))
                panel.plot(columns["time_s"][end], factor * values[end], **cross(place))
        _shade(panel, answer)
        panel.axhline(0.0, color="#808080", linewidth=0.6)
        panel.set_ylabel(fill(axis_label(name, units), UPWARD))
        panel.set_xlabel(axis_label("time_s", units))
    said = "{name}: {meaning}; shaded in colour: 90 % bands" if answer.bands else "{name}: {meaning}"
    figure.suptitle(tell(said, name=answer.maneuver, meaning=answer.meaning))
    panels[0].legend(
        loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=2, handlelength=3.0, columnspacing=1.0, fontsize=8
    )
    return figure


def _unbroken(values: NDArray[np.float64], column: str) -> NDArray[np.float64]:
    """Return a bank without the line from one side of upside down to the other; what else there is as it is."""
    if column != "bank_deg":
        return values
    return np.where(np.abs(np.diff(values, append=values[-1])) > HALF_TURN_DEG, np.nan, values)


def _shade(panel: Axes, answer: ManeuverAnswer) -> None:
    """Shade the time from which on a flight is beyond the range of validity."""
    ends = [flight.valid_until_s for flight in answer.flights if flight.valid_until_s is not None]
    if ends:
        last = max(float(columns["time_s"][-1]) for columns in answer.histories)
        panel.axvspan(min(ends), last, label="validity ends at a cross", zorder=0.0, **SHADE)
