"""Section and layout of a scenario's wing: spars, fittings, and the truss nodes that must stand under them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.layout import FittingLines, LayoutNode, PlaneAt, Spar, SparRoom, Strut, fittings, spar_room
from sim.airframe.section import area, thin_airfoil
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.model.planes import plane_values
from sim.model.wing import wing_section

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.section import Airfoil
    from sim.scenario import shop
    from sim.scenario.tables import Scenario


@dataclass(frozen=True, slots=True)
class PlaneLine:
    """One plane from the side.

    Attributes
    ----------
    name : str
        ``lower``, ``upper``.
    leading_edge_station_m, leading_edge_waterline_m : float
        At the middle of the airplane. [m]
    outline : tuple of (station, waterline)
        Round the section. [m]
    spars : tuple of pairs
        Foot and head of the middle of each spar, station and waterline. [m]
    """

    name: str
    leading_edge_station_m: float
    leading_edge_waterline_m: float
    outline: tuple[tuple[float, float], ...]
    spars: tuple[tuple[tuple[float, float], tuple[float, float]], ...]


@dataclass(frozen=True, slots=True)
class LayoutAnswer(Answer):
    """The wing on the fuselage.

    Attributes
    ----------
    title, section : str
        Which airplane, which section.
    chord_m : float
        [m]
    section_area_m2, centroid_from_leading_edge_m, centroid_above_chord_m : float
        Area of the section and its middle. [m², m, m]
    section_depth_m, deepest_from_leading_edge_m : float
        Greatest depth of the section, and where. [m]
    zero_lift_deg : float
        Angle of attack without lift, thin-airfoil theory. [°]
    lift_slope : float
        Thin-airfoil, per radian.
    pitch_quarter_chord : float
        Thin-airfoil moment coefficient, nose up positive.
    spars : tuple of SparRoom
        What the section leaves for each.
    planes : tuple of PlaneLine
        From the lowest up.
    nodes : tuple of LayoutNode
        Fittings and truss nodes of the right side.
    members : tuple of Strut
        Struts of the right side.
    upper_longeron_waterline_m, lower_longeron_waterline_m : float
        [m]
    remarks : tuple of str
        What the reader must know.
    """

    main: ClassVar[str] = "nodes"

    title: str
    section: str
    chord_m: float
    section_area_m2: float
    centroid_from_leading_edge_m: float
    centroid_above_chord_m: float
    section_depth_m: float
    deepest_from_leading_edge_m: float
    zero_lift_deg: float
    lift_slope: float
    pitch_quarter_chord: float
    spars: tuple[SparRoom, ...]
    planes: tuple[PlaneLine, ...]
    nodes: tuple[LayoutNode, ...]
    members: tuple[Strut, ...]
    upper_longeron_waterline_m: float
    lower_longeron_waterline_m: float
    remarks: tuple[str, ...]


def study(scenario: Scenario) -> LayoutAnswer:
    """Return section and layout of a scenario's wing.

    Parameters
    ----------
    scenario : Scenario
        With the tables section and layout.

    Raises
    ------
    InputError
        When one of the tables is missing.
    NoAnswerError
        When a spar does not fit.
    """
    section, table, chord_m = wing_section(scenario), scenario.layout, scenario.wing.chord_m
    if table is None:
        raise InputError([Fault("layout", "is missing: the table with leading_edge, longerons and spars")])
    planes = _planes(scenario, table)
    rooms = [[spar_room(section, plane.chord_m, _spar(row)) for row in table.spar] for plane in planes]
    body = FittingLines(
        root_buttline_m=table.root_buttline_m,
        cabane_buttline_m=table.cabane_buttline_m,
        strut_buttline_m=table.strut_buttline_m,
        upper_longeron_waterline_m=table.upper_longeron_m,
        lower_longeron_waterline_m=table.lower_longeron_m,
    )
    fitted = fittings(planes, rooms, body)
    shape, thin = area(section), thin_airfoil(section)
    deepest = max((place / 200.0 for place in range(1, 200)), key=section.depth)
    return LayoutAnswer(
        title=scenario.title,
        section=section.name,
        chord_m=chord_m,
        section_area_m2=shape.section_area * chord_m**2,
        centroid_from_leading_edge_m=shape.centroid_x * chord_m,
        centroid_above_chord_m=shape.centroid_y * chord_m,
        section_depth_m=section.depth(deepest) * chord_m,
        deepest_from_leading_edge_m=deepest * chord_m,
        zero_lift_deg=degrees(thin.zero_lift_rad),
        lift_slope=thin.lift_slope,
        pitch_quarter_chord=thin.pitch_quarter_chord,
        spars=_each(planes, rooms),
        planes=tuple(_line(plane, section, own) for plane, own in zip(planes, rooms, strict=True)),
        nodes=fitted.nodes,
        members=fitted.members,
        upper_longeron_waterline_m=table.upper_longeron_m,
        lower_longeron_waterline_m=table.lower_longeron_m,
        remarks=tuple(_remarks(scenario)),
    )


def _each(planes: Sequence[PlaneAt], rooms: Sequence[Sequence[SparRoom]]) -> tuple[SparRoom, ...]:
    """Return the spars once where the planes have one chord, else those of every plane under its name."""
    if len({plane.chord_m for plane in planes}) == 1:
        return tuple(rooms[0])
    return tuple(
        replace(room, name=f"{plane.name} {room.name}")
        for plane, own in zip(planes, rooms, strict=True)
        for room in own
    )


def _spar(row: shop.LayoutSparTable) -> Spar:
    return Spar(row.name, row.fraction, row.width_m, row.cap_m, row.cover_m)


def _planes(scenario: Scenario, table: shop.LayoutTable) -> tuple[PlaneAt, ...]:
    """Return the planes from the lowest up: stagger carries each leading edge ahead of the one below, gap above it."""
    wing, own = scenario.wing, plane_values(scenario)
    return tuple(
        PlaneAt(
            name,
            own[name]["chord_m"],
            leading_edge_station_m=table.leading_edge_m - number * wing.stagger_m,
            leading_edge_waterline_m=table.leading_edge_waterline_m + number * (wing.gap_m or 0.0),
            incidence_rad=own[name]["incidence_rad"],
            dihedral_rad=own[name]["dihedral_rad"],
            sweep_rad=own[name]["sweep_rad"],
        )
        for number, name in enumerate(reversed(own))
    )


def _line(plane: PlaneAt, section: Airfoil, rooms: Sequence[SparRoom]) -> PlaneLine:
    thin = max(1, section.upper.shape[1] // 100)
    points = [
        *zip(*section.upper[:, ::-thin].tolist(), strict=True),
        *zip(*section.lower[:, ::thin].tolist(), strict=True),
    ]

    def at(along_m: float, above_m: float) -> tuple[float, float]:
        return plane.point(along_m, above_m, 0.0)[:2]

    return PlaneLine(
        plane.name,
        plane.leading_edge_station_m,
        plane.leading_edge_waterline_m,
        tuple(at(x * plane.chord_m, y * plane.chord_m) for x, y in points),
        tuple((at(r.from_leading_edge_m, r.bottom_m), at(r.from_leading_edge_m, r.top_m)) for r in rooms),
    )


def _remarks(scenario: Scenario) -> list[str]:
    given = [f"wing.{key}" for key in ("section_lift_slope", "section_moment") if key in scenario.wing.model_fields_set]
    given += ["lift.zero"] if scenario.lift.zero is not None else []
    if not given:
        return ["Angle without lift, lift slope and moment of this section go into the derivatives."]
    keys = f"{', '.join(given[:-1])} and {given[-1]}" if len(given) > 1 else given[0]
    return [f"The scenario gives {keys} itself; for each taken out, this section's value goes into the derivatives."]
