"""One turn of the display's propeller: when the lamp is lit, how the roller moves, what the crank takes."""

from __future__ import annotations

from math import degrees
from typing import TYPE_CHECKING

from viz.figures.sheet import sheet, style

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.exhibit import Exhibit
    from viz.sheets.format import Units

LIT = {"color": "#f2d16b", "alpha": 0.45, "linewidth": 0.0}


def draw(answer: Exhibit, units: Units) -> Figure:
    """Return lift, pressure angle and torque over a turn of the propeller, the lamp's light behind them."""
    from viz.sheets.format import shown

    figure, (lift, pressure, torque) = sheet(3, 1, height_in=8.0)
    turn = answer.turn
    unit, factor = shown("torque_n_m", units)
    lift.plot(turn.propeller_deg, turn.lift_mm, **style(0))
    lift.axhline(answer.sheet.cam.lift_mm / 2.0, **style(5), linewidth=0.8)
    lift.text(90.0, answer.sheet.cam.lift_mm / 2.0, "the lamp switches here", ha="center", va="bottom", fontsize=8)
    lift.set_ylabel("lift of the roller [mm]")
    lift.set_title("The lamp is lit (shaded) while a round could pass between the blades")
    pressure.plot(turn.propeller_deg, turn.pressure_deg, **style(1))
    pressure.set_ylabel("pressure angle [°]")
    torque.plot(turn.propeller_deg, turn.torque_n_m * factor, **style(2))
    torque.set_ylabel(f"torque at the {answer.display.handle.kind} [{unit}]")
    torque.set_xlabel("propeller angle, 0 with blade 1 on the bore line [°]")
    for panel in (lift, pressure, torque):
        _light(panel, answer)
        panel.set_xlim(0.0, 360.0)
        panel.set_xticks(range(0, 361, 30))
    return figure


def _light(panel: Axes, answer: Exhibit) -> None:
    window = answer.display.window
    for opening in range(window.openings):
        start = degrees(window.from_rad) + opening * 360.0 / window.openings
        panel.axvspan(start, start + degrees(window.to_rad - window.from_rad), **LIT)
