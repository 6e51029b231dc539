"""Drag and greatest lift of a scenario's airplane, built up from its parts; what the scenario states goes before."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.aerodynamics.biplane import equivalent_aspect_ratio
from sim.aerodynamics.drag_kinds import GIVEN, KINDS, SIDES
from sim.aerodynamics.drag_lift_max import SURFACE, LiftMax, fuselage_factor, planform_factor, trim_lift
from sim.aerodynamics.drag_parts import fuselage_drag, given_drag, kind_area_m2, part_drag, tail_drag
from sim.aerodynamics.drag_polar import SpanEfficiency, ZeroLiftDrag, span_efficiency, zero_lift_drag
from sim.aerodynamics.drag_section import SectionPolar, estimated_section, measured_section, shape_of
from sim.aerodynamics.drag_wing import cell_lift, first_stall, lifting_planes
from sim.atmosphere import GRAVITY_M_S2, air
from sim.errors import refuse
from sim.model.wing import wing_section
from sim.numerics.uncertain import Uncertain
from sim.scenario.toml_text import dotted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sim.aerodynamics.drag_parts import PartDrag
    from sim.airframe.wing import Wing
    from sim.scenario.drag import DragPartTable
    from sim.scenario.tables import Scenario

WHOLE_INTERFERENCE_BAND = 0.05
"""Of the interference of the whole airplane where the scenario gives it no ±."""
LARGEST_TRIM_SHARE = 0.5
"""Of the lift of the wing: no tail balances more, and arms that ask for it are wrong."""
STEPS = 4
"""Rounds of stalling speed, Reynolds number and greatest lift: settled to 1e-4 in three."""


@dataclass(frozen=True, slots=True)
class DragEstimate:
    """Drag and greatest lift of an airplane, built up.

    Attributes
    ----------
    reynolds, stall_reynolds : float
        On the mean chord of the wing, at the speed and altitude asked for, and at the stall at sea level.
    sections : tuple of SectionPolar
        Section of each plane at the speed and altitude asked for.
    zero_lift : ZeroLiftDrag
        Drag without lift, part by part.
    efficiency : SpanEfficiency
        Drag that grows with lift.
    lift : LiftMax
        Greatest lift.
    """

    reynolds: float
    stall_reynolds: float
    sections: tuple[SectionPolar, ...]
    zero_lift: ZeroLiftDrag
    efficiency: SpanEfficiency
    lift: LiftMax


def drag_estimate(
    scenario: Scenario,
    wing: Wing,
    powerplant: str,
    *,
    mass_kg: float,
    cg_aft_m: float,
    speed_m_s: float,
    altitude_m: float,
) -> DragEstimate:
    """Return drag and greatest lift, built up from the tables of a scenario.

    Parameters
    ----------
    scenario : Scenario
        With the table section.
    wing : Wing
        Its planes.
    powerplant : str
        Name of the powerplant with which it flies; parts of another are not fitted.
    mass_kg : float
        For the Reynolds number at the stall. [kg]
    cg_aft_m : float
        How far the centre of gravity lies aft of the one that the scenario measures arms from. [m]
    speed_m_s, altitude_m : float
        For the Reynolds numbers of drag. [m/s, m]

    Raises
    ------
    InputError
        Without a section.
    """
    there = air(altitude_m)
    per_m = speed_m_s / there.kinematic_viscosity_m2_s
    section_at = section_polars(scenario)
    sections = tuple(section_at(per_m * plane.chord_m) for plane in wing.planes)
    lift, stall_reynolds = _greatest_lift(scenario, wing, section_at, mass_kg=mass_kg, cg_aft_m=cg_aft_m)
    body, cell = scenario.fuselage, cell_lift(lifting_planes(wing))
    return DragEstimate(
        reynolds=per_m * wing.mean("chord_m"),
        stall_reynolds=stall_reynolds,
        sections=sections,
        zero_lift=zero_lift_drag(
            tuple(_parts(scenario, wing, sections, per_m, powerplant=powerplant)),
            Uncertain(
                scenario.drag.interference, scenario.tolerances.get("drag.interference", WHOLE_INTERFERENCE_BAND)
            ),
            area_m2=wing.area_m2,
        ),
        efficiency=span_efficiency(
            cell,
            sections,
            span_m=wing.span_m,
            aspect_ratio=equivalent_aspect_ratio(wing),
            frontal_area_m2=body.width_m * body.depth_m,
            shape=scenario.drag.fuselage,
        ),
        lift=lift,
    )


def section_polars(scenario: Scenario) -> Callable[[float], SectionPolar]:
    """Return the section of a scenario's wing as a function of the Reynolds number on its chord.

    Parameters
    ----------
    scenario : Scenario
        With the table section: what is given there goes before what was measured, and that before what is estimated.

    Raises
    ------
    InputError
        Without a section.
    """
    shape, table = shape_of(wing_section(scenario)), scenario.section
    assert table is not None
    measured = None if table.polar is None else measured_section(table.polar)

    def given(key: str, otherwise: Uncertain) -> Uncertain:
        value: float | None = getattr(table, key)
        return otherwise if value is None else Uncertain(value, scenario.tolerances.get(f"section.{key}", 0.0))

    def at(reynolds: float) -> SectionPolar:
        found = measured or estimated_section(shape, reynolds, laminar=table.laminar)
        return SectionPolar(
            section_lift_max=given("lift_max", found.section_lift_max),
            section_drag_min=given("drag_min", found.section_drag_min),
            section_drag_rise=given("drag_rise", found.section_drag_rise),
            section_lift_best=given("lift_best", Uncertain(found.section_lift_best)).value,
        )

    return at


def _parts(
    scenario: Scenario, wing: Wing, sections: tuple[SectionPolar, ...], per_m: float, *, powerplant: str
) -> Iterator[PartDrag]:
    """Yield the drag of wing, fuselage, tail and each part of the scenario."""
    body, tail, fin = scenario.fuselage, scenario.tailplane, scenario.fin
    yield _wing_drag(wing, sections)
    yield fuselage_drag(
        length_m=body.length_m,
        width_m=body.width_m,
        depth_m=body.depth_m,
        shape=scenario.drag.fuselage,
        speed_per_viscosity_per_m=per_m,
    )
    for name, span_m, chord_m in (("tailplane", tail.span_m, tail.chord_m), ("fin", fin.height_m, fin.chord_m)):
        yield tail_drag(name, area_m2=span_m * chord_m, chord_m=chord_m, speed_per_viscosity_per_m=per_m)
    for name, part in scenario.drag.part.items():
        if part.count and part.powerplant in (None, powerplant):
            yield _part_drag(scenario, name, part)


def _wing_drag(wing: Wing, sections: tuple[SectionPolar, ...]) -> PartDrag:
    """Return the profile drag of all planes, whose errors are those of one section: they add up."""
    own = [
        (plane.area_m2 / wing.area_m2, section.at_zero_lift)
        for plane, section in zip(wing.planes, sections, strict=True)
    ]
    return part_drag(
        "wing",
        "section",
        1,
        area_m2=Uncertain(wing.area_m2),
        part_coefficient=Uncertain(
            sum(share * one.value for share, one in own), sum(share * one.band for share, one in own)
        ),
        interference=Uncertain(1.0),
    )


def _part_drag(scenario: Scenario, name: str, part: DragPartTable) -> PartDrag:
    def read(key: str, value: float) -> Uncertain:
        return Uncertain(value, scenario.tolerances.get(dotted(("drag", "part", name, key)), 0.0))

    if part.kind == GIVEN:
        assert part.drag_area_m2 is not None
        factor = Uncertain(1.0) if part.interference is None else read("interference", part.interference)
        area_m2 = read("drag_area", part.drag_area_m2)
        return given_drag(name, part.kind, part.count, drag_area_m2=area_m2, interference=factor)
    kind = KINDS[part.kind]
    sides: dict[str, Uncertain] = {
        side: read(side, value) for side in SIDES if (value := getattr(part, f"{side}_m")) is not None
    }
    own, ratio = part.coefficient, part.interference
    return part_drag(
        name,
        part.kind,
        part.count,
        area_m2=kind_area_m2(kind, sides),
        part_coefficient=kind.part_coefficient if own is None else read("coefficient", own),
        interference=kind.interference if ratio is None else read("interference", ratio),
    )


def _greatest_lift(
    scenario: Scenario, wing: Wing, section_at: Callable[[float], SectionPolar], *, mass_kg: float, cg_aft_m: float
) -> tuple[LiftMax, float]:
    """Return the greatest lift at the Reynolds number of the stall at sea level, and that number."""
    ground, found, reynolds = air(0.0), None, 0.0
    most = 1.2
    for _ in range(STEPS):
        loading = 2.0 * mass_kg * GRAVITY_M_S2 / (ground.density_kg_m3 * wing.area_m2)
        per_m = math.sqrt(loading / most) / ground.kinematic_viscosity_m2_s
        reynolds = per_m * wing.mean("chord_m")
        sections = [section_at(per_m * plane.chord_m) for plane in wing.planes]
        found = _lift_max(scenario, wing, sections, cg_aft_m)
        most = found.lift_max.value
    assert found is not None
    return found, reynolds


def _lift_max(scenario: Scenario, wing: Wing, sections: Sequence[SectionPolar], cg_aft_m: float) -> LiftMax:
    table = scenario.section
    assert table is not None
    measured = table.lift_max is not None or table.polar is not None
    surface = Uncertain(1.0) if measured else SURFACE
    stall = first_stall(cell_lift(lifting_planes(wing)), tuple(one.section_lift_max.value for one in sections))
    section = Uncertain(stall.lift_all, max(one.section_lift_max.band for one in sections))
    planform = planform_factor(stall)
    body = fuselage_factor(scenario.fuselage.width_m * _carried_m(wing) / wing.area_m2)
    whole = section * surface * planform * body
    tail_arm_m = scenario.tailplane.arm_m - cg_aft_m
    tail = math.nan
    if tail_arm_m != 0.0:
        tail = trim_lift(
            whole.value,
            moment_chords=wing.mean("section_moment"),
            arm_m=wing.mean("arm_m") - cg_aft_m,
            chord_m=wing.mean("chord_m"),
            tail_arm_m=tail_arm_m,
        )
    if not -LARGEST_TRIM_SHARE * whole.value < tail < LARGEST_TRIM_SHARE * whole.value:
        what = "leave the tail more to balance at the stall than half the lift of the wing"
        refuse("lift.max", f"is needed: wing.arm and tailplane.arm {what}; check them, or give it")
    return LiftMax(
        section_lift_max=section,
        surface_factor=surface,
        planform_factor=planform,
        first_plane=wing.planes[stall.strip_plane].name if len(wing.planes) > 1 else "wing",
        first_span_share=stall.span_share,
        fuselage_factor=body,
        trim_lift=tail,
        lift_max=Uncertain(whole.value + tail, whole.band),
    )


def _carried_m(wing: Wing) -> float:
    """Return the chord at the root of the plane that the fuselage covers: the lowest. [m]."""
    lowest = wing.planes[-1]
    return 2.0 * lowest.chord_m / (1.0 + lowest.taper)
