"""The root map: a panel for each bank, arrows from the smallest angular momentum to the largest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.text import brief
from viz.figures.handling import draw_roots
from viz.figures.inks import engine_places
from viz.figures.sheet import sheet
from viz.words.reader import tell

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.modes import ModesAnswer
    from viz.sheets.format import Units


def draw(answer: ModesAnswer, units: Units) -> Figure:
    """Return one panel for each bank."""
    places = engine_places(answer.engine_kinds)
    banks = list(dict.fromkeys(flight.bank_deg for flight in answer.flights))
    figure, panels = sheet(len(banks), height_in=4.4 * len(banks))
    for panel, bank in zip(panels, banks, strict=True):
        flights = sorted(
            (flight for flight in answer.flights if flight.bank_deg == bank),
            key=lambda flight: -abs(flight.angular_momentum_kg_m2_s),
        )
        drawn = {flight.powerplant: flight.drawn_roots for flight in flights if flight.drawn_roots is not None}
        draw_roots(panel, {flight.powerplant: flight.modes for flight in flights}, units, drawn, places=places)
        said = "Roots in a turn, {bank} right bank" if bank > 0.0 else "Roots in a turn, {bank} left bank"
        panel.set_title(tell(said, bank=brief("bank_deg", abs(bank))) if bank else "Roots in straight flight")
    return figure
