"""What is wrong with the tables layout and structure when a wing is to be built of them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.errors import Fault, one_of
from sim.structures.drag_truss import ALIKE_M, OUTBOARD
from sim.structures.materials import materials
from sim.structures.sizes import wire_sizes
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.airframe.fittings import Fittings, LayoutNode
    from sim.airframe.layout import SparRoom
    from sim.model.layout import WingLayout
    from sim.scenario.structure import StructureMemberTable, StructureSparTable, StructureTable

WEBS: Final = {"box": 2, "I": 1}
"""Of the sections of spars that have flanges."""


def member_key(kind: str) -> str:
    """Return the key of a kind of member."""
    return kind.replace(" ", "_")


def spar_table(table: StructureTable, name: str) -> StructureSparTable:
    """Return what is said of a spar; what a spar is by default where nothing is."""
    from sim.scenario.structure import StructureSparTable

    return table.spar.get(name) or StructureSparTable()


def structure_faults(
    table: StructureTable,
    drawn: WingLayout,
    *,
    rooms: Sequence[Sequence[SparRoom]],
    fitted: Fittings,
    kinds: Mapping[str, None],
) -> tuple[Fault, ...]:
    """Return every fault of the table structure, and of a layout that cannot carry.

    Parameters
    ----------
    table : StructureTable
        Of the scenario.
    drawn : WingLayout
        Its layout.
    rooms, fitted
        Of that layout.
    kinds : mapping
        Kinds of its members.
    """
    return (
        *_strut_places(drawn, fitted),
        *_rib_faults(table, drawn, fitted),
        *_member_faults(table, kinds),
        *_spar_faults(table, drawn, rooms),
    )


def _strut_places(drawn: WingLayout, fitted: Fittings) -> Iterator[Fault]:
    """Yield struts outside the shortest plane, where nothing would hold them, or inboard of what holds their plane."""
    if drawn.truss.bracing == "none":
        return
    semi_m = 0.5 * min(placed.plane.span_m for placed in drawn.planes)
    struts = [node for node in fitted.nodes if node.kind in OUTBOARD]
    outermost_m = max((node.buttline_m for node in struts), default=0.0)
    if outermost_m > semi_m:
        splayed = drawn.truss.strut_buttlines_m[-1] <= semi_m
        most, came = in_both("strut_buttline_m", semi_m), in_both("strut_buttline_m", outermost_m)
        yield Fault(
            "layout.strut_splay" if splayed else "layout.strut_buttline",
            f"must {'leave the struts' if splayed else 'be'} within the tips of the shortest plane, {most}, "
            f'got "{came}"',
        )
    inner = {node.name.rpartition(" ")[0]: node for node in fitted.nodes if node.kind in {"root", "cabane"}}
    for strut in struts:
        held = next((node for spar, node in inner.items() if strut.name.startswith(f"{spar} ")), None)
        if held is not None and strut.buttline_m <= held.buttline_m + ALIKE_M:
            yield _inboard(drawn, strut, held)
            return


def _inboard(drawn: WingLayout, strut: LayoutNode, held: LayoutNode) -> Fault:
    places = " and ".join(f"{one.name} at {in_both('strut_buttline_m', one.buttline_m)}" for one in (strut, held))
    key = "strut_splay" if drawn.truss.strut_splay_m else f"{held.kind}_buttline"
    return Fault(f"layout.{key}", f"must leave the struts outboard of the fittings that hold their plane, got {places}")


def _rib_faults(table: StructureTable, drawn: WingLayout, fitted: Fittings) -> Iterator[Fault]:
    """Yield compression ribs that no plane has room for."""
    reaches = []
    for placed in drawn.planes:
        begins = f"{placed.plane.name} "
        held = [one for one in fitted.nodes if one.kind in {"root", "cabane"} and one.name.startswith(begins)]
        inner_m = min((0.0 if one.kind == "cabane" else one.buttline_m for one in held), default=0.0)
        reaches.append((inner_m, 0.5 * placed.plane.span_m))
    least_m, most_m = min(inner_m for inner_m, _ in reaches), max(tip_m for _, tip_m in reaches)
    for rib_m in table.compression_ribs:
        if not any(inner_m - ALIKE_M <= rib_m <= tip_m + ALIKE_M for inner_m, tip_m in reaches):
            least, most, came = (in_both("strut_buttline_m", place_m) for place_m in (least_m, most_m, rib_m))
            yield Fault(
                "structure.compression_ribs",
                f'must be from {least}, where the spars are held, to the tips, {most}, got "{came}"',
            )


def _member_faults(table: StructureTable, kinds: Mapping[str, None]) -> Iterator[Fault]:
    known = {member_key(kind) for kind in kinds}
    for name in table.member:
        if name not in known:
            yield Fault(
                f"structure.member.{name}", f"is no kind of member of this wing; it has {', '.join(sorted(known))}"
            )
    for kind in kinds:
        key, row = f"structure.member.{member_key(kind)}", table.member.get(member_key(kind))
        wire = kind.endswith("wire")
        if row is None:
            example = (
                'size = "1/4-28 tie rod"'
                if wire
                else 'material = "4130 normalised", diameter = "1 in", wall = "0.049 in"'
            )
            yield Fault(key, f"is missing: this wing has members of that kind; give {example}")
        elif wire:
            if row.size not in wire_sizes():
                yield Fault(f"{key}.size", one_of(wire_sizes(), row.size or ""))
        elif row.material not in materials():
            yield Fault(f"{key}.material", one_of(materials(), row.material or ""))
        else:
            yield from _strut_faults(key, row)


def _strut_faults(key: str, row: StructureMemberTable) -> Iterator[Fault]:
    round_tube = row.diameter_m is not None and row.wall_m is not None
    if not round_tube and (row.chord_m is None or row.thickness_m is None):
        yield Fault(key, "is missing diameter and wall of a tube, or chord and thickness of a streamlined wooden strut")
    elif round_tube and 2.0 * (row.wall_m or 0.0) > (row.diameter_m or 0.0):
        came, most = in_both("wall_m", row.wall_m or 0.0), in_both("wall_m", 0.5 * (row.diameter_m or 0.0))
        yield Fault(f"{key}.wall", f'must be at most half the diameter, {most}, got "{came}"')


def _spar_faults(table: StructureTable, drawn: WingLayout, rooms: Sequence[Sequence[SparRoom]]) -> Iterator[Fault]:
    names = [spar.name for spar in drawn.spars]
    for name in table.spar:
        if name not in names:
            yield Fault(f"structure.spar.{name}", one_of(names, name))
    for number, name in enumerate(names):
        key, row = f"structure.spar.{name}", spar_table(table, name)
        if row.material not in materials():
            yield Fault(f"{key}.material", one_of(materials(), row.material))
        room_m = min(own[number].spar_depth_m for own in rooms)
        depth_m = row.diameter_m if row.section == "tube" else row.depth_m
        if depth_m is not None and depth_m > room_m:
            most, came = in_both("spar_depth_m", room_m), in_both("spar_depth_m", depth_m)
            what = "diameter" if row.section == "tube" else "depth"
            yield Fault(f"{key}.{what}", f'must be at most what the section leaves, {most}, got "{came}"')
        for part in ("diameter", "wall") if row.section == "tube" else ("flange", "web") if row.section in WEBS else ():
            if getattr(row, f"{part}_m") is None:
                yield Fault(f"{key}.{part}", f"is missing: a spar of section {row.section} needs it")
        yield from _too_thick(key, row, row.depth_m or room_m, row.width_m or drawn.spars[number].width_m)


def _too_thick(key: str, row: StructureSparTable, depth_m: float, width_m: float) -> Iterator[Fault]:
    """Yield walls, flanges and webs that leave nothing between them."""
    hollow = {"tube": (("wall", row.diameter_m, 2, "diameter"),)} | {
        section: (("flange", depth_m, 2, "depth"), ("web", width_m, webs, "width")) for section, webs in WEBS.items()
    }
    for part, whole_m, count, of in hollow.get(row.section, ()):
        size_m = getattr(row, f"{part}_m")
        if size_m is not None and whole_m is not None and count * size_m >= whole_m:
            most, came = in_both("wall_m", whole_m / count), in_both("wall_m", size_m)
            yield Fault(
                f"{key}.{part}",
                f'must be below {"half " if count == 2 else ""}the {of} of the spar, {most}, got "{came}"',
            )
