"""Stalls in time: bank and height from the break on, with each powerplant; and autorotation below."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.units.quantities import quantity
from viz.figures.sheet import INKS, sheet, style

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.autorotation import Arrangement, AutorotationAnswer
    from sim.studies.stall import StallAnswer
    from viz.sheets.format import Units

BEFORE_S, AFTER_S = -2.0, 7.0
LINES = {"idle": ":", "cruise": "--", "full": "-"}


def draw(answer: StallAnswer, units: Units) -> Figure:
    """Return bank above, height below it, both of straight stalls, and autorotation at the foot."""
    arranged = answer.autorotation.arrangements
    figure, (above, middle, below, *last) = sheet(
        4 if arranged else 3, width_in=9.0, height_in=13.5 if arranged else 10.5
    )
    _histories(above, answer, "bank_deg", 1.0)
    above.set_ylabel(quantity("bank_deg").label(units))
    above.legend(fontsize=8, ncols=2)
    far = quantity("height_lost_m").shown(units)[1]
    _histories(middle, answer, "height_m", far)
    middle.set_ylabel(f"height over that of the stall [{quantity('height_lost_m').shown(units)[0]}]")
    middle.set_xlabel(f"{quantity('time_s').meaning} from the stall [{quantity('time_s').shown(units)[0]}]")
    for panel in (above, middle):
        panel.axvspan(0.0, answer.reaction_s, color="0.92", zorder=0)
        panel.set_xlim(BEFORE_S, AFTER_S)
        panel.axhline(0.0, color="0.6", linewidth=0.6)
    _autorotation(below, answer.autorotation, units)
    for panel in last:
        _rearranged(panel, arranged, units)
    return figure


def _histories(panel: Axes, answer: StallAnswer, name: str, factor: float) -> None:
    """Draw what changes from the stall on, of the flights whose bank is the first asked for."""
    for number, (engine, flights) in enumerate(answer.flights.items()):
        for flight in flights:
            entry = flight.entry
            if entry.stall_m_s is None or entry.bank_deg != flights[0].entry.bank_deg:
                continue
            seen = (flight.time_s >= BEFORE_S) & (flight.time_s <= AFTER_S)
            values = getattr(flight, name)
            start = values[np.searchsorted(flight.time_s, 0.0)] if name == "height_m" else 0.0
            look = style(number) | {"linestyle": LINES[entry.power]}
            panel.plot(flight.time_s[seen], factor * (values[seen] - start), label=f"{engine}, {entry.power}", **look)


def _autorotation(panel: Axes, found: AutorotationAnswer, units: Units) -> None:
    for number, (name, own) in enumerate(found.powerplants.items()):
        ink = INKS[number]
        panel.plot(own.curve_alpha_deg, own.curve_damping, color=ink, label=f"{name}: damping; above 0 it is driven")
        panel.plot(
            own.curve_alpha_deg, own.curve_rates, color=ink, linestyle="--", label=f"{name}: roll that goes on, p b/2V"
        )
    panel.axhline(0.0, color="0.6", linewidth=0.6)
    panel.set_xlabel(quantity("curve_alpha_deg").label(units))
    panel.set_ylabel("slope; p b/2V")
    panel.legend(fontsize=8)


def _rearranged(panel: Axes, arranged: Sequence[Arrangement], units: Units) -> None:
    """Draw the damping of every arrangement of the planes, other gaps thin and other staggers dashed."""
    drawn = arranged[0]
    for number, one in enumerate(arranged):
        place = f"gap {one.gap_chords:.2f}, stagger {one.stagger_chords:.2f} chord"
        other = one.stagger_chords != drawn.stagger_chords
        panel.plot(
            one.rolls.curve_alpha_deg,
            one.rolls.curve_damping,
            color=INKS[number % len(INKS)],
            linewidth=2.4 if one.as_drawn else 1.0,
            linestyle="--" if other else "-",
            label=f"{place}, as drawn" if one.as_drawn else place,
        )
    panel.axhline(0.0, color="0.6", linewidth=0.6)
    panel.set_xlabel(quantity("curve_alpha_deg").label(units))
    panel.set_ylabel("damping of a roll; driven above 0")
    panel.legend(fontsize=8)
