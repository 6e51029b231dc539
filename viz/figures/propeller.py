"""Coefficients and efficiency of propellers against advance ratio; thrust and speed on their engines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.propeller_answer import PropellerAnswer
from sim.units.quantities import quantity
from viz.figures.inks import NEUTRAL, engine_places, series, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.propulsion.propeller_curve import PropellerPoint
    from sim.studies.propeller_answer import PropellersAnswer
    from viz.sheets.format import Units

COEFFICIENTS = (("ct", "Thrust coefficient CT"), ("cp", "Power coefficient CP"), ("efficiency", "Efficiency"))
ON_ENGINE = ("thrust_n", "rpm")


def draw(answer: PropellerAnswer | PropellersAnswer, units: Units) -> Figure:
    """Return three panels against advance ratio; for an airplane two against airspeed, and the pitches that suit."""
    if isinstance(answer, PropellerAnswer):
        figure, panels = sheet(1, 3, width_in=11.0, height_in=3.8)
        _curves(panels, {tell("{count} blades", count=answer.blades): answer.curve}, places=(series(0),))
        return figure
    figure, panels = sheet(2, 3, width_in=11.0, height_in=7.0)
    places = engine_places(answer.engine_kinds)
    curves = {name: found.coefficient_curve for name, found in answer.powerplants.items()}
    _curves(panels[:3], curves, places=[places[name] for name in curves])
    for panel, name in zip(panels[3:], ON_ENGINE, strict=False):
        _on_engines(panel, answer, name, units)
    _suiting(panels[5], answer, units)
    return figure


def _suiting(panel: Axes, answer: PropellersAnswer, units: Units) -> None:
    """Draw the pitch that absorbs full power against diameter, and a mark for each propeller as it is."""
    names = ("suited_diameter_m", "suited_pitch_m")
    scale = quantity(names[0]).shown(units)[1]
    places = engine_places(answer.engine_kinds)
    for label, found in answer.powerplants.items():
        pairs = found.suitability.suggestions
        line = style(places[label])
        panel.plot(
            [scale * one.suited_diameter_m for one in pairs],
            [scale * one.suited_pitch_m for one in pairs],
            label=label,
            **line,
        )
        line |= {"linestyle": "", "marker": "o"}
        panel.plot([scale * found.diameter_m], [scale * found.pitch_m], **line)
    panel.set_xlabel(axis_label(names[0], units))
    panel.set_ylabel(axis_label(names[1], units))
    panel.set_title("Pitch for full power; dot: as fitted")
    panel.legend(title=answer.title)


def _curves(panels: Sequence[Axes], curves: Mapping[str, Sequence[PropellerPoint]], *, places: Sequence[int]) -> None:
    nothing = float("nan")
    for panel, (name, title) in zip(panels, COEFFICIENTS, strict=True):
        for place, (label, points) in zip(places, curves.items(), strict=True):
            heights = [getattr(point, name) for point in points]
            heights = [nothing if height is None else height for height in heights]
            mark = "o" if len(points) == 1 else ""
            panel.plot([point.advance_ratio for point in points], heights, label=label, marker=mark, **style(place))
        panel.set_xlabel("advance ratio J = V/nD")
        panel.set_title(title)
        panel.axhline(0.0, color=NEUTRAL, linewidth=0.6)
        panel.set_xlim(panels[0].get_xlim())


def _on_engines(panel: Axes, answer: PropellersAnswer, name: str, units: Units) -> None:
    per_speed, per_height = (quantity(each).shown(units)[1] for each in ("speed_m_s", name))
    places = engine_places(answer.engine_kinds)
    for label, found in answer.powerplants.items():
        speeds = [point.speed_m_s * per_speed for point in found.curve]
        heights = [getattr(point, name) * per_height for point in found.curve]
        mark = "o" if len(speeds) == 1 else ""
        panel.plot(speeds, heights, label=label, marker=mark, **style(places[label]))
    panel.set_xlabel(axis_label("speed_m_s", units))
    panel.set_ylabel(axis_label(name, units))
    panel.set_title("Thrust at full throttle" if name == "thrust_n" else "Propeller speed")
