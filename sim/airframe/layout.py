"""Layout: from the wing section and its spars to the fittings and the truss nodes under them.

Stations aft of the datum, waterlines up, buttlines to the right; one side is given, the other is its mirror.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import cos, dist, sin, tan
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.section import Airfoil
    from sim.airframe.wing import Plane, Wing

FACES = 9
"""Places across a spar at which the room for it is taken."""


@dataclass(frozen=True, slots=True)
class Spar:
    """A spar to be fitted into the section.

    Attributes
    ----------
    name : str
        ``front`` or ``rear``.
    fraction : float
        Its middle, as a share of the chord.
    width_m : float
        Along the chord. [m]
    cap_m : float
        Thickness of the rib cap above and below it. [m]
    cover_m : float
        Thickness of the cover: ply, fabric and tape. [m]
    """

    name: str
    fraction: float
    width_m: float
    cap_m: float = 0.0
    cover_m: float = 0.0


@dataclass(frozen=True, slots=True)
class SparRoom:
    """What the section leaves for a spar.

    Attributes
    ----------
    name : str
        Which spar.
    fraction : float
        Its middle, as a share of the chord.
    from_leading_edge_m : float
        Its middle along the chord. [m]
    section_depth_m : float
        Depth of the section at its middle. [m]
    spar_depth_m : float
        Deepest rectangular spar that fits under caps and covers over its whole width. [m]
    bottom_m, top_m : float
        Its lower and upper face above the chord line. [m]
    """

    name: str
    fraction: float
    from_leading_edge_m: float
    section_depth_m: float
    spar_depth_m: float
    bottom_m: float
    top_m: float


def spar_room(section: Airfoil, chord_m: float, spar: Spar) -> SparRoom:
    """Return the deepest rectangular spar that fits, its faces square to the chord line.

    Parameters
    ----------
    section : Airfoil
        In units of the chord.
    chord_m : float
        [m]
    spar : Spar
        Where and how wide.

    Raises
    ------
    NoAnswerError
        When caps and covers leave nothing.
    """
    half = 0.5 * spar.width_m / chord_m
    places = [spar.fraction + half * (2.0 * k / (FACES - 1) - 1.0) for k in range(FACES)]
    heights = [section.heights(place) for place in places]
    taken = spar.cap_m + spar.cover_m
    top = min(upper for upper, _ in heights) * chord_m - taken
    bottom = max(lower for _, lower in heights) * chord_m + taken
    depth = section.depth(spar.fraction) * chord_m
    if top <= bottom:
        message = (
            f"no {spar.name} spar fits at {100.0 * spar.fraction:.3g} % of the chord: the section is "
            f"{fixed('spar_depth_m', depth, 'si', 1)} deep there, and caps and covers take "
            f"{fixed('spar_depth_m', 2.0 * taken, 'si', 1)}; "
            "move the spar to where the section is deeper or make it narrower"
        )
        raise NoAnswerError(message)
    return SparRoom(spar.name, spar.fraction, spar.fraction * chord_m, depth, top - bottom, bottom, top)


@dataclass(frozen=True, slots=True)
class PlacedPlane:
    """One plane of the wing where it stands at the middle of the airplane.

    Attributes
    ----------
    plane : Plane
        Its dimensions.
    leading_edge_station_m, leading_edge_waterline_m : float
        At the middle of the airplane, the plane carried through. [m]
    """

    plane: Plane
    leading_edge_station_m: float
    leading_edge_waterline_m: float

    def point(self, along_m: float, above_m: float, buttline_m: float) -> tuple[float, float, float]:
        """Return station, waterline and buttline of a point of the section [m].

        Parameters
        ----------
        along_m, above_m : float
            Along the chord from the leading edge, and above the chord line. [m]
        buttline_m : float
            How far out. [m]
        """
        plane = self.plane
        c, s = cos(plane.incidence_rad), sin(plane.incidence_rad)
        station = self.leading_edge_station_m + along_m * c + above_m * s + buttline_m * tan(plane.sweep_rad)
        waterline = self.leading_edge_waterline_m - along_m * s + above_m * c + buttline_m * tan(plane.dihedral_rad)
        return station, waterline, buttline_m


def placed(wing: Wing, station_m: float, waterline_m: float) -> tuple[PlacedPlane, ...]:
    """Return the planes from the lowest up: stagger places each leading edge ahead of the one below, gap above it.

    Parameters
    ----------
    wing : Wing
        Its planes.
    station_m, waterline_m : float
        Leading edge of the lowest plane at the middle of the airplane. [m]
    """
    return tuple(
        PlacedPlane(plane, station_m - number * wing.stagger_m, waterline_m + number * wing.gap_m)
        for number, plane in enumerate(reversed(wing.planes))
    )


@dataclass(frozen=True, slots=True)
class FittingLines:
    """Where fittings stand across the airplane, and the fuselage truss below them.

    Attributes
    ----------
    root_buttline_m, cabane_buttline_m, strut_buttline_m : float
        Root fitting of the lowest plane, cabane fitting of the top plane, interplane struts. [m]
    upper_longeron_waterline_m, lower_longeron_waterline_m : float
        [m]
    """

    root_buttline_m: float
    cabane_buttline_m: float
    strut_buttline_m: float
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
    for (low, low_rooms), (high, high_rooms) in pairwise(zip(planes, rooms, strict=True)):
        for low_spar, high_spar in zip(low_rooms, high_rooms, strict=True):
            foot = _node(low, low_spar, kind="strut foot", above_m=low_spar.top_m, buttline_m=body.strut_buttline_m)
            head = _node(
                high, high_spar, kind="strut head", above_m=high_spar.bottom_m, buttline_m=body.strut_buttline_m
            )
            nodes += [foot, head]
            members.append(
                _member(f"{low_spar.name} interplane strut, {low.plane.name} to {high.plane.name}", foot, head)
            )
    return Fittings(tuple(nodes), tuple(members))


def _node(plane: PlacedPlane, spar: SparRoom, *, kind: str, above_m: float, buttline_m: float) -> LayoutNode:
    place = plane.point(spar.from_leading_edge_m, above_m, buttline_m)
    return LayoutNode(f"{plane.plane.name} {spar.name} {kind}", kind, *place)


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
