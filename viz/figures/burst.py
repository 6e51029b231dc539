"""Where on the propeller the rounds of many bursts passed, at the radius of the bore line, and which met a blade."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from sim.units.text import fixed
from viz.figures.sheet import clocks
from viz.figures.timing_look import BLADE, BLOCKED, HELD, INK, STRIKE, WINDOW, patch, rotation_arrow, turn, turns

if TYPE_CHECKING:
    from collections.abc import Iterator

    from matplotlib.figure import Figure
    from matplotlib.projections.polar import PolarAxes

    from sim.studies.burst_answer import BurstAnswer
    from viz.sheets.format import Units

BORE, TIP, RIM = 0.52, 1.0, 1.10
"""Radii of the bore line, of the blades' tips and of the arrow of rotation; not to scale."""
LONGEST = 0.42
"""Length of the bar where most rounds passed."""
SEEN = 0.05
"""Least length of a bar of rounds that met a blade, so that a few in a million can be seen."""
HUB = 0.09
SHAPE = ((0.06, 0.4), (0.2, 0.75), (0.45, 1.0), (0.8, 0.85), (0.97, 0.5), (1.0, 0.2))
"""Along a blade, its half width over that at the bore line."""


def draw(answer: BurstAnswer, units: Units) -> Figure:
    """Return the disc seen from the cockpit, blade 1 at the top; rounds are spread over all blade intervals."""
    figure, (panel,) = clocks(1, 1, width_in=6.4, height_in=7.6)
    _disc(panel, answer)
    name = f"{answer.powerplant}, " if answer.powerplant else ""
    panel.set_title(f"Where {answer.rounds:,} rounds passed: {name}{fixed('rpm', answer.rpm, units, 0)}", pad=12)
    said = f"{answer.strikes_per_1000:.3g} strikes per 1000 rounds; {answer.rounds_per_min:.0f} rounds per minute"
    panel.set_xlabel(f"{said}\nPropeller {turns(answer.rotation)}; radii not to scale\n\n\n\n", labelpad=6)
    _legend(figure, answer)
    return figure


def _legend(figure: Figure, answer: BurstAnswer) -> None:
    from matplotlib.lines import Line2D

    few = " (crosses: bars lengthened to be seen)" if _lengthened(answer) else ""
    blade = "blade and width of the bullet" + ("; dotted: margin" if answer.margin_deg > 0.0 else "")
    handles = [
        patch("passed clear (length: square root of the share)", facecolor=WINDOW),
        patch(f"struck a blade{few}", facecolor=STRIKE, edgecolor=INK),
        patch(blade, **BLOCKED),
        Line2D([], [], color=INK, linewidth=0.8, label="circle of the bore line, from which the bars begin"),
    ]
    figure.legend(handles=handles, loc="lower center", ncols=2, fontsize=7.5)


def _disc(panel: PolarAxes, answer: BurstAnswer) -> None:
    """Draw the propeller with its rounds, as marks on a paper disc that turns with it."""
    turn(panel, answer.rotation)
    panel.set_ylim(0.0, RIM + 0.06)
    panel.set_yticks([])
    panel.set_xticks([])
    panel.grid(visible=False)
    panel.spines["polar"].set_visible(False)
    for blade in range(answer.blades):
        _blade(panel, answer, math.tau * blade / answer.blades, f"blade {blade + 1}")
    steps = [math.tau * step / 180 for step in range(181)]
    panel.fill(steps, [HUB] * len(steps), facecolor=HELD, edgecolor=INK, linewidth=0.8, zorder=3.6)
    panel.plot(steps, [BORE] * len(steps), color=INK, linewidth=0.8, zorder=1.5)
    for bar in bars(answer):
        face, edge = (STRIKE, INK) if bar.struck else (WINDOW, WINDOW)
        panel.bar(
            bar.angle_rad,
            max(bar.length, SEEN) if bar.struck else bar.length,
            width=bar.width_rad,
            bottom=BORE,
            facecolor=face,
            edgecolor=edge,
            linewidth=0.3,
            zorder=3.0,
        )
        if bar.struck and bar.length < SEEN:
            panel.plot(bar.angle_rad, BORE, marker="x", markersize=6.0, markeredgewidth=1.8, color=INK, zorder=4.0)
    rotation_arrow(panel, RIM, math.radians(22.0), math.radians(62.0))


class Bar(NamedTuple):
    """The rounds that passed in a part of a turn: its middle and width [rad], their bar, whether they met a blade."""

    angle_rad: float
    width_rad: float
    length: float
    struck: bool


def bars(answer: BurstAnswer) -> Iterator[Bar]:
    """Yield the bars, at their place on the propeller, in the sense in which it turns from blade 1 on.

    A round that passes when the propeller has turned by an angle past the bore line goes through it so far behind the
    blade.
    """
    parts, most = len(answer.passed_share), max(answer.passed_share)
    spacing = math.tau / answer.blades
    for position, share in enumerate(answer.passed_share):
        if share > 0.0:
            place = (position + 0.5) / parts
            struck = answer.strikes > 0 and min(place, 1.0 - place) * spacing < math.radians(0.5 * answer.blocked_deg)
            for blade in range(answer.blades):
                yield Bar((blade - place) * spacing, spacing / parts, LONGEST * math.sqrt(share / most), struck)


def _lengthened(answer: BurstAnswer) -> bool:
    """Return whether a bar of rounds that met a blade is drawn longer than its share."""
    return any(bar.struck and bar.length < SEEN for bar in bars(answer))


def _blade(panel: PolarAxes, answer: BurstAnswer, centre: float, name: str) -> None:
    """Draw a blade that is as wide at the bore line as the arc that it blocks there."""
    half = BORE * math.sin(math.radians(min(0.5 * answer.blocked_deg, 90.0)))
    sides = [(along, min(1.0, half * width / along)) for along, width in SHAPE]
    right = [(math.asin(share), along) for along, share in sides]
    outline = [*right, *((-angle, along) for angle, along in reversed(right))]
    panel.fill([centre + angle for angle, _ in outline], [along for _, along in outline], zorder=1.0, **BLOCKED)
    panel.plot([centre + angle for angle, _ in outline], [along for _, along in outline], color=BLADE, zorder=3.5)
    panel.text(centre, RIM, name, ha="center", va="center", fontsize=8)
    if answer.margin_deg > 0.0:
        edge = math.radians(0.5 * answer.blocked_deg + answer.margin_deg)
        for side in (-edge, edge):
            panel.plot([centre + side] * 2, [BORE - 0.12, BORE + 0.12], color=INK, linewidth=1.2, linestyle=":")
