"""Where blade 1 stands as the rounds of a fixed cam pass, against propeller speed, and where a blade is in the way."""

from __future__ import annotations

from math import remainder
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from sim.units.text import fixed
from viz.figures.sheet import sheet
from viz.figures.timing_look import (
    BLOCKED,
    INK,
    LIGHT,
    STRUCK,
    TURN_DEG,
    WINDOW,
    lead_deg,
    lead_off_deg,
    patch,
    trips_from_rpm,
)
from viz.sheets.safe_range import whole_rpm
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    import numpy as np
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from numpy.typing import NDArray

    from sim.studies.safe_range_answer import PropellerBand, SafeBand, SafeRangeAnswer
    from viz.sheets.format import Units

WORDS_DEG = 60.0
"""Angle above rounds and arcs that the words about a safe range have to themselves."""
STEPS = 600
"""Speeds at which rounds and arcs are compared."""
LEGEND_IN = 0.6
NEARBY = 0.9
"""Speed from which rounds of a link that leaks are drawn, over the lowest asked for."""


def draw(answer: SafeRangeAnswer, units: Units) -> Figure:
    """Return one panel for each propeller."""
    count = len(answer.propellers)
    figure, panels = sheet(count, height_in=3.7 * count + LEGEND_IN)
    for panel, propeller in zip(panels, answer.propellers, strict=True):
        _panel(panel, answer, propeller, units)
    panels[-1].set_xlabel(panels[-1].get_xlabel() + "\n\n\n")
    _legend(figure, answer)
    return figure


def _legend(figure: Figure, answer: SafeRangeAnswer) -> None:
    from matplotlib.lines import Line2D

    rounds = tell("rounds pass, within {count} standard deviations of the delay", count=f"{answer.sigmas:g}")
    handles = [
        patch(rounds, facecolor=WINDOW, alpha=LIGHT),
        patch("a blade, or its margin, is on the bore line", **BLOCKED),
        Line2D([], [], color=INK, linestyle="--", linewidth=1.0, label="speeds asked for"),
        patch("rounds meet a blade or its margin", **STRUCK),
    ]
    figure.legend(handles=handles, loc="lower center", ncols=2, fontsize=7.5)


def _panel(panel: Axes, answer: SafeRangeAnswer, propeller: PropellerBand, units: Units) -> None:
    import numpy as np

    asked = max(speed.rpm for speed in propeller.speeds)
    edges = [safe.to_rpm for safe in propeller.bands if safe.to_rpm < 2.0 * asked]
    highest = max(1.25 * asked, 1.06 * max(edges, default=0.0))
    speeds = np.linspace(_lowest_rpm(answer, propeller), highest, STEPS + 1)
    spacing, half = propeller.spacing_deg, propeller.blocked_deg / 2.0
    lowest, last_deg = _rounds(panel, answer, propeller, speeds)
    topmost = int((last_deg + WORDS_DEG + half) // spacing) * spacing + half
    bottom, top = min(lowest, -half) - 5.0, max(last_deg, topmost) + WORDS_DEG
    panel.set_xlim(0.0, highest)
    panel.set_ylim(bottom, top)
    for safe in propeller.bands:
        _safe(panel, safe, top, units)
    for speed in propeller.speeds:
        panel.axvline(speed.rpm, color=INK, linestyle="--", linewidth=1.0)
    panel.set_yticks(np.arange(0.0, top - 0.7 * WORDS_DEG, 0.5 * spacing))
    panel.yaxis.set_major_formatter(lambda angle, _: f"{angle % 360.0:.0f}")  # after a whole turn it is the same place
    panel.set_xlabel(axis_label("rpm", units))
    panel.set_ylabel(unit_behind("propeller angle at passage", quantity("opens_deg").shown(units)[0]))
    where = "{name}: where blade 1 stands as the rounds of a fixed cam pass"
    if not propeller.powerplant:
        where = "Where blade 1 stands as the rounds of a fixed cam pass"
    panel.set_title(tell(where, name=propeller.powerplant), fontsize=9)


def _rounds(
    panel: Axes, answer: SafeRangeAnswer, propeller: PropellerBand, speeds_rpm: NDArray[np.float64]
) -> tuple[float, float]:
    """Draw where rounds pass, the arcs that blades block and what meets; return the least and the last angle [°]."""
    import numpy as np

    lead = lead_deg(speeds_rpm, answer.angle_part_deg, answer.time_part_ms, answer.leak)
    off = lead_off_deg(speeds_rpm, answer.angle_limit_deg, answer.time_limit_ms)
    spacing, half = propeller.spacing_deg, propeller.blocked_deg / 2.0
    cam = answer.cams[propeller.powerplant]
    places = sorted({round(angle % spacing, 6) % spacing for angle in cam.opens_deg})
    if len(places) == 1:  # of windows alike the one that opens nearest to the bore line
        places = [min((remainder(angle, TURN_DEG) for angle in cam.opens_deg), key=abs)]
    dwell = cam.dwell_deg or 0.0
    swept = [(angle + lead - off, angle + dwell + lead + off) for angle in places]
    for first, last in swept:
        panel.fill_between(speeds_rpm, first, last, color=WINDOW, alpha=LIGHT, linewidth=0)
        for edge in (first, last):
            panel.plot(speeds_rpm, edge, color=WINDOW)
    last_deg = max(float(last.max()) for _, last in swept)
    for blade in range(-1, int(last_deg // spacing) + 2):
        low, high = blade * spacing - half, blade * spacing + half
        panel.axhspan(low, high, zorder=0.5, **BLOCKED)
        for first, last in swept:
            under, over = np.maximum(first, low), np.minimum(last, high)
            panel.fill_between(speeds_rpm, under, over, where=over > under, zorder=2.5, **STRUCK)
    return float(swept[0][0].min()), last_deg


def _lowest_rpm(answer: SafeRangeAnswer, propeller: PropellerBand) -> float:
    """Return the speed from which on rounds are drawn: with a leak from a little below those asked for.

    Further down the lead grows without a bound.
    """
    if not answer.leak.counts:
        return 0.0
    return max(trips_from_rpm(answer.leak), NEARBY * min(speed.rpm for speed in propeller.speeds))


def _safe(panel: Axes, safe: SafeBand, top: float, units: Units) -> None:
    """Mark a safe range from end to end, with its words above."""
    end = min(safe.to_rpm, panel.get_xlim()[1])
    height = top - 0.72 * WORDS_DEG
    panel.plot((safe.from_rpm, end), (height, height), color=WINDOW, linewidth=4.0, solid_capstyle="butt")
    for speed_rpm in (safe.from_rpm, safe.to_rpm):
        panel.axvline(speed_rpm, ymax=0.999, color=WINDOW, linewidth=1.2)
    low, high = whole_rpm(safe)
    said = tell("clear: {low} to {high}", low=str(low), high=fixed("rpm", high, units, 0))
    middle = (safe.from_rpm + end) / 2.0
    panel.text(middle, top - 0.08 * WORDS_DEG, said, ha="center", va="top", fontsize=8, bbox=_LABEL)


_LABEL = {"facecolor": "white", "edgecolor": "none", "pad": 1.5}
