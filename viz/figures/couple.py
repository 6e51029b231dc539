"""The couple through one turn of the propeller: why two blades shake the airframe and three do not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.sheet import cautioned, sheet, style
from viz.sheets.cautions import ESTIMATE
from viz.sheets.format import shown

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.couple import OverTurn
    from viz.sheets.format import Units


def draw(answer: OverTurn, units: Units) -> Figure:
    """Return one panel: pitching and yawing moment against blade angle."""
    figure, (panel,) = sheet(height_in=4.5)
    unit, factor = shown("couple_n_m", units)
    lines = (("pitch, nose up +", answer.pitch_n_m), ("yaw, nose right +", answer.yaw_n_m))
    for index, (label, moments) in enumerate(lines):
        panel.plot(answer.blade_angle_deg, [factor * moment for moment in moments], label=label, **style(index))
    panel.axhline(0.0, color="#808080", linewidth=0.6)
    panel.set_xlim(0.0, 360.0)
    panel.set_xticks(range(0, 361, 45))
    panel.margins(y=0.15)
    panel.set_xlabel("angle of blade 1 from the plane in which the nose swings [°]")
    panel.set_ylabel(f"moment on the airframe [{unit}]")
    panel.set_title("Gyroscopic couple through one turn of the propeller")
    panel.legend(loc="upper right", ncols=2)
    return cautioned(figure, ESTIMATE)
