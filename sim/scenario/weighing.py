"""The tables of a weighing: supports, scale readings, attitudes."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from sim.airframe.weighing_data import ALIKE_RAD
from sim.errors import one_of
from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.scenario.shop import MASS, STATION
from sim.units.convert import INCH_M

OFF_CENTRE_M = INCH_M
"""A support farther than this from the plane of symmetry stand beside it."""


class SupportTable(ScenarioTable):
    """Where a wheel, skid or jack stands, airplane level."""

    station_m: Annotated[float, Given("m", "station, aft of the datum", **STATION, example="35 in ± 1/16 in")]
    buttline_m: Annotated[float, Given("m", "right of the plane of symmetry", **STATION, example="30 in")] = 0.0
    waterline_m: Annotated[float, Given("m", "height of the contact", **STATION, example="0 in")] = 0.0
    radius_m: Annotated[
        float | None,
        Given(
            "m",
            "of the wheel, from axle to contact, for it stands under its axle at every attitude; 0 for a skid or jack; "
            "needed where an attitude is not level",
            least=0.0,
            most=1.5,
            example="13 in",
        ),
    ] = None


class ScaleReadingTable(ScenarioTable):
    """The reading of one scale at one attitude."""

    attitude: Annotated[str, ShortText("name of the attitude", example="level", most=40)]
    support: Annotated[str, ShortText("name of the support", example="left", most=40)]
    scale_kg: Annotated[float, Given("kg", "scale reading, tare included", **MASS, example="560 lb ± 1 lb")]
    tare_kg: Annotated[float, Given("kg", "tare: chocks and stands on the scale", **MASS, example="0 lb")] = 0.0


class WeighingTable(ScenarioTable):
    """A weighing: positions of the supports, attitudes of the airplane, and scale readings."""

    aboard: Annotated[
        list[Annotated[str, ShortText("a group", example="pilot", most=40)]],
        Field(default_factory=list, description="Groups aboard besides the empty airplane: pilot, fuel."),
    ]
    powerplant: Annotated[
        str | None,
        ShortText(
            "engine on the scales; without it that of the table balance as the file has it, whatever is set, else the "
            "first",
            example="flat_four",
            most=40,
        ),
    ] = None
    pilot_kg: Annotated[
        float | None,
        Given("kg", "weight of the pilot aboard; without it as listed", above=0.0, most=300.0, example="185 lb"),
    ] = None
    engine_move_m: Annotated[
        float,
        Given("m", "where the engine stood, aft of its stations", least=-3.0, most=3.0, example="-1 in"),
    ] = 0.0
    support: Annotated[
        dict[str, SupportTable], Field(min_length=1, description="Wheels and skid, by a name of your own.")
    ]
    attitude: Annotated[
        dict[
            str,
            Annotated[
                float, Given("rad", "pitch attitude, nose up positive", least=-1.0, most=1.0, example="11.5 ° ± 0.1 °")
            ],
        ],
        Field(min_length=1, description="Pitch of each attitude, by a name of your own."),
    ]
    reading: Annotated[list[ScaleReadingTable], Field(min_length=1, description="One for each support and attitude.")]

    @field_validator("support")
    @classmethod
    def _on_both_sides(cls, supports: dict[str, SupportTable]) -> dict[str, SupportTable]:
        off = {name: row.buttline_m for name, row in supports.items() if abs(row.buttline_m) > OFF_CENTRE_M}
        if len(off) > 1 and (min(off.values()) > 0.0 or max(off.values()) < 0.0):
            side = "right" if min(off.values()) > 0.0 else "left"
            what = f"must not put {' and '.join(off)} all on one side, {side} of the plane of symmetry; left of it a"
            told(((next(iter(off)), "buttline"), f"{what} buttline is negative"))
        return supports

    @field_validator("attitude")
    @classmethod
    def _with_radii(cls, attitudes: dict[str, float], info: ValidationInfo) -> dict[str, float]:
        tilted = next((name for name, pitch_rad in attitudes.items() if abs(pitch_rad) >= ALIKE_RAD), None)
        bare = [name for name, row in info.data.get("support", {}).items() if row.radius_m is None]
        if tilted and bare:
            keys = ", ".join(f"support.{name}.radius" for name in bare)
            what = f"{tilted} is not level, so {keys} must be given: the radius of the wheel, 0 in for a skid or jack"
            told(("", what))
        return attitudes

    @field_validator("reading")
    @classmethod
    def _of_known_supports(cls, readings: list[ScaleReadingTable], info: ValidationInfo) -> list[ScaleReadingTable]:
        for number, reading in enumerate(readings, start=1):
            for key in ("support", "attitude"):
                known, came = info.data.get(key), getattr(reading, key)
                if known is not None and came not in known:
                    told(("", f"{key} of number {number} {one_of(known, came)}"))
        return readings
