"""The structure of a scenario's wing: its frame, what its members are made of, and what its load cases are made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, one_of, refuse
from sim.structures.cross_section import ellipse, flanged, rectangle, tube
from sim.structures.materials import materials
from sim.structures.member_sizes import SparSize, StrutSize, WireSet
from sim.structures.sizes import wire_sizes
from sim.structures.spar_loads import SparPlaces
from sim.structures.wing_cases import WingCase
from sim.structures.wing_frame import DRAG_WIRE, RIB, wing_frame
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.airframe.layout import SparRoom
    from sim.model.layout import WingLayout
    from sim.scenario.structure import (
        StructureCaseTable,
        StructureMemberTable,
        StructureSparTable,
        StructureTable,
    )
    from sim.scenario.tables import Scenario
    from sim.structures.cross_section import CrossSection
    from sim.structures.member_sizes import MemberSize
    from sim.structures.wing_cases import Category
    from sim.structures.wing_frame import WingFrame

SPARS = 2
"""That carry a plane together."""


@dataclass(frozen=True, slots=True)
class WingStructure:
    """The structure of a wing.

    Attributes
    ----------
    wing : WingFrame
        Its frame.
    places : dict of SparPlaces
        Where spars and quarter chord of each plane lie.
    spars : tuple of str
        Names of front and rear spar.
    category : str
        ``normal``, ``utility`` or ``acrobatic``.
    load_factor, negative_load_factor, cruise_speed_m_s, dive_speed_m_s : float or None
        In the place of those of the category. [–, –, m/s, m/s]
    wing_mass_kg : float or None
        Of all planes; None where the table does not say. [kg]
    wing_cg : float
        Of a plane, fraction of the chord.
    plane_drag : float
        Drag coefficient of the planes without lift.
    cases : tuple of WingCase
        Besides those of the regulation.
    """

    wing: WingFrame
    places: dict[str, SparPlaces]
    spars: tuple[str, str]
    category: Category
    load_factor: float | None
    negative_load_factor: float | None
    cruise_speed_m_s: float | None
    dive_speed_m_s: float | None
    wing_mass_kg: float | None
    wing_cg: float
    plane_drag: float
    cases: tuple[WingCase, ...]


def wing_structure(scenario: Scenario, drawn: WingLayout) -> WingStructure:
    """Return the structure of a scenario's wing.

    Parameters
    ----------
    scenario : Scenario
        With the table structure.
    drawn : WingLayout
        Its layout.

    Raises
    ------
    InputError
        With every member, material or size that is missing or unknown.
    NoAnswerError
        When a spar does not fit, or a plane is not held at the fuselage.
    """
    table = scenario.structure
    if table is None:
        refuse("structure", "is missing: the table with category, spars, struts and wires")
    if len(drawn.spars) != SPARS:
        refuse("layout.spar", f"must be two spars, front and rear, to carry lift and torsion, got {len(drawn.spars)}")
    rooms, fitted = drawn.fitted()
    kinds = dict.fromkeys([*(one.kind for one in fitted.members), RIB, DRAG_WIRE])
    faults = [
        *_beyond_the_tips(drawn),
        *_member_faults(table, kinds),
        *_spar_faults(table, [spar.name for spar in drawn.spars], rooms),
    ]
    if faults:
        raise InputError(faults)
    spars = {
        (placed.plane.name, room.name): _spar(_spar_table(table, room.name), room, spar.width_m)
        for placed, own in zip(drawn.planes, rooms, strict=True)
        for room, spar in zip(own, drawn.spars, strict=True)
    }
    made = {kind: _member(table.member[_key(kind)]) for kind in kinds}
    wing = wing_frame(
        drawn.planes,
        rooms,
        drawn.truss,
        ribs_m=table.compression_ribs,
        members=made,
        spars=spars,
        on_faces=table.pins == "faces",
    )
    return _described(table, drawn, rooms, wing)


def _described(
    table: StructureTable, drawn: WingLayout, rooms: Sequence[Sequence[SparRoom]], wing: WingFrame
) -> WingStructure:
    return WingStructure(
        wing=wing,
        places={
            placed.plane.name: SparPlaces(
                own[0].from_leading_edge_m, own[1].from_leading_edge_m, 0.25 * placed.plane.chord_m
            )
            for placed, own in zip(drawn.planes, rooms, strict=True)
        },
        spars=(drawn.spars[0].name, drawn.spars[1].name),
        category=table.category,
        load_factor=table.load_factor,
        negative_load_factor=table.negative_load_factor,
        cruise_speed_m_s=table.cruise_speed_m_s,
        dive_speed_m_s=table.dive_speed_m_s,
        wing_mass_kg=table.wing_mass_kg,
        wing_cg=table.wing_cg,
        plane_drag=table.plane_drag,
        cases=tuple(_own_case(name.replace("_", " "), row) for name, row in table.case.items()),
    )


def _own_case(name: str, row: StructureCaseTable) -> WingCase:
    inertia = row.load_factor if row.inertia_factor is None else row.inertia_factor
    return WingCase(name, "scenario", row.load_factor, row.speed_m_s, inertia, row.left_share, row.right_share)


def _beyond_the_tips(drawn: WingLayout) -> Iterator[Fault]:
    """Yield struts that stand outside the shortest plane: nothing would hold them there."""
    semi_m = 0.5 * min(placed.plane.span_m for placed in drawn.planes)
    outermost_m = drawn.truss.strut_buttlines_m[-1]
    if drawn.truss.bracing != "none" and outermost_m > semi_m:
        most, came = in_both("strut_buttline_m", semi_m), in_both("strut_buttline_m", outermost_m)
        yield Fault("layout.strut_buttline", f'must be within the tips of the shortest plane, {most}, got "{came}"')


def _key(kind: str) -> str:
    return kind.replace(" ", "_")


def _spar_table(table: StructureTable, name: str) -> StructureSparTable:
    from sim.scenario.structure import StructureSparTable

    return table.spar.get(name) or StructureSparTable()


def _member_faults(table: StructureTable, kinds: Mapping[str, None]) -> Iterator[Fault]:
    known = {_key(kind) for kind in kinds}
    for name in table.member:
        if name not in known:
            yield Fault(
                f"structure.member.{name}", f"is no kind of member of this wing; it has {', '.join(sorted(known))}"
            )
    for kind in kinds:
        key, row = f"structure.member.{_key(kind)}", table.member.get(_key(kind))
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


def _member(row: StructureMemberTable) -> MemberSize:
    if row.size is not None:
        return WireSet(wire_sizes()[row.size], row.count, row.tension_n, row.pin_m, row.plate_m)
    material = materials()[row.material or ""]
    is_tube = row.diameter_m is not None and row.wall_m is not None
    outside_m, inside_m = (row.diameter_m, row.wall_m) if is_tube else (row.chord_m, row.thickness_m)
    sizes = outside_m or 0.0, inside_m or 0.0
    return StrutSize(
        tube(*sizes) if is_tube else ellipse(*sizes),
        material,
        fixity=row.fixity,
        eccentricity_m=row.eccentricity_m,
        tube=is_tube,
        sizes_m=sizes,
        pin_m=row.pin_m,
        plate_m=row.plate_m,
    )


def _spar_faults(table: StructureTable, names: Sequence[str], rooms: Sequence[Sequence[SparRoom]]) -> Iterator[Fault]:
    for name in table.spar:
        if name not in names:
            yield Fault(f"structure.spar.{name}", one_of(names, name))
    for number, name in enumerate(names):
        key, row = f"structure.spar.{name}", _spar_table(table, name)
        if row.material not in materials():
            yield Fault(f"{key}.material", one_of(materials(), row.material))
        room_m = min(own[number].spar_depth_m for own in rooms)
        depth_m = row.diameter_m if row.section == "tube" else row.depth_m
        if depth_m is not None and depth_m > room_m:
            most, came = in_both("spar_depth_m", room_m), in_both("spar_depth_m", depth_m)
            what = "diameter" if row.section == "tube" else "depth"
            yield Fault(f"{key}.{what}", f'must be at most what the section leaves, {most}, got "{came}"')
        needs = {"tube": ("diameter", "wall"), "box": ("flange", "web"), "I": ("flange", "web")}.get(row.section, ())
        for part in needs:
            if getattr(row, f"{part}_m") is None:
                yield Fault(f"{key}.{part}", f"is missing: a spar of section {row.section} needs it")


def _spar(row: StructureSparTable, room: SparRoom, width_m: float) -> SparSize:
    section = _spar_section(row, row.depth_m or room.spar_depth_m, row.width_m or width_m)
    return SparSize(f"{row.material}, {row.section}", section, materials()[row.material])


def _spar_section(row: StructureSparTable, depth_m: float, width_m: float) -> CrossSection:
    if row.section == "tube":
        return tube(row.diameter_m or 0.0, row.wall_m or 0.0)
    if row.section == "solid":
        return rectangle(width_m, depth_m)
    webs = 2 if row.section == "box" else 1
    flange_m, web_m = min(row.flange_m or 0.0, 0.5 * depth_m), min(row.web_m or 0.0, width_m / webs)
    return flanged(width_m, depth_m, flange_m=flange_m, web_m=web_m, webs=webs)
