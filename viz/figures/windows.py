"""Clock face of the firing windows: a turn of the propeller, the arcs that blades block, and the windows by speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.units.convert import ms, per_s
from sim.units.text import brief, fixed
from viz.figures.sheet import INKS, clocks

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.patches import Patch

    from sim.studies.windows import WindowsAnswer, WindowsRow
    from viz.sheets.format import Units

MOST_RINGS = 6
TITLE = "Propeller angle at release, 0 with blade 1 on the bore line"
HUB = 0.32
"""Radius within which the rings of the speeds do not reach, the disc being 1."""


def draw(answer: WindowsAnswer, units: Units) -> Figure:
    """Return one clock face for each powerplant; of more than six speeds six are drawn, evenly spaced."""
    groups: dict[str, list[WindowsRow]] = {}
    for row in answer.rows:
        groups.setdefault(row.powerplant, []).append(row)
    figure, panels = clocks(len(groups), width_in=5.2 * len(groups), height_in=6.0 if len(groups) > 1 else 6.6)
    for panel, (name, rows) in zip(panels, groups.items(), strict=True):
        drawn = _some(rows)
        left_out = f"{len(drawn)} of {len(rows)} speeds" if len(drawn) < len(rows) else ""
        _clock(panel, drawn, units)
        head = ": ".join(part for part in (name, left_out) if part)
        panel.set_title(f"{head}\n{TITLE}".strip(), fontsize=9, pad=16)
    columns = 1 if len(groups) == 1 else 3
    figure.legend(handles=_legend(), loc="lower center", ncols=columns, fontsize=8)
    for panel in panels:
        panel.set_xlabel("\n" * (4 // columns), labelpad=8)
    return figure


def _legend() -> list[Patch]:
    from matplotlib.patches import Patch

    return [
        Patch(facecolor=INKS[0], alpha=0.85, label="release here passes clear"),
        Patch(facecolor=INKS[1], label="release here would meet blade 1: the lead angle"),
        Patch(facecolor="#bdbdbd", hatch="///", edgecolor=INKS[5], label="arc that a blade blocks, margins included"),
    ]


def _some(given: list[WindowsRow]) -> list[WindowsRow]:
    """Return the speeds drawn, rising outward."""
    rows = sorted(given, key=lambda row: row.rpm)
    if len(rows) <= MOST_RINGS:
        return rows
    return [rows[round(place * (len(rows) - 1) / (MOST_RINGS - 1))] for place in range(MOST_RINGS)]


def _clock(panel: Axes, rows: list[WindowsRow], units: Units) -> None:
    panel.set_ylim(0.0, 1.25)
    panel.set_yticks([])
    panel.grid(visible=False)
    panel.set_xticks([math.radians(angle) for angle in range(0, 360, 45)])
    _blades(panel, rows[0])
    height = (1.0 - HUB) / len(rows)
    for place, row in enumerate(rows):
        _ring(panel, row, (HUB + place * height, height), units)


def _blades(panel: Axes, row: WindowsRow) -> None:
    blades = round(ms(1.0 / per_s(row.rpm)) / row.blade_interval_ms)
    for blade in range(blades):
        centre = math.tau * blade / blades
        panel.bar(
            centre,
            0.16,
            width=math.radians(row.blocked_deg),
            bottom=1.03,
            color="#bdbdbd",
            hatch="///",
            edgecolor=INKS[5],
        )
        panel.text(centre, 1.11, f"blade {blade + 1}", ha="center", va="center", fontsize=8, bbox=_LABEL)


def _ring(panel: Axes, row: WindowsRow, place: tuple[float, float], units: Units) -> None:
    bottom, height = place
    for arc in row.windows_deg:
        start, end = math.radians(arc.from_deg), math.radians(arc.to_deg)
        panel.bar(
            (start + end) / 2.0,
            0.8 * height,
            width=end - start,
            bottom=bottom,
            color=INKS[0],
            alpha=0.85,
            edgecolor="w",
        )
    lead = math.radians(-row.lead_deg)
    panel.plot([lead, lead], [bottom, bottom + 0.8 * height], color=INKS[1], linewidth=3.0)
    speed, turn = brief("rpm", row.rpm, digits=6), fixed("lead_deg", row.lead_deg, units, 0)
    said = f"{speed}: {turn} lead"
    away = 0.0 if math.cos(lead) < 0.0 else math.pi  # on the half of the ring where the mark of the lead is not
    panel.text(away, bottom + 0.4 * height, said, ha="center", va="center", fontsize=7, bbox=_LABEL)


_LABEL = {"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.9}
