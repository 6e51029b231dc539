"""Fittings of a wing and the struts between them, and the truss nodes of the fuselage.

Stations aft of the datum, waterlines up, buttlines to the right; one side is given, the other is its mirror.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import atan2, degrees, dist
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.layout import PlacedPlane, SparRoom

StrutShape = Literal["pair", "N"]
Bracing = Literal["wires", "lift_struts", "none"]


@dataclass(frozen=True, slots=True)
class FittingLines:
    """Where fittings stand across the airplane, the fuselage truss below them, and how the wing is braced.

    Attributes
    ----------
    root_buttline_m, cabane_buttline_m : float
        Root fittings and longerons, cabane fittings of the top plane. [m]
    strut_buttlines_m : tuple of float
        Heads of the interplane struts, or fittings of the lift struts, bay by bay from the body out. [m]
    upper_longeron_waterline_m, lower_longeron_waterline_m : float
        [m]
    strut_splay_m : float
        From plane to plane the foot of an interplane strut stands so far inboard of its head. [m]
    cabane_foot_buttline_m : float or None
        Feet of the cabane struts; None for that of the longerons. [m]
    cabane_foot_stations_m, lift_foot_stations_m : tuple of float
        Feet of cabane and lift struts, spar by spar; none: each square under its fitting. [m]
    cabane_shape, strut_shape : str
        ``N`` has a strut from the front head to the rear foot as well.
    bracing : str
        ``wires`` between the lowest and the top plane, ``lift_struts`` of a monoplane, or ``none``.
    """

    root_buttline_m: float
    cabane_buttline_m: float
    strut_buttlines_m: tuple[float, ...]
    upper_longeron_waterline_m: float
    lower_longeron_waterline_m: float
    strut_splay_m: float = 0.0
    cabane_foot_buttline_m: float | None = None
    cabane_foot_stations_m: tuple[float, ...] = ()
    lift_foot_stations_m: tuple[float, ...] = ()
    cabane_shape: StrutShape = "pair"
    strut_shape: StrutShape = "pair"
    bracing: Bracing = "wires"

    @property
    def cabane_feet_m(self) -> float:
        """Buttline of the feet of the cabane struts. [m]."""
        return self.root_buttline_m if self.cabane_foot_buttline_m is None else self.cabane_foot_buttline_m


@dataclass(frozen=True, slots=True)
class LayoutNode:
    """A fitting or a truss node of the right side.

    Attributes
    ----------
    name, kind : str
        The kind is ``root``, ``cabane``, ``strut foot``, ``strut head``, ``lift strut`` or ``truss``.
    station_m, waterline_m, buttline_m : float
        Aft of the datum, up, right. [m]
    """

    name: str
    kind: str
    station_m: float
    waterline_m: float
    buttline_m: float


@dataclass(frozen=True, slots=True)
class Member:
    """A strut or wire between two nodes, from pin to pin.

    Attributes
    ----------
    name, from_node, to_node : str
        What it joins, the inner or lower end first.
    kind : str
        ``cabane strut``, ``interplane strut``, ``lift strut``, ``flying wire``, ``landing wire``, ``incidence wire`` or
        ``cabane wire``.
    length_m : float
        [m]
    front_view_deg, side_view_deg : float
        From the vertical in the front and in the side view, the upper end outboard and aft positive. [°]
    to_left : bool
        Whether its second end is the node of that name on the left side.
    """

    name: str
    from_node: str
    to_node: str
    kind: str
    length_m: float
    front_view_deg: float
    side_view_deg: float
    to_left: bool = False


@dataclass(frozen=True, slots=True)
class Fittings:
    """Every node of the right side, and every member that begins there."""

    nodes: tuple[LayoutNode, ...]
    members: tuple[Member, ...]


def fittings(planes: Sequence[PlacedPlane], rooms: Sequence[Sequence[SparRoom]], body: FittingLines) -> Fittings:
    """Return the fittings of every spar, the truss nodes under them and the struts between; no wires.

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
    A plane whose root lies above the upper longeron is held by cabane fittings on the underside of its spars, nodes on
    that longeron under them, and so is the top one of several where no longerons are given; another by root fittings at
    the middle of its spars, with a truss node on the longeron nearer to them, of the lowest plane on the lower one, at
    the same station. Interplane struts join the upper face of a spar to the lower face of the spar above. Lift struts
    run from the face of the spar that looks towards the farther longeron to a node on it. Without stations of their
    own, nodes of the fuselage stand square under or over their fittings.
    """
    found = [_held(planes, number, own, body) for number, own in enumerate(rooms)]
    found += [
        _bay(lower, upper, buttline_m, _shape_and_place(body, bay))
        for level, (lower, upper) in enumerate(pairwise(zip(planes, rooms, strict=True)), start=2)
        for bay, buttline_m in enumerate(_splayed(body, len(planes) - level), start=1)
    ]
    if body.bracing == "lift_struts":
        found += [_lift_struts(planes[0], rooms[0], body, bay) for bay in range(len(body.strut_buttlines_m))]
    return Fittings(tuple(node for nodes, _ in found for node in nodes), tuple(one for _, own in found for one in own))


_Found = tuple[list[LayoutNode], list[Member]]


def _held(planes: Sequence[PlacedPlane], number: int, own: Sequence[SparRoom], body: FittingLines) -> _Found:
    """Return the fittings that hold a plane to the fuselage, with their truss nodes and cabane struts."""
    plane = planes[number]
    lower_m, upper_m = body.lower_longeron_waterline_m, body.upper_longeron_waterline_m
    roots = [
        _node(plane, spar, kind="root", above_m=0.5 * (spar.bottom_m + spar.top_m), buttline_m=body.root_buttline_m)
        for spar in own
    ]
    top, above = number == len(planes) - 1, all(root.waterline_m >= upper_m for root in roots)
    if above if upper_m > lower_m else top and number > 0:
        return _cabane(plane, own, body, "" if top else f", {plane.plane.name}")
    middle_m = 0.5 * (lower_m + upper_m)
    nodes = []
    for root in roots:
        longeron_m = upper_m if number > 0 and root.waterline_m > middle_m else lower_m
        nodes += [root, _truss(root, longeron_m, body.root_buttline_m)]
    return nodes, []


def _cabane(plane: PlacedPlane, own: Sequence[SparRoom], body: FittingLines, whose: str) -> _Found:
    """Return the fittings of a plane on a cabane, its struts named with `whose` where it is not the top one."""
    heads = [
        _node(plane, spar, kind="cabane", above_m=spar.bottom_m, buttline_m=body.cabane_buttline_m) for spar in own
    ]
    feet = [
        _truss(head, body.upper_longeron_waterline_m, body.cabane_feet_m, station_m)
        for head, station_m in zip(heads, _stations(body.cabane_foot_stations_m, heads), strict=True)
    ]
    struts = [
        member(f"{spar.name} cabane strut{whose}", "cabane strut", foot, head)
        for spar, foot, head in zip(own, feet, heads, strict=True)
    ]
    if body.cabane_shape == "N":
        struts += [
            member(f"diagonal cabane strut{whose}, {one.name} to {two.name}", "cabane strut", feet[at + 1], heads[at])
            for at, (one, two) in enumerate(pairwise(own))
        ]
    return [node for pair in zip(heads, feet, strict=True) for node in pair], struts


def _splayed(body: FittingLines, below_top: int) -> Iterator[tuple[float, float]]:
    """Yield the buttlines of foot and head of the struts of every bay, so many planes below the top one."""
    for top_m in body.strut_buttlines_m:
        head_m = top_m - below_top * body.strut_splay_m
        yield head_m - body.strut_splay_m, head_m


def _shape_and_place(body: FittingLines, bay: int) -> tuple[StrutShape, str]:
    return body.strut_shape, f", bay {bay}" if len(body.strut_buttlines_m) > 1 else ""


def _bay(
    lower: tuple[PlacedPlane, Sequence[SparRoom]],
    upper: tuple[PlacedPlane, Sequence[SparRoom]],
    buttlines_m: tuple[float, float],
    shape_and_place: tuple[StrutShape, str],
) -> _Found:
    """Return the interplane struts between two planes in one bay, with their feet and heads."""
    (low, low_rooms), (high, high_rooms) = lower, upper
    (foot_m, head_m), (shape, where) = buttlines_m, shape_and_place
    feet = [_node(low, one, kind="strut foot", above_m=one.top_m, buttline_m=foot_m) for one in low_rooms]
    heads = [_node(high, one, kind="strut head", above_m=one.bottom_m, buttline_m=head_m) for one in high_rooms]
    feet, heads = ([replace(node, name=node.name + where) for node in nodes] for nodes in (feet, heads))
    joined = f"interplane strut, {low.plane.name} to {high.plane.name}{where}"
    struts = [
        member(f"{spar.name} {joined}", "interplane strut", foot, head)
        for spar, foot, head in zip(low_rooms, feet, heads, strict=True)
    ]
    if shape == "N":
        struts += [
            member(f"diagonal {joined}", "interplane strut", feet[at + 1], heads[at]) for at in range(len(feet) - 1)
        ]
    return [node for pair in zip(feet, heads, strict=True) for node in pair], struts


def _lift_struts(plane: PlacedPlane, own: Sequence[SparRoom], body: FittingLines, bay: int) -> _Found:
    buttline_m = body.strut_buttlines_m[bay]
    where = f", bay {bay + 1}" if len(body.strut_buttlines_m) > 1 else ""
    lower_m, upper_m = body.lower_longeron_waterline_m, body.upper_longeron_waterline_m
    high = plane.leading_edge_waterline_m > 0.5 * (lower_m + upper_m)
    tops = [
        _node(plane, spar, kind="lift strut", above_m=spar.bottom_m if high else spar.top_m, buttline_m=buttline_m)
        for spar in own
    ]
    tops = [replace(node, name=node.name + where) for node in tops]
    feet = [
        _truss(top, lower_m if high else upper_m, body.root_buttline_m, station_m)
        for top, station_m in zip(tops, _stations(body.lift_foot_stations_m, tops), strict=True)
    ]
    struts = [
        member(f"{spar.name} lift strut{where}", "lift strut", *((foot, top) if high else (top, foot)))
        for spar, foot, top in zip(own, feet, tops, strict=True)
    ]
    return [node for pair in zip(tops, feet, strict=True) for node in pair], struts


def _stations(given_m: Sequence[float], fitted: Sequence[LayoutNode]) -> Sequence[float]:
    """Return the stations of feet: as given, one for all or one for each, else those of the fittings above."""
    if not given_m:
        return [node.station_m for node in fitted]
    return list(given_m) * len(fitted) if len(given_m) == 1 else given_m


def _node(plane: PlacedPlane, spar: SparRoom, *, kind: str, above_m: float, buttline_m: float) -> LayoutNode:
    place = plane.point(spar.from_leading_edge_m, above_m, buttline_m)
    return LayoutNode(f"{plane.plane.name} {spar.name} {kind}", kind, *place)


def _truss(fitting: LayoutNode, waterline_m: float, buttline_m: float, station_m: float | None = None) -> LayoutNode:
    where = "under" if waterline_m <= fitting.waterline_m else "over"
    place_m = fitting.station_m if station_m is None else station_m
    return LayoutNode(f"truss {where} {fitting.name}", "truss", place_m, waterline_m, buttline_m)


def member(name: str, kind: str, foot: LayoutNode, head: LayoutNode, *, to_left: bool = False) -> Member:
    """Return the member between two nodes; the second is mirrored where it stands on the left side."""
    side = -1.0 if to_left else 1.0
    start = (foot.station_m, foot.waterline_m, foot.buttline_m)
    end = (head.station_m, head.waterline_m, side * head.buttline_m)
    aft_m, up_m, out_m = ((b - a) * (1.0 if end[1] >= start[1] else -1.0) for a, b in zip(start, end, strict=True))
    return Member(
        name=name,
        from_node=foot.name,
        to_node=head.name,
        kind=kind,
        length_m=dist(start, end),
        front_view_deg=degrees(atan2(out_m, up_m)),
        side_view_deg=degrees(atan2(aft_m, up_m)),
        to_left=to_left,
    )
