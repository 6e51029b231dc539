"""The display, and one turn of its propeller: when the lamp is lit, how the roller moves, what the crank takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.convert import degrees
from sim.units.quantities import quantity
from viz.figures.exhibit_assembly import draw_assembly
from viz.figures.inks import series, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label

if TYPE_CHECKING:
    from collections.abc import Iterator

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.exhibit import Exhibit
    from viz.sheets.format import Units

LIT: dict[str, Any] = {"color": "#f2d16b", "alpha": 0.45, "linewidth": 0.0}
BLADE: dict[str, Any] = {"facecolor": "none", "edgecolor": "#5a5a5a", "alpha": 0.6, "hatch": "////", "linewidth": 0.0}


def draw(answer: Exhibit, units: Units) -> Figure:
    """Return lift, pressure angle and torque over a turn, shaded while lit, hatched while a blade is in the way.

    Above them stands the whole display, unless a check fails, so that there is none.
    """
    turn, assembly = answer.revolution(), answer.assembly
    figure, panels = (
        sheet(4, 1, height_in=10.2, heights=(2.3, 1.0, 1.0, 1.0)) if assembly else sheet(3, 1, height_in=8.0)
    )
    if assembly:
        draw_assembly(panels.pop(0), assembly, units)
    angle_deg = turn.propeller_rad * quantity("propeller_rad").shown(units)[1]
    curves = (
        ("lift_m", turn.lift_m),
        ("pressure_angle_rad", turn.pressure_angle_rad),
        ("drive_torque_n_m", turn.torque_n_m),
    )
    for place, (panel, (name, values)) in enumerate(zip(panels, curves, strict=True)):
        panel.plot(angle_deg, values * quantity(name).shown(units)[1], **style(series(place)))
        panel.set_ylabel(axis_label(name, units))
        _shade(panel, answer)
        panel.set_xlim(0.0, 360.0)
        panel.set_xticks(range(0, 361, 30))
    switch = answer.cam.lift_m / 2.0 * quantity("lift_m").shown(units)[1]
    panels[0].axhline(switch, **style(5), linewidth=0.8)
    words: dict[str, Any] = {
        "ha": "center",
        "va": "bottom",
        "fontsize": 8,
        "bbox": {"color": "white", "alpha": 0.8, "pad": 0.5},
    }
    panels[0].text(_widest(answer), switch, "the lamp switches here", **words)
    panels[0].set_title(_title(answer))
    panels[-1].set_xlabel(axis_label("propeller_rad", units))
    return figure


def _shade(panel: Axes, answer: Exhibit) -> None:
    window = answer.display.window
    for start, end in _in_a_turn(window.from_rad, window.to_rad, window.openings):
        panel.axvspan(start, end, **LIT)
    half = window.closed_rad / 2.0
    for start, end in _in_a_turn(-half, half, window.blades):
        panel.axvspan(start, end, **BLADE)


def _in_a_turn(from_rad: float, to_rad: float, count: int) -> Iterator[tuple[float, float]]:
    """Yield where equal arcs, so many in a turn, begin and end between 0° and 360°; one across 0° in two parts."""
    for number in range(-1, count + 1):
        start, end = (degrees(edge) + number * 360.0 / count for edge in (from_rad, to_rad))
        if end > 0.0 and start < 360.0:
            yield max(start, 0.0), min(end, 360.0)


def _widest(answer: Exhibit) -> float:
    """Return the middle of an arc, lit or dark, where the curve leaves most room at half lift [°]."""
    window = answer.display.window
    step = 360.0 / window.openings
    lit = degrees(window.to_rad - window.from_rad)
    middle = degrees(window.from_rad) + lit / 2.0 + (0.0 if 2.0 * lit > step else step / 2.0)
    nearest = (middle - 180.0 + step / 2.0) % step + 180.0 - step / 2.0
    return min(max(nearest, 40.0), 320.0)


def _title(answer: Exhibit) -> str:
    """Say whose cam it is."""
    if answer.shown.cam.ideal:
        return "Lamp lit (shaded) by an ideal cam; hatched: blade in the way"
    return "Lamp lit (shaded) by the scenario's cam; hatched: blade in the way"
