"""The structure of the wing on paper: load cases, then spars, struts and wires with their margins."""

from __future__ import annotations

from string import ascii_uppercase
from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, remarks, rows, say
from viz.sheets.margin_cell import margin_cell

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.structure_answer import StructureAnswer, StructureCase, StructureMember
    from viz.sheets.blocks import Block, Cell

CASES = (
    "Limit loads, equivalent airspeed at sea level. Front spars: their part of the load across the wing, less its "
    "weight; more than all where the rear spars are loaded down. Tip: greatest deflection from the rigged wing at rest."
)
SPARS = (
    "Axial load and bending moment at limit load, where the margin of safety at 1.5 times that is least; in brackets "
    "the lower end of its 90 % band, by the errors of load and strength, not of fittings and workmanship. An upward "
    "moment presses the upper side. Thrust acts on the deflected spar; structure.pins says whether struts and wires "
    "bend it by a lever. Lateral and local buckling, glue lines and bolt holes are not covered."
)
MEMBERS = (
    "Axial load at limit load of the side and case with the least margin of safety at 1.5 times that (at least 0 is "
    "required); pins count where they are given. Least size: the lightest standard one that bears all cases, with the "
    "loads of this one. At rest: by rigging tension alone."
)
LETTERS = ascii_uppercase
DRAG_TRUSS = ("compression rib", "drag wire")


def sheet(answer: StructureAnswer) -> Iterator[Block]:
    """Yield the cases, the spars, the members outside the planes, and those of the drag truss."""
    letters = {one.name: letter for letter, one in zip(LETTERS, answer.cases, strict=False)}
    heads = ["", "Load case", "Load factor", "Speed", "Angle of attack", "Front spars", "Tip", "Rule"]
    yield rows(
        _title(answer), heads, [(letters[one.name], *_case(one)) for one in answer.cases], _speeds(answer), CASES
    )
    spars = [one for one in answer.members if one.kind == "spar"]
    heads = ["Spar", "Made of", "Axial load", "Bending moment", "Margin (least)", "Case"]
    yield rows("Spars", heads, [(*_spar(one), letters.get(one.case, "")) for one in spars], SPARS)
    others = [one for one in answer.members if one.kind != "spar"]
    heads = ["Member", "Size", "At rest", "Axial load", "Margin (least)", "Least size", "Case"]
    for title, inside in (("Struts and wires", False), ("Drag truss in the planes", True)):
        own = [one for one in others if (one.kind in DRAG_TRUSS) is inside]
        if own:
            yield rows(
                title,
                heads,
                [(*_member(one), letters.get(one.case, "")) for one in own],
                *(() if inside else (MEMBERS,)),
            )
    yield rows("Materials and sizes", ["Allowables and their source"], [(line,) for line in answer.sources])
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("{run}, fittings and lengths from pin to pin", run=Run("layout")))


def _title(answer: StructureAnswer) -> Cell:
    return say(
        "{title}, {category} category: load cases of the wing at {mass} with {engine}{lacks}",
        title=answer.title,
        category=answer.category,
        mass=Value("mass_kg", answer.mass_kg, digits=4),
        engine=answer.powerplant,
        lacks=f"; WITHOUT {' and '.join(answer.left_out)}" if answer.left_out else "",
    )


def _speeds(answer: StructureAnswer) -> Cell:
    return say(
        "VA {va}, VC {vc}, VD {vd}. The planes weigh {wing}, which relieves them; spars, struts, compression ribs and "
        "wires come to {frame} without fittings.",
        va=Value("manoeuvring_m_s", answer.manoeuvring_m_s),
        vc=Value("cruising_m_s", answer.cruising_m_s),
        vd=Value("diving_m_s", answer.diving_m_s),
        wing=Value("wing_mass_kg", answer.wing_mass_kg),
        frame=Value("frame_mass_kg", answer.frame_mass_kg),
    )


def _case(one: StructureCase) -> tuple[Cell, ...]:
    return (
        one.name,
        Value("load_factor", one.load_factor, decimals=2),
        Value("speed_m_s", one.speed_m_s),
        Value("alpha_deg", one.alpha_deg, decimals=1),
        Value("front_share", one.front_share, decimals=0),
        Value("tip_deflection_m", one.tip_deflection_m, decimals=2),
        one.rule,
    )


def _spar(one: StructureMember) -> tuple[Cell, ...]:
    return (
        one.name,
        one.size,
        Value("axial_n", one.force_n, signed=True),
        Value("bending_n_m", one.moment_n_m),
        margin_cell(one.margin, one.margin_low),
    )


def _member(one: StructureMember) -> tuple[Cell, ...]:
    return (
        one.name,
        _size(one),
        Value("rigged_n", one.rigged_n, signed=True, brief=True),
        Value("axial_n", one.force_n, signed=True),
        margin_cell(one.margin, one.margin_low),
        one.least_size or "–",
    )


def _size(one: StructureMember) -> Cell:
    if not one.sizes_m:
        return one.size
    outside, inside = (Value("sizes_m", size, nominal=True) for size in one.sizes_m)
    return say("{outside} x {inside} {size}", outside=outside, inside=inside, size=one.size)
