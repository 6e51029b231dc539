"""Section and layout of the wing: spars, fittings, and the truss nodes that must stand under them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.section import area, thin_airfoil
from sim.answer import Answer

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.fittings import LayoutNode, Member
    from sim.airframe.layout import PlacedPlane, SparRoom
    from sim.airframe.section import Airfoil
    from sim.model.model import Model


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
    front_lines : tuple of pairs
        Front spar of each plane at the plane of symmetry and the right tip, buttline and waterline. [m]
    front_spar : str
        Its name.
    nodes : tuple of LayoutNode
        Fittings and truss nodes of the right side.
    members : tuple of Member
        Struts and wires that begin on the right side.
    upper_longeron_waterline_m, lower_longeron_waterline_m : float
        [m]
    section_use : str
        Whether flights take lift and moment of this section or of keys of the scenario, as a sentence.
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
    front_lines: tuple[tuple[tuple[float, float], tuple[float, float]], ...]
    front_spar: str
    nodes: tuple[LayoutNode, ...]
    members: tuple[Member, ...]
    upper_longeron_waterline_m: float
    lower_longeron_waterline_m: float
    section_use: str
    remarks: tuple[str, ...]


def layout(model: Model) -> LayoutAnswer:
    """Return section and layout of the wing.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables section and layout.

    Raises
    ------
    InputError
        When one of the tables is missing.
    NoAnswerError
        When a spar does not fit.
    """
    drawn = model.layout
    section, chord_m, planes = drawn.section, drawn.chord_m, drawn.planes
    rooms, fitted = drawn.fitted()
    shape, thin = area(section), thin_airfoil(section)
    deepest = max((place / 200.0 for place in range(1, 200)), key=section.depth)
    return LayoutAnswer(
        title=model.title,
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
        planes=tuple(_line(placed, section, own) for placed, own in zip(planes, rooms, strict=True)),
        front_lines=tuple(_front(placed, own[0]) for placed, own in zip(planes, rooms, strict=True) if own),
        front_spar=drawn.spars[0].name if drawn.spars else "",
        nodes=fitted.nodes,
        members=fitted.members,
        upper_longeron_waterline_m=drawn.truss.upper_longeron_waterline_m,
        lower_longeron_waterline_m=drawn.truss.lower_longeron_waterline_m,
        section_use=_section_use(drawn.section_keys),
        remarks=model.remark_texts("layout"),
    )


def _each(planes: Sequence[PlacedPlane], rooms: Sequence[Sequence[SparRoom]]) -> tuple[SparRoom, ...]:
    """Return the spars once where the planes have one chord, else those of every plane under its name."""
    if len({placed.plane.chord_m for placed in planes}) == 1:
        return tuple(rooms[0])
    return tuple(
        replace(room, name=f"{placed.plane.name} {room.name}")
        for placed, own in zip(planes, rooms, strict=True)
        for room in own
    )


def _line(placed: PlacedPlane, section: Airfoil, rooms: Sequence[SparRoom]) -> PlaneLine:
    thin = max(1, section.upper.shape[1] // 100)
    points = [
        *zip(*section.upper[:, ::-thin].tolist(), strict=True),
        *zip(*section.lower[:, ::thin].tolist(), strict=True),
    ]

    def at(along_m: float, above_m: float) -> tuple[float, float]:
        return placed.point(along_m, above_m, 0.0)[:2]

    return PlaneLine(
        placed.plane.name,
        placed.leading_edge_station_m,
        placed.leading_edge_waterline_m,
        tuple(at(x * placed.plane.chord_m, y * placed.plane.chord_m) for x, y in points),
        tuple((at(r.from_leading_edge_m, r.bottom_m), at(r.from_leading_edge_m, r.top_m)) for r in rooms),
    )


def _front(placed: PlacedPlane, spar: SparRoom) -> tuple[tuple[float, float], tuple[float, float]]:
    half_m, middle_m = 0.5 * placed.plane.span_m, 0.5 * (spar.bottom_m + spar.top_m)
    (_, root_m, _), (_, tip_m, _) = (placed.point(spar.from_leading_edge_m, middle_m, out) for out in (0.0, half_m))
    return (0.0, root_m), (half_m, tip_m)


def _section_use(given: Sequence[str]) -> str:
    """Return whether the flights go by this section or by keys of the scenario."""
    if not given:
        return "Zero-lift angle, lift-curve slope and moment of this section are used for the derivatives."
    keys = f"{', '.join(given[:-1])} and {given[-1]}" if len(given) > 1 else given[0]
    return (
        f"The scenario gives {keys}, used in place of this section's values; remove a key to use the section's value."
    )
