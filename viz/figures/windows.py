"""Clock faces of the firing windows, one for each speed: where blade 1 stands at release, and as the round passes."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING, Any

from sim.units.convert import ms, per_s
from sim.units.text import brief, fixed
from viz.figures.sheet import clocks
from viz.figures.timing_look import (
    BLOCKED,
    HELD,
    INK,
    LIGHT,
    STRIKE,
    STRUCK,
    TURN_DEG,
    WINDOW,
    arrow_head,
    patch,
    rotation_arrow,
    turn,
    turns,
)
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from matplotlib.figure import Figure
    from matplotlib.projections.polar import PolarAxes

    from sim.studies.windows_answer import WindowsAnswer, WindowsRow
    from viz.sheets.format import Units

MOST_CLOCKS = 6
"""Clock faces drawn for one powerplant."""
COLUMNS = 3
RELEASE, PASSAGE, ANGLES, RIM = (0.50, 0.66), (0.82, 0.98), 1.10, 1.08
"""Inner and outer edge of either ring, and the radii of the angles and of the arrow of rotation."""
CAMS = {
    (True, False): "Ideal cam, fitted to each speed.",
    (True, True): "Ideal cam, fitted to each speed; in each window stands the turn in which it opens.",
    (False, False): "Fixed cam.",
    (False, True): "Fixed cam; in each window stands the turn in which it opens.",
}
"""Whether it is ideal, and whether its windows come in several turns."""
LEGEND_IN = 0.7
"""Height of the legend."""


def draw(answer: WindowsAnswer, units: Units) -> Figure:
    """Return a row of clock faces for each powerplant; of more than six speeds six are drawn, evenly spaced."""
    groups = [(name, _some(list(rows))) for name, rows in groupby(answer.rows, key=lambda row: row.powerplant)]
    columns = min(COLUMNS, max(len(rows) for _, rows in groups))
    lines = [rows[start : start + columns] for _, rows in groups for start in range(0, len(rows), columns)]
    side = 2.9 if columns > 1 else 4.4
    width, height = max(columns * side, 6.4), len(lines) * (side + 0.15) + LEGEND_IN
    figure, panels = clocks(len(lines), columns, width_in=width, height_in=height)
    for panel, row in zip(panels, _filled(lines, columns), strict=True):
        if row is None:
            panel.set_axis_off()
        else:
            _clock(panel, row, units)
    counts = {name: sum(1 for row in answer.rows if row.powerplant == name) for name, _ in groups}
    left_out = [
        tell("{name} {drawn} of {all} speeds", name=name, drawn=len(rows), all=counts[name]).strip()
        for name, rows in groups
        if len(rows) < counts[name]
    ]
    figure.suptitle(_head(answer, groups, left_out), fontsize=9, x=0.01, ha="left")
    struck = any(arc.clearance_deg < 0.0 for _, rows in groups for row in rows for arc in row.windows_deg)
    _legend(figure, panels[-columns], columns=2 if columns > 1 else 1, struck=struck)
    return figure


def _head(answer: WindowsAnswer, groups: Sequence[tuple[str, list[WindowsRow]]], left_out: list[str]) -> str:
    """Return what stands above: cam, line of fire, and the sense in which each propeller turns."""
    senses = {name: turns(rows[0].rotation) for name, rows in groups}
    alike = len(set(senses.values())) == 1
    (name, first), *others = senses.items()
    told = tell("The propeller {turns}", turns=first)
    if not alike:
        rest = [tell("that of the {name} {turns}", name=other, turns=sense) for other, sense in others]
        told = "; ".join([tell("The propeller of the {name} {turns}", name=name, turns=first), *rest])
    drawn = f" {tell('Drawn: {speeds}.', speeds=', '.join(left_out))}" if left_out else ""
    cam = CAMS[answer.cam.ideal, any(each.period_turns > 1 for each in answer.cams.values())]
    above = worded("The bore line (line of fire) is at the top, 0°.")
    return f"{worded(cam)} {above}\n{told}.{drawn}"


def _filled(lines: list[list[WindowsRow]], columns: int) -> Iterator[WindowsRow | None]:
    for line in lines:
        yield from line
        yield from [None] * (columns - len(line))


def _some(given: list[WindowsRow]) -> list[WindowsRow]:
    """Return the speeds drawn, rising."""
    rows = sorted(given, key=lambda row: row.rpm)
    if len(rows) <= MOST_CLOCKS:
        return rows
    return [rows[round(place * (len(rows) - 1) / (MOST_CLOCKS - 1))] for place in range(MOST_CLOCKS)]


def _legend(figure: Figure, panel: PolarAxes, *, columns: int, struck: bool) -> None:
    from matplotlib.lines import Line2D

    said = "lead: turn of the propeller from cam to passage"
    lead = Line2D([], [], color=INK, linewidth=1.0, marker=">", markersize=4, label=said)
    handles = [
        patch("inner ring: where blade 1 stands while a round may be released", facecolor=WINDOW),
        patch("outer ring: where blade 1 stands as that round passes", facecolor=WINDOW, alpha=LIGHT),
        patch("a blade, or its margin, is on the bore line", **BLOCKED),
        lead,
        *([patch("such a round passes within the margin, or strikes", **STRUCK)] if struck else []),
    ]
    figure.legend(handles=handles, loc="lower center", ncols=columns, fontsize=7.5)
    panel.set_xlabel("\n" * (4 // columns), labelpad=2)


def _blades(row: WindowsRow) -> int:
    return round(ms(1.0 / per_s(row.rpm)) / row.blade_interval_ms)


def _clock(panel: PolarAxes, row: WindowsRow, units: Units) -> None:
    turn(panel, row.rotation)
    panel.set_ylim(0.0, ANGLES + 0.08)
    panel.set_yticks([])
    panel.grid(visible=False)
    panel.spines["polar"].set_visible(False)
    panel.set_xticks([])
    for angle in range(0, 360, 90):
        panel.text(
            math.radians(angle), ANGLES, fixed("from_deg", angle, units, 0), ha="center", va="center", fontsize=7
        )
    for bottom, top in (RELEASE, PASSAGE):
        _arc(panel, (0.0, 360.0), (bottom, top), facecolor=HELD, edgecolor="none")
    for arc in row.windows_deg:
        ends = (arc.from_deg + row.lead_deg, arc.to_deg + row.lead_deg)
        if arc.from_deg == arc.to_deg:
            _instant(panel, arc.from_deg, RELEASE, WINDOW)
            _instant(panel, ends[0], PASSAGE, STRIKE if arc.clearance_deg < 0.0 else WINDOW)
            continue
        _arc(panel, (arc.from_deg, arc.to_deg), RELEASE, facecolor=WINDOW, edgecolor="white")
        _arc(panel, ends, PASSAGE, facecolor=WINDOW, alpha=LIGHT, edgecolor="none")
    if any(arc.from_deg >= TURN_DEG for arc in row.windows_deg):
        _turns(panel, row)
    for ends in _blocked(row):
        _arc(panel, ends, PASSAGE, **BLOCKED)
    for ends in _meets(row):
        _arc(panel, ends, PASSAGE, **STRUCK)
    for arc in row.windows_deg:
        _lead(panel, arc.from_deg, row.lead_deg, head=True)
        if arc.to_deg > arc.from_deg:
            _lead(panel, arc.to_deg, row.lead_deg, head=False)
    rotation_arrow(panel, RIM, math.radians(20.0), math.radians(70.0))
    lead = tell("lead {angle}", angle=fixed("lead_deg", row.lead_deg, units, 0))
    told = tell("{speed}\n{lead}", speed=brief("rpm", row.rpm, digits=6), lead=lead if row.windows_deg else "no window")
    panel.text(0.0, 0.0, told, ha="center", va="center", fontsize=8)
    panel.set_title(row.powerplant, fontsize=9, loc="center", pad=2)


def _arc(panel: PolarAxes, ends_deg: tuple[float, float], ring: tuple[float, float], **look: Any) -> None:  # noqa: ANN401
    start, end = map(math.radians, ends_deg)
    panel.bar((start + end) / 2.0, ring[1] - ring[0], width=end - start, bottom=ring[0], **look)


def _turns(panel: PolarAxes, row: WindowsRow) -> None:
    """Write into each window of several turns, which lie over each other in one, in which it opens."""
    look: dict[str, Any] = {"ha": "center", "va": "center", "fontsize": 7, "fontweight": "bold"}
    for arc in row.windows_deg:
        impulse = arc.to_deg == arc.from_deg
        middle = math.radians(0.5 * (arc.from_deg + arc.to_deg))
        radius = RELEASE[0] - 0.06 if impulse else 0.5 * (RELEASE[0] + RELEASE[1])
        panel.text(middle, radius, str(int(arc.from_deg // TURN_DEG) + 1), color=INK if impulse else "white", **look)


def _instant(panel: PolarAxes, angle_deg: float, ring: tuple[float, float], colour: str) -> None:
    """Draw an impulse, a window without length, above what else is on its ring."""
    from matplotlib.patheffects import withStroke

    edge = [withStroke(linewidth=5.0, foreground="white")]
    panel.plot([math.radians(angle_deg)] * 2, ring, color=colour, linewidth=3.0, zorder=5.0, path_effects=edge)


def _blocked(row: WindowsRow) -> list[tuple[float, float]]:
    """Return the angles of blade 1 between which a blade or its margin is in the line of fire."""
    spacing, half = 360.0 / _blades(row), 0.5 * row.blocked_deg
    return [(blade * spacing - half, blade * spacing + half) for blade in range(_blades(row))]


def _meets(row: WindowsRow) -> list[tuple[float, float]]:
    """Return the angles of blade 1 between which rounds of a window pass and a blade or its margin is in the way."""
    parts = []
    for arc in row.windows_deg:
        start, end = arc.from_deg + row.lead_deg, arc.to_deg + row.lead_deg
        for low, high in _blocked(row):
            for lap in range(math.floor((start - high) / 360.0), math.ceil((end - low) / 360.0) + 1):
                first, last = max(start, low + 360.0 * lap), min(end, high + 360.0 * lap)
                if last - first > ROUNDING_DEG:
                    parts.append((first, last))
    return parts


ROUNDING_DEG = 1e-6
"""Overlap of a window that just touches an arc."""


def _lead(panel: PolarAxes, from_deg: float, lead_deg: float, *, head: bool) -> None:
    """Draw the turn from cam to passage of one edge of a window, with a head where the round passes."""
    steps = max(2, math.ceil(abs(lead_deg) / 3.0))
    angles = [math.radians(from_deg + lead_deg * step / steps) for step in range(steps + 1)]
    radii = [RELEASE[1] + (PASSAGE[0] - RELEASE[1]) * step / steps for step in range(steps + 1)]
    look = {"linewidth": 1.0} if head else {"linewidth": 0.8, "linestyle": (0, (1, 2))}
    panel.plot(angles, radii, color=INK, **look)
    if head and lead_deg > 0.0:
        arrow_head(panel, (angles[-2], radii[-2]), (angles[-1], radii[-1]))
