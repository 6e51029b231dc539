"""The number of each hole beside it, with a line to the hole where others crowd it, over no other word and no hole."""

from __future__ import annotations

from math import cos, hypot, inf, sin, tau
from operator import itemgetter
from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.drawings.crossing import Lines
from viz.drawings.marks import Note, Ring, Stroke, box_of, overlap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.display.shapes import Slot
    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Box, Mark, Point

AWAY_MM = (2.2, 4.0, 6.5, 9.5, 13.0, 17.0)
"""Distances of a number from the rim of its hole, the best first. [mm]"""
PLAIN_MM = 2.5
"""Beyond this distance a line leads from the number to its hole. [mm]"""
WAYS = 24
"""Directions that are tried."""
CROWDED_MM = 12.0
"""Holes nearer than this to one another are numbered first. [mm]"""


def hole_numbers(drawing: Drawing, scale: float, drawn: Sequence[Mark], slots: Sequence[Slot] = ()) -> list[Mark]:
    """Return numbers and lines, the most crowded holes placed first; slots are S1, S2 in their order.

    Parameters
    ----------
    drawing : Drawing
        The part.
    scale : float
        Paper over full size.
    drawn : sequence of Mark
        The part as it is drawn at that scale, with what else stands beside it.
    slots : sequence of Slot
        Slots that are named too.
    """
    round_ones = [*drawing.circles, *map(_middle, slots)]
    names = [str(each) for each in range(1, len(drawing.circles) + 1)]
    names += [f"S{each}" for each in range(1, len(slots) + 1)]
    holes = [((x * scale, y * scale), diameter * scale) for (x, y), diameter in round_ones]
    rings = [box_of([Ring(middle, wide, "cut")]) for middle, wide in holes]
    under, words = Lines(drawn), [box_of([mark]) for mark in drawn if isinstance(mark, Note)]
    made: list[Mark] = []
    for number in sorted(range(len(holes)), key=lambda each: (-_neighbours(each, holes), each)):
        own = Lines(made)
        best: tuple[float, tuple[Mark, ...]] = (inf, ())
        for away in AWAY_MM:
            if best[0] <= away:
                break
            for choice in _choices(names[number], holes[number], away):
                cost = crowding(choice, words, rings, (under, own), most=best[0])
                best = min(best, (cost, choice), key=itemgetter(0))
        made += best[1]
        words.append(box_of(best[1][:1]))
    return made


def _middle(slot: Slot) -> tuple[Point, float]:
    """Return the middle of a slot and its width. [mm]."""
    (x0, y0), (x1, y1) = slot.start_m, slot.end_m
    middle = (mm(x0) + mm(x1)) / 2.0, (mm(y0) + mm(y1)) / 2.0
    out = mm(slot.bend_m) / hypot(*middle) if slot.bend_m else 1.0
    return (middle[0] * out, middle[1] * out), mm(slot.width_m)


def _neighbours(number: int, holes: Sequence[tuple[Point, float]]) -> int:
    (x, y), _ = holes[number]
    return sum(hypot(x - a, y - b) < CROWDED_MM for (a, b), _ in holes)


def _choices(text: str, hole: tuple[Point, float], away: float) -> Iterator[tuple[Mark, ...]]:
    """Yield the number at so far from the rim of its hole, all round."""
    (x, y), wide = hole
    for turn in range(WAYS):
        way = cos(tau * (turn + 3.0) / WAYS), sin(tau * (turn + 3.0) / WAYS)
        reach = wide / 2.0 + away
        note = Note(text, (x + reach * way[0], y + reach * way[1]), "number")
        if away <= PLAIN_MM:
            yield (note,)
            continue
        rim, end = wide / 2.0, reach - 0.8 * note.letter_mm - 0.4 * (len(text) - 1)
        line = [(x + rim * way[0], y + rim * way[1]), (x + end * way[0], y + end * way[1])]
        yield note, Stroke(line, "leader")


def crowding(
    marks: Sequence[Mark], words: Sequence[Box], rings: Sequence[Box], lines: Sequence[Lines], *, most: float
) -> float:
    """Return how badly words, the first mark, stand: over words counts most, then over a hole, on a line, far away.

    From `most` on, which is no better than what is found already, the rest is not counted.
    """
    box = box_of(marks[:1])
    cost = 1000.0 * sum(overlap(box, each) for each in words)
    if cost < most:
        cost += 200.0 * sum(overlap(box, each) for each in rings)
    if cost < most:
        cost += 12.0 * _on(lines, box)
    if len(marks) == 1 or cost >= min(most, 1000.0):
        return cost
    left, low, right, high = box_of(marks[1:])
    near = [each for each in (*words, *rings) if overlap(each, (left, low, right, high))]
    own = Lines(marks)
    return cost + 300.0 * sum(own.through(each) for each in near) + hypot(right - left, high - low)


def _on(lines: Sequence[Lines], box: Box) -> int:
    return sum(each.through(box) for each in lines)
