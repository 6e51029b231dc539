"""Rate of fire and blades per round against propeller speed, plateaus labelled rounds : blades."""

from __future__ import annotations

from math import ceil
from textwrap import fill
from typing import TYPE_CHECKING, Any

from sim.units.text import brief, fixed
from viz.figures.sheet import sheet
from viz.figures.timing_look import INK, WINDOW
from viz.sheets.rate import ends
from viz.words.reader import axis_label, tell, worded

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.model.gun import WhichGun
    from sim.studies.rate_answer import RateAnswer, RateMap, RatePoint, Staircase
    from viz.sheets.format import Units

NARROW = 28
"""Letters to a line along the height of a panel."""
EDGE = 0.03
"""Share of the speeds from either end within which a label would run over the edge."""
LEAST_LABELLED = 0.06
"""Share of the speed range that a plateau of more than one round must cover to be labelled."""
GUNS: dict[str, str] = {"": "", "first": "first gun", "second": "second gun"}
ROOM = 1.22
"""Height of the panel of rates over the gun's own rate: above it stands the legend."""
FEW = 30
"""Speeds up to which each has a large mark."""
STACKED = 2
"""Powerplants one under another."""
SHALLOW = 0.4
"""Share of the gun's own rate below which the least rate is said above its place, where there is room."""


def draw(answer: RateAnswer, units: Units) -> Figure:
    """Return two panels for each powerplant, and a third where the rate is mapped against the gun's own rate."""
    mapped = any(each.over_rates for each in answer.staircases)
    rows = 3 if mapped else 2
    deep = min(STACKED, len(answer.staircases))
    columns = ceil(len(answer.staircases) / STACKED)
    figure, panels = sheet(rows * deep, columns, width_in=max(8.0, 5.4 * columns), height_in=2.6 * rows * deep)
    least = min((min(map(min, each.over_rates.kept_share)) for each in answer.staircases if each.over_rates), default=0)
    for number, staircase in enumerate(answer.staircases):
        first = number % STACKED * rows * columns + number // STACKED
        _rates(panels[first], staircase, units, ideal=answer.cam.ideal, gun=answer.gun)
        _blades(panels[first + columns], staircase, units)
        if staircase.over_rates:
            _map(figure, panels[first + 2 * columns], staircase.over_rates, units, least=least)
    for panel in panels:
        if not panel.has_data():
            panel.set_axis_off()
    return figure


def _rates(panel: Axes, staircase: Staircase, units: Units, *, ideal: bool, gun: WhichGun) -> None:
    """Draw the rate over the speed, on an axis from zero: a dip is as deep as it looks."""
    rpm = [row.rpm for row in staircase.rows]
    own = staircase.gun_rounds_per_min
    panel.axhline(own, color=INK, linewidth=1.0, linestyle=":", label="unsynchronized")
    for index, step in enumerate(staircase.plateaus):
        ends = (step.from_rounds_per_min, step.to_rounds_per_min)
        label = "synchronized" if index == 0 else None
        panel.plot((step.from_rpm, step.to_rpm), ends, color=WINDOW, solid_capstyle="butt", label=label)
    if not staircase.plateaus:  # of a single speed, or where all patterns are longer: speed by speed
        rates = [row.rounds_per_min for row in staircase.rows]
        panel.plot(rpm, rates, color=WINDOW, label="synchronized", **_points(rpm))
    scattered = [row.scattered_rounds_per_min for row in staircase.rows]
    if any(each is not None for each in scattered):
        scatter = brief("cycle_scatter_ms", staircase.cycle_scatter_ms, digits=3)
        label = tell("mean with cycle scatter {scatter}", scatter=scatter)
        rates = [float("nan") if each is None else each for each in scattered]
        panel.plot(rpm, rates, color=INK, linestyle="--", marker=_mark(rpm), linewidth=1.4, label=label)
    _span(panel, rpm)
    panel.set_ylabel(axis_label("rounds_per_min", units))
    whose = [GUNS[gun], staircase.powerplant, staircase.action, "ideal cam" if ideal else ""]
    panel.set_title(", ".join(map(worded, ["Rate of fire", *filter(None, whose)])))
    panel.set_ylim(0.0, ROOM * own)
    if min(rpm) < max(rpm):
        _least(panel, staircase, units)
    panel.legend(loc="upper left", fontsize=7, ncols=3, borderaxespad=0.0, columnspacing=1.2)


def _least(panel: Axes, staircase: Staircase, units: Units) -> None:
    """Say the least rate, at its place, and by how much it lies below the gun's own."""
    (least, at_rpm), _ = ends(staircase)
    share = least / staircase.gun_rounds_per_min
    said = tell(
        "least: {rate} at {speed},\n{share} % below unsynchronized",
        rate=f"{least:.0f}",
        speed=fixed("rpm", at_rpm, units, 0),
        share=f"{100.0 * (1.0 - share):.0f}",
    )
    low, high = panel.get_xlim()
    beyond_middle = at_rpm > 0.5 * (low + high)
    panel.annotate(
        said,
        (at_rpm, least),
        xytext=(-8 if beyond_middle else 8, 30 if share < SHALLOW else -30),
        textcoords="offset points",
        ha="right" if beyond_middle else "left",
        va="bottom" if share < SHALLOW else "top",
        fontsize=8,
        arrowprops={"arrowstyle": "-", "color": INK, "linewidth": 0.8},
    )


def _blades(panel: Axes, staircase: Staircase, units: Units) -> None:
    rpm = [row.rpm for row in staircase.rows]
    for step in staircase.plateaus:
        height = step.intervals_per_pattern / step.rounds_per_pattern
        panel.plot((step.from_rpm, step.to_rpm), (height, height), color=WINDOW, linewidth=2.2, solid_capstyle="butt")
        wide = step.to_rpm - step.from_rpm >= LEAST_LABELLED * (max(rpm) - min(rpm))
        if wide or step.rounds_per_pattern == 1:
            place = ((step.from_rpm + step.to_rpm) / 2.0, height)
            _said(panel, place, f"{step.rounds_per_pattern} : {step.intervals_per_pattern}", _side(place[0], rpm))
    if min(rpm) == max(rpm):
        _one_pattern(panel, staircase.rows[0])
    elif not staircase.plateaus:
        per_round = [_per_round(row) for row in staircase.rows]
        panel.plot(rpm, per_round, color=WINDOW, **_points(rpm))
    _span(panel, rpm)
    panel.set_xlabel(axis_label("rpm", units))
    panel.set_ylabel("blades per round")
    panel.set_title("Blades that pass per round; labels: rounds : blades", fontsize=9)
    panel.margins(y=0.15)


def _one_pattern(panel: Axes, row: RatePoint) -> None:
    """Draw the pattern of a single speed, which lies on no plateau that could be drawn; none where it never repeats."""
    if row.rounds_per_pattern and row.intervals_per_pattern:
        height = _per_round(row)
        panel.plot(row.rpm, height, marker="o", color=WINDOW)
        _said(panel, (row.rpm, height), f"{row.rounds_per_pattern} : {row.intervals_per_pattern}")


def _per_round(row: RatePoint) -> float:
    """Return how many blades pass a round; not-a-number where no pattern repeats."""
    if not (row.rounds_per_pattern and row.intervals_per_pattern):
        return float("nan")
    return row.intervals_per_pattern / row.rounds_per_pattern


def _points(rpm: list[float]) -> dict[str, Any]:
    """Return the look of speeds that stand each for itself, small where they are many."""
    return {"marker": "o", "linestyle": "none", "markersize": 2.0 if len(rpm) > FEW else 6.0}


def _side(speed_rpm: float, rpm: list[float]) -> str:
    """Return on which side of its place a label ends, so that it stays within the panel."""
    share = (speed_rpm - min(rpm)) / (max(rpm) - min(rpm))
    return "left" if share < EDGE else "right" if share > 1.0 - EDGE else "center"


def _said(panel: Axes, place: tuple[float, float], pattern: str, side: str = "center") -> None:
    panel.annotate(pattern, place, xytext=(0, 3), textcoords="offset points", ha=side, va="bottom", fontsize=7)


def _mark(rpm: list[float]) -> str:
    """Return the mark of the points of a curve: of a single one, which has no line."""
    return "s" if min(rpm) == max(rpm) else ""


def _span(panel: Axes, rpm: list[float]) -> None:
    """Let a panel end where the speeds do, so that panels above each other share their axis."""
    if min(rpm) < max(rpm):
        panel.set_xlim(min(rpm), max(rpm))


def _map(figure: Figure, panel: Axes, over: RateMap, units: Units, *, least: float) -> None:
    """Draw the map in colours from the least of all maps to 1, so that one colour is one fraction in each."""
    look: dict[str, Any] = {"cmap": "cividis", "vmin": least, "vmax": 1.0, "shading": "nearest", "rasterized": True}
    shades = panel.pcolormesh(over.rpm, over.gun_rounds_per_min, over.kept_share, **look)
    figure.colorbar(shades, ax=panel, label=fill(axis_label("kept_share", units), NARROW))
    panel.grid(visible=False)
    panel.set_xlabel(axis_label("rpm", units))
    panel.set_ylabel(fill(axis_label("gun_rounds_per_min", units), NARROW))
    panel.set_title("Fraction of the unsynchronized rate that is kept", fontsize=9)
