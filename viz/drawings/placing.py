"""Dimensions and marked places round a view, placed so that no words lie over other words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import hypot
from typing import TYPE_CHECKING

from viz.drawings.crossing import Lines
from viz.drawings.marks import DIMENSION_LETTER_MM, Note, Point, Stroke, arrow_line, box_of, dimension, overlap

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from sim.studies.drawing_answer import Where
    from viz.drawings.marks import Anchor, Box, Mark, Pen

FIRST_MM, STEP_MM, APART_MM = 7.0, 6.5, 2.0
"""From a view to its first row of dimensions, from row to row, and between two in a row."""
BESIDE_MM = (4.0, -6.0, 7.0, -9.0, 10.0, -12.0, 14.0, -16.0, 19.0, -21.0, 25.0, -27.0)
"""Distances at which a dimension may stand beside what it measures, the best first; positive on its left."""
BEYOND_MM = 1.0
"""By which the line from an end of what is measured runs on over the dimension line."""
LONGER_MM = 14.0
"""By which words may be longer than the line that they stand along."""
LABEL_MM = 3.3
"""From one marked place to the next."""
Turn = Callable[[Point], Point]
TURNS: dict[str, tuple[Turn, Turn]] = {
    "above": (lambda at: (at[0], at[1]), lambda at: (at[0], at[1])),
    "below": (lambda at: (at[0], -at[1]), lambda at: (at[0], -at[1])),
    "right": (lambda at: (at[1], at[0]), lambda at: (at[1], at[0])),
    "left": (lambda at: (at[1], -at[0]), lambda at: (-at[1], at[0])),
}
"""Side -> a place as distance along that side and away from the view, and back."""


@dataclass(frozen=True, slots=True)
class Said:
    """A dimension on paper [mm]: its ends, its words, and the pen of these."""

    start: Point
    end: Point
    text: str
    pen: Pen = "thin"

    @property
    def fits(self) -> bool:
        """Whether its words are not much longer than its line."""
        length = hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])
        return length_of(self.text) <= length + LONGER_MM


def length_of(text: str) -> float:
    """Return the length of words of dimensions [mm]."""
    left, _, right, _ = box_of([Note(text, (0.0, 0.0), "thin")])
    return right - left


def words_in(marks: Iterable[Mark]) -> list[Box]:
    """Return the box of every note."""
    return [box_of([mark]) for mark in marks if isinstance(mark, Note)]


def beside(asked: Sequence[Said], drawn: Sequence[Mark]) -> list[Mark]:
    """Return dimensions that stand beside what they measure, at the place with the fewest lines under their words."""
    made: list[Mark] = []
    for one in asked:
        start, end = sorted((one.start, one.end))
        taken = words_in((*drawn, *made)), Lines((*drawn, *made)), box_of((*drawn, *made))
        turned = replace(one, start=start, end=end)
        found: list[tuple[Mark, ...]] = [tuple(_offset(turned, away)) for away in BESIDE_MM]
        if not one.fits:
            found = [choice for away in BESIDE_MM[:2] for choice in _level(turned, away)]
        made += min(found, key=lambda marks, taken=taken: _cost(marks, *taken))  # type: ignore[misc]
    return made


def _ends(one: Said, away: float) -> tuple[Point, Point, list[Mark]]:
    """Return the ends of a dimension line so far aside, and the lines to them from what is measured."""
    (x0, y0), (x1, y1) = one.start, one.end
    length = hypot(x1 - x0, y1 - y0)
    aside = -(y1 - y0) / length * away, (x1 - x0) / length * away
    first, last = ((x + aside[0], y + aside[1]) for x, y in (one.start, one.end))
    return first, last, [Stroke([one.start, first], "leader"), Stroke([one.end, last], "leader")]


def _offset(one: Said, away: float) -> Iterator[Mark]:
    """Yield a dimension with its words along its line."""
    first, last, leaders = _ends(one, away)
    yield from dimension(first, last, one.text, pen=one.pen)
    yield from leaders


def _level(one: Said, away: float) -> Iterator[tuple[Mark, ...]]:
    """Yield a short dimension with its words level beside its middle, right and left of it, at several heights."""
    first, last, leaders = _ends(one, away)
    middle = 0.5 * (first[0] + last[0]), 0.5 * (first[1] + last[1])
    sides: tuple[tuple[float, Anchor], ...] = ((1.0, "start"), (-1.0, "end"))
    for out in (3.0, 8.0, 16.0):
        for up in (0.0, -4.0, 4.0, -9.0, 9.0, -15.0, 15.0):
            for side, anchor in sides:
                at = middle[0] + side * out, middle[1] + up
                words = Note(one.text, at, one.pen, anchor=anchor)
                hook = Stroke([middle, (at[0] - side * 0.8, at[1])], "leader")
                yield (*arrow_line(first, last), *leaders, hook, words)


def _cost(marks: Sequence[Mark], boxes: Sequence[Box], lines: Lines, whole: Box) -> float:
    """Return how badly a dimension stands: words over words count most, then lines through words, then more paper."""
    (box,) = words_in(marks)
    own = Lines(marks)
    over = sum(overlap(box, other) for other in boxes)
    through = lines.through(box) + sum(own.through(other) for other in (*boxes, box))
    more = sum(max(whole[side] - box[side], box[side + 2] - whole[side + 2], 0.0) for side in (0, 1))
    return 1000.0 * over + 20.0 * through + 2.0 * more


def in_rows(asked: Sequence[Said], drawn: Sequence[Mark], where: Where) -> list[Mark]:
    """Return dimensions in rows along one side of everything drawn so far, the shortest next to it.

    Parameters
    ----------
    asked : sequence of Said
        All for this side.
    drawn : sequence of Mark
        Everything so far.
    where : str
        ``above``, ``below``, ``left`` or ``right``; words too long for an upright line stand level beside it.
    """
    upright = where in {"left", "right"}
    short = [one for one in asked if upright and not one.fits]
    made = _rows([one for one in asked if one not in short], drawn, where)
    return [*made, *_with_level_words(short, [*drawn, *made], where)]


def _rows(asked: Sequence[Said], drawn: Sequence[Mark], where: Where) -> list[Mark]:
    turn, back = TURNS[where]
    base = _outside(drawn, where) + FIRST_MM
    spans = [(sorted((turn(one.start), turn(one.end))), one) for one in asked]
    spans.sort(key=lambda span: span[0][1][0] - span[0][0][0])
    rows: list[list[tuple[float, float]]] = []
    made: list[Mark] = []
    for number, ((start, end), one) in enumerate(spans):
        # below, words stand between their line and the view, where the lines from its own ends would pass through them
        later = [at[0] for ends, _ in spans[number + (where != "below") :] for at in ends]
        row, shift = _free(rows, start[0], end[0], (one.text, later))
        level = base + STEP_MM * row
        first, last = back((start[0], level)), back((end[0], level))
        ends, sense = ((last, first), -1.0) if where == "right" else ((first, last), 1.0)
        made += dimension(*ends, one.text, along_mm=sense * shift, pen=one.pen)
        made += [Stroke([back(at), back((at[0], level + BEYOND_MM))], "leader") for at in (start, end)]
    return made


def _outside(drawn: Sequence[Mark], where: Where) -> float:
    """Return how far away from the view everything drawn so far reaches on one side."""
    turn, corners = TURNS[where][0], box_of(drawn)
    return max(turn(corners[:2])[1], turn(corners[2:])[1])


def _free(
    rows: list[list[tuple[float, float]]], start: float, end: float, words: tuple[str, Sequence[float]]
) -> tuple[int, float]:
    """Take room for a dimension in the first row that has it; return the row and how far its words are off the middle.

    Words keep clear of the lines that run past them to outer rows, where that can be.
    """
    text, passing = words
    half, middle = 0.5 * length_of(text), 0.5 * (start + end)
    reach = max(0.5 * (end - start) - half, 0.0)
    shifts = [0.0, *(sign * step * 2.0 for step in range(1, int(reach / 2.0) + 1) for sign in (1.0, -1.0))]
    shifts += [sign * (0.5 * (end - start) + half + APART_MM) for sign in (1.0, -1.0)]
    shifts = [one for one in shifts if not _passed(middle + one, half, passing)] or shifts[:1]
    for row in range(len(rows) + 1):
        for shift in shifts:
            low, high = middle + shift - half, middle + shift + half
            whole = min(start, low) - APART_MM, max(end, high) + APART_MM
            if row == len(rows):
                rows.append([])
            if _room(whole, rows[row]):
                rows[row].append(whole)
                return row, shift
    return len(rows), 0.0


def _passed(middle: float, half: float, passing: Sequence[float]) -> bool:
    return any(middle - half < at < middle + half for at in passing)


def _room(whole: tuple[float, float], taken: Sequence[tuple[float, float]]) -> bool:
    return all(whole[1] <= low or high <= whole[0] for low, high in taken)


def _with_level_words(asked: Sequence[Said], drawn: Sequence[Mark], where: Where) -> list[Mark]:
    """Return upright dimensions in one row or more, their words level on the far side of the rows."""
    if not asked:
        return []
    turn, back = TURNS[where]
    rows: list[list[tuple[float, float]]] = []
    base, found = _outside(drawn, where) + FIRST_MM, []
    for one in sorted(asked, key=lambda one: abs(one.end[1] - one.start[1])):
        start, end = sorted((turn(one.start), turn(one.end)))
        rows.append([])
        row = next(row for row, taken in enumerate(rows) if _room((start[0], end[0]), taken))
        rows[row].append((start[0], end[0]))
        rows = [taken for taken in rows if taken]
        found.append((start, end, row, one))
    far = base + 3.0 * (len(rows) - 1) + 4.0
    heights = spread(sorted(0.5 * (start[0] + end[0]) for start, end, _, _ in found), LABEL_MM)
    made: list[Mark] = []
    found.sort(key=lambda one: one[0][0] + one[1][0])
    for (start, end, row, one), height in zip(found, heights, strict=True):
        level = base + 3.0 * row
        middle = 0.5 * (start[0] + end[0])
        made += arrow_line(back((start[0], level)), back((end[0], level)))
        made += [Stroke([back(at), back((at[0], level + BEYOND_MM))], "leader") for at in (start, end)]
        made.append(Stroke([back((middle, level)), back((height, far - 1.0))], "leader"))
        made.append(Note(one.text, back((height, far)), one.pen, anchor="end" if where == "left" else "start"))
    return made


def labelled(places: Sequence[tuple[Point, str, Pen]], drawn: Sequence[Mark]) -> list[Mark]:
    """Return upright labels over everything drawn so far, each with a line down to its place.

    Parameters
    ----------
    places : sequence of ((x, y), str, str)
        Place [mm], words, and their pen.
    drawn : sequence of Mark
        Everything so far.
    """
    top = box_of(drawn)[3]
    ordered = sorted(places)
    made: list[Mark] = []
    for ((x, y), text, pen), across in zip(ordered, spread([at[0] for at, _, _ in ordered], LABEL_MM), strict=True):
        made.append(Stroke([(x, y), (x, top + 1.5), (across, top + 6.0), (across, top + 7.0)], "leader"))
        made.append(Note(text, (across, top + 8.0), pen, DIMENSION_LETTER_MM, "start", turned_deg=90.0))
    return made


def spread(wanted: Sequence[float], apart: float) -> list[float]:
    """Return places at least so far apart, in the same order, least squares off those wanted.

    Parameters
    ----------
    wanted : sequence of float
        Rising. [mm]
    apart : float
        [mm]

    Notes
    -----
    Pool adjacent violators, the isotonic regression of the places less their number times the distance.

    Examples
    --------
    >>> spread([0.0, 0.0, 10.0], 2.0)
    [-1.0, 1.0, 10.0]
    """
    pools: list[tuple[float, int]] = []
    for number, place in enumerate(wanted):
        pools.append((place - number * apart, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (one, few), (other, more) = pools[-2:]
            pools[-2:] = [((few * one + more * other) / (few + more), few + more)]
    levels = [level for level, count in pools for _ in range(count)]
    return [level + number * apart for number, level in enumerate(levels)]
