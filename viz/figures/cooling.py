"""Temperature and heat balance of a receiver over time, bare and cowled, with the uncertainty of the correlation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from sim.units.text import fixed
from viz.figures.inks import NEUTRAL, series, style
from viz.figures.sheet import sheet
from viz.words.reader import meant, tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.cooling import CoolingAnswer, CoolingCase
    from viz.sheets.format import Units


def draw(answer: CoolingAnswer, units: Units) -> Figure:
    """Return temperatures above the heat that the air takes, bare and under a cowling, each silent and firing."""
    figure, panels = sheet(2, 2, width_in=9.0, height_in=6.8)
    time = quantity("duration_s")
    minutes = [time.number(each, units) for each in answer.time_s]
    heat = quantity("given_off_w")
    for column, cowled in enumerate((False, True)):
        above, below = panels[column], panels[2 + column]
        cases = [each for each in answer.cases if each.cowled == cowled]
        for index, case in enumerate(cases):
            look = style(series(index))
            slow, likely, fast = (
                _shown(curve, units) for curve in (case.slowest_k, case.temperature_k, case.fastest_k)
            )
            above.fill_between(minutes, fast, slow, color=look["color"], alpha=0.2, linewidth=0)
            above.plot(minutes, likely, label=_state(case), **look)
            given_off = [heat.number(each, units) for each in case.given_off_w]
            below.plot(minutes, given_off, label=tell("given off, {state}", state=_state(case)), **look)
        (stiff,) = _shown([answer.oil_stiff_k], units)
        above.axhline(stiff, color=NEUTRAL, linewidth=1.0, linestyle=":", label="oil stiff below (no longer flows)")
        rate = f"{answer.mean_rounds_per_min:g}"
        below.axhline(
            heat.number(cases[-1].heat_w, units),
            color=NEUTRAL,
            linewidth=1.0,
            linestyle="-.",
            label=tell("by firing, {rate} rounds a minute", rate=rate),
        )
        above.set_title(_head(cases[0], units), fontsize=9)
        below.set_xlabel(unit_behind("time", time.shown(units)[0]))
    for row in (panels[:2], panels[2:]):
        _alike(row)
    panels[0].legend(loc="best", title="shaded: film coefficient ± 20 %", fontsize=8, title_fontsize=8)
    panels[2].legend(loc="best", fontsize=8)
    panels[0].set_ylabel(
        unit_behind("temperature of the part\nthat holds the oil", quantity("settled_k").shown(units)[0])
    )
    panels[2].set_ylabel(unit_behind("heat", heat.shown(units)[0]))
    return figure


def _head(case: CoolingCase, units: Units) -> str:
    return tell(
        "{where}: air {temperature} at {speed},\nfilm coefficient {film} at the start",
        where="under a cowling" if case.cowled else "bare in the airstream",
        temperature=fixed("flow_k", case.flow_k, units, 0),
        speed=fixed("flow_m_s", case.flow_m_s, units, 0),
        film=fixed("film_w_m2_k", case.film_w_m2_k, units, 0 if units == "si" else 1),
    )


def _state(case: CoolingCase) -> str:
    return meant("gun|firing") if case.firing else meant("gun|silent")


def _alike(panels: Sequence[Axes]) -> None:
    """Give panels that stand side by side one scale."""
    lowest, highest = (pick(panel.get_ylim()[end] for panel in panels) for end, pick in ((0, min), (1, max)))
    for panel in panels:
        panel.set_ylim(lowest, highest)


def _shown(curve_k: Sequence[float], units: Units) -> list[float]:
    return [quantity("settled_k").number(each, units) for each in curve_k]
