"""The table of a scenario for the layout: where the wing stands on the fuselage, its spars, struts and bracing."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.scenario.airframe import LENGTH
from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.scenario.shop import SIZE, STATION
from sim.units.text import in_both


class LayoutSparTable(ScenarioTable):
    """A spar to be fitted into the section."""

    name: Annotated[str, ShortText("front or rear", example="front", most=20)]
    fraction: Annotated[
        float, Given("1", "position of its middle, fraction of the chord", above=0.0, below=1.0, example="0.15")
    ]
    width_m: Annotated[float, Given("m", "width along the chord", above=0.0, most=1.0, example="1 in")]
    cap_m: Annotated[
        float, Given("m", "thickness of the rib cap above and below the spar", least=0.0, most=0.1, example="1/4 in")
    ] = 0.0
    cover_m: Annotated[
        float, Given("m", "thickness of the cover: plywood, fabric and tape", least=0.0, most=0.1, example="1/16 in")
    ] = 0.0


class LayoutTable(ScenarioTable):
    """Position of the wing on the fuselage; waterlines from any level, the same as that of the items."""

    leading_edge_m: Annotated[
        float,
        Given(
            "m", "station of the leading edge of the lowest plane at the plane of symmetry", **STATION, example="40 in"
        ),
    ]
    leading_edge_waterline_m: Annotated[
        float, Given("m", "waterline of that leading edge", **STATION, example="22 in")
    ] = 0.0
    root_buttline_m: Annotated[
        float, Given("m", "buttline of root fittings and longerons", **LENGTH, example="13 in")
    ] = 0.0
    cabane_buttline_m: Annotated[
        float, Given("m", "buttline of the cabane fittings of the top plane", **SIZE, example="22 in")
    ] = 0.0
    strut_buttline_m: Annotated[
        float,
        Given(
            "m", "buttline of the interplane or lift struts, of the outermost with several bays", **SIZE, example="9 ft"
        ),
    ] = 0.0
    inner_struts: Annotated[
        list[Annotated[float, Given("m", "buttline of the interplane struts of an inner bay", **SIZE, example="5 ft")]],
        Field(
            default_factory=list,
            max_length=4,
            description="Buttlines of the interplane struts of the bays inside strut_buttline.",
            json_schema_extra={"examples": [["5 ft"]]},
        ),
    ]
    strut_splay_m: Annotated[
        float,
        Given(
            "m",
            "distance from plane to plane by which the foot of an interplane strut stands inboard of its head",
            least=-10.0,
            most=10.0,
            example="6 in",
        ),
    ] = 0.0
    interplane_struts: Annotated[
        Literal["pair", "N"],
        ShortText("pair: one at each spar; N: with a diagonal from the front head to the rear foot", ("pair", "N")),
    ] = "pair"
    cabane_struts: Annotated[
        Literal["pair", "N"],
        ShortText("pair: one at each spar; N: with a diagonal from the front head to the rear foot", ("pair", "N")),
    ] = "pair"
    cabane_foot_buttline_m: Annotated[
        float | None,
        Given("m", "buttline of the feet of the cabane struts; without it root_buttline", **SIZE, example="11 in"),
    ] = None
    cabane_feet: Annotated[
        list[Annotated[float, Given("m", "station of the foot of a cabane strut", **STATION, example="40 in")]],
        Field(
            default_factory=list,
            max_length=4,
            description="Stations of the feet of the cabane struts, one for each spar, or one for all; without them "
            "each foot stands square under its fitting.",
            json_schema_extra={"examples": [["40 in", "70 in"]]},
        ),
    ]
    bracing: Annotated[
        Literal["wires", "lift_struts", "none"] | None,
        ShortText(
            "wires between the lowest and the top plane; lift_struts of a monoplane; none: cantilever. Without it, "
            "and with a strut_buttline, wires with two planes or more, lift_struts with one",
            ("wires", "lift_struts", "none"),
        ),
    ] = None
    lift_feet: Annotated[
        list[Annotated[float, Given("m", "station of the foot of a lift strut", **STATION, example="55 in")]],
        Field(
            default_factory=list,
            max_length=4,
            description="Stations of the feet of the lift struts, one for each spar, or one for all, a V; without them "
            "each foot stands square under its fitting.",
            json_schema_extra={"examples": [["55 in"]]},
        ),
    ]
    upper_longeron_m: Annotated[float, Given("m", "waterline of the upper longeron", **STATION, example="50 in")] = 0.0
    lower_longeron_m: Annotated[
        float, Given("m", "waterline of the lower longeron", **STATION, under="upper_longeron_m", example="24 in")
    ] = 0.0
    spar: Annotated[list[LayoutSparTable], Field(default_factory=list, description="Spars from front to rear.")]

    @field_validator("inner_struts")
    @classmethod
    def _inside_the_outermost(cls, inner: list[float], info: ValidationInfo) -> list[float]:
        outermost_m = info.data.get("strut_buttline_m")
        if outermost_m is not None and inner and max(inner) >= outermost_m:
            most, came = in_both("strut_buttline_m", outermost_m), in_both("strut_buttline_m", max(inner))
            told(("", f'must be inside strut_buttline, {most}, got "{came}"'))
        if len(set(inner)) < len(inner):
            told(("", "must be at different buttlines"))
        return inner
