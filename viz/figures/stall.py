"""Stalls in time: bank and height from the break on, with each powerplant; and autorotation below."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from sim.units.quantities import quantity
from viz.figures.inks import INKS, engine_places, ink, style
from viz.figures.sheet import sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.autorotation import Arrangement, AutorotationAnswer
    from sim.studies.stall import StallAnswer
    from viz.sheets.format import Units

BEFORE_S, AFTER_S = -2.0, 7.0
"""Least that is drawn, from the stall; longer where the lowest point comes later."""
LINES = {"idle": ":", "cruise": "--", "full": "-"}
BANKS = 3
"""Banks that are drawn, at most."""


def draw(answer: StallAnswer, units: Units) -> Figure:
    """Return bank above, height below it, a column for each of the first banks, and autorotation at the foot."""
    arranged = answer.autorotation.arrangements
    banks = list(dict.fromkeys(one.entry.bank_deg for own in answer.flights.values() for one in own))[:BANKS]
    height_in = 13.5 if arranged else 10.5
    figure, panels = sheet(
        4 if arranged else 3, len(banks), width_in=9.0 if len(banks) == 1 else 13.0, height_in=height_in
    )
    until_s = _until_s(answer, banks)
    upper, lower, (below, *last) = (
        panels[: len(banks)],
        panels[len(banks) : 2 * len(banks)],
        _whole(figure, panels, banks),
    )
    for above, middle, bank_deg in zip(upper, lower, banks, strict=True):
        above.set_title(_bank(bank_deg, units))
        _histories(above, answer, "bank_deg", units=units, bank_deg=bank_deg)
        above.set_ylabel(axis_label("bank_deg", units))
        _histories(middle, answer, "height_lost_m", units=units, bank_deg=bank_deg)
        middle.set_ylabel(unit_behind("height over that of the stall", quantity("height_lost_m").shown(units)[0]))
        for panel in (above, middle):
            panel.axvspan(0.0, answer.reaction_s, color="0.92", zorder=0, label="before the pilot reacts")
            panel.set_xlim(BEFORE_S, until_s)
            panel.set_xlabel(unit_behind("time from the stall", quantity("time_s").shown(units)[0]))
            panel.axhline(0.0, color="0.6", linewidth=0.6)
    for row in (upper, lower):
        ends = [end for panel in row for end in panel.get_ylim()]
        for panel in row:
            panel.set_ylim(min(ends), max(ends))
    upper[0].legend(fontsize=8, ncols=2, columnspacing=1.0, loc="lower left", bbox_to_anchor=(0.0, 1.1))
    _autorotation(below, answer.autorotation, engine_places(answer.engine_kinds), units)
    for panel in last:
        _rearranged(panel, arranged, units)
    return figure


def _whole(figure: Figure, panels: Sequence[Axes], banks: Sequence[float]) -> list[Axes]:
    """Return the panels below the second row, each as wide as the figure."""
    below = panels[2 * len(banks) :]
    whole = list(below[:: len(banks)])
    grid = figure.add_gridspec(2 + len(whole), 1)
    for row, panel in enumerate(whole):
        panel.set_subplotspec(grid[2 + row, 0])
    for panel in below:
        if panel not in whole:
            figure.delaxes(panel)
    return whole


def _bank(bank_deg: float, units: Units) -> str:
    return text_of(Value("bank_deg", bank_deg, decimals=0, signed=True), units) if bank_deg else "wings level"


def _until_s(answer: StallAnswer, banks: Sequence[float]) -> float:
    """Return the time up to which is drawn: a second after the last of the lowest points."""
    drawn = [
        one.columns for own in answer.flights.values() for one in own if one.columns and one.entry.bank_deg in banks
    ]
    after = [{name: columns[name][columns["time_s"] >= 0.0] for name in ("time_s", "altitude_m")} for columns in drawn]
    lowest = [float(columns["time_s"][columns["altitude_m"].argmin()]) for columns in after]
    ends = [float(columns["time_s"][-1]) for columns in drawn]
    return min(max([AFTER_S, *(at + 1.0 for at in lowest)]), max(ends, default=AFTER_S))


def _histories(panel: Axes, answer: StallAnswer, name: str, *, units: Units, bank_deg: float) -> None:
    """Draw bank, or height over that of the stall, of the flights with one bank."""
    factor = quantity(name).shown(units)[1]
    places = engine_places(answer.engine_kinds)
    for engine, flights in answer.flights.items():
        for flight in flights:
            entry, columns = flight.entry, flight.columns
            if not columns or entry.bank_deg != bank_deg:
                continue
            time_s = columns["time_s"]
            seen = time_s >= BEFORE_S
            height = columns["altitude_m"] - columns["altitude_m"][np.searchsorted(time_s, 0.0)]
            values = columns["bank_deg"] if name == "bank_deg" else height
            look = style(places[engine]) | {"linestyle": LINES[entry.power]}
            panel.plot(
                time_s[seen],
                factor * values[seen],
                label=tell("{name}, {power}", name=engine, power=entry.power),
                **look,
            )


def _autorotation(panel: Axes, found: AutorotationAnswer, places: Mapping[str, int], units: Units) -> None:
    """Draw damping and steady roll, the first powerplant wide, so that one of the same values over it hides nothing."""
    for number, (name, own) in enumerate(found.powerplants.items()):
        look: dict[str, Any] = {"color": INKS[places[name]], "linewidth": max(1.2, 4.0 - 2.8 * number)}
        panel.plot(
            own.curve_alpha_deg,
            own.curve_damping,
            label=tell("{name}: damping; above 0 it is driven", name=name),
            **look,
        )
        panel.plot(
            own.curve_alpha_deg,
            own.curve_rates,
            linestyle="--",
            label=tell("{name}: roll that goes on, p b/2V", name=name),
            **look,
        )
    panel.axhline(0.0, color="0.6", linewidth=0.6)
    panel.set_xlabel(axis_label("curve_alpha_deg", units))
    panel.set_ylabel("slope; p b/2V")
    panel.legend(fontsize=8)


def _rearranged(panel: Axes, arranged: Sequence[Arrangement], units: Units) -> None:
    """Draw the damping of every arrangement of the planes, other gaps thin and other staggers dashed."""
    drawn = arranged[0]
    for number, one in enumerate(arranged):
        said = "gap {gap}, stagger {stagger} chord, as drawn" if one.as_drawn else "gap {gap}, stagger {stagger} chord"
        place = tell(said, gap=f"{one.gap_chords:.2f}", stagger=f"{one.stagger_chords:.2f}")
        other = one.stagger_chords != drawn.stagger_chords
        panel.plot(
            one.rolls.curve_alpha_deg,
            one.rolls.curve_damping,
            color=ink(number),
            linewidth=2.4 if one.as_drawn else 1.0,
            linestyle="--" if other else "-",
            label=place,
        )
    panel.axhline(0.0, color="0.6", linewidth=0.6)
    panel.set_xlabel(axis_label("curve_alpha_deg", units))
    panel.set_ylabel("damping of a roll; driven above 0")
    panel.legend(fontsize=8)
