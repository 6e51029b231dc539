"""The lines of another airplane in the figure of the first: same inks and strokes, thin, with crosses."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

import numpy as np

from viz.figures.inks import INKS, MARKS, NEUTRAL, STROKES, family

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

DRAWN_BY_LINES = ("balance", "compare", "cooling", "drawing", "handling", "maneuver", "modes", "propeller", "speeds")
"""Figures whose lines and marks tell all; the others are parts, bars and clocks, of which two on one place hide each
other."""
SECOND_STROKE = "thin with crosses, marks half filled: {name}"
THINNER, CROSS, APART = 0.45, 4.0, 0.08
"""Width over that of the first, size of a cross in points, and how far they are apart, of the length of the axes."""


def add(name: str, figure: Figure, other: Figure) -> dict[str, Line2D] | None:
    """Draw the lines of another airplane into a figure, each into the panel where it stands in its own.

    Parameters
    ----------
    name : str
        Module of ``viz/figures`` that drew both.
    figure, other : Figure
        Of the first airplane, and of the other.

    Returns
    -------
    dict of Line2D or None
        By its label each line that a legend must name, since the first has none of that label; None where nothing
        could be drawn.

    Notes
    -----
    A series of a label that the first has gets ink, stroke and mark from there; one of the other airplane alone gets
    those of a place that is free, of the same kind of engine.
    """
    if name not in DRAWN_BY_LINES or len(figure.axes) != len(other.axes):
        return None
    ours = {label: place for panel in figure.axes for label, place in _series(panel)}
    homes: dict[str, int] = {}
    new: dict[str, Line2D] = {}
    for panel, theirs in zip(figure.axes, other.axes, strict=True):
        places = _places(dict(_series(panel)), _series(theirs), taken=set(ours.values()), homes=homes)
        for line in theirs.get_lines():
            copy = _copied(panel, theirs, line, places)
            if copy and _named(line) and line.get_label() not in ours:
                new.setdefault(str(line.get_label()), copy)
        _widen(panel, theirs)
    return new


def _series(panel: Axes) -> list[tuple[str, int]]:
    """Return label and place among the inks of every line with a label."""
    lines = [line for line in panel.get_lines() if _named(line) and line.get_color() in INKS]
    return [(str(line.get_label()), INKS.index(line.get_color())) for line in lines]


def _places(
    ours: dict[str, int], theirs: list[tuple[str, int]], *, taken: set[int], homes: dict[str, int]
) -> dict[int, int]:
    """Return for the place of each of the other's series among the inks the one at which it is drawn in this panel.

    Those of labels that the first airplane has not are remembered in `homes`, so that they are alike in all panels.
    """
    found = {place: ours[label] for label, place in theirs if label in ours}
    for label, place in theirs:
        if place not in found:
            free = (home for home in family(place) if home not in {*taken, *homes.values()})
            found[place] = homes[label] if label in homes else next(free, place)
        if label not in ours:
            homes[label] = found[place]
    return found


def stroke() -> Line2D:
    """Return the second stroke for a legend."""
    from matplotlib.lines import Line2D

    return Line2D([], [], color=NEUTRAL, linewidth=1.6 * THINNER, marker="x", markersize=CROSS)


def _named(line: Line2D) -> bool:
    label = str(line.get_label())
    return bool(label) and not label.startswith("_")


def _copied(panel: Axes, theirs: Axes, line: Line2D, places: dict[int, int]) -> Line2D | None:
    """Draw one line in the second stroke; None where it has no points."""
    x, y = np.asarray(line.get_xdata()), np.asarray(line.get_ydata())
    if not x.size:
        return None
    look = _look(line, places)
    along, up = line.get_transform().contains_branch_seperately(theirs.transData)
    if not (along and up):
        plain = {name: look[name] for name in ("color", "linestyle", "linewidth")}
        return panel.axvline(float(x[0]), **plain) if along else panel.axhline(float(y[0]), **plain)
    (copy,) = panel.plot(x, y, **look)
    return copy


def _look(line: Line2D, places: dict[int, int]) -> dict[str, Any]:
    """Return the second stroke of a line; of a series at the place where it is drawn here."""
    ink, shape, dashes = line.get_color(), line.get_marker(), cast("Any", line.get_linestyle())
    if ink in INKS:
        at = INKS.index(ink)
        to = places.get(at, at)
        ink = INKS[to]
        dashes = STROKES[to] if dashes == STROKES[at] else dashes
        shape = MARKS[to] if shape == MARKS[at] else shape
    look = {"color": ink, "linestyle": dashes, "linewidth": THINNER * line.get_linewidth()}
    if shape not in (None, "", "None", "none"):
        half = {"fillstyle": "left", "markerfacecolor": ink, "markerfacecoloralt": "none"}
        return {**look, **half, "marker": shape, "markersize": line.get_markersize()}
    return {**look, "marker": "x", "markersize": CROSS, "markevery": APART} if _named(line) else look


def _widen(panel: Axes, theirs: Axes) -> None:
    """Give a panel room for what the other airplane's needs."""
    for limits, others, widen in (
        (panel.get_xlim(), theirs.get_xlim(), panel.set_xlim),
        (panel.get_ylim(), theirs.get_ylim(), panel.set_ylim),
    ):
        if limits[0] < limits[1]:
            widen(min(limits[0], others[0]), max(limits[1], others[1]))
