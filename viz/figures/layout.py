"""Side and front view: planes, spars, struts, wires and the fuselage nodes under the fittings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.quantities import quantity
from viz.figures.along import at, clear
from viz.figures.inks import MARKS, NEUTRAL, ink, series
from viz.figures.sheet import arrange, below, sheet
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.text import Text

    from sim.airframe.fittings import Member
    from sim.studies.layout import LayoutAnswer
    from viz.figures.along import Along
    from viz.sheets.format import Units

LOOKS = {
    "root": (0, 0),
    "cabane": (1, 1),
    "strut foot": (2, 3),
    "strut head": (4, 4),
    "lift strut": (5, 3),
    "truss": (3, 5),
}
"""Kind of node -> mark and colour."""
NAMES = {
    "root": "root fitting",
    "cabane": "cabane fitting",
    "truss": "truss node: station",
    "strut foot": "strut foot (outboard, raised by dihedral)",
    "strut head": "strut head (outboard, raised by dihedral)",
    "lift strut": "lift strut fitting (outboard, raised by dihedral)",
}
BESIDE = 0.35
"""Of the length of the truss, within which the stations of two nodes would write over each other."""
PAPER = {"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.85}
"""Behind words that cross a line."""
LABELS = {"flying wire": 0.72, "landing wire": 0.2, "cabane wire": 0.8}
"""Where along a member of the front view its length stands; struts have it in the middle."""
PANEL_IN, TALLEST_IN, WORDS_IN = 8.2, 9.0, 1.5
"""Width of a panel, its greatest height, and room for title, axis and legend above and below it."""
STRUT: dict[str, Any] = {"color": NEUTRAL, "linewidth": 1.6, "linestyle": "--"}
WIRE: dict[str, Any] = {"color": NEUTRAL, "linewidth": 0.8, "linestyle": "-"}


def draw(answer: LayoutAnswer, units: Units) -> Figure:
    """Return the side view, nose to the left, and the right side of the front view."""
    figure, (panel, front) = sheet(2, width_in=9.0, height_in=12.5)
    _, factor = quantity("station_m").shown(units)
    for plane in answer.planes:
        stations, waterlines = zip(*plane.outline, strict=True)
        panel.fill(
            [s * factor for s in stations], [w * factor for w in waterlines], facecolor="#eef2f6", edgecolor=ink(0)
        )
        ahead = min(zip(stations, waterlines, strict=True))
        edge = f"{factor * plane.leading_edge_station_m:.2f}"
        words = tell("{plane} leading edge {station}", plane=plane.name, station=edge)
        _say(panel, words, (factor * ahead[0], factor * ahead[1]), (-5, 4), align=("right", "bottom"))
        for ends in plane.spars:
            spar_stations, spar_waterlines = zip(*ends, strict=True)
            panel.plot([s * factor for s in spar_stations], [w * factor for w in spar_waterlines], color=ink(0), lw=3.0)
    _longerons(panel, answer, factor)
    lengths = _struts(panel, answer, factor)
    _nodes(panel, answer, factor)
    panel.set_aspect("equal")
    panel.margins(x=0.38, y=0.1)
    panel.set_xlabel(axis_label("station_m", units))
    panel.set_ylabel(axis_label("waterline_m", units))
    panel.set_title(tell("{title}: side view, nose to the left", title=answer.title))
    panel.legend(**below(3))
    beside = _front(front, answer, units)
    _fit_paper(figure, (panel, front))
    arrange(figure)
    clear(figure, panel, lengths)
    clear(figure, front, beside)
    return figure


def _fit_paper(figure: Figure, panels: Sequence[Axes]) -> None:
    """Make the paper as high as panels of one scale across and up need, so that none of it stays blank."""
    heights = []
    for panel in panels:
        (left, right), (low, high) = panel.get_xlim(), panel.get_ylim()
        panel.set_anchor("N")  # what is left over is room for the words below
        heights.append(min(TALLEST_IN, PANEL_IN * (high - low) / (right - left)))
    grid = panels[0].get_gridspec()
    if grid is not None:
        grid.set_height_ratios(heights)
    figure.set_figheight(sum(heights) + WORDS_IN * len(heights))


def _front(panel: Axes, answer: LayoutAnswer, units: Units) -> list[Along]:
    """Draw struts and wires at the front spar; return their lengths with both ends."""
    _, factor = quantity("buttline_m").shown(units)
    places = {node.name: (node.buttline_m * factor, node.waterline_m * factor) for node in answer.nodes}
    for plane, ends in zip(answer.planes, answer.front_lines, strict=True):
        (root, tip) = ((out * factor, up * factor) for out, up in ends)
        panel.plot(*zip(root, tip, strict=True), color=ink(0), linewidth=3.0)
        _say(panel, plane.name, tip, (4, 0), align=("left", "center"))
    words = []
    ahead = [one for one in answer.members if one.name.startswith(f"{answer.front_spar} ")]
    for member in ahead:
        foot, (out, up) = places[member.from_node], places[member.to_node]
        head = (-out if member.to_left else out, up)
        panel.plot(*zip(foot, head, strict=True), **_stroke(member))
        place = at(LABELS.get(member.kind, 0.5), foot, head)
        words.append((_along(panel, member, factor, place), foot, head))
    shown = {name for one in ahead for name in (one.from_node, one.to_node)}
    for node in answer.nodes:
        if node.name not in shown:
            continue
        shape, number = LOOKS[node.kind]
        panel.plot(*places[node.name], MARKS[series(shape)], color=ink(number), markersize=5)
    panel.plot([], [], **STRUT, label="strut")
    panel.plot([], [], **WIRE, label="wire")
    panel.set_aspect("equal")
    panel.margins(x=0.1, y=0.12)
    panel.set_xlabel(axis_label("buttline_m", units))
    panel.set_ylabel(axis_label("waterline_m", units))
    said = "Right side from behind, at the {spar} spar: true lengths from pin to pin"
    panel.set_title(tell(said, spar=answer.front_spar))
    panel.legend(**below(2))
    return words


def _stroke(member: Member) -> dict[str, Any]:
    return WIRE if member.kind.endswith("wire") else STRUT


def _along(panel: Axes, member: Member, factor: float, place: tuple[float, float]) -> Text:
    """Write the length of a member at a place of it."""
    return panel.text(*place, f"{member.length_m * factor:.2f}", ha="center", va="center", fontsize=8, bbox=PAPER)


def _say(
    panel: Axes, text: str, place: tuple[float, float], away: tuple[float, float], *, align: tuple[str, str]
) -> None:
    panel.annotate(
        text, place, xytext=away, textcoords="offset points", ha=align[0], va=align[1], fontsize=8, bbox=PAPER
    )


def _longerons(panel: Axes, answer: LayoutAnswer, factor: float) -> None:
    stations = [station * factor for plane in answer.planes for station, _ in plane.outline]
    ends = [min(stations), max(stations) + 0.05 * (max(stations) - min(stations))]
    for name, waterline_m in (
        ("upper longeron", answer.upper_longeron_waterline_m),
        ("lower longeron", answer.lower_longeron_waterline_m),
    ):
        level = waterline_m * factor
        panel.plot(ends, [level, level], color=NEUTRAL, linewidth=2.0)
        _say(
            panel,
            tell("{longeron} {height}", longeron=name, height=f"{level:.2f}"),
            (ends[1], level),
            (4, 0),
            align=("left", "center"),
        )


def _struts(panel: Axes, answer: LayoutAnswer, factor: float) -> list[Along]:
    """Draw the struts and return their lengths with both ends."""
    places = {node.name: (node.station_m * factor, node.waterline_m * factor) for node in answer.nodes}
    struts = [member for member in answer.members if not member.kind.endswith("wire")]
    words = []
    for member in struts:
        foot, head = places[member.from_node], places[member.to_node]
        panel.plot(*zip(foot, head, strict=True), **STRUT)
        words.append((_along(panel, member, factor, at(0.5, foot, head)), foot, head))
    if struts:
        panel.plot([], [], **STRUT, label="strut: true length from pin to pin")
    return words


def _nodes(panel: Axes, answer: LayoutAnswer, factor: float) -> None:
    stations = [node.station_m * factor for node in answer.nodes]
    near = BESIDE * (max(stations) - min(stations)) if stations else 0.0
    for kind in dict.fromkeys(node.kind for node in answer.nodes):
        shape, number = LOOKS[kind]
        found = [(node.station_m * factor, node.waterline_m * factor) for node in answer.nodes if node.kind == kind]
        panel.plot(
            *zip(*found, strict=True),
            MARKS[series(shape)],
            color=ink(number),
            markersize=6,
            label=NAMES.get(kind, kind),
        )
        if kind == "truss":
            over = [node.name.startswith("truss over") for node in answer.nodes if node.kind == kind]
            for n, (place, above) in enumerate(zip(found, over, strict=True)):
                if place in found[:n]:  # two struts share a foot
                    continue
                level = [other for other in found[:n] if other[1] == place[1] and abs(other[0] - place[0]) < near]
                away = 14 + 11 * (len(level) % 2)  # of two side by side the second stands beyond the first
                _say(panel, f"{place[0]:.2f}", place, (0, away if above else -away), align=("center", "center"))
