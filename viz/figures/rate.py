"""Rate of fire and blades per round against propeller speed, plateaus labelled rounds : blades."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from sim.units.text import brief
from viz.figures.sheet import INKS, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.rate import RateAnswer, RateMap, RatePoint, Staircase
    from viz.sheets.format import Units

NARROW = 28
"""Letters to a line along the height of a panel."""
LEAST_LABELLED = 0.03
"""Share of the speed range that a plateau of more than one round must cover to be labelled."""


def draw(answer: RateAnswer, units: Units) -> Figure:
    """Return two panels for each powerplant, and a third where the rate is mapped against the gun's own rate."""
    mapped = any(each.over_rates for each in answer.staircases)
    rows = 3 if mapped else 2
    columns = len(answer.staircases)
    figure, panels = sheet(rows, columns, width_in=max(8.0, 6.4 * columns), height_in=3.1 * rows)
    for column, staircase in enumerate(answer.staircases):
        _rates(panels[column], staircase, units)
        _blades(panels[columns + column], staircase, units)
        if staircase.over_rates:
            _map(figure, panels[2 * columns + column], staircase.over_rates, units)
    return figure


def _rates(panel: Axes, staircase: Staircase, units: Units) -> None:
    rpm = [row.rpm for row in staircase.rows]
    own = staircase.gun_rounds_per_min
    panel.axhline(own, color=INKS[5], linestyle=":", label="unsynchronized")
    for index, step in enumerate(staircase.plateaus):
        ends = (step.from_rounds_per_min, step.to_rounds_per_min)
        label = "synchronized, no scatter" if index == 0 else None
        panel.plot((step.from_rpm, step.to_rpm), ends, color=INKS[0], solid_capstyle="butt", label=label)
    if min(rpm) == max(rpm):
        rate = staircase.rows[0].rounds_per_min
        panel.plot(rpm[0], rate, marker="o", linestyle="", color=INKS[0], label="synchronized, no scatter")
    scattered = [row.scattered_rounds_per_min for row in staircase.rows]
    if any(each is not None for each in scattered):
        scatter = brief("cycle_scatter_ms", staircase.cycle_scatter_ms, digits=3)
        label = f"synchronized, cycle scatter {scatter}"
        rates = [float("nan") if each is None else each for each in scattered]
        panel.plot(rpm, rates, color=INKS[1], linestyle="--", marker=_mark(rpm), linewidth=2.4, label=label)
    _span(panel, rpm)
    panel.set_ylabel(quantity("rounds_per_min").label(units))
    panel.set_title(f"Rate of fire, {staircase.powerplant}, {staircase.action}".replace(", ,", ","))
    bottom = min(
        [step.from_rounds_per_min for step in staircase.plateaus] or [row.rounds_per_min for row in staircase.rows]
    )
    panel.set_ylim(bottom - 0.35 * (own - bottom) - 1.0, own + 0.08 * (own - bottom) + 1.0)
    panel.legend(loc="lower right", fontsize=7, ncols=3)


def _blades(panel: Axes, staircase: Staircase, units: Units) -> None:
    rpm = [row.rpm for row in staircase.rows]
    for step in staircase.plateaus:
        height = step.intervals_per_pattern / step.rounds_per_pattern
        panel.plot((step.from_rpm, step.to_rpm), (height, height), color=INKS[0], linewidth=2.2, solid_capstyle="butt")
        wide = step.to_rpm - step.from_rpm >= LEAST_LABELLED * (max(rpm) - min(rpm))
        if wide or step.rounds_per_pattern == 1:
            place = ((step.from_rpm + step.to_rpm) / 2.0, height)
            _said(panel, place, f"{step.rounds_per_pattern} : {step.intervals_per_pattern}")
    if min(rpm) == max(rpm):
        _one_pattern(panel, staircase.rows[0])
    _span(panel, rpm)
    panel.set_xlabel(quantity("rpm").label(units))
    panel.set_ylabel("blade intervals per round")
    panel.set_title("Plateaus, rounds : blade intervals", fontsize=9)
    panel.margins(y=0.15)


def _one_pattern(panel: Axes, row: RatePoint) -> None:
    """Draw the pattern of a single speed, which lies on no plateau that could be drawn; none where it never repeats."""
    if row.rounds_per_pattern and row.intervals_per_pattern:
        height = row.intervals_per_pattern / row.rounds_per_pattern
        panel.plot(row.rpm, height, marker="o", color=INKS[0])
        _said(panel, (row.rpm, height), f"{row.rounds_per_pattern} : {row.intervals_per_pattern}")


def _said(panel: Axes, place: tuple[float, float], pattern: str) -> None:
    panel.annotate(pattern, place, xytext=(0, 3), textcoords="offset points", ha="center", va="bottom", fontsize=7)


def _mark(rpm: list[float]) -> str:
    """Return the mark of the points of a curve: of a single one, which has no line."""
    return "s" if min(rpm) == max(rpm) else ""


def _span(panel: Axes, rpm: list[float]) -> None:
    """Let a panel end where the speeds do, so that panels above each other share their axis."""
    if min(rpm) < max(rpm):
        panel.set_xlim(min(rpm), max(rpm))


def _map(figure: Figure, panel: Axes, over: RateMap, units: Units) -> None:
    shades = panel.pcolormesh(
        over.rpm, over.gun_rounds_per_min, over.kept_share, cmap="cividis", shading="nearest", rasterized=True
    )
    figure.colorbar(shades, ax=panel, label=fill(quantity("kept_share").label(units), NARROW))
    panel.grid(visible=False)
    panel.set_xlabel(quantity("rpm").label(units))
    panel.set_ylabel(fill(quantity("gun_rounds_per_min").label(units), NARROW))
    panel.set_title("Fraction of the unsynchronized rate that is kept", fontsize=9)
