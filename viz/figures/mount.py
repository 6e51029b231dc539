"""The bolt pattern of the firewall from the cockpit, and the truss from the side, the engine where it stands."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.errors import refuse
from sim.units.quantities import quantity
from viz.figures.along import at
from viz.figures.inks import COMPRESSION, NEUTRAL, TENSION, ink
from viz.figures.mount_isolators import draw_isolators
from viz.figures.sheet import below, sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.structures.bolts import BoltLoad
    from sim.studies.mount_answer import MountAnswer, MountCase
    from viz.figures.along import Place
    from viz.sheets.format import Units

PAPER = {"facecolor": "white", "edgecolor": "none", "alpha": 0.8, "pad": 1.0}
_LABEL: dict[str, Any] = {"textcoords": "offset points", "ha": "center", "va": "center", "fontsize": 8, "bbox": PAPER}
_FOOT: dict[str, Any] = {"textcoords": "offset points", "rotation": 90, "va": "bottom", "fontsize": 8}
PULLED, PUSHED = TENSION["color"], COMPRESSION["color"]
NODES = {
    "airframe": ("o", ink(0), "at the firewall"),
    "engine": ("s", ink(1), "lug of the engine"),
    "free": ("D", ink(3), "free joint"),
}
"""Mark, ink and name of the nodes of a truss, by what holds them."""
ARROW_SHARE = 0.28
"""Length of the longest shear arrow over the height of the pattern."""


def draw(answer: MountAnswer, units: Units) -> Figure:
    """Return the most severe case of the engine on the mount: axial load of each bolt, and the shear as an arrow."""
    if not answer.bolt_pattern:
        refuse("figure", "needs the bolts of the mount; give the table mount.bolt")
    truss, shaken = bool(answer.tubes), answer.isolators
    heights = [4.8, *([3.8] if truss else []), *([2.8] if shaken else [])]
    figure, panels = sheet(len(heights), width_in=7.6, height_in=sum(heights), heights=heights)
    panel = panels[0]
    worst = _worst([case for case in answer.cases if case.powerplant == answer.powerplant])
    _pattern(panel, answer, worst, longest_n=max(bolt.shear_n for bolt in worst.bolts), units=units)
    least = min(bolt.margin for bolt in worst.bolts)
    margin = text_of(Value("margin", least, decimals=2), units)
    panel.set_title(
        tell(
            "{engine}, {case}: limit loads,\nleast margin of the bolts, {bolt}, {margin}",
            engine=answer.powerplant,
            case=worst.name,
            bolt=_words(worst.worst_bolt),
            margin=margin,
        )
    )
    _legend(panel)
    if truss:
        _truss(panels[1], answer, units)
    if shaken:
        draw_isolators(panels[-1], shaken, units)
    return figure


def _truss(panel: Axes, answer: MountAnswer, units: Units) -> None:
    """Draw nodes and tubes from the left side, the nose to the left, the worst tube named."""
    unit, factor = quantity("place_m").shown(units)
    places = {node.name: (factor * node.place_m[0], -factor * node.place_m[2]) for node in answer.nodes}
    hung = answer.hung[answer.powerplant]
    _tubes(panel, answer, places)
    _nodes(panel, answer, places, units)
    panel.plot(factor * hung.ahead_m, -factor * hung.below_m, "P", color=ink(2), markersize=10)
    cg = text_of(Value("ahead_m", hung.ahead_m), units)
    panel.annotate(
        tell("CG of what hangs there,\n{distance} ahead", distance=cg),
        (factor * hung.ahead_m, -factor * hung.below_m),
        xytext=(0, -30),
        **_LABEL,
    )
    panel.axvline(0.0, color=NEUTRAL, linewidth=2.2)
    panel.annotate("firewall", (0.0, 0.02), xycoords=("data", "axes fraction"), xytext=(6, 0), **_FOOT)
    panel.invert_xaxis()
    panel.set_aspect("equal")
    panel.margins(x=0.3, y=0.25)
    panel.set_xlabel(unit_behind("ahead of the firewall, nose to the left", unit))
    panel.set_ylabel(unit_behind("above the shaft axis", unit))
    panel.set_title(_truss_title(answer, units))


def _tubes(panel: Axes, answer: MountAnswer, places: Mapping[str, Place]) -> None:
    """Draw the tubes, the worst thick and above that of the other side, which lies behind it."""
    for tube in answer.tubes:
        start, end = places[tube.start], places[tube.end]
        sets = tube.tube == answer.worst_tube
        look: dict[str, Any] = (
            {"color": ink(1), "linewidth": 4.0, "zorder": 3} if sets else {"color": NEUTRAL, "linewidth": 1.6}
        )
        panel.plot(*zip(start, end, strict=True), **look)
        if sets:
            panel.annotate(_words(tube.tube), at(0.5, start, end), xytext=(0, -12), **_LABEL)


def _nodes(panel: Axes, answer: MountAnswer, places: Mapping[str, Place], units: Units) -> None:
    for held, (shape, paint, words) in NODES.items():
        own = [places[node.name] for node in answer.nodes if node.held == held]
        if own:
            panel.plot(*zip(*own, strict=True), shape, color=paint, label=words)
    lugs = [node for node in answer.nodes if node.held == "engine"]
    if lugs:
        far_m = [node.place_m[0] for node in lugs]
        ends = [text_of(Value("place_m", ahead_m, digits=4), units) for ahead_m in (min(far_m), max(far_m))]
        highest = min(lugs, key=lambda node: node.place_m[2])
        said = "lugs {first} ahead" if ends[0] == ends[1] else "lugs {first} to {last} ahead"
        words = tell(said, first=ends[0], last=ends[1])
        panel.annotate(words, places[highest.name], xytext=(-62, 12), **_LABEL)
    panel.legend(**below(3), fontsize=8)


def _truss_title(answer: MountAnswer, units: Units) -> str:
    move = text_of(Value("engine_move_m", answer.engine_move_m[answer.powerplant], decimals=2, signed=True), units)
    (worst,) = (row for row in answer.worst_tubes if row.tube == answer.worst_tube)
    margin = text_of(Value("margin", worst.margin, decimals=2), units)
    return tell(
        "Truss from the left,\nengine {move} from where it is drawn;\nthick, least margin: {tube}, {margin},\n{case}",
        move=move,
        tube=_words(worst.tube),
        margin=margin,
        case=worst.case,
    )


def _legend(panel: Axes) -> None:
    """Explain the marks at the foot of a panel."""
    from matplotlib.lines import Line2D

    marks = [
        Line2D([], [], color=paint, marker="o", markerfacecolor=face, linestyle="none", label=way)
        for paint, face, way in ((PULLED, PULLED, "tension"), (PUSHED, "white", "compression"))
    ]
    arrow = Line2D([], [], color=NEUTRAL, marker=">", linewidth=1.2, label="shear")
    panel.legend(handles=[*marks, arrow], loc="lower center", ncols=3, fontsize=8)


def _worst(cases: list[MountCase]) -> MountCase:
    """Return the case that sets the bolt with the least margin."""
    return min(cases, key=lambda case: min(bolt.margin for bolt in case.bolts))


def _pattern(panel: Axes, answer: MountAnswer, case: MountCase, *, longest_n: float, units: Units) -> None:
    unit, factor = quantity("place_m").shown(units)
    rights = [factor * bolt.right_m for bolt in answer.bolt_pattern]
    ups = [-factor * bolt.down_m for bolt in answer.bolt_pattern]
    size = max(max(rights) - min(rights), max(ups) - min(ups), 1e-9)
    for right, up, load in zip(rights, ups, case.bolts, strict=True):
        _bolt(panel, (right, up), load, scale=ARROW_SHARE * size / longest_n if longest_n else 0.0, units=units)
    panel.plot(0.0, 0.0, "+", color=NEUTRAL, markersize=14)
    panel.annotate("shaft axis", (0.0, 0.0), xytext=(8, 6), textcoords="offset points", color=NEUTRAL)
    panel.set_xlim(min(rights) - 0.5 * size, max(rights) + 0.5 * size)
    panel.set_ylim(min(ups) - 0.5 * size, max(ups) + 0.4 * size)
    panel.set_aspect("equal")
    panel.set_xlabel(unit_behind("to the right, seen from the cockpit", unit))
    panel.set_ylabel(unit_behind("above the shaft axis", unit))


def _bolt(panel: Axes, place: tuple[float, float], load: BoltLoad, *, scale: float, units: Units) -> None:
    tension = load.axial_n >= 0.0
    paint = PULLED if tension else PUSHED
    panel.plot(
        *place, "o", color=paint, markerfacecolor=paint if tension else "white", markersize=11, markeredgewidth=1.6
    )
    tip = place[0] + scale * load.shear_right_n, place[1] - scale * load.shear_down_n
    panel.annotate("", tip, xytext=place, arrowprops={"arrowstyle": "-|>", "color": NEUTRAL, "linewidth": 1.2})
    axial, way = text_of(Value("axial_n", abs(load.axial_n)), units), "tension" if tension else "compression"
    shear = text_of(Value("shear_n", load.shear_n), units)
    words = tell("{bolt}\n{axial}\n{way}\n{shear} shear", bolt=_words(load.name), axial=axial, way=way, shear=shear)
    panel.annotate(
        words, place, xytext=(0, 12), textcoords="offset points", ha="center", va="bottom", fontsize=8, bbox=PAPER
    )


def _words(name: str) -> str:
    return name.replace("_", " ")
