"""The ways by which each piece of a display can leave, and what stands in them.

They lead along the shaft to the front or the rear, across it in sixteen directions, and a short way across and then to
the front or the rear.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import chain, product
from typing import TYPE_CHECKING, Literal, TypeAlias

import numpy as np
from shapely import STRtree, affinity, unary_union

from sim.display.assembly.contacts import joined, running
from sim.display.assembly.interference import shape_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Fastener, Part, Slab

SHRINK_M = 5e-5
"""What may overlap as contact, of chords in place of arcs. [m]"""
EVEN_M = 1e-6
AWAY_M = 0.6
"""How far a part is moved across the shaft to be out of the display. [m]"""
ASIDE_M = (0.03, 0.06)
"""Short ways across, from which it leaves along the shaft. [m]"""
DIRECTIONS = 16
FLEXIBLE = ("belt", "spring")
"""Last words of what is bent or stretched into its place."""
PRESSED = ("cross pin",)
"""What is driven in across the shaft, through a hole that is drilled there."""
TURNED_IN = (("grip", "crank arm"), ("roller pin", "roller"))
"""What has a thread or a pin of its own in another."""


Way: TypeAlias = Literal[-2, -1, 0, 1, 2]
"""1 to the front, −1 to the rear, 2 up, −2 down; 0 where any will do."""


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """What moves as one: some slabs of parts; which way it must leave, and room for its tool."""

    name: str
    of: tuple[Part | Fastener, ...]
    slabs: tuple[tuple[Part | Fastener, Slab], ...]
    way: Way = 0
    tool: Slab | None = None


class Paths:
    """Which piece bars which path of which other, every pair looked at once."""

    def __init__(self, pieces: list[Piece]) -> None:
        self.pieces = pieces
        self._shapes = {id(one): [shape_of(slab, each) for each, slab in one.slabs] for one in pieces}
        rows = [(one, number) for one in pieces for number in range(len(one.slabs))]
        self._rows = rows
        shapes = [self._shapes[id(one)][number] for one, number in rows]
        self._tree = STRtree(shapes)
        self._front: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._rear: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._tools: dict[int, dict[int, str]] = {id(one): {} for one in pieces}
        self._across: dict[tuple[int, float, int], dict[int, str]] = {}
        shrunk = [shape.buffer(-SHRINK_M) for shape in shapes]
        for mine, other in self._tree.query(shrunk, predicate="intersects").T.tolist():
            self._pair(*rows[mine], *rows[other])
        tools = [one for one in pieces if one.tool]
        places = [shape_of(one.tool, one.of[0]) for one in tools if one.tool]
        for number, other in self._tree.query(np.array(places, dtype=object), predicate="intersects").T.tolist():
            self._reach(tools[number], *rows[other])

    def _pair(self, one: Piece, number: int, other: Piece, place: int) -> None:
        """Note which ways of one piece a slab of another bars."""
        if one is other:
            return
        (each, slab), (stands, there) = one.slabs[number], other.slabs[place]
        both = shared_m(slab, there) > EVEN_M
        if both and _excused(each, stands, slab, there):
            return
        if both or there.z_to_m > slab.z_to_m + EVEN_M:
            self._front[id(one)][id(other)] = other.name
        if both or there.z_from_m < slab.z_from_m - EVEN_M:
            self._rear[id(one)][id(other)] = other.name

    def _reach(self, one: Piece, other: Piece, place: int) -> None:
        tool, (stands, there) = one.tool, other.slabs[place]
        if tool is None or stands in one.of:
            return
        if shared_m(tool, there) > EVEN_M:
            self._tools[id(one)][id(other)] = other.name

    def bars(self, one: Piece, present: dict[int, Piece], *, across: bool = True) -> tuple[str, bool] | None:
        """Return what keeps a piece in its place, and whether it bars its tool alone; None where it is free."""
        if one.name.endswith((*FLEXIBLE, *PRESSED)):
            return None
        by = self._way(one, present, across=across)
        if by is not None:
            return by, False
        tools = [name for key, name in self._tools[id(one)].items() if key in present]
        return (tools[0], True) if tools else None

    def _way(self, one: Piece, present: dict[int, Piece], *, across: bool) -> str | None:
        """Return what bars every way of a piece, None where one is free."""
        along = [table[id(one)] for side, table in ((1, self._front), (-1, self._rear)) if one.way in (0, side)]
        first: str | None = None if along else "the way across"
        aside = chain(self._aside(one), self._round(one, present)) if across and one.way not in (1, -1) else ()
        for way in chain(along, aside):
            met = next((name for key, name in way.items() if key in present), None)
            if met is None:
                return None
            first = first or met
        return first

    def _aside(self, one: Piece) -> Iterator[dict[int, str]]:
        """Yield what bars a piece in each direction that it may take across the shaft."""
        quarter = DIRECTIONS // 4
        for turn in {2: (quarter,), -2: (3 * quarter,)}.get(one.way, range(DIRECTIONS)):
            yield self._swept(one, AWAY_M, turn)

    def _round(self, one: Piece, present: dict[int, Piece]) -> Iterator[dict[int, str]]:
        """Yield what bars the way along the shaft behind each short way across that is free."""
        for length_m, turn in product(ASIDE_M, range(DIRECTIONS) if one.way == 0 else ()):
            if not any(key in present for key in self._swept(one, length_m, turn)):
                yield from (self._beyond(one, _way_m(length_m, turn), side) for side in (-1, 1))

    def _beyond(self, one: Piece, moved_m: tuple[float, float], side: int) -> dict[int, str]:
        """Return what stands in front of a piece that was moved across, or behind it for a side of −1."""
        found: dict[int, str] = {}
        for (_, slab), shape in zip(one.slabs, self._shapes[id(one)], strict=True):
            for number in self._tree.query(affinity.translate(shape, *moved_m), predicate="intersects").tolist():
                other, place = self._rows[number]
                there = other.slabs[place][1]
                ahead = there.z_to_m > slab.z_to_m if side > 0 else there.z_from_m < slab.z_from_m
                if other is not one and ahead:
                    found[id(other)] = other.name
        return found

    def _swept(self, one: Piece, length_m: float, turn: int) -> dict[int, str]:
        """Return what bars a way across of some length, looked at once."""
        key = id(one), length_m, turn
        if key not in self._across:
            self._across[key] = self._met(one, _way_m(length_m, turn))
        return self._across[key]

    def _met(self, one: Piece, away: tuple[float, float]) -> dict[int, str]:
        found: dict[int, str] = {}
        for (each, slab), shape in zip(one.slabs, self._shapes[id(one)], strict=True):
            path = unary_union([shape, affinity.translate(shape, *away)]).convex_hull.buffer(-SHRINK_M)
            for number in self._tree.query(path, predicate="intersects").tolist():
                other, place = self._rows[number]
                stands, there = other.slabs[place]
                if other is one or shared_m(slab, there) <= EVEN_M or _excused(each, stands, slab, there):
                    continue
                found[id(other)] = other.name
        return found


def _way_m(length_m: float, turn: int) -> tuple[float, float]:
    """Return a way across the shaft of some length in one of the directions. [m]."""
    angle_rad = math.tau * turn / DIRECTIONS
    return length_m * math.cos(angle_rad), length_m * math.sin(angle_rad)


def shared_m(slab: Slab, other: Slab) -> float:
    """Return how much of the shaft's length two slabs share, negative where they are apart. [m]."""
    return min(slab.z_to_m, other.z_to_m) - max(slab.z_from_m, other.z_from_m)


def _excused(each: Part | Fastener, other: Part | Fastener, slab: Slab, there: Slab) -> bool:
    """Return whether two slabs touch on purpose."""
    if each is other or running(each, other) or joined(each, other, slab, there):
        return True
    names = each.name, other.name
    return any(pair in (names, names[::-1]) for pair in TURNED_IN)
