"""The frame of a wing: spars on both sides, their drag truss, and the struts and wires between planes and fuselage.

Axes: station aft, buttline right, waterline up. The fuselage is rigid.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from sim.airframe.bracing import braced
from sim.airframe.fittings import fittings
from sim.structure.frame import Bar, Beam, Frame, FrameNode
from sim.structure.member_sizes import WireSet

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.airframe.fittings import FittingLines, Fittings, LayoutNode
    from sim.airframe.layout import PlacedPlane, SparRoom
    from sim.structure.member_sizes import MemberSize, SparSize

SIDES: Final = (("right", 1.0), ("left", -1.0))
ALIKE_M: Final = 1e-3
"""Fittings of a spar nearer to each other than this are one node."""
RIB, DRAG_WIRE = "compression rib", "drag wire"


@dataclass(frozen=True, slots=True)
class FrameMember:
    """A strut, rib or wire of the frame.

    Attributes
    ----------
    name, kind : str
        Its own, which is that of its bar, and what it is.
    length_m : float
        Between spar axes and pins of the fuselage. [m]
    size : StrutSize or WireSet
        What it is made of.
    """

    name: str
    kind: str
    length_m: float
    size: MemberSize


@dataclass(frozen=True, slots=True)
class SparPanel:
    """A beam of the frame: the spar of a plane on one side, or of a centre section.

    Attributes
    ----------
    name : str
        Its own, which is that of its beam.
    plane, spar : str
        Whose it is.
    nodes : tuple of str
        From the body out, of a centre section from left to right.
    size : SparSize
        What it is made of.
    """

    name: str
    plane: str
    spar: str
    nodes: tuple[str, ...]
    size: SparSize


@dataclass(frozen=True, slots=True)
class WingFrame:
    """A wing ready to be loaded.

    Attributes
    ----------
    frame : Frame
        Nodes, bars and beams.
    members : tuple of FrameMember
        A bar each.
    panels : tuple of SparPanel
        A beam each.
    """

    frame: Frame
    members: tuple[FrameMember, ...]
    panels: tuple[SparPanel, ...]


@dataclass(frozen=True, slots=True)
class _SparLine:
    """Nodes of a spar on the right, from the inner fitting to the tip."""

    plane: str
    spar: str
    nodes: tuple[LayoutNode, ...]

    @property
    def cabane(self) -> bool:
        """Whether it stands on a cabane."""
        return self.nodes[0].kind == "cabane"

    @property
    def braced(self) -> bool:
        """Whether a strut outboard of its inner fitting bears on it."""
        return any(node.kind in {"strut foot", "strut head", "lift strut"} for node in self.nodes)


def wing_frame(
    planes: Sequence[PlacedPlane],
    rooms: Sequence[Sequence[SparRoom]],
    body: FittingLines,
    *,
    ribs_m: Sequence[float],
    members: Mapping[str, MemberSize],
    spars: Mapping[tuple[str, str], SparSize],
) -> WingFrame:
    """Return the frame of a wing.

    Parameters
    ----------
    planes, rooms : sequence
        From the lowest plane up, each with its spars.
    body : FittingLines
        Where fittings are taken, and how the wing is braced.
    ribs_m : sequence of float
        Buttlines of compression ribs besides those at fittings and tips. [m]
    members : mapping of MemberSize
        By kind: every kind that occurs.
    spars : mapping of SparSize
        By plane and spar.

    Notes
    -----
    Members meet on the axes of the spars, half a spar's depth from their pins: the moment that this lever makes on the
    spar is not in it. A compression rib joins the spars at every fitting, at `ribs_m` and at the tip, and drag wires
    cross each bay between them. Spars run on over their fittings out to the tip; at the root and over the cabane they
    are hinged, or clamped to a rigid body where nothing braces the plane outboard. The spar between the cabane fittings
    is hinged at both ends.
    """
    axes = [
        [replace(room, bottom_m=middle, top_m=middle) for room in own for middle in [_middle(room)]] for own in rooms
    ]
    fitted = braced(fittings(planes, axes, body), planes, axes, body)
    lines = [_spar_line(fitted, plane, room, ribs_m) for plane, own in zip(planes, axes, strict=True) for room in own]
    alias = _aliases(fitted, lines)
    used = {alias.get(name, name) for one in fitted.members for name in (one.from_node, one.to_node)}
    places = {node.name: node for line in lines for node in line.nodes}
    places |= {node.name: node for node in fitted.nodes if node.kind == "truss" and node.name in used}
    held = {node.name for node in places.values() if node.kind in {"truss", "root"}}
    nodes = [
        FrameNode(f"{node.name}, {side}", (node.station_m, sign * node.buttline_m, node.waterline_m), node.name in held)
        for side, sign in SIDES
        for node in places.values()
    ]
    joined = [*_braces(fitted, alias), *_drag_truss(lines, held)]
    frame = Frame(tuple(nodes), (), ())
    made = [FrameMember(name, kind, frame.apart_m(start, end), members[kind]) for name, kind, start, end in joined]
    bars = [
        Bar(name, start, end, one.size.axial_n, isinstance(one.size, WireSet), getattr(one.size, "tension_n", 0.0))
        for one, (name, _, start, end) in zip(made, joined, strict=True)
    ]
    panels = [panel for line in lines for panel in _panels(line, spars[line.plane, line.spar])]
    clamped = {line.plane + line.spar for line in lines if not line.braced}
    beams = [
        Beam(
            one.name,
            one.nodes,
            (0.0, 0.0, 1.0),
            one.size.axial_n,
            one.size.material.modulus_pa * one.size.section.inertia_m4,
            one.size.material.modulus_pa * one.size.section.side_inertia_m4,
            clamped=one.plane + one.spar in clamped and "centre" not in one.name,
        )
        for one in panels
    ]
    return WingFrame(Frame(tuple(nodes), tuple(bars), tuple(beams)), tuple(made), tuple(panels))


def _middle(room: SparRoom) -> float:
    return 0.5 * (room.bottom_m + room.top_m)


def _spar_line(fitted: Fittings, plane: PlacedPlane, room: SparRoom, ribs_m: Sequence[float]) -> _SparLine:
    begins, half_m = f"{plane.plane.name} {room.name} ", 0.5 * plane.plane.span_m
    own = [node for node in fitted.nodes if node.name.startswith(begins) and node.kind != "truss"]
    own.sort(key=lambda node: node.buttline_m)
    extra = [(f"{begins}rib {number}", buttline) for number, buttline in enumerate(sorted(ribs_m), 1)]
    for name, buttline_m in (*extra, (f"{begins}tip", half_m)):
        far = all(abs(buttline_m - node.buttline_m) > ALIKE_M for node in own)
        if far and own[0].buttline_m < buttline_m <= half_m:
            station, waterline, out = plane.point(room.from_leading_edge_m, room.top_m, buttline_m)
            own.append(replace(own[0], name=name, kind="rib", station_m=station, waterline_m=waterline, buttline_m=out))
    own.sort(key=lambda node: node.buttline_m)
    nodes = [own[0], *(after for before, after in pairwise(own) if after.buttline_m - before.buttline_m > ALIKE_M)]
    return _SparLine(plane.plane.name, room.name, tuple(node for node in nodes if node.buttline_m <= half_m + ALIKE_M))


def _aliases(fitted: Fittings, lines: Sequence[_SparLine]) -> dict[str, str]:
    """Return for each fitting on a spar the node of the frame that stands for it."""
    found = {}
    for line in lines:
        for node in fitted.nodes:
            if node.kind != "truss" and node.name.startswith(f"{line.plane} {line.spar} "):
                near = min(line.nodes, key=lambda one: abs(one.buttline_m - node.buttline_m))
                found[node.name] = near.name
    return found


def _braces(fitted: Fittings, alias: Mapping[str, str]) -> Iterator[tuple[str, str, str, str]]:
    """Yield name, kind and both nodes of every strut and wire on both sides."""
    other = {"right": "left", "left": "right"}
    for one in fitted.members:
        start, end = (alias.get(name, name) for name in (one.from_node, one.to_node))
        for side, _ in SIDES:
            far = other[side] if one.to_left else side
            yield f"{one.name}, {side}", one.kind, f"{start}, {side}", f"{end}, {far}"


def _drag_truss(lines: Sequence[_SparLine], held: set[str]) -> Iterator[tuple[str, str, str, str]]:
    """Yield compression ribs and crossed drag wires between neighbouring spars of each plane."""
    for front, rear in pairwise(lines):
        if front.plane != rear.plane:
            continue
        stations = list(zip(front.nodes, rear.nodes, strict=True))
        for side, _ in SIDES:
            for number, (ahead, aft) in enumerate(stations):
                if not {ahead.name, aft.name} <= held:
                    yield f"{front.plane} {RIB} {number}, {side}", RIB, f"{ahead.name}, {side}", f"{aft.name}, {side}"
            for number, ((ahead, aft), (out_ahead, out_aft)) in enumerate(pairwise(stations), 1):
                for name, start, end in (("drag", ahead, out_aft), ("anti-drag", aft, out_ahead)):
                    called = f"{front.plane} {name} wire {number}, {side}"
                    yield called, DRAG_WIRE, f"{start.name}, {side}", f"{end.name}, {side}"
        if front.cabane:
            ahead, aft = stations[0]
            for side, far in (("right", "left"), ("left", "right")):
                yield (
                    f"{front.plane} centre drag wire, {side}",
                    DRAG_WIRE,
                    f"{ahead.name}, {side}",
                    f"{aft.name}, {far}",
                )


def _panels(line: _SparLine, size: SparSize) -> Iterator[SparPanel]:
    whose = f"{line.plane} {line.spar} spar"
    for side, _ in SIDES:
        nodes = tuple(f"{node.name}, {side}" for node in line.nodes)
        yield SparPanel(f"{whose}, {side}", line.plane, line.spar, nodes, size)
    if line.cabane and line.nodes[0].buttline_m > 0.0:
        ends = tuple(f"{line.nodes[0].name}, {side}" for side in ("left", "right"))
        yield SparPanel(f"{whose}, centre", line.plane, line.spar, ends, size)
