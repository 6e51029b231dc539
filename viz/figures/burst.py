"""Where on the propeller the rounds of many bursts passed, at the radius of the bore line, and which met a blade."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from sim.synchronizer.ripple import Ripple
from sim.units.text import fixed
from viz.figures.sheet import clocks
from viz.figures.timing_look import BLADE, BLOCKED, HELD, INK, STRIKE, WINDOW, patch, rotation_arrow, turn, turns
from viz.sheets.text import without_exponent
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Sequence

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
LAID = (
    "The {count} blades are laid over each other:{gap}every bar and cross stands {count} times, whichever blade the "
    "round met."
)
LAID_LEFT = (
    "Left, the {count} blades are laid over each other:{gap}every bar and cross stands {count} times, whichever blade "
    "the round met."
)
"""Said of passages that are counted over one blade interval."""
SHAPE = ((0.06, 0.4), (0.2, 0.75), (0.45, 1.0), (0.8, 0.85), (0.97, 0.5), (1.0, 0.2))
"""Along a blade, its half width over that at the bore line."""


def draw(answer: BurstAnswer, units: Units) -> Figure:
    """Return the disc seen from the cockpit, blade 1 at the top, and beside it the same gun without its gear.

    Passages are counted over one blade interval, whichever the blade, and drawn alike behind every blade: that is said.
    Both discs have one scale.
    """
    count = 1 if answer.untimed else 2
    figure, panels = clocks(1, count, width_in=6.4 if count == 1 else 9.6, height_in=7.2 if count == 1 else 6.2)
    figure.suptitle(_head(answer, units, alone=count == 1), fontsize=9, x=0.01, ha="left")
    gear = "with the gear, ideal cam:" if answer.cam.ideal else "with the gear:"
    fired = bars(answer, answer.passed_share * answer.blades, met=answer.strikes > 0)
    title = "without the gear:" if answer.untimed else gear
    _disc(panels[0], answer, fired, _told(title, _strikes(answer), answer.rounds_per_min))
    if count == 2:
        exact = tell("{strikes} (exact)", strikes=without_exponent(answer.untimed_strikes_per_1000, 3))
        told = _told("and without the gear?", exact, answer.untimed_rounds_per_min)
        _disc(panels[1], answer, bars(answer, _anywhere(answer), met=True), told)
    _legend(figure, answer, few=any(bar.struck and bar.length < SEEN for bar in fired))
    return figure


def _head(answer: BurstAnswer, units: Units, *, alone: bool) -> str:
    """Return what stands above: engine, speed, sense, and what is drawn over each other; narrow over a single disc."""
    where = "Where rounds went through the propeller: {engine}, {speed}."
    if not answer.powerplant:
        where = "Where rounds went through the propeller: {speed}."
    head = tell(where, engine=answer.powerplant, speed=fixed("rpm", answer.rpm, units, 0))
    lines = [tell("It {turns}; radii are not to scale.", turns=turns(answer.rotation))]
    if answer.blades > 1:
        laid, gap = (LAID, "\n") if alone else (LAID_LEFT, " ")
        lines.append(tell(laid, count=answer.blades, gap=gap))
    if answer.guns > 1:
        lines.append(worded("Marks of both guns, each against its own bore line, lie over each other."))
    told = "\n".join(lines)
    return f"{head}\n{told}" if alone else f"{head} {told}"


def _legend(figure: Figure, answer: BurstAnswer, *, few: bool) -> None:
    from matplotlib.lines import Line2D

    margin = answer.margin_deg > 0.0
    blade = "blade and width of the bullet; dotted: margin" if margin else "blade and width of the bullet"
    struck = "struck a blade (crosses: bars lengthened to be seen)" if few else "struck a blade"
    handles = [
        patch("passed clear (length: square root of the share)", facecolor=WINDOW),
        patch(struck, facecolor=STRIKE),
        patch(blade, **BLOCKED),
        Line2D([], [], color=INK, linewidth=0.8, label="circle of the bore line, from which the bars begin"),
    ]
    figure.legend(handles=handles, loc="lower center", ncols=2, fontsize=7.5)


def _strikes(answer: BurstAnswer) -> str:
    """Return strikes of a thousand as simulated, which are drawn, and as they are exactly."""
    simulated = without_exponent(answer.strikes_per_1000, 3)
    if not answer.exact:
        return tell("{simulated} simulated", simulated=simulated)
    exact = without_exponent(answer.exact.strikes_per_1000, 2)
    return tell("{simulated} simulated, exact: {exact}", simulated=simulated, exact=exact)


def _told(title: str, strikes: str, rounds_per_min: float) -> str:
    told = tell("strikes per 1000 rounds: {strikes}", strikes=strikes)
    rate = tell("{rate} rounds per minute", rate=f"{rounds_per_min:.0f}")
    return f"{worded(title)}\n{told}\n{rate}"


def _disc(panel: PolarAxes, answer: BurstAnswer, drawn: Sequence[Bar], title: str) -> None:
    """Draw the propeller with its rounds, as marks on a paper disc that turns with it; its radii are not to scale."""
    turn(panel, answer.rotation)
    panel.set_ylim(0.0, RIM + 0.06)
    panel.set_yticks([])
    panel.set_xticks([])
    panel.grid(visible=False)
    panel.spines["polar"].set_visible(False)
    for blade in range(answer.blades):
        _blade(panel, answer, math.tau * blade / answer.blades, tell("blade {number}", number=blade + 1))
    steps = [math.tau * step / 180 for step in range(181)]
    panel.fill(steps, [HUB] * len(steps), facecolor=HELD, edgecolor=INK, linewidth=0.8, zorder=3.6)
    panel.plot(steps, [BORE] * len(steps), color=INK, linewidth=0.8, zorder=1.5)
    for bar in drawn:
        colour = STRIKE if bar.struck else WINDOW
        panel.bar(
            bar.angle_rad,
            max(bar.length, SEEN) if bar.struck else bar.length,
            width=bar.width_rad,
            bottom=BORE,
            facecolor=colour,
            edgecolor=colour,
            linewidth=0.3,
            zorder=3.0,
        )
        if bar.struck and bar.length < SEEN:
            panel.plot(bar.angle_rad, BORE, marker="x", markersize=4.5, markeredgewidth=1.4, color=INK, zorder=4.0)
    rotation_arrow(panel, RIM, math.radians(22.0), math.radians(62.0))
    panel.set_title(title, loc="center", pad=2, fontsize=9)
    panel.set_xlabel("\n\n", labelpad=4)


class Bar(NamedTuple):
    """The rounds that passed in a part of a turn: its middle and width [rad], their bar, whether they met a blade."""

    angle_rad: float
    width_rad: float
    length: float
    struck: bool


def bars(answer: BurstAnswer, passed_share: Sequence[float], *, met: bool) -> list[Bar]:
    """Return the bars, at their place on the propeller, in the sense in which it turns from blade 1 on.

    Shares are those of the parts of a whole turn, over that of a blade interval; a round that passes when the propeller
    has turned by an angle past the bore line goes through it so far behind the blade. Where none `met` a blade, none is
    drawn so.
    """
    parts, most = len(answer.passed_share), max(answer.passed_share)
    spacing, half = math.tau / answer.blades, math.radians(0.5 * answer.blocked_deg)
    drawn = []
    for position, share in enumerate(passed_share):
        angle_rad = (position + 0.5) / parts * spacing
        struck = met and abs(math.remainder(angle_rad, spacing)) < half
        if share > 0.0:
            drawn.append(Bar(-angle_rad, spacing / parts, LONGEST * math.sqrt(share / most), struck))
    return drawn


def _anywhere(answer: BurstAnswer) -> list[float]:
    """Return where rounds pass that nothing times: alike at any time, so more where the propeller turns slower."""
    ripple, count = answer.ripple, len(answer.passed_share) * answer.blades
    if ripple.depth == 0.0:
        return [answer.blades / count] * count
    law = Ripple(ripple.depth, ripple.per_rev, math.radians(ripple.peak_deg))
    clock = [law.clock_rad(math.tau * edge / count) for edge in range(count + 1)]
    return [answer.blades * (after - before) / math.tau for before, after in pairwise(clock)]


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
