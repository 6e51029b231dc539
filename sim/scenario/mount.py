"""The tables of the engine mount: where it stands, its bolts, and its tubes."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator, model_validator

from sim.errors import one_of
from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.units.text import in_both

PLACE = {"least": -10.0, "most": 10.0}
THICK = {"above": 0.0, "most": 0.5}
SIDE = {"above": 0.0, "most": 5.0}
STIFF = {"above": 0.0, "most": 1e9}


class BoltTable(ScenarioTable):
    """One bolt through the firewall, measured from the point where the shaft axis meets it."""

    right_m: Annotated[float, Given("m", "to the right, from the cockpit", **PLACE, example="9 in")]
    up_m: Annotated[float, Given("m", "above the shaft axis", **PLACE, example="-7 in")]
    diameter_m: Annotated[float, Given("m", "diameter of the shank", **THICK, example="3/8 in")]
    thread_pitch_m: Annotated[
        float | None,
        Given("m", "pitch of its thread; else a sixth of the diameter", above=0.0, most=0.02, example="1/24 in"),
    ] = None

    @field_validator("thread_pitch_m")
    @classmethod
    def _leaves_a_core(cls, pitch: float | None, info: ValidationInfo) -> float | None:
        diameter = info.data.get("diameter_m")
        if pitch is not None and diameter is not None and pitch > 0.5 * diameter:
            half, came = in_both("thread_pitch_m", 0.5 * diameter), in_both("thread_pitch_m", pitch)
            told(("", f'must be at most half the diameter, {half}, got "{came}"'))
        return pitch


class NodeTable(ScenarioTable):
    """A joint of mount tubes, measured from the point where the shaft axis meets the firewall."""

    ahead_m: Annotated[float, Given("m", "ahead of the firewall", **PLACE, example="0 in")]
    right_m: Annotated[float, Given("m", "to the right, from the cockpit", **PLACE, example="9 in")]
    up_m: Annotated[float, Given("m", "above the shaft axis", **PLACE, example="-7 in")]
    held: Annotated[
        Literal["airframe", "engine", "free"],
        ShortText(
            "airframe: held at the firewall; engine: at the engine; free: joins tubes only",
            ("airframe", "engine", "free"),
        ),
    ] = "free"


class TubeTable(ScenarioTable):
    """A round tube of the mount between two nodes."""

    start: Annotated[str, ShortText("node at one end", example="upper_left", most=40)]
    end: Annotated[str, ShortText("node at the other end", example="lug_left", most=40)]
    diameter_m: Annotated[float, Given("m", "outside diameter", **THICK, example="7/8 in")]
    wall_m: Annotated[float, Given("m", "wall thickness", **THICK, example="0.049 in")]

    @field_validator("wall_m")
    @classmethod
    def _fits(cls, wall: float, info: ValidationInfo) -> float:
        diameter = info.data.get("diameter_m")
        if diameter is not None and 2.0 * wall > diameter:
            half, came = in_both("wall_m", 0.5 * diameter), in_both("wall_m", wall)
            told(("", f'must be at most half the diameter, {half}, got "{came}"'))
        return wall


class HungTable(ScenarioTable):
    """Total mass on the mount with one powerplant, in place of the items that move with the engine."""

    mass_kg: Annotated[
        float | None,
        Given("kg", "mass of engine, propeller and all else on the mount", above=0.0, most=1e4, example="420 lb"),
    ] = None
    ahead_m: Annotated[
        float | None, Given("m", "its CG ahead of the firewall, engine as drawn", **PLACE, example="14 in")
    ] = None
    up_m: Annotated[float | None, Given("m", "its CG above the shaft axis", **PLACE, example="-1 in")] = None
    length_m: Annotated[
        float | None,
        Given("m", "of the engine alone along the shaft, for its inertia on isolators", **SIDE, example="30 in"),
    ] = None
    width_m: Annotated[float | None, Given("m", "of the engine alone, likewise", **SIDE, example="32 in")] = None
    height_m: Annotated[float | None, Given("m", "of the engine alone, likewise", **SIDE, example="23 in")] = None


class IsolatorsTable(ScenarioTable):
    """Elastic isolators, one at each node that the engine holds, all alike; stiffnesses are of each one."""

    vertical_stiffness_n_per_m: Annotated[
        float | None, Given("N/m", "up and down, of each isolator", **STIFF, example="1200 lbf/in")
    ] = None
    deflection_m: Annotated[
        float | None,
        Given(
            "m",
            "mean of all isolators under the weight on the mount, in place of vertical_stiffness",
            above=0.0,
            most=0.1,
            example="1/16 in",
        ),
    ] = None
    fore_aft_stiffness_n_per_m: Annotated[
        float | None, Given("N/m", "fore and aft; else as up and down", **STIFF, example="2400 lbf/in")
    ] = None
    side_stiffness_n_per_m: Annotated[
        float | None, Given("N/m", "sideways; else as up and down", **STIFF, example="1200 lbf/in")
    ] = None
    source: Annotated[str, ShortText("where these come from", example="data sheet of the isolators", most=120)] = ""

    @model_validator(mode="after")
    def _one_of_two(self) -> "IsolatorsTable":
        if (self.vertical_stiffness_n_per_m is None) is (self.deflection_m is None):
            told(("", "must have one of vertical_stiffness and deflection"))
        return self


class ClearanceTable(ScenarioTable):
    """A point of the engine that comes near the airframe, measured from where the shaft axis meets the firewall."""

    ahead_m: Annotated[float, Given("m", "ahead of the firewall, engine as drawn", **PLACE, example="20 in")]
    right_m: Annotated[float, Given("m", "to the right, from the cockpit", **PLACE, example="15 in")]
    up_m: Annotated[float, Given("m", "above the shaft axis", **PLACE, example="2 in")]
    clearance_m: Annotated[
        float, Given("m", "clearance in any direction, engine hanging at rest", above=0.0, most=1.0, example="3/4 in")
    ]


class MountTable(ScenarioTable):
    """The engine mount; nodes and bolts are measured from the point where the shaft axis meets the firewall."""

    powerplant: Annotated[
        str | None,
        ShortText(
            "engine that hangs on this mount; without it that of the table balance", example="flat_four", most=40
        ),
    ] = None
    firewall_m: Annotated[
        float | None, Given("m", "station of the firewall, aft of the datum", least=-100.0, most=100.0, example="34 in")
    ] = None
    load_factor: Annotated[float, Given("1", "limit manoeuvring load factor", above=0.0, most=15.0, example="3.8")] = (
        3.8
    )
    side_factor: Annotated[
        float | None, Given("1", "sideways limit load factor", above=0.0, most=10.0, example="1.33")
    ] = None
    material: Annotated[
        str, ShortText("of the tubes: name in the table of materials", example="4130 welded", most=40)
    ] = "mild steel"
    bolt_material: Annotated[
        str, ShortText("of the bolts: name in the table of materials", example="bolt steel", most=40)
    ] = "bolt steel"
    modulus_pa: Annotated[
        float | None,
        Given("Pa", "Young's modulus of the tubes; else that of material", above=0.0, most=1e12, example="205 GPa"),
    ] = None
    yield_strength_pa: Annotated[
        float | None,
        Given(
            "Pa",
            "of the tubes, as welded, in place of all strengths of material",
            above=0.0,
            most=1e10,
            example="435 MPa",
        ),
    ] = None
    bolt: Annotated[
        dict[str, BoltTable],
        Field(default_factory=dict, description="bolts through the firewall, by a name of your own"),
    ]
    node: Annotated[
        dict[str, NodeTable], Field(default_factory=dict, description="joints of tubes, by a name of your own")
    ]
    tube: Annotated[
        dict[str, TubeTable], Field(default_factory=dict, description="tubes of the mount, by a name of your own")
    ]
    hung: Annotated[dict[str, HungTable], Field(default_factory=dict, description="masses on the mount, by powerplant")]
    isolators: IsolatorsTable | None = None
    clearance: Annotated[
        dict[str, ClearanceTable],
        Field(default_factory=dict, description="where the engine comes near the airframe, by a name of your own"),
    ]

    @field_validator("tube")
    @classmethod
    def _between_nodes(cls, tubes: dict[str, TubeTable], info: ValidationInfo) -> dict[str, TubeTable]:
        nodes = info.data.get("node")
        ends = [((name, key), getattr(tube, key)) for name, tube in tubes.items() for key in ("start", "end")]
        wrong = [] if nodes is None else [(at, one_of(nodes, end)) for at, end in ends if end not in nodes]
        wrong += [((name, "end"), "must be another node than start") for name, t in tubes.items() if t.start == t.end]
        if wrong:
            told(*wrong)
        return tubes
