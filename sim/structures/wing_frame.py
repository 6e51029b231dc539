"""The frame of a wing: spars on both sides, their drag truss, and the struts and wires between planes and fuselage.

Axes: station aft, buttline right, waterline up. The fuselage is rigid.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from sim.airframe.bracing import braced
from sim.airframe.fittings import fittings
from sim.structures.drag_truss import ALIKE_M, OUTBOARD, SparLine, amid, drag_truss, on_side
from sim.structures.frame import Bar, Beam, Frame, FrameNode
from sim.structures.member_sizes import WireSet

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.airframe.fittings import FittingLines, Fittings, LayoutNode
    from sim.airframe.layout import PlacedPlane, SparRoom
    from sim.structures.member_sizes import MemberSize, SparSize

SIGNS: Final = {"right": 1.0, "left": -1.0}


@dataclass(frozen=True, slots=True)
class FrameMember:
    """A strut, rib or wire of the frame.

    Attributes
    ----------
    name, kind : str
        Its own, which is that of its bar, and what it is.
    length_m : float
        From pin to pin as built, where the frame has a fitting on the axis of a spar too. [m]
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


def wing_frame(
    planes: Sequence[PlacedPlane],
    rooms: Sequence[Sequence[SparRoom]],
    body: FittingLines,
    *,
    ribs_m: Sequence[float],
    members: Mapping[str, MemberSize],
    spars: Mapping[tuple[str, str], SparSize],
    on_faces: bool = True,
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
    on_faces : bool
        Whether struts and wires outboard are pinned on the faces of the spars, else on their axes.

    Notes
    -----
    A pin on the face of a spar bends it by its lever, half a spar's depth, of the load along the spar; the twist by the
    load fore and aft, which ribs take, is not in it. Roots and cabane are hinged on the axes of the spars. A
    compression rib joins the spars at every fitting, at `ribs_m`, between the cabane fittings too, and at the tip, and
    drag wires cross each bay between them. Spars run on over their fittings out to the tip; at the root and over the
    cabane they are hinged, or clamped to a rigid body where nothing braces the plane outboard. The spar between the
    cabane fittings is hinged at both ends.
    """
    axes = [
        [replace(room, bottom_m=middle, top_m=middle) for room in own for middle in [_middle(room)]] for own in rooms
    ]
    fitted = braced(fittings(planes, axes, body), planes, axes, body)
    lines = [_spar_line(fitted, plane, room, ribs_m) for plane, own in zip(planes, axes, strict=True) for room in own]
    alias = _aliases(fitted, lines)
    used = {name for one in fitted.members for name in (one.from_node, one.to_node)}
    places = {node.name: node for line in lines for node in (*line.nodes, *line.ribs_between)}
    places |= {node.name: node for node in fitted.nodes if node.kind == "truss" and node.name in used}
    frame = Frame(tuple(_nodes(places)), (), ())
    real = braced(fittings(planes, rooms, body), planes, rooms, body)
    pins = {one.name: one for one in real.nodes if one.kind in OUTBOARD} if on_faces else {}
    lengths_m = {one.name: one.length_m for one in real.members} if on_faces else {}
    bars = [*_braces(fitted, alias, pins), *drag_truss(lines)]
    made = []
    for number, (kind, bar) in enumerate(bars):
        size = members[kind]
        tension = size.tension_n if isinstance(size, WireSet) else 0.0
        bars[number] = kind, replace(bar, axial_n=size.axial_n, wire=isinstance(size, WireSet), tension_n=tension)
        length_m = lengths_m.get(bar.name.rpartition(", ")[0]) or frame.bar_length_m(bar)
        made.append(FrameMember(bar.name, kind, length_m, size))
    panels = [panel for line in lines for panel in _panels(line, spars[line.plane, line.spar])]
    clamped = {line.plane + line.spar for line in lines if not line.braced}
    beams = [_beam(one, clamped=one.plane + one.spar in clamped and "centre" not in one.name) for one in panels]
    return WingFrame(Frame(frame.nodes, tuple(bar for _, bar in bars), tuple(beams)), tuple(made), tuple(panels))


def _beam(panel: SparPanel, *, clamped: bool) -> Beam:
    section, modulus_pa = panel.size.section, panel.size.material.modulus_pa
    return Beam(
        panel.name,
        panel.nodes,
        (0.0, 0.0, 1.0),
        panel.size.axial_n,
        modulus_pa * section.inertia_m4,
        modulus_pa * section.side_inertia_m4,
        clamped=clamped,
    )


def _nodes(places: Mapping[str, LayoutNode]) -> Iterator[FrameNode]:
    """Yield the nodes of both sides; one in the plane of symmetry is of the right side alone."""
    for side, sign in SIGNS.items():
        for node in places.values():
            if sign > 0.0 or not amid(node):
                place_m = (node.station_m, sign * node.buttline_m, node.waterline_m)
                yield FrameNode(on_side(node, side), place_m, held=node.kind in {"truss", "root"})


def _middle(room: SparRoom) -> float:
    return 0.5 * (room.bottom_m + room.top_m)


def _spar_line(fitted: Fittings, plane: PlacedPlane, room: SparRoom, ribs_m: Sequence[float]) -> SparLine:
    begins, half_m = f"{plane.plane.name} {room.name} ", 0.5 * plane.plane.span_m
    own = [node for node in fitted.nodes if node.name.startswith(begins) and node.kind != "truss"]
    own.sort(key=lambda node: node.buttline_m)
    extra = [(f"{begins}rib {number}", buttline) for number, buttline in enumerate(sorted(ribs_m), 1)]
    between: list[LayoutNode] = []
    for name, buttline_m in (*extra, (f"{begins}tip", half_m)):
        if buttline_m > half_m or any(abs(buttline_m - node.buttline_m) <= ALIKE_M for node in (*own, *between)):
            continue
        station, waterline, out = plane.point(room.from_leading_edge_m, room.top_m, buttline_m)
        rib = replace(own[0], name=name, kind="rib", station_m=station, waterline_m=waterline, buttline_m=out)
        (own if buttline_m > own[0].buttline_m else between).append(rib)
    own.sort(key=lambda node: node.buttline_m)
    nodes = [own[0], *(after for before, after in pairwise(own) if after.buttline_m - before.buttline_m > ALIKE_M)]
    line = SparLine(plane.plane.name, room.name, tuple(one for one in nodes if one.buttline_m <= half_m + ALIKE_M))
    return replace(line, ribs_between=tuple(between)) if line.centre else line


def _aliases(fitted: Fittings, lines: Sequence[SparLine]) -> dict[str, LayoutNode]:
    """Return for each fitting on a spar, and each node of the fuselage, the node of the frame that stands for it."""
    found = {node.name: node for node in fitted.nodes if node.kind == "truss"}
    for line in lines:
        for node in fitted.nodes:
            if node.kind != "truss" and node.name.startswith(f"{line.plane} {line.spar} "):
                found[node.name] = min(line.nodes, key=lambda one: abs(one.buttline_m - node.buttline_m))
    return found


def _braces(
    fitted: Fittings, alias: Mapping[str, LayoutNode], pins: Mapping[str, LayoutNode]
) -> Iterator[tuple[str, Bar]]:
    """Yield kind and bar of every strut and wire on both sides, without stiffness."""
    for one in fitted.members:
        for side, far in (("right", "left"), ("left", "right")):
            sides = (side, far if one.to_left else side)
            (start, start_pin), (end, end_pin) = (
                (on_side(alias[name], own), _pin(pins.get(name), SIGNS[own]))
                for name, own in zip((one.from_node, one.to_node), sides, strict=True)
            )
            yield one.kind, Bar(f"{one.name}, {side}", start, end, 0.0, start_pin_m=start_pin, end_pin_m=end_pin)


def _pin(node: LayoutNode | None, sign: float) -> tuple[float, float, float] | None:
    return None if node is None else (node.station_m, sign * node.buttline_m, node.waterline_m)


def _panels(line: SparLine, size: SparSize) -> Iterator[SparPanel]:
    whose = f"{line.plane} {line.spar} spar"
    for side in SIGNS:
        nodes = tuple(on_side(node, side) for node in line.nodes)
        yield SparPanel(f"{whose}, {side}", line.plane, line.spar, nodes, size)
    if line.centre:
        left, right = ([on_side(node, side) for node in line.inner] for side in ("left", "right"))
        yield SparPanel(f"{whose}, centre", line.plane, line.spar, tuple(dict.fromkeys([*left[::-1], *right])), size)
