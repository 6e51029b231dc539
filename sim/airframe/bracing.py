"""Wires that brace a wing of several planes: flying, landing, incidence and cabane wires."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from sim.airframe.fittings import Fittings, LayoutNode, member

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.fittings import FittingLines, Member
    from sim.airframe.layout import PlacedPlane, SparRoom


def braced(
    fitted: Fittings, planes: Sequence[PlacedPlane], rooms: Sequence[Sequence[SparRoom]], body: FittingLines
) -> Fittings:
    """Return the fittings with their wires; as they are where the wing has none.

    Parameters
    ----------
    fitted : Fittings
        Of `sim.airframe.fittings.fittings` with the same planes, spars and lines.
    planes, rooms : sequence
        From the lowest plane up, each with its spars.
    body : FittingLines
        What braces it; with ``none`` a wing has no wires.

    Notes
    -----
    At each spar a flying wire runs from the lowest plane, inboard, to the top plane, outboard of each bay, and a
    landing wire from the top plane, inboard, to the lowest, outboard; planes between are passed. Incidence wires cross
    between the front and the rear strut of every bay, cabane wires between the cabane struts of a side and from the
    foot of a side to the head of the other. Where a diagonal strut makes an N, the wires
    that cross in its plane are left out.
    """
    if body.bracing == "none":
        return fitted
    nodes = {node.name: node for node in fitted.nodes}
    wires = []
    if body.bracing == "wires" and len(planes) > 1:
        wires += [*_lift_wires(nodes, planes, rooms[0], body), *_incidence_wires(nodes, planes, rooms[0], body)]
    for plane in planes:
        whose = "" if plane is planes[-1] else f", {plane.plane.name}"
        wires += _cabane_wires(nodes, plane, rooms[-1], body, whose=whose)
    return Fittings(fitted.nodes, (*fitted.members, *wires))


def _bays(body: FittingLines) -> Sequence[str]:
    """Return what the names of the nodes of every bay end in."""
    count = len(body.strut_buttlines_m)
    return [f", bay {bay}" for bay in range(1, count + 1)] if count > 1 else [""]


def _lift_wires(
    nodes: dict[str, LayoutNode], planes: Sequence[PlacedPlane], spars: Sequence[SparRoom], body: FittingLines
) -> Iterator[Member]:
    low, top = planes[0].plane.name, planes[-1].plane.name
    for spar in spars:
        foot, head = nodes.get(f"{low} {spar.name} root"), nodes.get(f"{top} {spar.name} cabane")
        head = head or nodes.get(f"{top} {spar.name} root")
        for where in _bays(body):
            outer_foot, outer_head = (
                nodes[f"{low} {spar.name} strut foot{where}"],
                nodes[f"{top} {spar.name} strut head{where}"],
            )
            if foot:
                yield member(f"{spar.name} flying wire{where}", "flying wire", foot, outer_head)
            if head:
                yield member(f"{spar.name} landing wire{where}", "landing wire", outer_foot, head)
            foot, head = outer_foot, outer_head


def _incidence_wires(
    nodes: dict[str, LayoutNode], planes: Sequence[PlacedPlane], spars: Sequence[SparRoom], body: FittingLines
) -> Iterator[Member]:
    if body.strut_shape == "N":
        return
    for low, high in pairwise(one.plane.name for one in planes):
        between = f", {low} to {high}" if len(planes) > 2 else ""
        for where in _bays(body):
            for one, two in pairwise(spar.name for spar in spars):
                for foot, head in ((one, two), (two, one)):
                    ends = nodes[f"{low} {foot} strut foot{where}"], nodes[f"{high} {head} strut head{where}"]
                    yield member(f"incidence wire {foot} to {head}{between}{where}", "incidence wire", *ends)


def _cabane_wires(
    nodes: dict[str, LayoutNode], plane: PlacedPlane, spars: Sequence[SparRoom], body: FittingLines, *, whose: str
) -> Iterator[Member]:
    name = plane.plane.name
    heads = {spar.name: nodes.get(f"{name} {spar.name} cabane") for spar in spars}
    feet = {spar.name: nodes.get(f"truss under {name} {spar.name} cabane") for spar in spars}
    for spar, head in heads.items():
        foot = feet[spar]
        if head and foot:
            yield member(f"{spar} cabane wire to the other side{whose}", "cabane wire", foot, head, to_left=True)
    if body.cabane_shape == "N":
        return
    for one, two in pairwise(heads):
        for low, high in ((one, two), (two, one)):
            foot, head = feet[low], heads[high]
            if foot and head:
                yield member(f"cabane wire {low} to {high}{whose}", "cabane wire", foot, head)
