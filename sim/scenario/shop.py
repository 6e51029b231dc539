"""The tables of a scenario for the shop: items and balance."""

from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.units.text import in_both

STATION = {"least": -100.0, "most": 100.0}
SIZE = {"least": 0.0, "most": 100.0}
MASS = {"least": 0.0, "most": 1e5}
CHORDWISE = {"least": -1.0, "most": 2.0}


class ItemTable(ScenarioTable):
    """One item with mass; engines and propellers are counted from their own tables."""

    name: Annotated[str, ShortText("name of the item", example="fuselage frame", most=60)]
    group: Annotated[
        str,
        ShortText(
            "group of items; pilot, passenger, baggage and fuel are loads, any other is part of the empty airplane",
            example="wings",
            most=40,
        ),
    ]
    mass_kg: Annotated[
        float | None,
        Given("kg", "mass; without it from the share of its group in past builds", **MASS, example="92 lb ± 3 lb"),
    ] = None
    station_m: Annotated[float, Given("m", "CG of the item aft of the datum", **STATION, example="45 in ± 1 in")]
    waterline_m: Annotated[float, Given("m", "CG of the item, height", **STATION, example="40 in")] = 0.0
    buttline_m: Annotated[
        float, Given("m", "CG of the item right of the plane of symmetry", **STATION, example="0 in")
    ] = 0.0
    length_m: Annotated[
        float, Given("m", "length of the box that stands for the item, fore and aft", **SIZE, example="15 ft")
    ] = 0.0
    width_m: Annotated[float, Given("m", "width of that box", **SIZE, example="28 ft")] = 0.0
    height_m: Annotated[float, Given("m", "height of that box", **SIZE, example="3 ft")] = 0.0
    moves_with_engine: Annotated[bool, Field(strict=True, description="whether the item moves with the engine")] = False
    move_m: Annotated[
        float,
        Given(
            "m",
            "move aft of its station since the airplane was weighed, or in place of its station; forward is negative",
            **STATION,
            example="-6 in",
        ),
    ] = 0.0
    added: Annotated[
        bool,
        Field(
            strict=True,
            description="whether the item joined the airplane after the weighing: it was not on the scales, and counts "
            "with its listed mass",
        ),
    ] = False
    powerplant: Annotated[
        str | None, ShortText("engine with which the item is fitted; without it, every one", example="rotary", most=40)
    ] = None


class PastTable(ScenarioTable):
    """A finished airplane of similar kind, for the share of its groups in the empty weight."""

    name: Annotated[str, ShortText("name of the airplane", example="first replica", most=60)]
    empty_mass_kg: Annotated[float, Given("kg", "empty mass", above=0.0, most=1e5, example="905 lb")]
    group: Annotated[
        dict[str, Annotated[float, Given("kg", "mass of the group", **MASS, example="37 lb")]],
        Field(min_length=1, description="Mass of some groups."),
    ]


class BalanceTable(ScenarioTable):
    """Limits of the CG, as fractions of the mean chord (0.25 or "25 %"), and the range of pilots."""

    forward_limit: Annotated[
        float, Given("1", "forward limit of the CG, fraction of the mean chord", **CHORDWISE, example="0.22")
    ]
    aft_limit: Annotated[
        float, Given("1", "aft limit of the CG, fraction of the mean chord", **CHORDWISE, example="0.33")
    ]
    target: Annotated[
        float | None,
        Given(
            "1", "target of the loaded CG, fraction of the mean chord; without it midway", **CHORDWISE, example="0.28"
        ),
    ] = None
    powerplant: Annotated[
        str | None, ShortText("engine to balance with; without it the first", example="flat_four", most=40)
    ] = None
    lower_efficiency: Annotated[
        float,
        Given(
            "1",
            "lift per area of every plane below the top one over that of the top one",
            above=0.0,
            most=2.0,
            example="0.9",
        ),
    ] = 1.0
    pilot_lightest_kg: Annotated[
        float | None, Given("kg", "lightest pilot, with parachute and clothes", above=0.0, most=300.0, example="140 lb")
    ] = None
    pilot_heaviest_kg: Annotated[
        float | None, Given("kg", "heaviest pilot, with parachute and clothes", above=0.0, most=300.0, example="220 lb")
    ] = None
    ballast_station_m: Annotated[float | None, Given("m", "station of tail ballast", **STATION, example="17 ft")] = None
    ballast: Annotated[
        dict[str, Annotated[float, Given("m", "station of ballast", **STATION, example="4 in")]],
        Field(default_factory=dict, description="Stations of other places for ballast, by a name of your own."),
    ]
    thrust_line_m: Annotated[float, Given("m", "waterline of engine and propeller", **STATION, example="40 in")] = 0.0

    @field_validator("aft_limit")
    @classmethod
    def _behind_the_forward_one(cls, aft: float, info: ValidationInfo) -> float:
        forward = info.data.get("forward_limit")
        if forward is not None and aft <= forward:
            told(("", f'must be above the forward_limit {100.0 * forward:.4g} %, got "{100.0 * aft:.4g} %"'))
        return aft

    @field_validator("target")
    @classmethod
    def _within_the_limits(cls, target: float | None, info: ValidationInfo) -> float | None:
        forward, aft = info.data.get("forward_limit"), info.data.get("aft_limit")
        if target is not None and forward is not None and aft is not None and not forward <= target <= aft:
            ends = f"from the forward_limit {100.0 * forward:.4g} % to the aft_limit {100.0 * aft:.4g} %"
            told(("", f'must be {ends}, got "{100.0 * target:.4g} %"'))
        return target

    @field_validator("pilot_heaviest_kg")
    @classmethod
    def _no_lighter_than_the_lightest(cls, heaviest: float | None, info: ValidationInfo) -> float | None:
        lightest = info.data.get("pilot_lightest_kg")
        if heaviest is not None and lightest is not None and heaviest < lightest:
            least, came = in_both("mass_kg", lightest), in_both("mass_kg", heaviest)
            told(("", f'must be at least the pilot_lightest {least}, got "{came}"'))
        return heaviest
