"""The sheet of `whirlgate drag`: coefficients beside what is stated, drag part by part, and greatest lift in steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.numerics.uncertain import Uncertain
    from sim.studies.drag import BuiltUp, DragAnswer
    from viz.sheets.blocks import Block, Cell, Next

COEFFICIENTS = (
    ("Zero-lift drag CD0", "drag_zero_lift", 4),
    ("Span efficiency e", "span_efficiency", 3),
    ("Greatest lift CLmax", "lift_max", 3),
)
"""Label, field of the polar, and decimals."""
KEYS = {"drag_zero_lift": "drag.zero_lift", "span_efficiency": "drag.span_efficiency", "lift_max": "lift.max"}
BANDS = "After ±: one standard deviation. What the scenario states serves in the place of what is built up."
AREAS = (
    "Coefficient of a part alone, on its own area: surfaces from above, the fuselage wetted, other parts across the "
    "stream; interference: drag in place over that of the part alone."
)


def sheet(answer: DragAnswer) -> Iterator[Block]:
    """Yield what serves, where it comes from, and what would make it better known."""
    title = say(
        "{title} with {engine}: drag at {speed} and {altitude}, greatest lift at {mass}",
        title=answer.title,
        engine=answer.powerplant,
        speed=Value("speed_m_s", answer.speed_m_s),
        altitude=Value("altitude_m", answer.altitude_m),
        mass=Value("mass_kg", answer.mass_kg, digits=4),
    )
    lines = (_coefficient(label, answer.coefficients[name], name, decimals) for label, name, decimals in COEFFICIENTS)
    yield rows(title, ["", "Built up", "Stated", "Stated less built up"], lines, BANDS, _stall(answer))
    yield _parts(answer)
    yield rows("Greatest lift", ["Step", "Value"], _lift(answer), _first(answer))
    yield rows("Drag that grows with lift, over CL squared", ["Part", "Value"], _rise(answer))
    if answer.remarks:
        yield remarks(answer.remarks)
    yield _next(answer)


def _coefficient(label: str, found: BuiltUp, name: str, decimals: int) -> list[Cell]:
    built = Value(name, found.value, decimals=decimals, error=found.band)
    if found.stated is None:
        return [label, built, "", ""]
    stated = Value(name, found.stated, decimals=decimals, error=found.stated_band or None)
    return [label, built, stated, Value(name, found.apart, decimals=decimals, change=True)]


def _stall(answer: DragAnswer) -> Cell:
    return say(
        "CD = CD0 + CL² / (π e A) with the aspect ratio A = {aspect} of the equivalent monoplane, to which e belongs. "
        "Stalling speed at sea level {stall}, best lift over drag {best}, with what serves.",
        aspect=Value("aspect_ratio", answer.aspect_ratio, decimals=2),
        stall=Value("stall_m_s", answer.stall_m_s, error=answer.stall_band_m_s or None),
        best=Value("lift_drag_max", answer.lift_drag_max, decimals=1),
    )


def _parts(answer: DragAnswer) -> Table:
    parts = sorted(answer.parts, key=lambda part: -part.drag_area_m2)
    heads = [say("{n} x {name}", n=str(part.count), name=_named(part.name)) for part in parts]
    names: list[Cell] = [
        _named(part.name) if part.count == 1 else head for part, head in zip(parts, heads, strict=True)
    ]
    columns = (
        Column("Part", (*names, "interference of the whole")),
        Column("Area", (*(_area(part.area_m2) for part in parts), ""), "area_m2"),
        Column("Coefficient", (*(_alone(part.part_coefficient) for part in parts), ""), short="CD"),
        Column(
            "Interference",
            (*(_factor(part.interference) for part in parts), _times(answer.whole_interference)),
            short="Interf.",
        ),
        Column("Drag area", (*(_bare("drag_area_m2", part.drag_area_m2) for part in parts), ""), "drag_area_m2"),
        Column("±", (*(_bare("drag_area_band_m2", part.drag_area_band_m2) for part in parts), "")),
        Column("Share of drag", (*(_share("drag_share", part.drag_share) for part in parts), ""), short="Drag"),
        Column(
            "Share of variance",
            (
                *(_share("variance_share", part.variance_share) for part in parts),
                _share("variance_share", answer.interference_variance_share),
            ),
            short="Variance",
        ),
    )
    dominant = say(
        "The band of CD0 comes most from: {part}. Wing area {area}, Reynolds number on the mean chord {reynolds}.",
        part=_named(answer.dominant),
        area=Value("area_m2", answer.area_m2),
        reynolds=_reynolds("reynolds", answer.reynolds),
    )
    return Table("Zero-lift drag, part by part", columns, (AREAS, dominant))


def _named(name: str) -> str:
    return name.replace("_", " ")


def _area(area_m2: float | None) -> Cell:
    return "" if area_m2 is None else Value("area_m2", area_m2, digits=3, bare=True)


def _bare(name: str, number: float) -> Cell:
    return Value(name, number, bare=True)


def _share(name: str, share: float) -> Cell:
    return Value(name, share, percent=True, decimals=0)


def _reynolds(name: str, number: float) -> Cell:
    return Value(name, round(number, -5), decimals=0)


def _alone(coefficient: float | None) -> Cell:
    return "given" if coefficient is None else Value("part_coefficient", coefficient, digits=2)


def _factor(factor: float) -> Cell:
    return Value("interference", factor, decimals=2)


def _times(factor: Uncertain) -> Cell:
    return Value("whole_interference", factor.value, decimals=2, error=factor.band)


def _lift(answer: DragAnswer) -> Iterator[list[Cell]]:
    lift = answer.lift
    for label, name in (
        ("largest lift of the section", "section_lift_max"),
        ("surface as built", "surface_factor"),
        ("planform and planes: between the first strip and all at their largest", "planform_factor"),
        ("fuselage across the wing", "fuselage_factor"),
    ):
        found: Uncertain = getattr(lift, name)
        yield [label, Value(name, found.value, decimals=3, error=found.band or None)]
    yield ["tail in trim", Value("trim_lift", lift.trim_lift, decimals=3, change=True)]
    yield [
        "greatest lift of the airplane",
        Value("lift_max", lift.lift_max.value, decimals=3, error=lift.lift_max.band),
    ]


def _first(answer: DragAnswer) -> Cell:
    return say(
        "The first strip to stall is at {place} of the semi-span of the {plane}; Reynolds number there {reynolds}.",
        place=Value("first_span_share", answer.lift.first_span_share, percent=True, decimals=0),
        plane="wing" if answer.lift.first_plane == "wing" else say("{plane} wing", plane=answer.lift.first_plane),
        reynolds=_reynolds("stall_reynolds", answer.stall_reynolds),
    )


def _rise(answer: DragAnswer) -> Iterator[list[Cell]]:
    for label, name in (
        ("induced drag of the planes together", "induced_drag_rise"),
        ("profile drag of the planes", "profile_drag_rise"),
        ("fuselage, tail and the rest", "other_drag_rise"),
    ):
        found: Uncertain = getattr(answer.efficiency, name)
        yield [label, Value(name, found.value, decimals=4, error=found.band)]


def _next(answer: DragAnswer) -> Next:
    stated = [KEYS[name] for name, one in answer.coefficients.items() if one.stated is not None]
    speeds = say("stall, climb and top speed with these, with {run}", run=Run("speeds"))
    if stated:
        return next_steps(speeds)
    other = Run("drag", "--set section.naca=4412")
    return next_steps(speeds, say("another section, with {run}", run=other))
