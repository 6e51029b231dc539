"""Trusses of the wing with the axial load of every member by stroke and width, bending and margin along the spars."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from sim.units.quantities import quantity
from viz.figures.sheet import INKS, sheet, style

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.structure_answer import StructureAnswer, StructureMember
    from viz.sheets.format import Units

PAPER: Final = {"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.85}
TENSION: Final[dict[str, Any]] = {"color": INKS[0], "linestyle": "-"}
COMPRESSION: Final[dict[str, Any]] = {"color": INKS[1], "linestyle": (0, (3, 1))}
LABELS: Final = {"flying wire": 0.72, "landing wire": 0.28, "cabane wire": 0.8}
"""Where along a member its load stands; others have it in the middle."""
WIDEST: Final = 7.0
"""Of the line of the largest load, in points."""
MOST_MARGIN: Final = 3.0
"""Margins above this are drawn at it."""
DRAG_TRUSS: Final = ("compression rib", "drag wire")


def draw(answer: StructureAnswer, units: Units) -> Figure:
    """Return the front and the rear truss from behind, then bending moment and margin along the spars."""
    names = list(dict.fromkeys(_spar_of(one) for one in answer.members if one.kind == "spar"))
    figure, panels = sheet(len(names) + 2, width_in=9.0, height_in=4.0 * (len(names) + 2))
    for name, panel in zip(names, panels, strict=False):
        _truss(panel, answer, name, units)
    _along(panels[-2], answer, units, "moments_n_m")
    _along(panels[-1], answer, units, "margins")
    return figure


def _spar_of(one: StructureMember) -> str:
    """Return the name of the spar in that of a member of it, ``upper front spar``: the word before the last."""
    return one.name.partition(" spar")[0].rpartition(" ")[2]


def _truss(panel: Axes, answer: StructureAnswer, spar: str, units: Units) -> None:
    own = [
        one
        for one in answer.members
        if (one.kind == "spar" and _spar_of(one) == spar)
        or (one.name.startswith(f"{spar} ") and one.kind not in DRAG_TRUSS)
    ]
    _, length = quantity("buttline_m").shown(units)
    unit, load = quantity("force_n").shown(units)
    largest = max((abs(one.force_n) for one in own), default=1.0) or 1.0
    for one in own:
        (start, end) = ((length * place[1], length * place[2]) for place in one.ends_m)
        stroke = TENSION if one.force_n >= 0.0 else COMPRESSION
        panel.plot(*zip(start, end, strict=True), **stroke, linewidth=0.6 + WIDEST * abs(one.force_n) / largest)
        share = LABELS.get(one.kind, 0.5)
        place = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        panel.annotate(f"{abs(load * one.force_n):.0f}", place, ha="center", va="center", fontsize=8, bbox=PAPER)
    panel.plot([], [], **TENSION, linewidth=2.5, label="tension")
    panel.plot([], [], **COMPRESSION, linewidth=2.5, label="compression")
    panel.set_aspect("equal")
    panel.margins(x=0.06, y=0.15)
    panel.set_xlabel(quantity("buttline_m").label(units))
    panel.set_ylabel(quantity("waterline_m").label(units))
    panel.set_title(f"{spar} truss, right side from behind: axial load at limit load [{unit}], each in its worst case")
    panel.legend(loc="upper center", bbox_to_anchor=(0.5, -0.2), ncols=2)


def _along(panel: Axes, answer: StructureAnswer, units: Units, name: str) -> None:
    _, length = quantity("buttline_m").shown(units)
    _, factor = quantity(name).shown(units)
    for number, one in enumerate(answer.spars):
        values = [factor * value for value in getattr(one, name)]
        if name == "margins":
            values = [min(value, MOST_MARGIN) for value in values]
        panel.plot([length * y for y in one.buttlines_m], values, **style(number), label=f"{one.name}: {one.case}")
    panel.axhline(0.0, color=INKS[5], linewidth=0.8)
    panel.set_xlabel(quantity("buttline_m").label(units))
    unit, _ = quantity(name).shown(units)
    panel.set_ylabel(f"margin, at most {MOST_MARGIN:g} drawn" if name == "margins" else f"moment, upward [{unit}]")
    title = (
        "Margin of safety along the spars" if name == "margins" else "Bending moment along the spars at ultimate load"
    )
    panel.set_title(f"{title}, each in its worst case")
    if name == "margins":
        panel.legend(loc="upper center", bbox_to_anchor=(0.5, -0.2), ncols=2)
