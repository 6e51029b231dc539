"""What answers hang on: how far each ± moves each of them, the strongest on top."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from viz.figures.inks import NEUTRAL, ink
from viz.figures.sheet import sheet
from viz.sheets.sensitivity import amount, spread, step, strongest
from viz.sheets.text import text_of, unit_of
from viz.words.reader import tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.sweeps.local_sensitivity import Sensitivity
    from viz.sheets.format import Units

BAR_IN = 0.34


def draw(answers: Mapping[str, Sensitivity], units: Units) -> Figure:
    """Return one panel for each answer, by what it is called."""
    figure, panels = sheet(len(answers), width_in=8.5, height_in=sum(map(_height, answers.values())))
    for panel, (name, one) in zip(panels, answers.items(), strict=True):
        _panel(panel, name, one, units)
    return figure


def _height(one: Sensitivity) -> float:
    return 1.3 + BAR_IN * max(2, len(strongest(one)))


def _panel(panel: Axes, name: str, one: Sensitivity, units: Units) -> None:
    unit, factor = unit_of(amount(one.column, one.nominal), units)
    inputs = strongest(one)
    places = range(len(inputs))
    moves = [factor * one_input.change for one_input in inputs]
    panel.barh(places, moves, 0.7, color=[ink(0) if move > 0.0 else ink(1) for move in moves])
    for place, move in zip(places, moves, strict=True):
        panel.annotate(
            f"{move:+.2g}",
            (move, place),
            xytext=(3 if move > 0.0 else -3, 0),
            textcoords="offset points",
            ha="left" if move > 0.0 else "right",
            va="center",
            fontsize=8,
        )
    panel.axvline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.grid(visible=False, axis="y")
    panel.set_axisbelow(True)
    panel.margins(x=0.18)
    panel.invert_yaxis()
    panel.set_yticks(places, [fill(text_of(step(one_input), units), 44) for one_input in inputs], fontsize=8)
    panel.set_xlabel(unit_behind("change", unit))
    panel.set_title(fill(tell("{name}: {spread}", name=name, spread=text_of(spread(one), units)), 52))
