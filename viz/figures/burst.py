"""Where on the propeller disc the rounds passed, and the blades that they should miss."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.units.text import fixed
from viz.figures.sheet import INKS, clocks

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.burst_answer import BurstAnswer
    from viz.sheets.format import Units

HUB = 0.25
SEEN = 0.05
"""Least length of a bar of rounds that met a blade, the disc being 1, so that a few in a million can be seen."""


def draw(answer: BurstAnswer, units: Units) -> Figure:
    """Return the disc, 0 at the top with blade 1 on the bore line; rounds are spread over all blade intervals."""
    figure, (panel,) = clocks(1, 1, width_in=6.4, height_in=7.3)
    panel.set_ylim(0.0, 1.2)
    panel.set_yticks([])
    panel.grid(visible=False)
    panel.set_xticks([math.radians(angle) for angle in range(0, 360, 45)])
    _rounds(panel, answer)
    _blades(panel, answer)
    name = f"{answer.powerplant}, " if answer.powerplant else ""
    panel.set_title(f"Where {answer.rounds:,} rounds passed: {name}{fixed('rpm', answer.rpm, units, 0)}", pad=16)
    seen = " (bars lengthened to be visible)" if _lengthened(answer) else ""
    struck = f"{answer.strikes_per_1000:.3g} strikes per 1000 rounds{seen}"
    said = f"{struck}; {answer.rounds_per_min:.0f} rounds per minute"
    panel.set_xlabel(f"Propeller angle at passage, 0 with blade 1 on the bore line\n{said}\n\n ", labelpad=8)
    figure.legend(loc="lower center", ncols=3, fontsize=8)
    return figure


def _rounds(panel: Axes, answer: BurstAnswer) -> None:
    parts = len(answer.passed_share)
    width = math.tau / answer.blades / parts
    most = max(answer.passed_share)
    struck = answer.blocked_deg / 2.0 / (360.0 / answer.blades)
    for position, share in enumerate(answer.passed_share):
        place = (position + 0.5) / parts
        meets = place < struck or place > 1.0 - struck
        for blade in range(answer.blades):
            panel.bar(
                (blade + place) * math.tau / answer.blades,
                max((1.0 - HUB) * math.sqrt(share / most), SEEN if meets and share > 0.0 else 0.0),
                width=width,
                bottom=HUB,
                color=INKS[1] if meets else INKS[0],
                edgecolor="none",
            )
    panel.bar(0.0, 0.0, color=INKS[0], label="passed clear (length: square root of the fraction)")
    panel.bar(0.0, 0.0, color=INKS[1], label="struck a blade")


def _lengthened(answer: BurstAnswer) -> bool:
    """Return whether a bar of rounds that met a blade is drawn longer than its share."""
    parts, most = len(answer.passed_share), max(answer.passed_share)
    struck = answer.blocked_deg / 2.0 / (360.0 / answer.blades)
    shares = [
        share
        for position, share in enumerate(answer.passed_share)
        if (position + 0.5) / parts < struck or (position + 0.5) / parts > 1.0 - struck
    ]
    return any(0.0 < (1.0 - HUB) * math.sqrt(share / most) < SEEN for share in shares)


def _blades(panel: Axes, answer: BurstAnswer) -> None:
    half, margin = math.radians(answer.blocked_deg), math.radians(answer.blocked_deg + 2.0 * answer.margin_deg)
    for blade in range(answer.blades):
        centre = math.tau * blade / answer.blades
        panel.bar(centre, 0.12, width=margin, bottom=1.03, color="white", edgecolor=INKS[5], linestyle=":")
        said = "blade; margin dotted" if margin > half else "blade"
        label = said if blade == 0 else None
        panel.bar(centre, 0.12, width=half, bottom=1.03, color="#bdbdbd", hatch="///", edgecolor=INKS[5], label=label)
