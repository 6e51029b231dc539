"""The tables of a powerplant: an engine, what turns in it, and its propeller."""

from collections.abc import Callable
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Discriminator, Field, Tag, ValidationInfo, field_validator

from sim.airframe.engine_position import MOST_MOVE_M
from sim.scenario.airframe import SHARE, TILT
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told

SPEED = {"above": 0.0, "most": 2000.0}
PART = {"above": 0.0, "most": 1000.0}
RADIUS = {"above": 0.0, "most": 5.0}
ONE_OR_NONE = {"least": 0.0, "most": 1000.0}
INERTIA = {"above": 0.0, "most": 1e4}


class PropellerTable(ScenarioTable):
    """A fixed-pitch propeller."""

    diameter_m: Annotated[float, Given("m", "from tip to tip", above=0.0, most=20.0, example="8 ft 6 in")]
    blades: Annotated[int, Count("number of blades, evenly spaced", least=2, most=8)]
    pitch_m: Annotated[
        float, Given("m", "geometric pitch: advance per revolution without slip", above=0.0, most=20.0, example="8 ft")
    ]
    efficiency: Annotated[
        float | None,
        Given(
            "1",
            "maximum efficiency, where measured; without it that of the blades",
            above=0.0,
            below=1.0,
            example="0.72",
        ),
    ] = None
    mass_kg: Annotated[float | None, Given("kg", "mass with its hub", **PART, example="35 lb")] = None
    polar_inertia_kg_m2: Annotated[
        float | None,
        Given(
            "kg m^2",
            "polar inertia, measured; without it estimated from mass and diameter",
            **INERTIA,
            example="4.5 kg m^2",
        ),
        Field(validate_default=True),
    ] = None
    arm_m: Annotated[
        float, Given("m", "disc ahead of the CG of the airplane", least=-20.0, most=20.0, example="4 ft")
    ] = 0.0
    station_m: Annotated[
        float | None, Given("m", "disc aft of the datum, for the balance", least=-100.0, most=100.0, example="0 in")
    ] = None
    blade_chord_m: Annotated[
        float | None,
        Given("m", "chord of the blade at the bore line, in place of that of the table gun", **RADIUS, example="5 in"),
    ] = None
    blade_thickness_m: Annotated[
        float | None,
        Given(
            "m",
            "thickness of the blade at the bore line, in place of that of the table gun",
            least=0.0,
            most=5.0,
            example="1 in",
        ),
    ] = None

    @field_validator("polar_inertia_kg_m2")
    @classmethod
    def _one_of_two(cls, inertia: float | None, info: ValidationInfo) -> float | None:
        if inertia is None and "mass_kg" in info.data and info.data["mass_kg"] is None:
            told(("", 'is missing: give it, as in "4.5 kg m^2", or mass'))
        return inertia


class PartsTable(ScenarioTable):
    """Pistons and rods of one engine, each cylinder alike."""

    piston_mass_kg: Annotated[float, Given("kg", "one piston with pin and rings", **PART, example="1.2 kg")]
    rod_mass_kg: Annotated[float, Given("kg", "one connecting rod", **PART, example="1.1 kg")]
    rod_length_m: Annotated[float, Given("m", "length of the rod between centres", **RADIUS, example="300 mm")]
    crank_radius_m: Annotated[
        float, Given("m", "crank radius, half the stroke", **RADIUS, short_of="rod_length_m", example="80 mm")
    ]
    rod_centre_share: Annotated[float, Given("1", "CG of the rod from the crankpin over its length", **SHARE)] = 0.35
    rod_gyration_share: Annotated[
        float, Given("1", "radius of gyration of the rod about its CG over its length", **SHARE)
    ] = 0.33


class RotaryPartsTable(PartsTable):
    """Rotating parts of a rotary: cylinders and crankcase about the shaft, pistons and rods about the crankpin."""

    cylinder_mass_kg: Annotated[
        float, Given("kg", "one cylinder with head, valves and its pipes", **PART, example="17 lb")
    ]
    cylinder_radius_m: Annotated[float, Given("m", "shaft axis to the CG of a cylinder", **RADIUS, example="14 in")]
    cylinder_length_m: Annotated[
        float, Given("m", "overall length of a cylinder", least=0.0, most=5.0, example="12 in")
    ] = 0.0
    cylinder_diameter_m: Annotated[
        float, Given("m", "diameter of a cylinder over the fins", least=0.0, most=5.0, example="6 in")
    ] = 0.0
    crankcase_mass_kg: Annotated[
        float, Given("kg", "crankcase with covers and all other rotating parts", **PART, example="84 lb")
    ]
    crankcase_radius_m: Annotated[
        float, Given("m", "outside radius of the crankcase as a ring", **RADIUS, example="9 in")
    ]
    crankcase_inner_radius_m: Annotated[
        float,
        Given("m", "inside radius of that ring", least=0.0, most=5.0, short_of="crankcase_radius_m", example="6 in"),
    ] = 0.0


class FixedPartsTable(PartsTable):
    """Rotating parts of a fixed engine: crankshaft, flywheel and accessories; its pistons reciprocate."""

    crankshaft_mass_kg: Annotated[float, Given("kg", "crankshaft with its flange", **PART, example="40 lb")]
    crankshaft_gyration_radius_m: Annotated[
        float, Given("m", "radius of gyration about the shaft axis", **RADIUS, example="1.8 in")
    ]
    flywheel_mass_kg: Annotated[float, Given("kg", "flywheel or starter ring", **ONE_OR_NONE, example="9 lb")] = 0.0
    flywheel_gyration_radius_m: Annotated[
        float, Given("m", "radius of gyration", least=0.0, most=5.0, example="5.5 in")
    ] = 0.0
    accessories_mass_kg: Annotated[
        float, Given("kg", "rotating parts of the accessories", **ONE_OR_NONE, example="4 lb")
    ] = 0.0
    accessories_gyration_radius_m: Annotated[
        float, Given("m", "radius of gyration", least=0.0, most=5.0, example="1.5 in")
    ] = 0.0
    accessories_ratio: Annotated[
        float,
        Given(
            "1",
            "speed of the accessories over shaft speed, negative in the opposite sense",
            least=-20.0,
            most=20.0,
            example="1",
        ),
    ] = 1.0


class PowerplantTable(ScenarioTable):
    """An engine with its propeller. Clockwise is as seen from the cockpit, looking forward."""

    kind: Annotated[
        Literal["rotary", "fixed"],
        ShortText("rotary: the cylinders turn with the propeller; fixed: they do not", ("rotary", "fixed")),
    ]
    rotation: Annotated[
        Literal["clockwise", "anticlockwise"],
        ShortText("sense of the engine shaft, from the cockpit looking forward", ("clockwise", "anticlockwise")),
    ]
    cylinders: Annotated[int, Count("number of cylinders", most=36, example=9)]
    power_w: Annotated[float, Given("W", "power at full speed at sea level", above=0.0, most=1e7)]
    speed_rad_s: Annotated[float, Given("rad/s", "full speed of the engine shaft", **SPEED)]
    cruise_speed_rad_s: Annotated[
        float, Given("rad/s", "speed at cruise", **SPEED, under="speed_rad_s", example="1150 rpm")
    ]
    idle_speed_rad_s: Annotated[
        float,
        Given(
            "rad/s",
            "idle speed, below cruise",
            **SPEED,
            short_of="cruise_speed_rad_s",
            example="500 rpm",
        ),
    ]
    gear_ratio: Annotated[
        float,
        Given(
            "1",
            "propeller speed over engine speed, negative where the gear reverses",
            least=-10.0,
            most=10.0,
            example="1",
        ),
    ] = 1.0
    friction_torque_n_m: Annotated[
        float, Given("N m", "resisting torque with the ignition cut", least=0.0, most=1e5, example="40 lbf ft")
    ] = 0.0
    windage_power_w: Annotated[
        float, Given("W", "windage loss of the engine at full speed", least=0.0, most=1e6, example="12 hp")
    ] = 0.0
    mass_kg: Annotated[float, Given("kg", "mass, dry, without the propeller", above=0.0, most=1e4)]
    station_m: Annotated[
        float | None, Given("m", "CG of the engine aft of the datum", least=-100.0, most=100.0, example="18 in")
    ] = None
    move_m: Annotated[
        float,
        Given(
            "m",
            "move aft of its station, with propeller and every item that moves with the engine; forward is negative",
            least=-MOST_MOVE_M,
            most=MOST_MOVE_M,
            example="-1 1/2 in",
        ),
    ] = 0.0
    shaft_tilt_rad: Annotated[float, Given("rad", "angle of the shaft to the x axis, nose up positive", **TILT)] = 0.0
    thrust_arm_m: Annotated[
        float, Given("m", "distance of the shaft below the CG of the airplane", least=-5.0, most=5.0, example="0 in")
    ] = 0.0
    propeller: PropellerTable
    parts: PartsTable | None = None
    polar_inertia_kg_m2: Annotated[
        float | None,
        Given(
            "kg m^2",
            "polar inertia of all rotating parts without the propeller, in place of the table parts",
            **INERTIA,
        ),
        Field(validate_default=True),
    ] = None

    @field_validator("gear_ratio")
    @classmethod
    def _turns(cls, ratio: float) -> float:
        if ratio == 0.0:
            told(("", 'must not be 0, got "0"'))
        return ratio

    @field_validator("polar_inertia_kg_m2")
    @classmethod
    def _known_one_way(cls, inertia: float | None, info: ValidationInfo) -> float | None:
        parts = info.data.get("parts", ...)  # ... where they are there and wrong
        if inertia is None and parts is None:
            told(("", 'is missing: give it, as in "22.5 kg m^2", or the table parts'))
        if inertia is not None and isinstance(parts, PartsTable):
            told(("", "must not be given beside the table parts, which says the same"))
        return inertia


def _only(kind: str) -> Callable[[dict[str, Any]], None]:
    """Return what narrows the schema of one kind of powerplant, so that a file fits one kind alone."""

    def narrow(schema: dict[str, Any]) -> None:
        schema["properties"]["kind"]["enum"] = [kind]

    return narrow


class RotaryTable(PowerplantTable):
    """A rotary engine with its propeller."""

    model_config = ConfigDict(json_schema_extra=_only("rotary"))

    parts: RotaryPartsTable | None = None


class FixedTable(PowerplantTable):
    """A fixed engine with its propeller."""

    model_config = ConfigDict(json_schema_extra=_only("fixed"))

    parts: FixedPartsTable | None = None


def _kind_of(raw: Any) -> str:  # noqa: ANN401
    """Return the tag of the table that fits, also where `kind` is wrong, so that its other keys are read."""
    if not isinstance(raw, dict):
        return f"<{type(raw).__name__}>" if isinstance(raw, PowerplantTable) else "<RotaryTable>"
    parts = raw.get("parts")
    fixed = "crankshaft_mass" in parts if isinstance(parts, dict) else False
    return "<FixedTable>" if raw.get("kind") == "fixed" or (raw.get("kind") != "rotary" and fixed) else "<RotaryTable>"


AnyPowerplant = Annotated[
    Annotated[RotaryTable, Tag("<RotaryTable>")] | Annotated[FixedTable, Tag("<FixedTable>")], Discriminator(_kind_of)
]
