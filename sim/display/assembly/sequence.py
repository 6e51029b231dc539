"""Proof that a display can be put together in the order of its steps, and that every screw is reached by its tool.

A display that can be taken apart along straight paths can be put together along them backwards. It is taken apart
step by step from the last to the first: what has a free path (`paths`) is taken away, and to take something away
never bars the path of what is left, so that the order in which it is tried does not matter. A screw leaves toward its
head, its nut the other way; a tool as wide as the head, or a socket spanner over nut and hexagon, must stand free on
it while what is there is there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.data import Fastener, Slab
from sim.display.assembly.interference import shape_of
from sim.display.assembly.order import steps
from sim.display.assembly.paths import EVEN_M, SHRINK_M, Paths, Piece, Way, shared_m
from sim.display.assembly.screws import WOOD
from sim.display.assembly.solid import box, circle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.display.assembly.data import Assembly, Part

TOOL_M = 0.060
"""Length of a key, driver or socket that stands on a head: common practice, no source. [m]"""
SOCKET_SHARE = 1.25
"""Diameter of a socket spanner over that of its nut across corners: common practice, no source."""


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


def barred(assembly: Assembly) -> tuple[Barred, ...]:
    """Return what cannot be put together in the order of the steps; nothing where the display can be built."""
    stages = [(step.title, tuple(_pieces(step.bench, taken))) for step, taken in steps(assembly)]
    found = [lost for title, pieces in stages for one in pieces for lost in _on_the_bench(title, one)]
    present = {id(one): one for _, pieces in stages for one in pieces}
    paths = Paths([one for _, pieces in stages for one in pieces])
    for title, pieces in reversed(stages):
        found += _taken_apart(title, list(pieces), present, paths)
    return tuple(found)


def _on_the_bench(title: str, one: Piece) -> Iterator[Barred]:
    """Yield what of a piece that is put together on the bench does not come together there."""
    if len(one.of) > 1:
        parts = [piece for each in one.of for piece in _split(each)]
        yield from _taken_apart(title, parts, {id(piece): piece for piece in parts}, Paths(parts))


def _taken_apart(title: str, waiting: list[Piece], present: dict[int, Piece], paths: Paths) -> Iterator[Barred]:
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


def _pieces(bench: Iterable[tuple[str, ...]], taken: tuple[Part | Fastener, ...]) -> Iterator[Piece]:
    """Yield what moves as one in a step: parts, screws, their nuts, and what was put together on the bench."""
    groups = [group for names in bench for group in _clusters([each for each in taken if each.name in names])]
    for group in groups:
        if group:
            yield Piece(group[0].name, tuple(group), tuple((each, slab) for each in group for slab in each.slabs))
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
        shared_m(slab, there) >= -EVEN_M and shape_of(slab, one).distance(shape_of(there, other)) < SHRINK_M
        for slab in one.slabs
        for there in other.slabs
    )


def _split(each: Part | Fastener) -> Iterator[Piece]:
    """Yield a part, or a screw with what stands under its head, and its nut."""
    whole = tuple((each, slab) for slab in each.slabs)
    if not isinstance(each, Fastener):
        yield Piece(each.name, (each,), whole)
        return
    if each.upright:
        yield _upright(each, whole)
        return
    side: Way = 1 if each.front else -1
    back: Way = -1 if each.front else 1
    nutted = not each.nut.startswith("tapped") and each.thread != WOOD
    screw, nut = (each.slabs[:-2], each.slabs[-2:]) if nutted else (each.slabs, ())
    wide = each.head_m * (SOCKET_SHARE if each.head == "hex" else 1.0)
    yield Piece(each.name, (each,), tuple((each, slab) for slab in screw), side, _tool(screw[0], side, wide))
    if nut:
        wide = SOCKET_SHARE * 2.0 * float(np.hypot(*nut[-1].outline_m.T).max())
        name = f"nut of {each.name}"
        yield Piece(name, (each,), tuple((each, slab) for slab in nut), back, _tool(nut[-1], back, wide))


def _upright(each: Fastener, whole: tuple[tuple[Part | Fastener, Slab], ...]) -> Piece:
    """Return a screw along y, which leaves up or down."""
    head, shank = each.slabs[:2]
    up = float(head.outline_m[:, 1].mean()) > float(shank.outline_m[:, 1].mean())
    edge, half = float((head.outline_m[:, 1].max if up else head.outline_m[:, 1].min)()), 0.5 * each.head_m
    low, high = sorted((edge, edge + (TOOL_M if up else -TOOL_M)))
    tool = Slab(box(-half, low, half, high), head.z_from_m, head.z_to_m)
    return Piece(each.name, (each,), whole, 2 if up else -2, tool)


def _tool(on: Slab, side: int, wide_m: float) -> Slab:
    start = on.z_to_m if side > 0 else on.z_from_m
    low, high = sorted((start, start + side * TOOL_M))
    return Slab(circle(wide_m), low, high)
