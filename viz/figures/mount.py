"""The bolt pattern of the firewall as seen from the cockpit, each bolt in its worst case."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import refuse
from sim.units.quantities import quantity
from viz.figures.sheet import INKS, sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.structure.bolts import BoltLoad
    from sim.studies.mount_answer import MountAnswer, MountCase
    from viz.sheets.format import Units

PAPER = {"facecolor": "white", "edgecolor": "none", "alpha": 0.8, "pad": 1.0}
ARROW_SHARE = 0.28
"""Length of the longest shear arrow over the height of the pattern."""


def draw(answer: MountAnswer, units: Units) -> Figure:
    """Return the most severe case of the engine on the mount: axial load of each bolt, and the shear as an arrow."""
    if not answer.bolt_pattern:
        refuse("figure", "needs the bolts of the mount; give the table mount.bolt")
    figure, (panel,) = sheet(width_in=5.6, height_in=5.6)
    worst = _worst([case for case in answer.cases if case.powerplant == answer.powerplant])
    _pattern(panel, answer, worst, longest_n=max(bolt.shear_n for bolt in worst.bolts), units=units)
    panel.set_title(f"{answer.powerplant}, most severe case at limit load:\n{worst.name}")
    _legend(panel)
    return figure


def _legend(panel: Axes) -> None:
    """Explain the marks at the foot of a panel."""
    from matplotlib.lines import Line2D

    marks = [
        Line2D([], [], color=ink, marker="o", markerfacecolor=face, linestyle="none", label=way)
        for ink, face, way in ((INKS[1], INKS[1], "tension"), (INKS[0], "white", "compression"))
    ]
    arrow = Line2D([], [], color=INKS[5], marker=">", linewidth=1.2, label="shear")
    panel.legend(handles=[*marks, arrow], loc="lower center", ncols=3, fontsize=8)


def _worst(cases: list[MountCase]) -> MountCase:
    return max(cases, key=lambda case: max(bolt.stress_pa for bolt in case.bolts))


def _pattern(panel: Axes, answer: MountAnswer, case: MountCase, *, longest_n: float, units: Units) -> None:
    unit, factor = quantity("place_m").shown(units)
    rights = [factor * bolt.right_m for bolt in answer.bolt_pattern]
    ups = [-factor * bolt.down_m for bolt in answer.bolt_pattern]
    size = max(max(rights) - min(rights), max(ups) - min(ups), 1e-9)
    for right, up, load in zip(rights, ups, case.bolts, strict=True):
        _bolt(panel, (right, up), load, scale=ARROW_SHARE * size / longest_n if longest_n else 0.0, units=units)
    panel.plot(0.0, 0.0, "+", color=INKS[5], markersize=14)
    panel.annotate("shaft axis", (0.0, 0.0), xytext=(8, 6), textcoords="offset points", color=INKS[5])
    panel.set_xlim(min(rights) - 0.5 * size, max(rights) + 0.5 * size)
    panel.set_ylim(min(ups) - 0.5 * size, max(ups) + 0.4 * size)
    panel.set_aspect("equal")
    panel.set_xlabel(f"to the right, seen from the cockpit [{unit}]")
    panel.set_ylabel(f"above the shaft axis [{unit}]")


def _bolt(panel: Axes, place: tuple[float, float], load: BoltLoad, *, scale: float, units: Units) -> None:
    tension = load.axial_n >= 0.0
    ink = INKS[1] if tension else INKS[0]
    panel.plot(*place, "o", color=ink, markerfacecolor=ink if tension else "white", markersize=11, markeredgewidth=1.6)
    tip = place[0] + scale * load.shear_right_n, place[1] - scale * load.shear_down_n
    panel.annotate("", tip, xytext=place, arrowprops={"arrowstyle": "-|>", "color": INKS[5], "linewidth": 1.2})
    axial, way = text_of(Value("axial_n", abs(load.axial_n)), units), "tension" if tension else "compression"
    shear = text_of(Value("shear_n", load.shear_n), units)
    words = f"{load.name.replace('_', ' ')}\n{axial}\n{way}\n{shear} shear"
    panel.annotate(
        words, place, xytext=(0, 12), textcoords="offset points", ha="center", va="bottom", fontsize=8, bbox=PAPER
    )
