"""The sheet of `whirlgate wings`: the planes together, then each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.wings import PlaneLoad, WingsAnswer
    from viz.sheets.blocks import Block, Cell

TOGETHER = (
    ("Lift slope", "lift_slope_per_rad"),
    ("Lift slope over that of the planes far apart", "interference_factor"),
    ("Angle of attack without lift", "zero_lift_deg"),
    ("Aerodynamic centre from the datum", "aerodynamic_centre_m"),
    ("Span factor k (Munk)", "span_factor"),
    ("Induced drag factor 1/k²", "induced_factor"),
    ("Roll damping, for a unit of p b/2V", "roll_damping_per_rad"),
    ("Dihedral effect, for a radian of dihedral of every plane", "dihedral_effect_per_rad2"),
    ("Downwash slope at the point", "downwash_slope"),
)
DIGITS = {"span_factor": 4, "induced_factor": 4}
SPACE = (
    "Coefficients on the area of all planes, {area}, and the largest span, {span}.",
    "Vortex lattice of the planes alone: attached flow, small angles, straight wakes; no body, propeller or stall.",
)
SECTIONS = (
    "Planes of infinite span: coefficients on the sum of their chords.",
    "Flat plates alone: attached flow, small angles; no body, propeller or stall.",
)
NOTES = ("Share: of the lift that angle of attack adds. Lift at zero angle: with the datum along the stream.",)
NEXT = next_steps(say("{run}, the derivatives that the bundled airplane flies with", run=Run("derivatives")))


def sheet(answer: WingsAnswer) -> Iterator[Block]:
    """Yield the planes together and one by one."""
    lines: list[tuple[str, Cell]] = [
        (head, _value(name, number)) for head, name in TOGETHER if (number := getattr(answer, name)) is not None
    ]
    yield rows("The planes together", ("Quantity", "Value"), lines, *_notes(answer))
    yield _each(answer.planes)
    yield NEXT


def _value(name: str, number: float) -> Value:
    return Value(name, number, digits=DIGITS.get(name), signed=name == "aerodynamic_centre_m")


def _notes(answer: WingsAnswer) -> tuple[Cell, ...]:
    if answer.area_m2 is None:
        return SECTIONS
    spans = [plane.span_m for plane in answer.planes if plane.span_m is not None]
    slots: dict[str, Cell] = {"area": Value("area_m2", answer.area_m2), "span": Value("span_m", max(spans))}
    return say(SPACE[0], **slots), SPACE[1]


def _each(planes: tuple[PlaneLoad, ...]) -> Table:
    def column(head: str, name: str, quantity: str = "") -> Column:
        cells = tuple(Value(name, getattr(plane, name), bare=bool(quantity)) for plane in planes)
        return Column(head, cells, quantity)

    spans = [column("Span", "span_m", "span_m")] if planes[0].span_m is not None else []
    shares = (Value("share", plane.share, percent=True, decimals=1) for plane in planes)
    centres = (Value("aerodynamic_centre_m", plane.aerodynamic_centre_m, signed=True) for plane in planes)
    columns = (
        Column("Plane", tuple(str(number) for number, _ in enumerate(planes, 1))),
        *spans,
        column("Chord", "chord_m", "chord_m"),
        column("Lift slope", "lift_slope_per_rad", "lift_slope_per_rad"),
        Column("Share of lift", tuple(shares)),
        column("Lift coefficient at zero angle", "lift_at_zero"),
        Column("Aerodynamic centre", tuple(centres)),
    )
    return Table("Each plane, on its own area", columns, NOTES)
