"""The lead of each kind of link against the speed of the propeller, with its scatter, and how far it grows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from sim.units.text import brief, fixed
from viz.figures.inks import ink, series, style
from viz.figures.sheet import below, sheet
from viz.figures.timing_look import INK, lead_deg, lead_off_deg, trips_from_rpm
from viz.words.reader import axis_label, tell, unit_behind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.link import LinkAnswer, LinkRow
    from viz.sheets.format import Units

STEPS = 200
BEYOND = 1.15
"""Speeds of the picture over the highest."""
LINKS = {
    (False, False): "{kind}: {time} and {angle}",
    (True, False): "{kind}, fitted: {time} and {angle}",
    (False, True): "{kind}: {time} and {angle} and a leak, never trips at {speed} and below",
    (True, True): "{kind}, fitted: {time} and {angle} and a leak, never trips at {speed} and below",
}
"""Whether it is fitted, and whether it leaks."""
ROOM = 1.5
"""Height of the picture over the greatest lead at the speeds told, where a link leaks."""


def draw(answer: LinkAnswer, units: Units) -> Figure:
    """Return one panel: a line for each link, shaded by its scatter, and dots at idle, cruise and full speed."""
    import numpy as np

    figure, (panel,) = sheet(width_in=8.0, height_in=5.2)
    speeds = [lead.rpm for lead in answer.fitted.leads]
    last = BEYOND * speeds[-1]
    for index, one in enumerate(sorted(answer.links, key=lambda one: one.lead_change_deg)):
        span = np.linspace(trips_from_rpm(one.leak), last, STEPS)
        lead = lead_deg(span, one.angle_part_deg, one.time_part_ms, one.leak)
        off = lead_off_deg(span, one.angle_sd_deg, one.time_sd_ms)
        panel.fill_between(span, lead - off, lead + off, color=ink(index), alpha=0.15, linewidth=0.0)
        panel.plot(span, lead, label=_said(one, units), **style(series(index)))
        _dots(panel, one, index)
    panel.axhline(
        answer.fitted.angle_part_deg,
        color=INK,
        linewidth=0.9,
        linestyle=":",
        label="the angles alone: kept at every speed",
    )
    for speed in speeds:
        panel.axvline(speed, color="#808080", linewidth=0.7, zorder=0.5)
    top = _top_deg(panel, answer)
    for speed, name in zip(speeds, ("idle", "cruise", "full"), strict=False):
        panel.text(speed, 0.985 * top, name, ha="right", va="top", rotation=90, fontsize=8)
    panel.set_xlim(0.0, last)
    panel.set_ylim(0.0, top)
    panel.set_xlabel(axis_label("rpm", units))
    panel.set_ylabel(unit_behind("part of the lead, from cam to lock", quantity("lead_deg").shown(units)[0]))
    said = "{title}, {engine}: which link keeps its part of the lead"
    panel.set_title(tell(said, title=answer.title, engine=answer.powerplant))
    panel.legend(fontsize=8, title="shaded: one standard deviation", title_fontsize=8, **below(2))
    return figure


def _top_deg(panel: Axes, answer: LinkAnswer) -> float:
    """Return how high the panel reaches: where a link leaks, not to where it hardly trips any more."""
    if not answer.fitted.leak.counts:
        return panel.get_ylim()[1]
    return ROOM * max(lead.lead_deg + lead.lead_sd_deg for one in answer.links for lead in one.leads)


def _said(one: LinkRow, units: Units) -> str:
    parts = {
        "time": fixed("time_part_ms", one.time_part_ms, units, 2),
        "angle": fixed("angle_part_deg", one.angle_part_deg, units, 1),
    }
    if one.leak.counts:
        parts["speed"] = brief("leak_speed_rad_s", one.leak.leak_speed_rad_s)
    return tell(LINKS[one.fitted, bool(one.leak.counts)], kind=one.kind, **parts)


def _dots(panel: Axes, one: LinkRow, index: int) -> None:
    places = [(lead.rpm, lead.lead_deg) for lead in one.leads]
    panel.plot(*zip(*places, strict=True), linestyle="none", marker="o", markersize=5, color=ink(index))
