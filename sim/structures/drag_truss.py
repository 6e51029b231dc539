"""Spars of a wing on the right side, and the truss that joins front and rear spar against drag."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from sim.structures.frame import Bar

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.fittings import LayoutNode

SIDES: Final = ("right", "left")
ALIKE_M: Final = 1e-3
"""Fittings of a spar nearer to each other than this are one node."""
OUTBOARD: Final = frozenset({"strut foot", "strut head", "lift strut"})
"""Kinds of fittings that brace a plane outboard."""
RIB, DRAG_WIRE = "compression rib", "drag wire"


@dataclass(frozen=True, slots=True)
class SparLine:
    """Nodes of a spar on the right.

    Attributes
    ----------
    plane, spar : str
        Whose they are.
    nodes : tuple of LayoutNode
        From the inner fitting to the tip.
    ribs_between : tuple of LayoutNode
        At compression ribs between the plane of symmetry and a cabane fitting, from there out.
    """

    plane: str
    spar: str
    nodes: tuple[LayoutNode, ...]
    ribs_between: tuple[LayoutNode, ...] = ()

    @property
    def inner(self) -> tuple[LayoutNode, ...]:
        """Nodes of the centre section from the plane of symmetry out."""
        return (*self.ribs_between, self.nodes[0])

    @property
    def centre(self) -> bool:
        """Whether it goes on to the other side between cabane fittings."""
        return self.nodes[0].kind == "cabane" and not amid(self.nodes[0])

    @property
    def braced(self) -> bool:
        """Whether a strut outboard of its inner fitting bears on it."""
        return any(node.kind in OUTBOARD for node in self.nodes)


def amid(node: LayoutNode) -> bool:
    """Whether a node stands in the plane of symmetry."""
    return abs(node.buttline_m) < ALIKE_M


def on_side(node: LayoutNode, side: str) -> str:
    """Return the name of a node of a side in the frame."""
    return f"{node.name}, {'right' if amid(node) else side}"


def drag_truss(lines: Sequence[SparLine]) -> Iterator[tuple[str, Bar]]:
    """Yield kind and bar of compression ribs and crossed drag wires between neighbouring spars, without stiffness.

    Parameters
    ----------
    lines : sequence of SparLine
        Of all planes, in each from the front to the rear.
    """
    for front, rear in pairwise(lines):
        if front.plane != rear.plane:
            continue
        stations = list(zip(front.nodes, rear.nodes, strict=True))
        for side in SIDES:
            yield from _ribs(stations, front.plane, side, first=0)
            yield from _crossed(stations, front.plane, side)
        if front.centre:
            yield from _centre_truss(front, rear)


def _ribs(
    stations: Sequence[tuple[LayoutNode, LayoutNode]], where: str, side: str, *, first: int
) -> Iterator[tuple[str, Bar]]:
    """Yield kind and bar of every rib, but at a root, which the fuselage holds; one amid is of the right side alone."""
    for number, (ahead, aft) in enumerate(stations, first):
        if ahead.kind != "root" and (side == "right" or not amid(ahead)):
            yield RIB, Bar(f"{where} {RIB} {number}, {side}", on_side(ahead, side), on_side(aft, side), 0.0)


def _crossed(stations: Sequence[tuple[LayoutNode, LayoutNode]], where: str, side: str) -> Iterator[tuple[str, Bar]]:
    """Yield kind and bar of the wires of every bay from the body out."""
    for number, ((ahead, aft), (out_ahead, out_aft)) in enumerate(pairwise(stations), 1):
        for name, start, end in (("drag", ahead, out_aft), ("anti-drag", aft, out_ahead)):
            yield DRAG_WIRE, Bar(f"{where} {name} wire {number}, {side}", on_side(start, side), on_side(end, side), 0.0)


def _centre_truss(front: SparLine, rear: SparLine) -> Iterator[tuple[str, Bar]]:
    """Yield kind and bar of what joins the spars between the cabane fittings: wires that cross, and ribs."""
    where, stations = f"{front.plane} centre", list(zip(front.inner, rear.inner, strict=True))
    for side, far in (("right", "left"), ("left", "right")):
        yield from _ribs(stations[:-1], where, side, first=1)
        yield from _crossed(stations, where, side)
        ahead, aft = stations[0]
        if not amid(ahead):
            yield DRAG_WIRE, Bar(f"{where} drag wire, {side}", on_side(ahead, side), on_side(aft, far), 0.0)
