"""The structure of the wing on paper: load cases, then spars, struts and wires with their margins."""

from __future__ import annotations

from string import ascii_uppercase
from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.margin_cell import margin_cell
from viz.sheets.standard_size import standard_size

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.structure_answer import StructureAnswer, StructureCase, StructureMember, TakenOver
    from viz.sheets.blocks import Block, Cell

CASES = (
    "Limit loads, equivalent airspeed at sea level. Front spars: their part of the load across the wing, less its "
    "weight; more than all where the rear spars are loaded down. Tip: greatest deflection from the rigged wing at rest."
)
SPARS = (
    "Loads at ultimate load, 1.5 times the limit loads of air and weight and the rigging tension once, where the "
    "margin of safety is least; in brackets the lower end of its 90 % band, by the errors of load and strength, not of "
    "fittings and workmanship. Set by: the case, and what fails first: the pressed or the pulled side, by axial load "
    "and bending together, or the webs in shear. An upward moment presses the upper side; thrust acts on the deflected "
    "spar, between its fittings up and down and between ribs fore and aft."
)
PINS = {
    "faces": "Struts and wires outboard are pinned on the faces of the spars, whose lever bends them; roots and cabane "
    "hold the spars on their axes.",
    "axes": "Struts and wires meet the spars on their axes, without a lever (structure.pins): their lengths here, of "
    "which columns buckle, run from axis to axis; layout has those from pin to pin on the faces of the spars.",
}
UNCOVERED = "Lateral-torsional buckling of a spar, local buckling, glue lines and bolt holes are not covered."
MEMBERS = (
    "Greatest tension and compression of both sides at ultimate load, with their cases; at rest: by rigging tension "
    "alone. Margin of safety, at least 0 is required, of the member, in compression as a column, or of its pins where "
    "they are given and bear less. Least size: the lightest standard wire or stocked tube that bears all cases "
    "with the loads of this one, no longer than 300 radii of gyration; there is none of wood. Members of a kind "
    "have one size: the largest of their least sizes."
)
TAKEN_OVER = (
    "Axial loads of each side at ultimate load, the greatest of all cases: of the members whose load grows most by "
    "what is left out, down to a third of the greatest growth."
)
LETTERS = (*ascii_uppercase, *(first + second for first in ascii_uppercase for second in ascii_uppercase))
DRAG_TRUSS = ("compression rib", "drag wire")


def sheet(answer: StructureAnswer) -> Iterator[Block]:
    """Yield the cases, the spars, the members outside the planes, and those of the drag truss."""
    letters = {one.name: letter for letter, one in zip(LETTERS, answer.cases, strict=False)}
    heads = ["", "Load case", "Load factor", "Speed", "Angle of attack", "Front spars", "Tip", "Rule"]
    yield rows(
        _title(answer), heads, [(letters[one.name], *_case(one)) for one in answer.cases], _speeds(answer), CASES
    )
    spars = [one for one in answer.members if one.kind == "spar"]
    heads = ["Spar", "Made of", "Axial load", "Bending moment", "Shear", "Margin (least)", "Set by"]
    yield rows("Spars", heads, [_spar(one, letters) for one in spars], SPARS, f"{PINS[answer.pins]} {UNCOVERED}")
    others = [one for one in answer.members if one.kind != "spar"]
    heads = ["Member", "Size", "At rest", "Tension", "Compression", "Margin (least)", "Least size"]
    for title, inside in (("Struts and wires", False), ("Drag truss in the planes", True)):
        own = [one for one in others if (one.kind in DRAG_TRUSS) is inside]
        if own:
            yield rows(title, heads, [_member(one, letters) for one in own], *(() if inside else (MEMBERS,)))
    if answer.taken_over:
        heads = ["Member", "With nothing left out", "As it is"]
        yield rows("What takes over the load", heads, [_taken_over(one) for one in answer.taken_over], TAKEN_OVER)
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


def _spar(one: StructureMember, letters: dict[str, str]) -> tuple[Cell, ...]:
    return (
        one.name,
        one.size,
        Value("ultimate_n", one.ultimate_n, signed=True),
        Value("ultimate_bending_n_m", one.ultimate_bending_n_m),
        Value("ultimate_shear_n", abs(one.ultimate_shear_n)),
        margin_cell(one.margin, one.margin_low),
        f"{letters.get(one.case, '')}, {one.set_by}",
    )


def _member(one: StructureMember, letters: dict[str, str]) -> tuple[Cell, ...]:
    return (
        one.name,
        _size(one),
        Value("rigged_n", one.rigged_n, signed=True, brief=True),
        _most("most_tension_n", one.most_tension_n, letters.get(one.tension_case, "")),
        _most("most_compression_n", one.most_compression_n, letters.get(one.compression_case, "")),
        _margin(one),
        standard_size(one.least_size),
    )


def _taken_over(one: TakenOver) -> tuple[Cell, ...]:
    return one.name, *(Value(name, getattr(one, name), signed=True) for name in ("whole_n", "ultimate_n"))


def _margin(one: StructureMember) -> Cell:
    cell = margin_cell(one.margin, one.margin_low)
    return say("{margin}, pins", margin=cell) if one.set_by == "pins" else cell


def _most(name: str, load_n: float, letter: str) -> Cell:
    return say("{load}, {case}", load=Value(name, load_n), case=letter) if letter else "–"


def _size(one: StructureMember) -> Cell:
    if not one.sizes_m:
        return one.size
    outside, inside = (Value("sizes_m", size, nominal=True) for size in one.sizes_m)
    return say("{outside} x {inside} {size}", outside=outside, inside=inside, size=one.size)
