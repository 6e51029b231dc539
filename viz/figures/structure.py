"""Trusses of the wing, axial load of every member by stroke and width; bending, shear and margin along the spars."""

from __future__ import annotations

from itertools import groupby, pairwise
from typing import TYPE_CHECKING, Any, Final, TypeAlias

from sim.units.quantities import quantity
from viz.figures.along import clear
from viz.figures.inks import COMPRESSION, MARKS, NEUTRAL, TENSION, series, style
from viz.figures.sheet import arrange, below, sheet
from viz.words.reader import axis_label, tell, unit_behind, worded

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.structure_answer import StructureAnswer, StructureMember
    from viz.figures.along import Along
    from viz.sheets.format import Units

Point: TypeAlias = "tuple[float, float]"
Line: TypeAlias = "tuple[Point, Point, float, float | None, str]"
"""Both ends, buttline and waterline, load, where along it the load is written or None, and the words behind the load.

[m, m, N]
"""
PAPER: Final = {"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.85}
LABELS: Final = {"flying wire": 0.72, "landing wire": 0.28, "cabane wire": 0.8}
"""Where along a member its load stands; others have it in the middle."""
WIDEST: Final = 7.0
"""Of the line of the largest load, in points."""
MOST_MARGIN: Final = 3.0
"""Margins above this are drawn at it."""
APART: Final = 5
"""So many of the strokes are told apart without their colour; the last looks dotted, as another one does."""
ALONG: Final = {
    "moments_n_m": ("moment, upward", "Bending moment along the spars at ultimate load, each in its worst case"),
    "shears_n": ("shear, upward", "Shear along the spars at ultimate load, each in its worst case"),
    "margins": ("margin", "Margin of safety along the spars, each in its worst case"),
}
"""What is drawn along the spars: words of its axis, and title."""
TRUSSES: Final = {
    "front": "Front truss from behind: ultimate load [{unit}], each in its own worst case",
    "rear": "Rear truss from behind: ultimate load [{unit}], each in its own worst case",
}
DRAG_TRUSS: Final = ("compression rib", "drag wire")
OTHER: Final = {"left": "right only", "right": "left only"}


def draw(answer: StructureAnswer, units: Units) -> Figure:
    """Return the front and the rear truss from behind, then bending moment, shear and margin along the spars."""
    names = list(dict.fromkeys(_spar_of(one) for one in answer.members if one.kind == "spar"))
    figure, panels = sheet(len(names) + len(ALONG), width_in=9.0, height_in=4.0 * (len(names) + len(ALONG)))
    words = [_truss(panel, answer, name, units) for name, panel in zip(names, panels, strict=False)]
    for panel, name in zip(panels[len(names) :], ALONG, strict=True):
        _along(panel, answer, units, name)
    arrange(figure)
    for panel, own in zip(panels, words, strict=False):
        clear(figure, panel, own)
    return figure


def _spar_of(one: StructureMember) -> str:
    """Return the name of the spar in that of a member of it, ``upper front spar``: the word before the last."""
    return one.name.partition(" spar")[0].rpartition(" ")[2]


def _truss(panel: Axes, answer: StructureAnswer, spar: str, units: Units) -> list[Along]:
    """Draw the members at one spar, spars themselves span by span; return their loads with both ends."""
    lines = [*_spar_lines(answer, spar), *_member_lines(answer, spar)]
    _, length = quantity("buttline_m").shown(units)
    unit, load = quantity("force_n").shown(units)
    words: list[Along] = []
    largest = max((abs(force) for _, _, force, _, _ in lines), default=0.0) or 1.0
    for first, last, force, share, side in lines:
        start, end = ((length * out, length * up) for out, up in (first, last))
        stroke = TENSION if force >= 0.0 else COMPRESSION
        panel.plot(*zip(start, end, strict=True), **stroke, linewidth=0.6 + WIDEST * abs(force) / largest)
        if share is not None:
            place = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
            text = panel.text(
                *place, f"{abs(load * force):.0f}{side}", ha="center", va="center", fontsize=8, bbox=PAPER
            )
            words.append((text, start, end))
    panel.plot([], [], **TENSION, linewidth=2.5, label="tension")
    panel.plot([], [], **COMPRESSION, linewidth=2.5, label="compression")
    panel.set_aspect("equal")
    panel.margins(x=0.06, y=0.15)
    panel.set_xlabel(axis_label("buttline_m", units))
    panel.set_ylabel(axis_label("waterline_m", units))
    _title(panel, answer, tell(TRUSSES[spar], unit=unit))
    panel.legend(**below(2))
    return words


def _member_lines(answer: StructureAnswer, spar: str) -> Iterator[Line]:
    """Yield struts and wires, their load written along them."""
    for one in answer.members:
        if one.name.startswith(f"{spar} ") and one.kind not in (*DRAG_TRUSS, "spar"):
            (start, end), share = ((place[1:] for place in one.ends_m), LABELS.get(one.kind, 0.5))
            yield (start[0], start[1]), (end[0], end[1]), one.ultimate_n, share, _only(one.name, answer.left_out)


def _only(name: str, left_out: Sequence[str]) -> str:
    """Return which side alone has a member, where the other is left out: both are drawn as one."""
    return next((f"\n{worded(only)}" for side, only in OTHER.items() if f"{name}, {side}" in left_out), "")


def _title(panel: Axes, answer: StructureAnswer, words: str) -> None:
    """Set the title of a part, with what is left out in a line below."""
    told = worded(words)
    if answer.left_out:
        told = f"{told}\n{tell('WITHOUT {parts}', parts=worded(' and ').join(map(worded, answer.left_out)))}"
    panel.set_title(told)


def _spar_lines(answer: StructureAnswer, spar: str) -> Iterator[Line]:
    """Yield the spans of each spar; the largest load of each is written there."""
    for one in answer.members:
        diagrams = [diagram for diagram in answer.spars if diagram.name == one.name]
        if one.kind != "spar" or _spar_of(one) != spar or not diagrams:
            continue
        (_, inner, low), (_, outer, high) = one.ends_m
        points = list(zip(diagrams[0].buttlines_m, (-thrust for thrust in diagrams[0].thrusts_n), strict=True))
        spans = [(a, b, axial) for (a, axial), (b, other) in pairwise(points) if axial == other]
        merged = [(min(p[0] for p in own), max(p[1] for p in own), axial) for axial, own in _grouped(spans)]
        most = max(abs(axial) for _, _, axial in merged)
        written = False
        for begin, end, axial in merged:
            ups = [low + (high - low) * (y - inner) / (outer - inner) for y in (begin, end)]
            share = 0.5 if abs(axial) == most and not written else None
            written = written or share is not None
            yield (begin, ups[0]), (end, ups[1]), axial, share, ""


def _grouped(spans: list[tuple[float, float, float]]) -> Iterator[tuple[float, list[tuple[float, float, float]]]]:
    for axial, own in groupby(spans, key=lambda one: one[2]):
        yield axial, list(own)


def _stroke(number: int) -> dict[str, Any]:
    """Return colour and stroke of a spar, with marks from the second round of them on: no two look alike in grey."""
    turn, number = divmod(number, APART)
    marked = {"marker": MARKS[series(turn - 1)], "markevery": 6, "markersize": 4} if turn else {}
    return {**style(series(number)), **marked}


def _along(panel: Axes, answer: StructureAnswer, units: Units, name: str) -> None:
    _, length = quantity("buttline_m").shown(units)
    _, factor = quantity(name).shown(units)
    for number, one in enumerate(answer.spars):
        values = [factor * value for value in getattr(one, name)]
        if name == "margins":
            values = [min(value, MOST_MARGIN) for value in values]
        panel.plot(
            [length * y for y in one.buttlines_m],
            values,
            **_stroke(number),
            label=tell("{spar}: {case}", spar=one.name, case=one.case),
        )
    panel.axhline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.set_xlabel(axis_label("buttline_m", units))
    unit, _ = quantity(name).shown(units)
    words, title = ALONG[name]
    most = tell("margin, at most {most} drawn", most=f"{MOST_MARGIN:g}")
    panel.set_ylabel(most if name == "margins" else unit_behind(words, unit))
    _title(panel, answer, title)
    if name == "margins":
        _least_margin(panel, answer, length)
        panel.legend(**below(2))


def _least_margin(panel: Axes, answer: StructureAnswer, length: float) -> None:
    """Name the spar with the least margin where it is."""
    worst = min(answer.spars, key=lambda one: min(one.margins))
    least = min(worst.margins)
    at = length * worst.buttlines_m[worst.margins.index(least)]
    panel.plot([at], [least], "o", color=NEUTRAL, markerfacecolor="none", markersize=9)
    panel.annotate(
        tell("{spar} {margin}", spar=worst.name, margin=f"{least:.2f}"),
        (at, least),
        xytext=(10, 2),
        textcoords="offset points",
        fontsize=8,
        bbox=PAPER,
    )
