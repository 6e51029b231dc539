"""Power against speed: what level flight takes, and what each engine and its propeller give."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.sheet import INKS, cautioned, mark, sheet, style
from viz.sheets.cautions import ESTIMATE
from viz.sheets.format import amount, shown

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.speeds import SpeedsAnswer
    from viz.sheets.format import Units


def draw(answer: SpeedsAnswer, units: Units) -> Figure:
    """Return one panel with both engines."""
    figure, (panel,) = sheet(width_in=9.0)
    speed_unit, per_speed = shown("speed_m_s", units)
    power_unit, per_power = shown("power_w", units)
    for number, (name, curve) in enumerate(answer.curves.items()):
        at = [speed * per_speed for speed in curve.speed_m_s]
        look = style(number)
        panel.plot(at, [power * per_power for power in curve.full_w], label=f"{name}, full", **look)
        panel.plot(
            at, [power * per_power for power in curve.cruise_w], label=f"{name}, cruise", **{**look, "linewidth": 0.8}
        )
        _marks(panel, answer, name, number=number, units=units)
    widest = max(answer.curves.values(), key=lambda curve: curve.speed_m_s[-1])
    panel.plot(
        [speed * per_speed for speed in widest.speed_m_s],
        [power * per_power for power in widest.needed_w],
        color=INKS[5],
        linewidth=2.4,
        label="level flight takes",
    )
    stall = answer.stall_m_s * per_speed
    panel.axvline(stall, color=INKS[5], linewidth=0.8, linestyle=":")
    panel.annotate(
        "stall", (stall, 0.02), xycoords=("data", "axes fraction"), xytext=(3, 0), textcoords="offset points"
    )
    panel.set_ylim(bottom=0.0)
    panel.set_xlabel(f"true airspeed [{speed_unit}]")
    panel.set_ylabel(f"power along the flight path [{power_unit}]")
    mass, height = amount("mass_kg", answer.mass_kg, units, 4), amount("altitude_m", answer.altitude_m, units, 4)
    panel.set_title(f"Power against speed, {answer.title} at {mass} and {height}")
    panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0))
    return cautioned(figure, ESTIMATE)


def _marks(panel: Axes, answer: SpeedsAnswer, name: str, *, number: int, units: Units) -> None:
    """Mark top speed and best climb of one engine on what level flight takes and what it gives."""
    own, curve = answer.powerplants[name], answer.curves[name]
    speed, power = shown("speed_m_s", units)[1], shown("power_w", units)[1]
    for at_m_s, row, label in (
        (own.top_m_s, curve.needed_w, f"{name}, top {amount('top_m_s', own.top_m_s, units)}"),
        (own.best_climb_m_s, curve.full_w, f"{name}, best climb {amount('top_m_s', own.best_climb_m_s, units)}"),
    ):
        nearest = min(range(len(row)), key=lambda k: abs(curve.speed_m_s[k] - at_m_s))
        fill = None if row is curve.needed_w else "none"
        panel.plot([at_m_s * speed], [row[nearest] * power], markerfacecolor=fill, label=label, **mark(number))
