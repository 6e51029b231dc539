"""The take-off run of each powerplant: airspeed against distance, wind across that is held, rudder for the tail."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.quantities import quantity
from viz.figures.inks import INKS, MARKS, NEUTRAL, engine_places, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.field import FieldAnswer
    from viz.sheets.format import Units


BESIDE: dict[str, Any] = {"textcoords": "offset points", "va": "center", "fontsize": 8}
APART = 0.03
"""Share of an axis' value by which the bands of two powerplants stand beside their marks."""


def draw(answer: FieldAnswer, units: Units) -> Figure:
    """Return the run above, the wind across below it, and the rudder at the foot; with bands each has its own."""
    figure, (above, middle, below) = sheet(3, width_in=9.0, height_in=10.5)
    _runs(above, answer, units)
    _winds(middle, answer, units)
    _rudder(below, answer)
    if any(own.take_off_probability is not None for own in answer.powerplants.values()):
        figure.suptitle("Thin lines with ends: 90 % bands", fontsize=10)
    return figure


def _band(place: int, ends: str) -> dict[str, Any]:
    """Return the look of a 90 % band: a thin line with ends."""
    return {"color": INKS[place], "linewidth": 1.0, "marker": ends, "markersize": 8}


def _runs(panel: Axes, answer: FieldAnswer, units: Units) -> None:
    far, fast = (quantity(name).shown(units)[1] for name in ("curve_distances_m", "curve_speeds_m_s"))
    places = engine_places(answer.engine_kinds)
    for number, (name, own) in enumerate(answer.powerplants.items()):
        place = places[name]
        at = [distance * far for distance in own.curve_distances_m]
        speeds = [speed * fast for speed in own.curve_speeds_m_s]
        panel.plot(at, speeds, label=tell("{name}, to lift-off", name=name), **style(place))
        panel.plot(at[-1:], speeds[-1:], MARKS[place], color=INKS[place], markersize=8)
        if own.ground_run_low_m is not None and own.ground_run_high_m is not None:
            ends = [own.ground_run_low_m * far, own.ground_run_high_m * far]
            panel.plot(ends, 2 * [speeds[-1] * (1.0 + APART * (1 + number))], **_band(place, "|"))
        if own.tail_up_m_s is not None:
            panel.axhline(own.tail_up_m_s * fast, color=INKS[place], linewidth=0.6, linestyle=":")
    panel.plot([], [], color=NEUTRAL, linewidth=0.6, linestyle=":", label="tail raised")
    panel.set_xlabel(axis_label("curve_distances_m", units))
    panel.set_ylabel(axis_label("curve_speeds_m_s", units))
    panel.set_ylim(bottom=0.0)
    panel.set_xlim(left=0.0)
    panel.set_title(tell("Take-off run of {title} on {surface}", title=answer.title, surface=answer.surface))
    panel.legend(loc="lower right")


def _winds(panel: Axes, answer: FieldAnswer, units: Units) -> None:
    """Draw the wind that rudder and ailerons hold along the run, from the left below zero, from the right above."""
    fast, blown = (quantity(name).shown(units)[1] for name in ("wind_speeds_m_s", "rudder_winds_m_s"))
    most = 0.0
    places = engine_places(answer.engine_kinds)
    for number, (name, own) in enumerate(answer.powerplants.items()):
        place = places[name]
        for wind in own.winds:
            sign = 1.0 if wind.side == "right" else -1.0
            speeds = [speed * fast for speed in wind.wind_speeds_m_s]
            held = zip(wind.rudder_winds_m_s, wind.aileron_winds_m_s, strict=True)
            ends = [sign * min(both) * blown for both in held]
            most = max(most, *map(abs, ends))
            panel.plot(speeds, ends, label=name if sign > 0.0 else None, **style(place))
            least = sign * wind.take_off_wind_m_s * blown
            panel.plot([wind.runs_out_m_s * fast], [least], MARKS[place], color=INKS[place], markersize=8)
            if wind.take_off_wind_low_m_s is not None and wind.take_off_wind_high_m_s is not None:
                band = [sign * end * blown for end in (wind.take_off_wind_low_m_s, wind.take_off_wind_high_m_s)]
                most = max(most, *map(abs, band))
                at = wind.runs_out_m_s * fast * (1.0 - 0.5 * APART * (1 + number))
                panel.plot(2 * [at], band, **_band(place, "_"))
    panel.axhline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.set_ylim(-1.15 * most, 1.15 * most)
    panel.yaxis.set_major_formatter(lambda value, _: f"{abs(value):g}")
    panel.set_xlabel(axis_label("wind_speeds_m_s", units))
    unit = quantity("rudder_winds_m_s").shown(units)[0]
    panel.set_ylabel(tell("from left – wind [{unit}] – from right", unit=unit))
    panel.set_title("Wind across that full rudder and ailerons hold, tail coming up and level; mark: the least")
    panel.legend(loc="best")


def _rudder(panel: Axes, answer: FieldAnswer) -> None:
    """Draw the rudder as bars: at that speed, and while the tail comes up."""
    names, places = list(answer.powerplants), engine_places(answer.engine_kinds)
    for number, (engine, own) in enumerate(answer.powerplants.items()):
        if own.rudder_share is None or own.raising_share is None:
            continue
        steady, rising = -100.0 * own.rudder_share, -100.0 * own.raising_share
        panel.barh(number + 0.18, steady, height=0.3, color="white", edgecolor=INKS[places[engine]], linewidth=1.6)
        panel.barh(number - 0.18, rising, height=0.3, color=INKS[places[engine]])
        for name, place in (("rudder_share", 0.18), ("raising_share", -0.18)):
            band = [getattr(own, f"{name}_{end}") for end in ("low", "high")]
            if None not in band:
                ends = [-100.0 * end for end in band]
                panel.plot(ends, 2 * [number + place], **_band(5, "|"))
        side = -6 if rising >= 0.0 else 6
        look = BESIDE | {"ha": "right" if rising >= 0.0 else "left", "xytext": (side, 0)}
        panel.annotate("tail not moving", (0.0, number + 0.18), **look)
        panel.annotate("tail coming up", (0.0, number - 0.18), **look)
    panel.axvline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.axvline(100.0, color=NEUTRAL, linewidth=1.6, linestyle="--")
    panel.axvline(-100.0, color=NEUTRAL, linewidth=1.6, linestyle="--")
    panel.set_xlim(-130.0, 130.0)
    panel.set_yticks(range(len(names)), names)
    panel.set_xlabel("left rudder – rudder [% of its travel] – right rudder")
    panel.set_title("Rudder that keeps the run straight; dashed: all of it")
