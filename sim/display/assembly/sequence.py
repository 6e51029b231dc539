"""Proof that a display can be put together in the order of its steps, and that every screw is reached by its tool.

A display that can be taken apart along straight paths can be put together along them backwards. It is taken apart step
by step from the last to the first: what has a free path is taken away, and to take something away never bars the path
of what is left, so that the order in which it is tried does not matter. Paths lead along the shaft to the front or the
rear, and across it in sixteen directions. A screw leaves toward its head, its nut the other way; a tool as wide as the
head, or a socket spanner over nut and hexagon, must stand free on it while what is there is there.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import chain
from typing import TYPE_CHECKING

import numpy as np
from shapely import STRtree, affinity, unary_union

from sim.display.assembly.contacts import joined, running
from sim.display.assembly.data import Fastener, Slab
from sim.display.assembly.interference import shape_of
from sim.display.assembly.order import steps
from sim.display.assembly.screws import WOOD
from sim.display.assembly.solid import box, circle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.display.assembly.data import Assembly, Part

SHRINK_M = 5e-5
"""What may overlap as contact, of chords in place of arcs. [m]"""
EVEN_M = 1e-6
AWAY_M = 0.6
"""How far a part is moved across the shaft to be out of the display. [m]"""
DIRECTIONS = 16
TOOL_M = 0.060
"""Length of a key, driver or socket that stands on a head: common practice, no source. [m]"""
SOCKET_SHARE = 1.25
"""Diameter of a socket spanner over that of its nut across corners: common practice, no source."""
FLEXIBLE = ("belt", "spring")
"""Last words of what is bent or stretched into its place."""
PRESSED = ("cross pin",)
"""What is driven in across the shaft, through a hole that is drilled there."""
TURNED_IN = (("grip", "crank arm"), ("roller pin", "roller"))
"""What has a thread or a pin of its own in another."""


@dataclass(frozen=True, slots=True)
class Barred:
    """A part or a screw that does not come into its place, or that its tool does not reach.

    Attributes
    ----------
    step : str
        Title of the step that takes it.
    name : str
        Its name.
    by : str
        What stands in the way, the first of all.
    tool : bool
        Whether it is the tool that is barred.
    """

    step: str
    name: str
    by: str
    tool: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Piece:
    """What moves as one: some slabs of parts; which way it must leave, and room for its tool.

    The way is 1 to the front, −1 to the rear, 2 up, −2 down; 0 where any will do.
    """

    name: str
    of: tuple[Part | Fastener, ...]
    slabs: tuple[tuple[Part | Fastener, Slab], ...]
    way: int = 0
    tool: Slab | None = None


def barred(assembly: Assembly) -> tuple[Barred, ...]:
    """Return what cannot be put together in the order of the steps; nothing where the display can be built."""
    stages = [(step.title, tuple(_pieces(step.bench, taken))) for step, taken in steps(assembly)]
    found = [lost for title, pieces in stages for one in pieces for lost in _on_the_bench(title, one)]
    present = {id(one): one for _, pieces in stages for one in pieces}
    paths = _Paths([one for _, pieces in stages for one in pieces])
    for title, pieces in reversed(stages):
        found += _taken_apart(title, list(pieces), present, paths)
    return tuple(found)


def _on_the_bench(title: str, one: _Piece) -> Iterator[Barred]:
    """Yield what of a piece that is put together on the bench does not come together there."""
    if len(one.of) > 1:
        parts = [piece for each in one.of for piece in _split(each)]
        yield from _taken_apart(title, parts, {id(piece): piece for piece in parts}, _Paths(parts))


def _taken_apart(title: str, waiting: list[_Piece], present: dict[int, _Piece], paths: _Paths) -> Iterator[Barred]:
    """Take pieces away for as long as one has a free path; yield those that are left, and remove them too."""
    across = False
    while waiting:
        free = [one for one in waiting if not paths.bars(one, present, across=across)]
        for one in free:
            del present[id(one)]
        waiting = [one for one in waiting if id(one) in present]
        if not free and across:
            break
        across = not free  # what leaves along the shaft is quicker found, and goes first
    for one in waiting:
        del present[id(one)]
    for one in waiting:
        found = paths.bars(one, present | {id(other): other for other in waiting})
        if found:
            yield Barred(title, one.name, *found)


def _pieces(bench: Iterable[tuple[str, ...]], taken: tuple[Part | Fastener, ...]) -> Iterator[_Piece]:
    """Yield what moves as one in a step: parts, screws, their nuts, and what was put together on the bench."""
    groups = [group for names in bench for group in _clusters([each for each in taken if each.name in names])]
    for group in groups:
        if group:
            yield _Piece(group[0].name, tuple(group), tuple((each, slab) for each in group for slab in each.slabs))
    together = {id(each) for group in groups for each in group}
    for each in taken:
        if id(each) not in together:
            yield from _split(each)


def _clusters(members: list[Part | Fastener]) -> list[list[Part | Fastener]]:
    """Return members of a bench that touch, together: of two keepers with their magnets each by itself."""
    waiting, found = list(members), []
    while waiting:
        group = [waiting.pop(0)]
        for one in group:
            near = [other for other in waiting if _touch(one, other)]
            group += near
            waiting = [other for other in waiting if not any(other is each for each in near)]
        found.append(group)
    return found


def _touch(one: Part | Fastener, other: Part | Fastener) -> bool:
    return any(
        _shared_m(slab, there) >= -EVEN_M and shape_of(slab, one).distance(shape_of(there, other)) < SHRINK_M
        for slab in one.slabs
        for there in other.slabs
    )


def _split(each: Part | Fastener) -> Iterator[_Piece]:
    """Yield a part, or a screw with what stands under its head, and its nut."""
    whole = tuple((each, slab) for slab in each.slabs)
    if not isinstance(each, Fastener):
        yield _Piece(each.name, (each,), whole)
        return
    if each.upright:
        yield _upright(each, whole)
        return
    side = 1 if each.front else -1
    nutted = not each.nut.startswith("tapped") and each.thread != WOOD
    screw, nut = (each.slabs[:-2], each.slabs[-2:]) if nutted else (each.slabs, ())
    wide = each.head_m * (SOCKET_SHARE if each.head == "hex" else 1.0)
    yield _Piece(each.name, (each,), tuple((each, slab) for slab in screw), side, _tool(screw[0], side, wide))
    if nut:
        wide = SOCKET_SHARE * 2.0 * float(np.hypot(*nut[-1].outline_m.T).max())
        name = f"nut of {each.name}"
        yield _Piece(name, (each,), tuple((each, slab) for slab in nut), -side, _tool(nut[-1], -side, wide))


def _upright(each: Fastener, whole: tuple[tuple[Part | Fastener, Slab], ...]) -> _Piece:
    """Return a screw along y, which leaves up or down."""
    head, shank = each.slabs[:2]
    up = float(head.outline_m[:, 1].mean()) > float(shank.outline_m[:, 1].mean())
    edge, half = float((head.outline_m[:, 1].max if up else head.outline_m[:, 1].min)()), 0.5 * each.head_m
    low, high = sorted((edge, edge + (TOOL_M if up else -TOOL_M)))
    tool = Slab(box(-half, low, half, high), head.z_from_m, head.z_to_m)
    return _Piece(each.name, (each,), whole, 2 if up else -2, tool)


def _tool(on: Slab, side: int, wide_m: float) -> Slab:
    start = on.z_to_m if side > 0 else on.z_from_m
    low, high = sorted((start, start + side * TOOL_M))
    return Slab(circle(wide_m), low, high)


class _Paths:
    """Which piece bars which path of which other, every pair looked at once."""

    def __init__(self, pieces: list[_Piece]) -> None:
        self.pieces = pieces
        self._shapes = {id(one): [shape_of(slab, each) for each, slab in one.slabs] for one in pieces}
        rows = [(one, number) for one in pieces for number in range(len(one.slabs))]
        self._rows = rows
        shapes = [self._shapes[id(one)][number] for one, number in rows]
        self._tree = STRtree(shapes)
        self._front: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._rear: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._tools: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._across: dict[int, dict[int, dict[int, str]]] = {}
        shrunk = [shape.buffer(-SHRINK_M) for shape in shapes]
        for mine, other in self._tree.query(shrunk, predicate="intersects").T.tolist():
            self._pair(*rows[mine], *rows[other])
        tools = [one for one in pieces if one.tool]
        places = [shape_of(one.tool, one.of[0]) for one in tools if one.tool]
        for number, other in self._tree.query(np.array(places, dtype=object), predicate="intersects").T.tolist():
            self._reach(tools[number], *rows[other])

    def _pair(self, one: _Piece, number: int, other: _Piece, place: int) -> None:
        """Note which ways of one piece a slab of another bars."""
        if one is other:
            return
        (each, slab), (stands, there) = one.slabs[number], other.slabs[place]
        both = _shared_m(slab, there) > EVEN_M
        if both and _excused(each, stands, slab, there):
            return
        if both or there.z_to_m > slab.z_to_m + EVEN_M:
            self._front[id(one)][id(other)] = other.name
        if both or there.z_from_m < slab.z_from_m - EVEN_M:
            self._rear[id(one)][id(other)] = other.name

    def _reach(self, one: _Piece, other: _Piece, place: int) -> None:
        tool, (stands, there) = one.tool, other.slabs[place]
        if tool is None or stands in one.of:
            return
        if _shared_m(tool, there) > EVEN_M:
            self._tools[id(one)][id(other)] = other.name

    def bars(self, one: _Piece, present: dict[int, _Piece], *, across: bool = True) -> tuple[str, bool] | None:
        """Return what keeps a piece in its place, and whether it bars its tool alone; None where it is free."""
        if one.name.endswith((*FLEXIBLE, *PRESSED)):
            return None
        by = self._way(one, present, across=across)
        if by is not None:
            return by, False
        tools = [name for key, name in self._tools[id(one)].items() if key in present]
        return (tools[0], True) if tools else None

    def _way(self, one: _Piece, present: dict[int, _Piece], *, across: bool) -> str | None:
        """Return what bars every way of a piece, None where one is free."""
        along = [table[id(one)] for side, table in ((1, self._front), (-1, self._rear)) if one.way in (0, side)]
        first: str | None = None if along else "the way across"
        aside = self._aside(one) if across and one.way not in (1, -1) else ()
        for way in chain(along, aside):
            met = next((name for key, name in way.items() if key in present), None)
            if met is None:
                return None
            first = first or met
        return first

    def _aside(self, one: _Piece) -> Iterator[dict[int, str]]:
        """Yield what bars a piece in each direction that it may take across the shaft."""
        quarter = DIRECTIONS // 4
        known = self._across.setdefault(id(one), {})
        for turn in {2: (quarter,), -2: (3 * quarter,)}.get(one.way, range(DIRECTIONS)):
            if turn not in known:
                known[turn] = self._swept(one, math.tau * turn / DIRECTIONS)
            yield known[turn]

    def _swept(self, one: _Piece, angle_rad: float) -> dict[int, str]:
        found: dict[int, str] = {}
        away = AWAY_M * math.cos(angle_rad), AWAY_M * math.sin(angle_rad)
        for (each, slab), shape in zip(one.slabs, self._shapes[id(one)], strict=True):
            path = unary_union([shape, affinity.translate(shape, *away)]).convex_hull.buffer(-SHRINK_M)
            for number in self._tree.query(path, predicate="intersects").tolist():
                other, place = self._rows[number]
                stands, there = other.slabs[place]
                if other is one or _shared_m(slab, there) <= EVEN_M or _excused(each, stands, slab, there):
                    continue
                found[id(other)] = other.name
        return found


def _shared_m(slab: Slab, other: Slab) -> float:
    """Return how much of the shaft's length two slabs share, negative where they are apart. [m]."""
    return min(slab.z_to_m, other.z_to_m) - max(slab.z_from_m, other.z_from_m)


def _excused(each: Part | Fastener, other: Part | Fastener, slab: Slab, there: Slab) -> bool:
    """Return whether two slabs touch on purpose."""
    if each is other or running(each, other) or joined(each, other, slab, there):
        return True
    names = each.name, other.name
    return any(pair in (names, names[::-1]) for pair in TURNED_IN)
