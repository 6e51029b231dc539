"""The couple over one revolution of the propeller: it pulses with two blades and is steady with three."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity, shown
from viz.figures.inks import series, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.couple import CoupleOverTurn
    from viz.sheets.format import Units


def draw(answer: CoupleOverTurn, units: Units) -> Figure:
    """Return one panel: pitching and yawing moment against blade angle."""
    figure, (panel,) = sheet(height_in=4.5)
    unit, factor = shown("couple_n_m", units)
    for index, (word, name) in enumerate((("pitching moment", "pitch_n_m"), ("yawing moment", "yaw_n_m"))):
        positive, _ = quantity(name).signs or ("", "")
        moments = [factor * moment for moment in getattr(answer, name)]
        panel.plot(
            answer.blade_angle_deg,
            moments,
            label=tell("{meaning}, {sign} positive", meaning=word, sign=positive),
            **style(series(index)),
        )
    panel.axhline(0.0, color="#808080", linewidth=0.6)
    panel.set_xlim(0.0, 360.0)
    panel.set_xticks(range(0, 361, 45))
    panel.margins(y=0.15)
    panel.set_xlabel(axis_label("blade_angle_deg"))
    panel.set_ylabel(unit_behind("moment on the airframe", unit))
    panel.set_title("Gyroscopic couple over one revolution of the propeller")
    panel.legend(loc="upper right", ncols=2)
    return figure
