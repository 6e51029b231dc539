"""Lift along the span of every plane and of the tailplane, and the downwash there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.inks import NEUTRAL, series, style
from viz.figures.sheet import sheet
from viz.sheets.blocks import Value
from viz.sheets.format import amount, fixed
from viz.sheets.text import text_of
from viz.words.reader import axis_label, tell, worded

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.derivatives import DerivativesAnswer
    from sim.studies.span_loads import SurfaceLoad
    from viz.sheets.format import Units

ROOM = 1.15
"""Height of a panel over that of what stands in it, from 0."""


def draw(answer: DerivativesAnswer, units: Units) -> Figure:
    """Return three panels: loads of the planes, load of the tailplane, downwash at the tailplane."""
    figure, (wing, tailplane, downwash) = sheet(3, width_in=8.5, height_in=9.0)
    loads = answer.loads
    *planes, tail = loads.surfaces
    for index, plane in enumerate(planes):
        _load(wing, plane, index, units)
    wing.set_title("Planes of the wing")
    _load(tailplane, tail, len(planes), units)
    elevator = text_of(Value("elevator_deg", loads.elevator_deg, signed=True), units)
    tailplane.set_title(tell("Tailplane, elevator {angle}", angle=elevator))
    factor = quantity("spanwise_m").shown(units)[1]
    slope = amount("downwash_slope", loads.downwash_slope, units)
    downwash.plot(
        [factor * place for place in tail.spanwise_m], tail.local_downwash_deg, label="by the wing", **style(series(0))
    )
    mean = tell("mean {angle}", angle=fixed("downwash_deg", loads.downwash_deg, units, 1))
    downwash.axhline(loads.downwash_deg, color=NEUTRAL, linewidth=1.0, linestyle=":", label=mean)
    downwash.set_ylabel(axis_label("local_downwash_deg", units))
    downwash.set_title(tell("Downwash at the tailplane, {slope} for a unit of angle of attack", slope=slope))
    for panel in (wing, tailplane, downwash):
        low, high = panel.get_ylim()
        panel.set_ylim(bottom=ROOM * min(0.0, low), top=ROOM * max(0.0, high))
        panel.set_xlim(left=-0.5 * factor * planes[0].span_m, right=0.5 * factor * planes[0].span_m)
        panel.axhline(0.0, color="#808080", linewidth=0.8)
        panel.set_xlabel(axis_label("spanwise_m", units))
        panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0))
    speed, height = amount("speed_m_s", answer.speed_m_s, units), amount("altitude_m", answer.altitude_m, units)
    alpha = fixed("alpha_deg", loads.alpha_deg, units, 1)
    said = tell(
        "Lift along the span at {speed} and {height}, angle of attack {alpha}", speed=speed, height=height, alpha=alpha
    )
    bounds = ", ".join(map(worded, answer.beyond))
    beyond = tell("outside the range of validity: {bounds}", bounds=bounds)
    figure.suptitle(f"{said}\n{beyond}" if bounds else said)
    return figure


def _load(panel: Axes, surface: SurfaceLoad, index: int, units: Units) -> None:
    """Draw the load of a surface, 0 at its tips."""
    tip_m, (place, load) = (
        0.5 * surface.span_m,
        (quantity(name).shown(units)[1] for name in ("spanwise_m", "lift_n_per_m")),
    )
    panel.plot(
        [place * y for y in (-tip_m, *surface.spanwise_m, tip_m)],
        [load * each for each in (0.0, *surface.lift_n_per_m, 0.0)],
        label=tell(
            "{surface}\n{lift}\n{share} % of the lift",
            surface=surface.name,
            lift=amount("lift_n", surface.lift_n, units),
            share=f"{100.0 * surface.share:.1f}",
        ),
        **style(series(index)),
    )
    panel.set_ylabel(axis_label("lift_n_per_m", units))
