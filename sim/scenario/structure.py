"""The table of a scenario for the structure of the wing: category, speeds, spars, struts and wires, load cases."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told
from sim.scenario.shop import SIZE
from sim.units.text import in_both

THICK = {"above": 0.0, "most": 1.0}
SPEED = {"above": 0.0, "most": 300.0}


class StructureSparTable(ScenarioTable):
    """What a spar is made of."""

    section: Annotated[
        Literal["solid", "box", "I", "tube"],
        ShortText("solid rectangle, box with two webs, I with one, or round tube", ("solid", "box", "I", "tube")),
    ] = "solid"
    material: Annotated[str, ShortText("name in the table of materials", example="spruce", most=40)] = "spruce"
    depth_m: Annotated[
        float | None, Given("m", "depth; without it the greatest that fits into the wing", **THICK, example="4 in")
    ] = None
    width_m: Annotated[
        float | None, Given("m", "width; without it that of the table layout", **THICK, example="1 in")
    ] = None
    flange_m: Annotated[float | None, Given("m", "depth of each flange of a box or I", **THICK, example="3/4 in")] = (
        None
    )
    web_m: Annotated[float | None, Given("m", "thickness of each web", **THICK, example="1/8 in")] = None
    diameter_m: Annotated[float | None, Given("m", "outside diameter of a tube", **THICK, example="2 in")] = None
    wall_m: Annotated[float | None, Given("m", "wall of a tube", **THICK, example="0.058 in")] = None


class StructureMemberTable(ScenarioTable):
    """What all struts, ribs or wires of a kind are made of."""

    size: Annotated[
        str | None, ShortText("standard wire, by its name in the table of sizes", example="1/4-28 tie rod", most=40)
    ] = None
    count: Annotated[int, Count("wires side by side", least=1, most=4)] = 1
    tension_n: Annotated[
        float, Given("N", "rigging tension of all of them together", least=0.0, most=1e5, example="200 lbf")
    ] = 0.0
    material: Annotated[
        str | None, ShortText("of a strut: name in the table of materials", example="4130 normalised", most=40)
    ] = None
    diameter_m: Annotated[float | None, Given("m", "outside diameter of a tube", **THICK, example="1 in")] = None
    wall_m: Annotated[float | None, Given("m", "wall of a tube", **THICK, example="0.049 in")] = None
    chord_m: Annotated[
        float | None, Given("m", "width of a streamlined wooden strut along the flow", **THICK, example="3 1/4 in")
    ] = None
    thickness_m: Annotated[float | None, Given("m", "thickness of it", **THICK, example="1 1/4 in")] = None
    fixity: Annotated[
        float, Given("1", "of the ends of a strut: 1 hinged to 4 clamped", least=1.0, most=4.0, example="1")
    ] = 1.0
    eccentricity_m: Annotated[
        float, Given("m", "of the load at the ends of a strut", least=0.0, most=0.1, example="1/16 in")
    ] = 0.0
    pin_m: Annotated[float | None, Given("m", "diameter of the pin at each end", **THICK, example="1/4 in")] = None
    plate_m: Annotated[
        float | None, Given("m", "thickness of the plates that bear on a pin", **THICK, example="0.09 in")
    ] = None


class StructureCaseTable(ScenarioTable):
    """A load case of your own, besides those of the regulation."""

    load_factor: Annotated[
        float, Given("1", "lift of the airplane over its weight, up positive", least=-15.0, most=15.0, example="3.8")
    ]
    speed_m_s: Annotated[float, Given("m/s", "equivalent airspeed", **SPEED, example="120 mph")]
    inertia_factor: Annotated[
        float | None,
        Given("1", "acceleration of the wing upwards over that of gravity; else load_factor", example="3.8"),
    ] = None
    left_share: Annotated[
        float, Given("1", "factor on the air load of the left side", least=0.0, most=2.0, example="0.75")
    ] = 1.0
    right_share: Annotated[float, Given("1", "factor on that of the right side", least=0.0, most=2.0, example="1")] = (
        1.0
    )
    aileron_share: Annotated[
        float,
        Given("1", "ailerons over their travel, roll to the left positive", least=-1.0, most=1.0, example="-0.5"),
    ] = 0.0


class StructureTable(ScenarioTable):
    """The structure of the wing: what its load cases are, and what its members are made of."""

    category: Annotated[
        Literal["normal", "utility", "acrobatic"],
        ShortText("airworthiness category, whose load factors and speeds serve", ("normal", "utility", "acrobatic")),
    ] = "normal"
    load_factor: Annotated[
        float | None,
        Given("1", "limit manoeuvring load factor; else of the category", above=1.0, most=15.0, example="4"),
    ] = None
    negative_load_factor: Annotated[
        float | None, Given("1", "size of the negative one; else of the category", least=0.0, most=15.0, example="1.6")
    ] = None
    cruise_speed_m_s: Annotated[
        float | None,
        Given("m/s", "design speed VC, equivalent; else the least of the category", **SPEED, example="95 mph"),
    ] = None
    dive_speed_m_s: Annotated[float | None, Given("m/s", "design speed VD, likewise", **SPEED, example="140 mph")] = (
        None
    )
    wing_mass_kg: Annotated[
        float | None,
        Given(
            "kg",
            "mass of all planes with their bracing; else of the items of the group wings",
            least=0.0,
            most=1e4,
            example="218 lb",
        ),
    ] = None
    wing_cg: Annotated[
        float, Given("1", "centre of gravity of a plane, fraction of the chord", above=0.0, below=1.0, example="0.42")
    ] = 0.42
    plane_drag: Annotated[
        float, Given("1", "drag coefficient of the planes without lift", least=0.0, most=0.2, example="0.012")
    ] = 0.012
    pins: Annotated[
        Literal["faces", "axes"],
        ShortText(
            "of struts and wires outboard: on the faces of the spars, whose lever bends them, or where lines meet on "
            "their axes",
            ("faces", "axes"),
        ),
    ] = "faces"
    without: Annotated[
        list[Annotated[str, ShortText("name of a strut, rib or wire", example="front flying wire, left", most=80)]],
        Field(
            default_factory=list,
            max_length=20,
            description="Struts, ribs and wires left out: of both sides, or of one.",
            json_schema_extra={"examples": [["front flying wire, left"]]},
        ),
    ]
    compression_ribs: Annotated[
        list[Annotated[float, Given("m", "buttline of a compression rib", **SIZE, example="5 ft")]],
        Field(
            default_factory=list,
            max_length=20,
            description="Buttlines of compression ribs besides those at fittings and tips.",
            json_schema_extra={"examples": [["4 ft", "6 ft 6 in"]]},
        ),
    ]
    spar: Annotated[
        dict[str, StructureSparTable],
        Field(default_factory=dict, description="spars, by their names in the table layout"),
    ]
    member: Annotated[
        dict[str, StructureMemberTable],
        Field(
            default_factory=dict,
            description="struts and wires by kind: cabane_strut, interplane_strut, lift_strut, flying_wire, "
            "landing_wire, incidence_wire, cabane_wire, compression_rib, drag_wire",
        ),
    ]
    case: Annotated[
        dict[str, StructureCaseTable],
        Field(default_factory=dict, description="load cases besides those of the regulation, by a name of your own"),
    ]

    @field_validator("dive_speed_m_s")
    @classmethod
    def _above_cruise(cls, dive: float | None, info: ValidationInfo) -> float | None:
        cruise = info.data.get("cruise_speed_m_s")
        if dive is not None and cruise is not None and dive < cruise:
            least, came = in_both("speed_m_s", cruise), in_both("speed_m_s", dive)
            told(("", f'must be at least the cruise_speed of this table, {least}, got "{came}"'))
        return dive
