"""The tables of a scenario for drag and lift: the parts that drag, and what is given in the place of an estimate."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.aerodynamics.drag_kinds import GIVEN, KINDS, SIDES
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told

KIND_NAMES = (*KINDS, GIVEN)
SIDE = {"above": 0.0, "most": 100.0}
FACTOR = {"least": 0.5, "most": 5.0, "example": "1.1"}


class DragPartTable(ScenarioTable):
    """One part that drags, or several alike; the wing, the fuselage and the tail are counted from their own tables."""

    kind: Annotated[str, ShortText("kind of part", KIND_NAMES)]
    powerplant: Annotated[
        str | None, ShortText("engine with which it is fitted; without it, every one", example="rotary", most=40)
    ] = None
    count: Annotated[int, Count("how many of them; 0 for none", least=0, most=1000, example=4)] = 1
    length_m: Annotated[
        float | None, Given("m", "length of one, of wires the whole length of all", **SIDE, example="4 ft 8 in")
    ] = None
    width_m: Annotated[
        float | None, Given("m", "across the stream: diameter, thickness or width", **SIDE, example="1 1/4 in")
    ] = None
    height_m: Annotated[float | None, Given("m", "height across the stream", **SIDE, example="8 in")] = None
    diameter_m: Annotated[float | None, Given("m", "diameter of a wheel or a cowl", **SIDE, example="26 in")] = None
    coefficient: Annotated[
        float | None,
        Given(
            "1", "drag coefficient on the area of the kind, in the place of its own", above=0.0, most=3.0, example="0.1"
        ),
    ] = None
    interference: Annotated[
        float | None,
        Given("1", "drag in place over that of the part alone, in the place of that of the kind", **FACTOR),
    ] = None
    drag_area_m2: Annotated[
        float | None,
        Given("m^2", "drag over dynamic pressure of one, of kind given", above=0.0, most=100.0, example="0.4 ft^2"),
    ] = None


def _faults(name: str, part: DragPartTable) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Yield what a part lacks of its kind, and what does not belong to it."""
    needed: tuple[str, ...] = ("drag_area",) if part.kind == GIVEN else KINDS[part.kind].sides
    needs = " and ".join(needed)
    for key in (*SIDES, "drag_area"):
        there = getattr(part, f"{key}_m2" if key == "drag_area" else f"{key}_m") is not None
        if key in needed and not there:
            yield (name, key), f"is missing: a part of kind {part.kind} needs {needs}"
        if key not in needed and there:
            yield (name, key), f"does not belong to a part of kind {part.kind}, which needs {needs}"
    if part.kind == GIVEN and part.coefficient is not None:
        yield (name, "coefficient"), f"does not belong to a part of kind {GIVEN}, which needs {needs}"


_LISTED = "; ".join(
    f"{name}, {kind.meaning}, {kind.part_coefficient.value:g} on {' x '.join(kind.sides)}"
    for name, kind in KINDS.items()
)


class DragTable(ScenarioTable):
    """Drag polar CD = CD0 + CL² / (π e A); what is not given here is built up from the parts."""

    zero_lift: Annotated[
        float | None,
        Given("1", "CD0 on the wing area, propeller stopped out", above=0.0, most=1.0, example="0.042"),
    ] = None
    span_efficiency: Annotated[
        float | None, Given("1", "e of the equivalent monoplane", above=0.0, most=1.2, example="0.7")
    ] = None
    interference: Annotated[
        float, Given("1", "factor on the drag of all parts together: junctions, gaps, small things", **FACTOR)
    ] = 1.1
    fuselage: Annotated[
        Literal["flat-sided", "streamline"],
        ShortText("shape of the fuselage: flat-sided with edges, or streamline", ("flat-sided", "streamline")),
    ] = "flat-sided"
    part: Annotated[
        dict[str, DragPartTable],
        Field(
            default_factory=dict,
            description=f"Parts that drag, by a name of your own. Kinds, each with its drag coefficient: {_LISTED}.",
        ),
    ]

    @field_validator("part")
    @classmethod
    def _sides_of_their_kinds(cls, parts: dict[str, DragPartTable]) -> dict[str, DragPartTable]:
        faults = [fault for name, part in parts.items() for fault in _faults(name, part)]
        if faults:
            told(*faults)
        return parts


class LiftTable(ScenarioTable):
    """Lift of the whole airplane on the wing area."""

    max: Annotated[
        float | None,
        Given("1", "CL at the stall; else built up from the section", above=0.0, most=5.0, example="1.45"),
    ] = None
    zero: Annotated[
        float | None,
        Given("1", "CL with the x axis along the flow; else of the table section", least=-2.0, most=2.0, example="0.3"),
    ] = None

    @field_validator("zero")
    @classmethod
    def _below_the_stall(cls, zero: float | None, info: ValidationInfo) -> float | None:
        most = info.data.get("max")
        if most is not None and zero is not None and abs(zero) >= most:
            told(("", f'must be smaller than the max {most:g}, got "{zero:g}"'))
        return zero
