"""Power required and power available against speed, with each powerplant."""

from __future__ import annotations

from bisect import bisect
from typing import TYPE_CHECKING

from sim.units.quantities import band_ends, quantity
from viz.figures.inks import NEUTRAL, engine_places, mark, style
from viz.figures.sheet import sheet
from viz.sheets.format import amount
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.speeds import Curve, SpeedsAnswer
    from viz.sheets.format import Units


SEEN_APART = 0.04
"""Difference of two curves over their height that an eye sees."""


def draw(answer: SpeedsAnswer, units: Units) -> Figure:
    """Return one panel with all powerplants."""
    figure, (panel,) = sheet(width_in=9.0)
    _available(panel, answer, units)
    _required(panel, answer, units)
    per_speed = quantity("speed_m_s").shown(units)[1]
    stall = answer.stall_m_s * per_speed
    panel.axvline(stall, color=NEUTRAL, linewidth=0.8, linestyle=":")
    panel.annotate(
        "stall", (stall, 0.02), xycoords=("data", "axes fraction"), xytext=(3, 0), textcoords="offset points"
    )
    panel.set_ylim(bottom=0.0)
    panel.set_xlabel(axis_label("speed_m_s", units))
    panel.set_ylabel(unit_behind("thrust power", quantity("power_w").shown(units)[0]))
    height = amount("altitude_m", answer.altitude_m, units)
    panel.set_title(
        tell(
            "Power against speed, {title} at {weight} and {height}",
            title=answer.title,
            weight=_weights(answer, units),
            height=height,
        )
    )
    shaded = "shaded: 90 % bands" if panel.collections else None
    panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), title=shaded)
    return figure


def _available(panel: Axes, answer: SpeedsAnswer, units: Units) -> None:
    """Draw the power available with each powerplant, at full engine speed thick, at cruise thin, and its marks."""
    per_speed, per_power = (quantity(name).shown(units)[1] for name in ("speed_m_s", "power_w"))
    places = engine_places(answer.engine_kinds)
    for name, curve in answer.curves.items():
        at = [speed * per_speed for speed in curve.speed_m_s]
        look = style(places[name])
        panel.plot(
            at,
            [power * per_power for power in curve.full_w],
            label=tell("{name}, available at full engine speed", name=name),
            **look,
        )
        panel.plot(
            at,
            [power * per_power for power in curve.cruise_w],
            label=tell("{name}, available at cruise engine speed", name=name),
            **{**look, "linewidth": 0.8},
        )
        _band(panel, curve, "full_w", units, color=look["color"])
        _marks(panel, answer, name, place=places[name], units=units)


def _required(panel: Axes, answer: SpeedsAnswer, units: Units) -> None:
    """Draw the power required, once or for each powerplant."""
    per_speed, per_power = (quantity(name).shown(units)[1] for name in ("speed_m_s", "power_w"))
    for name, curve in _needed(answer).items():
        panel.plot(
            [speed * per_speed for speed in curve.speed_m_s],
            [power * per_power for power in curve.needed_w],
            color=NEUTRAL,
            linewidth=2.4 if name in {"", answer.powerplant} else 1.2,
            label=tell("required in level flight, with {name}", name=name) if name else "required in level flight",
        )
        _band(panel, curve, "needed_w", units, color=NEUTRAL)


def _weights(answer: SpeedsAnswer, units: Units) -> str:
    """Return the weight of all airplanes drawn, or from the lightest to the heaviest."""
    own = [answer.masses[name].mass_kg for name in answer.curves if name in answer.masses] or [answer.mass_kg]
    least, most = (amount("mass_kg", mass, units, 4) for mass in (min(own), max(own)))
    return most if least == most else tell("{least} to {most}", least=least, most=most)


def _band(panel: Axes, curve: Curve, name: str, units: Units, *, color: str) -> None:
    """Shade the 90 % band of a curve of power, where there is one."""
    low, high = (getattr(curve, end) for end in band_ends(name))
    if low is not None:
        speed, power = (quantity(one).shown(units)[1] for one in ("speed_m_s", "power_w"))
        at = [value * speed for value in curve.speed_m_s]
        lower, upper = ([value * power for value in row] for row in (low, high))
        panel.fill_between(at, lower, upper, color=color, alpha=0.13, linewidth=0.0)


def _needed(answer: SpeedsAnswer) -> dict[str, Curve]:
    """Return the widest curve of the power required, or one for each powerplant where they are told apart by eye."""
    curves = answer.curves
    widest = max(curves.values(), key=lambda curve: curve.speed_m_s[-1])
    for other in curves.values():
        for speed, needed in zip(other.speed_m_s, other.needed_w, strict=True):
            if abs(_at(widest, speed) / needed - 1.0) > SEEN_APART:
                return dict(curves)
    return {"": widest}


def _at(curve: Curve, speed_m_s: float) -> float:
    """Return the power required at a speed, on the straight line between two points of the curve. [W]."""
    at = min(max(bisect(curve.speed_m_s, speed_m_s), 1), len(curve.speed_m_s) - 1)
    (low, high), (first, second) = curve.speed_m_s[at - 1 : at + 1], curve.needed_w[at - 1 : at + 1]
    return first + (second - first) * (speed_m_s - low) / (high - low)


def _marks(panel: Axes, answer: SpeedsAnswer, name: str, *, place: int, units: Units) -> None:
    """Mark top speed on the power required, and best climb on the power available."""
    own, curve = answer.powerplants[name], answer.curves[name]
    speed, power = (quantity(name).shown(units)[1] for name in ("speed_m_s", "power_w"))
    for at_m_s, row, said in (
        (own.top_m_s, curve.needed_w, "{name}, top speed {speed}"),
        (own.best_climb_m_s, curve.full_w, "{name}, best climb {speed}"),
    ):
        nearest = min(range(len(row)), key=lambda k: abs(curve.speed_m_s[k] - at_m_s))
        label = tell(said, name=name, speed=amount("top_m_s", at_m_s, units))
        fill = None if row is curve.needed_w else "none"
        panel.plot([at_m_s * speed], [row[nearest] * power], markerfacecolor=fill, label=label, **mark(place))
