"""From which side of the display each part is put on, and in which order those of one side stand before another."""

from __future__ import annotations

import heapq
from typing import TYPE_CHECKING

from shapely import STRtree

from sim.display.assembly.data import Fastener
from sim.display.assembly.interference import shape_of
from sim.display.assembly.order import steps
from sim.display.assembly.paths import EVEN_M, SHRINK_M
from viz.drawings.oblique import place_mm

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

    from sim.display.assembly.data import Assembly
    from viz.drawings.oblique import Body, Piece

    Ways = Mapping[int, float]

EVEN_MM = 1e3 * EVEN_M
"""Lengths that count as equal. [mm]"""
FRONT, REAR = 1.0, -1.0


def ways(assembly: Assembly) -> Ways:
    """Return from which side each part is put on, 1 the front and −1 the rear, by what stands before its step.

    What may come from either side comes with what is put together with it on the bench, on the same axis, else from
    the side on which it lies.
    """
    found: dict[int, float] = {}
    standing: list[Piece] = []
    for step, taken in steps(assembly):
        middle = middle_mm(standing)
        barred = _barred(taken, standing)
        open_to = {id(each): [side for side in (FRONT, REAR) if (id(each), side) not in barred] for each in taken}
        bench = {name for names in step.bench for name in names}
        for each in taken:
            mates = {
                open_to[id(one)][0]
                for one in taken
                if {each.name, one.name} <= bench and (one.x_m, one.y_m) == (each.x_m, each.y_m)
                if len(open_to[id(one)]) == 1
            }
            by_place = REAR if middle is not None and place_mm(each, behind=False) < middle else FRONT
            own = open_to[id(each)] if len(open_to[id(each)]) == 1 else mates
            found[id(each)] = next(iter(own)) if len(own) == 1 else by_place
        standing += taken
    return found


def middle_mm(standing: Sequence[Piece]) -> float | None:
    """Return the middle of the mast along the shaft; None where it does not stand. [mm]."""
    mast = next((one for one in standing if one.name == "mast"), None)
    return place_mm(mast, behind=False) if mast else None


def _barred(taken: Sequence[Piece], standing: Sequence[Piece]) -> set[tuple[int, float]]:
    """Return the pieces, by their identity, whose way to a side is barred by what stands, each with that side."""
    there = [(shape_of(slab, one), slab) for one in standing for slab in one.slabs]
    tree = STRtree([shape for shape, _ in there])
    found = set()
    for each in taken:
        for slab in each.slabs:
            shape = shape_of(slab, each).buffer(-SHRINK_M)
            for number in tree.query(shape, predicate="intersects").tolist():
                other = there[number][1]
                if other.z_to_m > slab.z_to_m + EVEN_M:
                    found.add((id(each), FRONT))
                if other.z_from_m < slab.z_from_m - EVEN_M:
                    found.add((id(each), REAR))
    return found


def sides(bodies: Sequence[Body], along: Collection[int], put_on: Ways, *, behind: bool) -> list[float]:
    """Return to which side each is moved, of which some are moved along the shaft: 1 nearer, −1 away.

    A screw goes to the side of its head, or with what it holds where all of that goes to the other side.
    """
    seen = -1.0 if behind else 1.0
    found = [seen * put_on[id(one.of)] for one in bodies]
    for number, one in enumerate(bodies):
        if isinstance(one.of, Fastener):
            head = seen if one.of.front else -seen
            held = {found[other] for other in along if _holds(one, bodies[other])}
            found[number] = -head if held == {-head} else head
    return found


def _holds(screw: Body, part: Body) -> bool:
    """Return whether a screw goes through a part."""
    joins = isinstance(screw.of, Fastener) and part.of.name in screw.of.joins
    return joins and part.shadow.envelope.intersects(screw.shadow.envelope)


def outward(rows: Sequence[Sequence[Body]], side: float) -> list[int]:
    """Return the order in which rows of like bodies stand from the middle outward, the side 1 nearer or −1 away.

    By their places; but a screw comes after all that its head holds, and before what lies over its head, and a part
    after another on which it lies.
    """
    after: list[set[int]] = [set() for _ in rows]
    for one, mine in enumerate(rows):
        for other, others in enumerate(rows):
            if one == other or isinstance(others[0].of, Fastener):
                continue
            turn = _turn if isinstance(mine[0].of, Fastener) else _lies
            turns = {turn(each, part, side) for each in mine for part in others} - {0}
            if turns == {1}:
                after[one].add(other)
            elif turns == {-1}:
                after[other].add(one)
    return list(_sorted(after, lambda row: side * rows[row][0].first))


def _turn(screw: Body, part: Body, side: float) -> int:
    """Return 1 where a screw stands farther out than a part, −1 where farther in, 0 where it does not say."""
    assert isinstance(screw.of, Fastener)
    near = screw.first == screw.face
    outer = 1 if near == (side > 0.0) else -1
    if _holds(screw, part):
        return outer
    head = max(screw.solids, key=lambda one: one.face if near else -one.back)
    over = [one for one in part.solids if one.shape.intersects(head.shape)]
    if any(one.back >= head.face - EVEN_MM if near else one.face <= head.back + EVEN_MM for one in over):
        return -outer
    return 0


def _lies(mine: Body, other: Body, side: float) -> int:
    """Return 1 where a part lies farther out than another, −1 where farther in, 0 where it does not say."""
    found = set()
    for one in mine.solids:
        for there in other.solids:
            if one.back >= there.face - EVEN_MM and one.shape.intersects(there.shape):
                found.add(1)
            elif one.face <= there.back + EVEN_MM and one.shape.intersects(there.shape):
                found.add(-1)
    return int(side) * found.pop() if len(found) == 1 else 0


def _sorted(after: Sequence[set[int]], place: Callable[[int], float]) -> Iterator[int]:
    """Yield numbers by their place, each after those that it stands outside of; a ring is broken at its innermost."""
    left = set(range(len(after)))
    ready = [(place(one), one) for one in left if not after[one]]
    heapq.heapify(ready)
    while left:
        one = heapq.heappop(ready)[1] if ready else min(left, key=lambda each: (place(each), each))
        if one in left:
            left.discard(one)
            yield one
            for other in left:
                if one in after[other] and not after[other] & left:
                    heapq.heappush(ready, (place(other), other))
