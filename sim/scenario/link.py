"""The table of the link from cam to gun: what its delay is computed from, in times and angles."""

import math
from typing import Annotated, Literal

from pydantic import ValidationInfo, field_validator

from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.synchronizer.link import LinkKind

ANGLE = {"least": 0.0, "most": math.pi}


class LinkTable(ScenarioTable):
    """The link from cam to gun, from which its delay is computed, in place of link_delay in the table gun."""

    kind: Annotated[
        LinkKind,
        ShortText("rod in compression, shaft in torsion, or column of oil under pressure", ("rod", "shaft", "oil")),
    ]
    length_m: Annotated[float, Given("m", "length from cam to gun", least=0.0, most=20.0, example="5 ft")]
    material: Annotated[
        Literal["steel", "brass", "copper", "aluminium"],
        ShortText("material of rod or shaft, or of the pipe about the oil", ("steel", "brass", "copper", "aluminium")),
    ] = "steel"
    wave_speed_m_s: Annotated[
        float | None,
        Given(
            "m/s",
            "measured wave speed, in place of that computed from the rest",
            above=0.0,
            most=20000.0,
            example="1300 m/s",
        ),
    ] = None
    mass_ratio: Annotated[
        float,
        Given("1", "mass that the link moves at the gun, over its own mass", least=0.0, most=1000.0, example="0.3"),
    ] = 0.0
    follower_rise_rad: Annotated[
        float,
        Given(
            "rad", "propeller angle for which the cam lifts its follower until it is far enough", **ANGLE, example="2 °"
        ),
    ] = 0.0
    play_rad: Annotated[
        float,
        Given("rad", "propeller angle for which the cam moves no more than play, at most", **ANGLE, example="1 °"),
    ] = 0.0
    windup_rad: Annotated[
        float, Given("rad", "propeller angle for which the link only yields elastically", **ANGLE, example="1 °")
    ] = 0.0
    trigger_time_s: Annotated[
        float, Given("s", "time from the move of the link's end to release", least=0.0, most=1.0, example="0.3 ms")
    ] = 0.0
    oil_modulus_pa: Annotated[
        float | None, Given("Pa", "bulk modulus of the oil without air", above=0.0, most=1e10, example="1.5 GPa")
    ] = None
    oil_density_kg_m3: Annotated[
        float | None, Given("kg/m^3", "density of the oil", least=500.0, most=2000.0, example="870 kg/m^3")
    ] = None
    oil_pressure_pa: Annotated[
        float | None,
        Given("Pa", "absolute pressure that the reservoir keeps in the oil", least=1e4, most=1e8, example="60 psi"),
    ] = None
    air: Annotated[
        float | None,
        Given(
            "1",
            "volume of air bubbles at atmospheric pressure, over that of the oil",
            least=0.0,
            most=0.5,
            example="0.005",
        ),
    ] = None
    pipe_ratio: Annotated[
        float | None,
        Given("1", "bore of the oil pipe over the thickness of its wall", least=0.0, most=100.0, example="6"),
    ] = None
    leak_speed_rad_s: Annotated[
        float | None,
        Given(
            "rad/s",
            "propeller speed at and below which all the oil that the cam delivers leaks off, so that the gun never "
            "trips; 0 for none",
            least=0.0,
            most=1000.0,
            example="60 rpm",
        ),
    ] = None

    @field_validator("oil_modulus_pa", "oil_density_kg_m3", "oil_pressure_pa", "air", "pipe_ratio", "leak_speed_rad_s")
    @classmethod
    def _of_oil(cls, value: float | None, info: ValidationInfo) -> float | None:
        kind = info.data.get("kind")
        if value is not None and kind in ("rod", "shaft"):
            told(("", f'belongs to a link of kind oil, got "{kind}"; leave it out, or make it oil'))
        return value
