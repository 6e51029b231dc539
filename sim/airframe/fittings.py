"""Fittings of a wing and the struts between them, and the truss nodes of the fuselage.

Stations aft of the datum, waterlines up, buttlines to the right; one side is given, the other is its mirror.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.layout import PlacedPlane, SparRoom


@dataclass(frozen=True, slots=True)
class FittingLines:
    """Where fittings stand across the airplane, and the fuselage truss below them.

    Attributes
    ----------
    root_buttline_m, cabane_buttline_m : float
        Root fitting of the lowest plane, cabane fitting of the top plane. [m]
    strut_buttlines_m : tuple of float
        Interplane struts, bay by bay from the body out. [m]
    upper_longeron_waterline_m, lower_longeron_waterline_m : float
        [m]
    """

    root_buttline_m: float
    cabane_buttline_m: float
    strut_buttlines_m: tuple[float, ...]
    upper_longeron_waterline_m: float
    lower_longeron_waterline_m: float


@dataclass(frozen=True, slots=True)
class LayoutNode:
    """A fitting or a truss node of the right side.

    Attributes
    ----------
    name, kind : str
        The kind is ``root``, ``cabane``, ``strut foot``, ``strut head`` or ``truss``.
    station_m, waterline_m, buttline_m : float
        Aft of the datum, up, right. [m]
    """

    name: str
    kind: str
    station_m: float
    waterline_m: float
    buttline_m: float


@dataclass(frozen=True, slots=True)
class Strut:
    """A strut between two nodes, from pin to pin.

    Attributes
    ----------
    name, from_node, to_node : str
        What it joins.
    length_m : float
        [m]
    """

    name: str
    from_node: str
    to_node: str
    length_m: float


@dataclass(frozen=True, slots=True)
class Fittings:
    """Every node and strut of the right side."""

    nodes: tuple[LayoutNode, ...]
    members: tuple[Strut, ...]


def fittings(planes: Sequence[PlacedPlane], rooms: Sequence[Sequence[SparRoom]], body: FittingLines) -> Fittings:
    """Return the fittings of every spar, the truss nodes under them and the struts between.

    Parameters
    ----------
    planes : sequence of PlacedPlane
        From the lowest to the top one.
    rooms : sequence
        For each plane its spars.
    body : FittingLines
        Where they are taken.

    Notes
    -----
    The lowest plane is held by root fittings at the middle of its spars, with a truss node on the lower longeron at the
    same station; the top one by cabane fittings on the underside of its spars, with a node on the upper longeron. A
    plane between them whose root lies between the longerons passes through the fuselage: it has root fittings, with a
    node on the longeron nearer to them; another one is held by its interplane struts alone. Interplane struts join the
    upper face of a spar to the lower face of the spar above. A node stands square under or over its fitting, so cabane
    struts lean only sideways.
    """
    nodes: list[LayoutNode] = []
    members: list[Strut] = []
    for number, (plane, own) in enumerate(zip(planes[:-1] or planes, rooms, strict=False)):
        for spar in own:
            nodes += _root(plane, spar, body, lowest=number == 0)
    if len(planes) > 1:
        for spar in rooms[-1]:
            cabane = _node(planes[-1], spar, kind="cabane", above_m=spar.bottom_m, buttline_m=body.cabane_buttline_m)
            foot = _truss(cabane, body.upper_longeron_waterline_m, body.root_buttline_m)
            nodes += [cabane, foot]
            members.append(_member(f"{spar.name} cabane strut", foot, cabane))
    for lower, upper in pairwise(zip(planes, rooms, strict=True)):
        for bay, buttline_m in enumerate(body.strut_buttlines_m, start=1):
            where = f", bay {bay}" if len(body.strut_buttlines_m) > 1 else ""
            for foot, head, name in _interplane(lower, upper, buttline_m):
                nodes += [replace(foot, name=foot.name + where), replace(head, name=head.name + where)]
                members.append(_member(name + where, *nodes[-2:]))
    return Fittings(tuple(nodes), tuple(members))


def _node(plane: PlacedPlane, spar: SparRoom, *, kind: str, above_m: float, buttline_m: float) -> LayoutNode:
    place = plane.point(spar.from_leading_edge_m, above_m, buttline_m)
    return LayoutNode(f"{plane.plane.name} {spar.name} {kind}", kind, *place)


def _interplane(
    lower: tuple[PlacedPlane, Sequence[SparRoom]], upper: tuple[PlacedPlane, Sequence[SparRoom]], buttline_m: float
) -> Iterator[tuple[LayoutNode, LayoutNode, str]]:
    """Yield foot, head and name of the strut between two planes at each spar."""
    (low, low_rooms), (high, high_rooms) = lower, upper
    for low_spar, high_spar in zip(low_rooms, high_rooms, strict=True):
        foot = _node(low, low_spar, kind="strut foot", above_m=low_spar.top_m, buttline_m=buttline_m)
        head = _node(high, high_spar, kind="strut head", above_m=high_spar.bottom_m, buttline_m=buttline_m)
        yield foot, head, f"{low_spar.name} interplane strut, {low.plane.name} to {high.plane.name}"


def _root(plane: PlacedPlane, spar: SparRoom, body: FittingLines, *, lowest: bool) -> list[LayoutNode]:
    """Return the root fitting of a spar and its truss node; none of a plane between that passes the fuselage by."""
    middle_m = 0.5 * (spar.bottom_m + spar.top_m)
    root = _node(plane, spar, kind="root", above_m=middle_m, buttline_m=body.root_buttline_m)
    lower_m, upper_m = body.lower_longeron_waterline_m, body.upper_longeron_waterline_m
    if lowest:
        return [root, _truss(root, lower_m, body.root_buttline_m)]
    if not lower_m < root.waterline_m < upper_m:
        return []
    nearer_m = lower_m if root.waterline_m - lower_m <= upper_m - root.waterline_m else upper_m
    return [root, _truss(root, nearer_m, body.root_buttline_m)]


def _truss(fitting: LayoutNode, waterline_m: float, buttline_m: float) -> LayoutNode:
    where = "under" if waterline_m <= fitting.waterline_m else "over"
    return LayoutNode(f"truss {where} {fitting.name}", "truss", fitting.station_m, waterline_m, buttline_m)


def _member(name: str, foot: LayoutNode, head: LayoutNode) -> Strut:
    ends = [(node.station_m, node.waterline_m, node.buttline_m) for node in (foot, head)]
    return Strut(name, foot.name, head.name, dist(*ends))
