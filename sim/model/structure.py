"""The structure of a scenario's wing: its frame, what its members are made of, and what its load cases are made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, refuse
from sim.model.structure_faults import WEBS, member_key, spar_table, structure_faults
from sim.structures.cross_section import ellipse, flanged, rectangle, tube
from sim.structures.drag_truss import DRAG_WIRE, RIB
from sim.structures.materials import materials
from sim.structures.member_sizes import SparSize, StrutSize, WireSet
from sim.structures.removed import no_member, without
from sim.structures.sizes import wire_sizes
from sim.structures.spar_loads import SparPlaces
from sim.structures.wing_cases import WingCase
from sim.structures.wing_frame import wing_frame

if TYPE_CHECKING:
    from collections.abc import Sequence

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
    whole : WingFrame
        The same with nothing left out.
    places : dict of SparPlaces
        Where spars and quarter chord of each plane lie.
    spars : tuple of str
        Names of front and rear spar.
    pins : str
        Where struts and wires outboard are pinned: ``faces`` or ``axes`` of the spars.
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
    left_out : tuple of str
        Struts, ribs and wires that the frame lacks, as the scenario says.
    """

    wing: WingFrame
    whole: WingFrame
    places: dict[str, SparPlaces]
    spars: tuple[str, str]
    pins: str
    category: Category
    load_factor: float | None
    negative_load_factor: float | None
    cruise_speed_m_s: float | None
    dive_speed_m_s: float | None
    wing_mass_kg: float | None
    wing_cg: float
    plane_drag: float
    cases: tuple[WingCase, ...]
    left_out: tuple[str, ...]


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
    faults = structure_faults(table, drawn, rooms=rooms, fitted=fitted, kinds=kinds)
    if faults:
        raise InputError(faults)
    spars = {
        (placed.plane.name, room.name): _spar(spar_table(table, room.name), room, spar.width_m)
        for placed, own in zip(drawn.planes, rooms, strict=True)
        for room, spar in zip(own, drawn.spars, strict=True)
    }
    made = {kind: _member(table.member[member_key(kind)]) for kind in kinds}
    wing = wing_frame(
        drawn.planes,
        rooms,
        drawn.truss,
        ribs_m=table.compression_ribs,
        members=made,
        spars=spars,
        on_faces=table.pins == "faces",
    )
    strange = [Fault("structure.without", said) for name in table.without if (said := no_member(wing, name))]
    if strange:
        raise InputError(strange)
    return _described(table, drawn, rooms, wing)


def _described(
    table: StructureTable, drawn: WingLayout, rooms: Sequence[Sequence[SparRoom]], whole: WingFrame
) -> WingStructure:
    return WingStructure(
        wing=without(whole, table.without),
        whole=whole,
        places={
            placed.plane.name: SparPlaces(
                own[0].from_leading_edge_m, own[1].from_leading_edge_m, 0.25 * placed.plane.chord_m
            )
            for placed, own in zip(drawn.planes, rooms, strict=True)
        },
        spars=(drawn.spars[0].name, drawn.spars[1].name),
        pins=table.pins,
        category=table.category,
        load_factor=table.load_factor,
        negative_load_factor=table.negative_load_factor,
        cruise_speed_m_s=table.cruise_speed_m_s,
        dive_speed_m_s=table.dive_speed_m_s,
        wing_mass_kg=table.wing_mass_kg,
        wing_cg=table.wing_cg,
        plane_drag=table.plane_drag,
        cases=tuple(_own_case(name.replace("_", " "), row) for name, row in table.case.items()),
        left_out=tuple(table.without),
    )


def _own_case(name: str, row: StructureCaseTable) -> WingCase:
    inertia = row.load_factor if row.inertia_factor is None else row.inertia_factor
    return WingCase(
        name, "scenario", row.load_factor, row.speed_m_s, inertia, row.left_share, row.right_share, row.aileron_share
    )


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


def _spar(row: StructureSparTable, room: SparRoom, width_m: float) -> SparSize:
    section = _spar_section(row, row.depth_m or room.spar_depth_m, row.width_m or width_m)
    return SparSize(f"{row.material}, {row.section}", section, materials()[row.material])


def _spar_section(row: StructureSparTable, depth_m: float, width_m: float) -> CrossSection:
    if row.section == "tube":
        return tube(row.diameter_m or 0.0, row.wall_m or 0.0)
    if row.section == "solid":
        return rectangle(width_m, depth_m)
    webs = WEBS[row.section]
    return flanged(width_m, depth_m, flange_m=row.flange_m or 0.0, web_m=row.web_m or 0.0, webs=webs)
