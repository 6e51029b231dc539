"""One turn of the display's propeller: when the lamp is lit, how the roller moves, what the crank takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.convert import degrees
from sim.units.quantities import quantity
from viz.figures.sheet import sheet, style

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.exhibit import Exhibit
    from viz.sheets.format import Units

LIT: dict[str, Any] = {"color": "#f2d16b", "alpha": 0.45, "linewidth": 0.0}


def draw(answer: Exhibit, units: Units) -> Figure:
    """Return lift, pressure angle and torque over a turn of the propeller, shaded while the lamp is lit."""
    turn = answer.revolution()
    figure, panels = sheet(3, 1, height_in=8.0)
    angle_deg = turn.propeller_rad * quantity("propeller_rad").shown(units)[1]
    curves = (
        ("lift_m", turn.lift_m),
        ("pressure_angle_rad", turn.pressure_angle_rad),
        ("drive_torque_n_m", turn.torque_n_m),
    )
    for series, (panel, (name, values)) in enumerate(zip(panels, curves, strict=True)):
        panel.plot(angle_deg, values * quantity(name).shown(units)[1], **style(series))
        panel.set_ylabel(quantity(name).label(units))
        _shade(panel, answer)
        panel.set_xlim(0.0, 360.0)
        panel.set_xticks(range(0, 361, 30))
    switch = answer.cam.lift_m / 2.0 * quantity("lift_m").shown(units)[1]
    panels[0].axhline(switch, **style(5), linewidth=0.8)
    panels[0].text(90.0, switch, "the lamp switches here", ha="center", va="bottom", fontsize=8)
    panels[0].set_title("The lamp is lit (shaded) while a round could pass between the blades")
    panels[-1].set_xlabel(quantity("propeller_rad").label(units))
    return figure


def _shade(panel: Axes, answer: Exhibit) -> None:
    window = answer.display.window
    for opening in range(window.openings):
        start = degrees(window.from_rad) + opening * 360.0 / window.openings
        panel.axvspan(start, start + degrees(window.to_rad - window.from_rad), **LIT)
