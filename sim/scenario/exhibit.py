"""The table of an inert interrupter display: what its builder fixes, and nothing of a gun."""

import math
import re
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.display.inert import OUTPUTS, refused_key, refused_output
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told

SIZE = {"above": 0.0, "most": 10.0}
FORCE = {"above": 0.0, "most": 1e4}


class ExhibitTable(ScenarioTable):
    """An inert display that visitors turn by hand: a scaled propeller, a cam, a roller follower, a lamp."""

    output: Annotated[
        str,
        ShortText(
            "what the follower operates: a light beam it breaks, or an enclosed lamp switch", OUTPUTS[:0], OUTPUTS[0]
        ),
    ] = "light beam"
    hardware: Annotated[
        Literal["metric", "inch"], ShortText("system of standard parts and stock", ("metric", "inch"))
    ] = "metric"
    place: Annotated[
        Literal["public", "workshop"],
        ShortText(
            "public where children from 3 years come, workshop for people of 14 and over", ("public", "workshop")
        ),
    ]
    powerplant: Annotated[
        str | None, ShortText("whose propeller the windows are for; without it the first", example="rotary")
    ] = None

    lobes: Annotated[int, Count("lobes of the cam", most=4)]
    law: Annotated[
        Literal["cycloidal", "3-4-5", "4-5-6-7", "modified sine", "modified trapezoid", "simple harmonic"] | None,
        ShortText(
            "law of motion of the cam; without it the best is sought",
            ("cycloidal", "3-4-5", "4-5-6-7", "modified sine", "modified trapezoid", "simple harmonic"),
        ),
    ] = None
    rise_rad: Annotated[
        float | None,
        Given("rad", "cam angle of a rise; without it sought", above=0.0, below=math.pi, example="24 °"),
    ] = None
    base_radius_m: Annotated[
        float | None,
        Given(
            "m",
            "radius with the follower down; without it the smallest is sought",
            **SIZE,
            example="38 mm",
        ),
    ] = None
    lift_m: Annotated[float, Given("m", "lift of the roller", **SIZE, example="6 mm")]
    cam_thickness_m: Annotated[float, Given("m", "width over which roller and cam touch", **SIZE, example="5 mm")]
    cam_material: Annotated[
        Literal["steel", "brass", "aluminium", "acetal", "birch plywood"],
        ShortText("material of the cam", ("steel", "brass", "aluminium", "acetal", "birch plywood")),
    ]
    cam_space_m: Annotated[float, Given("m", "largest circle the cam may sweep", above=0.0, most=0.4, example="120 mm")]
    shaft_diameter_m: Annotated[
        float, Given("m", "diameter of the shaft", **SIZE, under="cam_space_m", example="10 mm")
    ]
    cutter_diameter_m: Annotated[float, Given("m", "diameter of the milling cutter", **SIZE, example="6 mm")]
    switch_setting_m: Annotated[
        float, Given("m", "setting error of the lamp switch", least=0.0, most=0.01, example="0.1 mm")
    ]

    follower: Annotated[
        Literal["translating", "swinging"],
        ShortText("a roller on a slide, or on an arm", ("translating", "swinging")),
    ]
    roller_diameter_m: Annotated[float, Given("m", "diameter of the roller", **SIZE, example="13 mm")]
    offset_m: Annotated[
        float,
        Given("m", "offset of a slide from the cam's centre, right positive", least=-1.0, most=1.0, example="0 mm"),
    ] = 0.0
    arm_m: Annotated[
        float | None,
        Given("m", "pivot to roller, needed for an arm", **SIZE, example="60 mm"),
        Field(validate_default=True),
    ] = None
    pivot_m: Annotated[
        float | None,
        Given("m", "pivot to the cam's centre, needed for an arm", **SIZE, example="75 mm"),
        Field(validate_default=True),
    ] = None

    preload_n: Annotated[float, Given("N", "spring force with the follower down", **FORCE, example="4 N")]
    spring_rate_n_per_m: Annotated[
        float, Given("N/m", "spring rate asked for", above=0.0, most=1e6, example="0.5 N/mm")
    ]
    spring_diameter_space_m: Annotated[float, Given("m", "room round the spring", **SIZE, example="12 mm")]
    spring_length_space_m: Annotated[float, Given("m", "room along the unloaded spring", **SIZE, example="40 mm")]

    propeller_diameter_m: Annotated[float, Given("m", "diameter of the scaled propeller", **SIZE, example="24 in")]
    propeller_mass_kg: Annotated[float, Given("kg", "mass of the scaled propeller", **SIZE, example="0.4 kg")]
    propeller_speed_rad_s: Annotated[
        float, Given("rad/s", "highest speed of the scaled propeller", above=0.0, most=2000.0, example="60 rpm")
    ]
    drive: Annotated[
        Literal["crank", "motor"], ShortText("a hand crank, or a geared motor with a slip clutch", ("crank", "motor"))
    ]
    gear_ratio: Annotated[
        float, Given("1", "turns of the propeller in a turn of crank or motor", above=0.0, most=100.0, example="1")
    ] = 1.0
    crank_radius_m: Annotated[float, Given("m", "distance from shaft to grip", **SIZE, example="80 mm")]
    crank_height_m: Annotated[float, Given("m", "crank shaft above the floor", **SIZE, example="900 mm")]
    handle_force_n: Annotated[float, Given("N", "largest force at the grip", **FORCE, example="22 N")] = 22.2
    friction_torque_n_m: Annotated[
        float,
        Given("N m", "friction of all bearings at the propeller shaft", least=0.0, most=100.0, example="0.02 N m"),
    ]

    guard_shape: Annotated[
        Literal["slot", "square", "round"], ShortText("shape of the openings in the guard", ("slot", "square", "round"))
    ]
    guard_opening_m: Annotated[float, Given("m", "width, side or diameter of an opening", **SIZE, example="8 mm")]
    guard_distance_m: Annotated[float, Given("m", "from the guard to the nearest moving part", **SIZE, example="60 mm")]
    blade_gap_m: Annotated[float, Given("m", "gap from the blade tips to what stands still", **SIZE, example="30 mm")]
    stops_on_opening: Annotated[
        Literal["yes", "no"], ShortText("whether opening the guard stops the display at once", ("yes", "no"))
    ] = "no"

    lamp_voltage_v: Annotated[float, Given("V", "voltage of the lamp", above=0.0, most=1e4, example="12 V")]
    lamp_supply: Annotated[Literal["ac", "dc"], ShortText("supply of the lamp", ("ac", "dc"))] = "dc"
    placard_ink: Annotated[str, ShortText("colour of the text of the placard", example="#1a1a1a")] = "#1a1a1a"
    placard_paper: Annotated[str, ShortText("colour of the paper of the placard", example="#ffffff")] = "#ffffff"

    @classmethod
    def unknown(cls, key: str) -> str | None:
        """Return why a key that names a part of a working gun is refused, None for any other."""
        return refused_key(key)

    @field_validator("output")
    @classmethod
    def _only_a_lamp(cls, output: str) -> str:
        refused = refused_output(output)
        if refused:
            told(("", refused[0].what))
        return output

    @field_validator("arm_m", "pivot_m")
    @classmethod
    def _an_arm_has_both(cls, length: float | None, info: ValidationInfo) -> float | None:
        if length is None and info.data.get("follower") == "swinging":
            told(("", "is missing: a swinging follower needs it"))
        return length

    @field_validator("placard_ink", "placard_paper")
    @classmethod
    def _a_colour(cls, colour: str) -> str:
        if not re.fullmatch("#[0-9a-fA-F]{6}", colour):
            told(("", f'must be a colour as in "#1a1a1a", got "{colour}"'))
        return colour
