"""Propeller angle at which rounds pass, against propeller speed, between the blades that they must not meet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import ms, per_s
from sim.units.quantities import quantity
from sim.units.text import fixed
from viz.figures.sheet import INKS, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.safe_range_answer import PropellerBand, SafeRangeAnswer
    from viz.sheets.format import Units

WORDS_DEG = 45.0
"""Angle above rounds and arcs that the words about a safe range have to themselves."""


def draw(answer: SafeRangeAnswer, units: Units) -> Figure:
    """Return one panel for each propeller."""
    count = len(answer.propellers)
    figure, panels = sheet(count, height_in=3.9 * count)
    for panel, propeller in zip(panels, answer.propellers, strict=True):
        _panel(panel, answer, propeller, units)
    return figure


def _panel(panel: Axes, answer: SafeRangeAnswer, propeller: PropellerBand, units: Units) -> None:
    asked = max(speed.rpm for speed in propeller.speeds)
    edges = [safe.to_rpm for safe in propeller.bands if safe.to_rpm < 2.0 * asked]
    highest = max(1.25 * asked, 1.06 * max(edges, default=0.0))
    likely = (answer.delay_ms - answer.root_sum_square_ms, answer.delay_ms + answer.root_sum_square_ms)
    shut_deg = answer.opens_deg + answer.dwell_deg
    first = [answer.opens_deg, answer.opens_deg + _turn_deg(highest, likely[0])]
    last = [shut_deg, shut_deg + _turn_deg(highest, likely[1])]
    panel.fill_between((0.0, highest), first, last, color=INKS[0], alpha=0.35, linewidth=0)
    for edge in (first, last):
        panel.plot((0.0, highest), edge, color=INKS[0])
    spacing, half = propeller.spacing_deg, propeller.blocked_deg / 2.0
    for blade in range(-1, int(last[1] // spacing) + 2):
        panel.axhspan(
            blade * spacing - half, blade * spacing + half, facecolor="#cfcfcf", hatch="///", edgecolor=INKS[5]
        )
    topmost = int((last[1] + WORDS_DEG + half) // spacing) * spacing + half
    bottom, top = min(first[0], -half) - 5.0, max(last[1], topmost) + WORDS_DEG
    for safe in propeller.bands:
        panel.axvspan(safe.from_rpm, safe.to_rpm, facecolor=INKS[2], alpha=0.18)
        middle = (safe.from_rpm + min(safe.to_rpm, highest)) / 2.0
        for speed_rpm in (safe.from_rpm, safe.to_rpm):
            panel.axvline(speed_rpm, color=INKS[2], linewidth=1.2)
        said = f"every round clear:\n{safe.from_rpm:.0f} to {fixed('rpm', safe.to_rpm, units, 0)}"
        panel.text(middle, top - 0.02 * (top - bottom), said, ha="center", va="top", fontsize=8, bbox=_LABEL)
    for speed in propeller.speeds:
        panel.axvline(speed.rpm, color=INKS[1], linestyle="--", linewidth=1.0)
    panel.set_xlim(0.0, highest)
    panel.set_ylim(bottom, top)
    within = f"independent stages within {answer.sigmas:g} standard deviations"
    panel.set_xlabel(
        f"{quantity('rpm').label(units)}; dashed: speeds asked for; solid: ends of the safe range,\n{within}"
    )
    panel.set_ylabel(f"propeller angle at passage [{quantity('opens_deg').shown(units)[0]}]")
    name = f"{propeller.powerplant}: " if propeller.powerplant else ""
    panel.set_title(f"{name}angles at which rounds pass (blue); arcs blocked, with margins (hatched)", fontsize=9)


def _turn_deg(speed_rpm: float, delay_ms: float) -> float:
    """Return the turn of the propeller during a delay."""
    return 360.0 * per_s(speed_rpm) * delay_ms / ms(1.0)


_LABEL = {"facecolor": "white", "edgecolor": "none", "pad": 1.5, "alpha": 0.9}
