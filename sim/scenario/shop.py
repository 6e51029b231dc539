"""The tables of a scenario for the shop: items, balance, weighing, wing section and layout."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from pydantic import Field, ValidationInfo, field_validator

from sim.errors import InputError, one_of
from sim.scenario.airframe import LENGTH
from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable

STATION = {"least": -100.0, "most": 100.0}
SIZE = {"least": 0.0, "most": 100.0}
MASS = {"least": 0.0, "most": 1e5}
Coordinate = Annotated[float, Field(ge=-1e6, le=1e6, allow_inf_nan=False)]
CHORDWISE = {"least": -1.0, "most": 2.0}


class ItemTable(ScenarioTable):
    """One item with mass; engines and propellers are counted from their own tables."""

    name: Annotated[str, ShortText("what it is", example="fuselage frame", most=60)]
    group: Annotated[
        str, ShortText("what it belongs to; pilot and fuel are not of the empty airplane", example="wings", most=40)
    ]
    mass_kg: Annotated[
        float | None, Given("kg", "without it the group's share in past builds serves", **MASS, example="92 lb ± 3 lb")
    ] = None
    station_m: Annotated[float, Given("m", "its CG aft of the datum", **STATION, example="45 in ± 1 in")]
    waterline_m: Annotated[float, Given("m", "its CG up", **STATION, example="40 in")] = 0.0
    buttline_m: Annotated[float, Given("m", "its CG right of the middle", **STATION, example="0 in")] = 0.0
    length_m: Annotated[float, Given("m", "fore and aft, as a box", **SIZE, example="15 ft")] = 0.0
    width_m: Annotated[float, Given("m", "across, as a box", **SIZE, example="28 ft")] = 0.0
    height_m: Annotated[float, Given("m", "up and down, as a box", **SIZE, example="3 ft")] = 0.0
    moves_with_engine: Annotated[bool, Field(strict=True, description="it moves fore and aft with the engine")] = False
    powerplant: Annotated[
        str | None, ShortText("the engine that it goes with; without it, every one", example="rotary", most=40)
    ] = None


class PastTable(ScenarioTable):
    """A finished airplane of the kind, for the share of empty weight that a group takes."""

    name: Annotated[str, ShortText("which one", example="first replica", most=60)]
    empty_mass_kg: Annotated[float, Given("kg", "its empty mass", above=0.0, most=1e5, example="905 lb")]
    group: Annotated[
        dict[str, Annotated[float, Given("kg", "mass of the group", **MASS, example="37 lb")]],
        Field(min_length=1, description="Mass of some of its groups."),
    ]


class BalanceTable(ScenarioTable):
    """Limits of the centre of gravity and who flies; a place on the mean chord is a share, as in 0.25 or "25 %"."""

    forward_limit: Annotated[float, Given("1", "foremost CG, share of the mean chord", **CHORDWISE, example="0.22")]
    aft_limit: Annotated[float, Given("1", "aftmost CG, share of the mean chord", **CHORDWISE, example="0.33")]
    target: Annotated[
        float | None,
        Given("1", "loaded CG wanted, share of the mean chord; without it, midway", **CHORDWISE, example="0.28"),
    ] = None
    powerplant: Annotated[
        str | None, ShortText("the engine to balance with; without it, the first", example="flat_four", most=40)
    ] = None
    lower_efficiency: Annotated[
        float, Given("1", "lift of a lower plane for its area beside the top one's", above=0.0, most=2.0, example="0.9")
    ] = 1.0
    pilot_lightest_kg: Annotated[
        float | None, Given("kg", "with parachute and clothes", above=0.0, most=300.0, example="140 lb")
    ] = None
    pilot_heaviest_kg: Annotated[
        float | None, Given("kg", "with parachute and clothes", above=0.0, most=300.0, example="220 lb")
    ] = None
    ballast_station_m: Annotated[
        float | None, Given("m", "where tail ballast would hang", **STATION, example="17 ft")
    ] = None
    thrust_line_m: Annotated[float, Given("m", "waterline of engine and propeller", **STATION, example="40 in")] = 0.0

    @field_validator("aft_limit")
    @classmethod
    def _behind_the_forward_one(cls, aft: float, info: ValidationInfo) -> float:
        forward = info.data.get("forward_limit")
        if forward is not None and aft <= forward:
            told(("", f'must be above the forward_limit {forward:g}, got "{aft:g}"'))
        return aft

    @field_validator("pilot_heaviest_kg")
    @classmethod
    def _no_lighter_than_the_lightest(cls, heaviest: float | None, info: ValidationInfo) -> float | None:
        lightest = info.data.get("pilot_lightest_kg")
        if heaviest is not None and lightest is not None and heaviest < lightest:
            least, came = brief("mass_kg", lightest), brief("mass_kg", heaviest)
            told(("", f'must be at least the pilot_lightest {least}, got "{came}"'))
        return heaviest


class SupportTable(ScenarioTable):
    """Where a wheel or skid stands, the airplane level."""

    station_m: Annotated[float, Given("m", "aft of the datum", **STATION, example="35 in")]
    buttline_m: Annotated[float, Given("m", "right of the middle", **STATION, example="30 in")] = 0.0
    waterline_m: Annotated[float, Given("m", "up", **STATION, example="0 in")] = 0.0


class ScaleReadingTable(ScenarioTable):
    """The reading of one scale at one attitude."""

    attitude: Annotated[str, ShortText("which one", example="level", most=40)]
    support: Annotated[str, ShortText("which wheel or skid", example="left", most=40)]
    scale_kg: Annotated[float, Given("kg", "before tare", **MASS, example="560 lb ± 1 lb")]
    tare_kg: Annotated[float, Given("kg", "chocks and stands on the scale", **MASS, example="0 lb")] = 0.0


class WeighingTable(ScenarioTable):
    """A weighing: places of the supports, attitudes of the airplane, and scale readings."""

    aboard: Annotated[
        list[Annotated[str, ShortText("a group", example="pilot", most=40)]],
        Field(default_factory=list, description="Groups aboard besides the empty airplane: pilot, fuel."),
    ]
    powerplant: Annotated[
        str | None, ShortText("the engine that was in it; without it, the balance's", example="flat_four", most=40)
    ] = None
    support: Annotated[
        dict[str, SupportTable], Field(min_length=1, description="Wheels and skid by a name of your own.")
    ]
    attitude: Annotated[
        dict[str, Annotated[float, Given("rad", "nose up from level", least=-1.0, most=1.0, example="11.5 °")]],
        Field(min_length=1, description="Pitch of each attitude by a name of your own."),
    ]
    reading: Annotated[list[ScaleReadingTable], Field(min_length=1, description="One for each support and attitude.")]

    @field_validator("reading")
    @classmethod
    def _of_known_supports(cls, readings: list[ScaleReadingTable], info: ValidationInfo) -> list[ScaleReadingTable]:
        for number, reading in enumerate(readings, start=1):
            for key in ("support", "attitude"):
                known, came = info.data.get(key), getattr(reading, key)
                if known is not None and came not in known:
                    told(("", f"{key} of number {number} {one_of(known, came)}"))
        return readings


class WingSectionTable(ScenarioTable):
    """The airfoil of the wing: a NACA number or a plain list of points."""

    naca: Annotated[str | None, ShortText("four or five digits", example="2412", most=10)] = None
    points: Annotated[
        list[tuple[Coordinate, Coordinate]] | None,
        Field(
            description="x, y from the trailing edge over the top to the leading edge and back below, in any one unit."
        ),
    ] = None

    @field_validator("naca")
    @classmethod
    def _digits(cls, naca: str | None) -> str | None:
        if naca is not None:
            from sim.airframe.section import digits

            _tell(lambda: digits(naca))
        return naca

    @field_validator("points")
    @classmethod
    def _outline(
        cls, points: list[tuple[float, float]] | None, info: ValidationInfo
    ) -> list[tuple[float, float]] | None:
        from sim.airframe.section import outline

        if points is not None and info.data.get("naca") is not None:
            told(("", "must not be given beside naca: one of the two says what the section is"))
        if points is not None:
            _tell(lambda: outline(points))
        return points


def _tell(attempt: Callable[[], object]) -> None:
    """Turn a fault that the physics raises into one of this key."""
    try:
        attempt()
    except InputError as error:
        told(("", error.faults[0].what))


class LayoutSparTable(ScenarioTable):
    """A spar to be fitted into the section."""

    name: Annotated[str, ShortText("front or rear", example="front", most=20)]
    fraction: Annotated[float, Given("1", "its middle, share of the chord", above=0.0, below=1.0, example="0.15")]
    width_m: Annotated[float, Given("m", "along the chord", above=0.0, most=1.0, example="1 in")]
    cap_m: Annotated[float, Given("m", "rib cap above and below it", least=0.0, most=0.1, example="1/4 in")] = 0.0
    cover_m: Annotated[float, Given("m", "ply, fabric and tape", least=0.0, most=0.1, example="1/16 in")] = 0.0


class LayoutTable(ScenarioTable):
    """Where the wing stands on the fuselage; waterlines from any level, the same as the items'."""

    leading_edge_m: Annotated[
        float, Given("m", "station of the lowest plane's leading edge at the middle", **STATION, example="40 in")
    ]
    leading_edge_waterline_m: Annotated[float, Given("m", "its waterline", **STATION, example="22 in")] = 0.0
    root_buttline_m: Annotated[float, Given("m", "root fittings and longerons", **LENGTH, example="13 in")] = 0.0
    cabane_buttline_m: Annotated[float, Given("m", "cabane fittings of the top plane", **SIZE, example="22 in")] = 0.0
    strut_buttline_m: Annotated[float, Given("m", "interplane struts", **SIZE, example="9 ft")] = 0.0
    upper_longeron_m: Annotated[float, Given("m", "its waterline", **STATION, example="50 in")] = 0.0
    lower_longeron_m: Annotated[float, Given("m", "its waterline", **STATION, example="24 in")] = 0.0
    spar: Annotated[list[LayoutSparTable], Field(default_factory=list, description="Spars from front to rear.")]
