"""The envelope: weight against centre of gravity from full tanks to empty, and the effect of moving the engine."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from textwrap import fill
from typing import TYPE_CHECKING, Any, Literal

from sim.airframe.engine_position import spaced
from sim.units.quantities import quantity
from viz.figures.drawing import side as side_view
from viz.figures.inks import MARKS, NEUTRAL, ink, series, style
from viz.figures.sheet import sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.balance_answer import BalanceAnswer
    from sim.studies.drawing_answer import DrawingAnswer
    from viz.sheets.format import Units


LINES = ("-", "--", ":", "-.")
"""Strokes of the loads of one pilot: alone, with passengers, with baggage, with both."""
FILLS: tuple[Literal["full", "none", "left", "top"], ...] = ("full", "none", "left", "top")
"""Marks of the same, in the same order."""
FULL_SIZE = 11.0
"""Of the mark of full tanks, in points."""
LIMITS = ("forward limit", "aft limit")
UPWARD = 34
"""Letters to a line of what is written upward."""


def draw(answer: BalanceAnswer | Mapping[str, Any], units: Units) -> Figure:
    """Return the envelope above and the engine's steps below it; under both the side view where a drawing is given.

    Parameters
    ----------
    answer : BalanceAnswer, or mapping
        The balance, or it as ``balance`` and the drawing of the same airplane as ``drawing``.
    units : {"us", "si"}
        Of the axes.
    """
    whole: Mapping[str, Any] = answer if isinstance(answer, Mapping) else {"balance": answer}
    found, drawn = whole["balance"], whole.get("drawing")
    figure, (above, below, *under) = sheet(3 if drawn else 2, width_in=9.5, height_in=12.0 if drawn else 8.0)
    _envelope(above, found, units)
    _steps(below, found, units)
    if drawn:
        _side(under[0], found, drawn, units)
    return figure


def _side(panel: Axes, answer: BalanceAnswer, drawn: DrawingAnswer, units: Units) -> None:
    """Draw the airplane from the side, limits and target of the centre of gravity through it."""
    _, factor = quantity("station_m").shown(units)
    side_view(panel, next(view for view in drawn.views if view.name == "side"), units)
    ends = (drawn.forward_limit_station_m, drawn.aft_limit_station_m)
    for limit_m in (end for end in ends if end is not None):
        panel.axvline(limit_m * factor, color=NEUTRAL, linewidth=1.6)
    panel.axvline(answer.target_station_m * factor, color=NEUTRAL, linewidth=0.8, linestyle=":")
    panel.set_title("Side view with the limits of the centre of gravity, its target dotted")


def _limits(panel: Axes, answer: BalanceAnswer) -> None:
    for said, limit in zip(LIMITS, (answer.forward_limit_percent_mac, answer.aft_limit_percent_mac), strict=True):
        forward = said == LIMITS[0]
        panel.axvline(limit, color=NEUTRAL, linewidth=2.2)
        panel.annotate(
            said,
            (limit, 0.02),
            xycoords=("data", "axes fraction"),
            xytext=(-4 if forward else 4, 0),
            textcoords="offset points",
            rotation=90,
            ha="right" if forward else "left",
            va="bottom",
        )
    panel.axvline(answer.target_percent_mac, color=NEUTRAL, linewidth=0.8, linestyle=":")
    _by_physics(panel, answer)


def _by_physics(panel: Axes, answer: BalanceAnswer) -> None:
    """Draw the neutral point of the engine that is balanced, with its standard error as a band."""
    found = answer.powerplants.get(answer.powerplant)
    if found is None or found.neutral_point_percent_mac is None:
        return
    at, error = found.neutral_point_percent_mac, found.neutral_point_error_percent_mac or 0.0
    panel.axvspan(at - error, at + error, facecolor=ink(3), alpha=0.12, linewidth=0.0, label="± of the neutral point")
    panel.axvline(
        at,
        color=ink(3),
        linewidth=1.6,
        linestyle="-.",
        label=tell("neutral point, {at} ± {error} %", at=f"{at:.1f}", error=f"{error:.1f}"),
    )


def _envelope(panel: Axes, answer: BalanceAnswer, units: Units) -> None:
    _, factor = quantity("mass_kg").shown(units)
    _limits(panel, answer)
    for number, (_, points) in enumerate(groupby(answer.envelope, lambda point: point.name.partition(",")[0])):
        for load, (aboard, burned) in enumerate(groupby(points, lambda point: point.name.rpartition(",")[0])):
            path = list(burned)
            percents, weights = [p.cg_percent_mac for p in path], [p.mass_kg * factor for p in path]
            look = style(series(number)) | {"linestyle": LINES[load % len(LINES)], "marker": MARKS[series(number)]}
            look |= {"fillstyle": FILLS[load % len(FILLS)], "markerfacecoloralt": "white"}
            panel.plot(percents, weights, label=aboard, markevery=slice(1, None), **look)
            panel.plot(percents[:1], weights[:1], markersize=FULL_SIZE, **look)
    panel.plot([], [], color=NEUTRAL, linewidth=0.8, linestyle=":", label="target")
    panel.set_xlabel("centre of gravity [% of the mean chord]")
    panel.set_ylabel(unit_behind("weight", quantity("mass_kg").shown(units)[0]))
    at = text_of(Value("engine_station_m", answer.engine_station_m, decimals=2), units)
    panel.set_title(
        tell("Loading envelope with {engine}, engine at station {station}", engine=answer.powerplant, station=at)
    )
    panel.margins(x=0.12, y=0.15)
    panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), title="loadings, full tanks (large) to empty")


def _steps(panel: Axes, answer: BalanceAnswer, units: Units) -> None:
    _, factor = quantity("engine_move_m").shown(units)
    moves = [step.engine_move_m * factor for step in answer.positions]
    apart_m, _ = spaced(answer.positions, len(answer.positions))
    step = text_of(Value("engine_move_m", apart_m, digits=4, plain=True), units)
    percents = [step.cg_percent_mac for step in answer.positions]
    panel.plot(
        percents,
        moves,
        marker=MARKS[series(0)],
        markersize=4,
        label=tell("loaded, in steps of {step}", step=step),
        **style(series(0)),
    )
    move = text_of(Value("engine_move_m", answer.engine_move_m, decimals=2, signed=True), units)
    panel.plot(
        [answer.target_percent_mac],
        [answer.engine_move_m * factor],
        MARKS[series(3)],
        color=ink(1),
        markersize=9,
        label=tell("on target: {move}", move=move),
    )
    panel.axhline(0.0, color=NEUTRAL, linewidth=0.8)
    if answer.serves_from_m is not None and answer.serves_to_m is not None:
        panel.axhspan(
            answer.serves_from_m * factor,
            answer.serves_to_m * factor,
            facecolor=ink(2),
            alpha=0.15,
            label="every loading within the limits",
        )
        panel.set_ylim(min(moves) * 1.15, max(moves) * 1.15)
    panel.set_xlabel("loaded centre of gravity [% of the mean chord]")
    panel.set_ylabel(fill(axis_label("engine_move_m", units), UPWARD))
    panel.set_title("Engine position and loaded centre of gravity")
    panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0))
