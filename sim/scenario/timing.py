"""The tables of the timed gun besides its own: cam, link, scatter of a burst, and cooling."""

import math
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told

SCATTER = {"least": 0.0, "most": 0.1}
DELAY = {"least": 0.0, "most": 1.0}
CELSIUS = {"least": 150.0, "most": 600.0}


class CamTable(ScenarioTable):
    """A fixed cam, whose windows stay at the same propeller angles at every speed."""

    dwell_rad: Annotated[
        float,
        Given(
            "rad",
            "propeller angle for which the cam is open, once for each window; 0 for impulses",
            least=0.0,
            most=math.tau,
            example="60 °",
        ),
    ]
    opens_rad: Annotated[
        float | None,
        Given(
            "rad",
            "propeller angle at which the cam opens; without it the best one for all speeds of the first powerplant",
            least=-math.tau,
            most=math.tau,
            example="-10 °",
        ),
    ] = None
    opens_from: Annotated[
        Literal["bore line", "vertical"],
        ShortText(
            "where blade 1 is when that angle is 0: on the bore line, or straight up, which differs for an offset gun",
            ("bore line", "vertical"),
        ),
    ] = "bore line"
    windows: Annotated[
        list[Annotated[float, Given("rad", "where a window opens", least=0.0, most=24.0 * math.pi, example="130 °")]],
        Field(
            default_factory=list,
            max_length=24,
            description="Propeller angles at which windows at uneven angles open, counted from the first of them, in "
            "place of impulses_per_rev in the table gun.",
            json_schema_extra={"examples": [["0 °", "130 °"]]},
        ),
    ]
    turns: Annotated[
        int,
        Count("turns of the propeller after which those windows come again", most=12, example=2),
        Field(validate_default=True),
    ] = 1
    shaft: Annotated[
        Literal["propeller", "engine"],
        ShortText(
            "shaft in whose revolutions impulses_per_rev counts; they differ where the propeller is geared",
            ("propeller", "engine"),
        ),
    ] = "propeller"

    @field_validator("windows")
    @classmethod
    def _at_different_angles(cls, windows: list[float]) -> list[float]:
        if len(set(windows)) < len(windows):
            told(("", "must be at different angles"))
        return windows

    @field_validator("turns")
    @classmethod
    def _within_the_turns(cls, turns: int, info: ValidationInfo) -> int:
        windows = info.data.get("windows", [])
        if not windows and turns > 1:
            told(("", "belongs to windows, which are missing; give them, or leave it out"))
        if windows and max(windows) - min(windows) >= turns * math.tau:
            least = math.floor((max(windows) - min(windows)) / math.tau) + 1
            told(("", f'must be at least {least} for these windows, got "{turns}"'))
        return turns

    @field_validator("shaft")
    @classmethod
    def _of_even_windows(cls, shaft: str, info: ValidationInfo) -> str:
        if shaft == "engine" and info.data.get("windows"):
            told(("", "must be propeller where windows are given: they are propeller angles"))
        return shaft


class BurstTable(ScenarioTable):
    """Scatter from round to round, each as one standard deviation, and the length of bursts."""

    cycle_scatter_s: Annotated[
        float, Given("s", "scatter of the cycle time of the unsynchronized gun", **SCATTER, example="3 ms")
    ]
    link_scatter_s: Annotated[float, Given("s", "scatter of the link", **SCATTER, example="0.2 ms")] = 0.0
    lock_scatter_s: Annotated[float, Given("s", "scatter of lock and primer", **SCATTER, example="0.3 ms")] = 0.0
    barrel_scatter_s: Annotated[float, Given("s", "scatter of the time in the barrel", **SCATTER, example="0.1 ms")] = (
        0.0
    )
    flight_scatter_s: Annotated[
        float, Given("s", "scatter of the time of flight to the disc", **SCATTER, example="0.05 ms")
    ] = 0.0
    hang_share: Annotated[
        float, Given("1", "fraction of rounds that hang fire", least=0.0, most=0.5, example="0.0001")
    ] = 0.0
    hang_time_s: Annotated[
        float, Given("s", "mean additional delay of a round that hangs fire", **DELAY, example="20 ms")
    ] = 0.0
    speed_scatter: Annotated[
        float,
        Given(
            "1",
            "relative standard deviation of propeller speed from burst to burst",
            least=0.0,
            most=0.2,
            example="0.01",
        ),
    ] = 0.0
    speed_drift_per_s: Annotated[
        float,
        Given(
            "1/s",
            "relative change of propeller speed per second during a burst",
            least=-1.0,
            most=1.0,
            example="-0.02 1/s",
        ),
    ] = 0.0
    speed_ripple: Annotated[
        float,
        Given(
            "1",
            "greatest deviation of propeller speed within a turn, over its mean, as behind few cylinders",
            least=0.0,
            most=0.5,
            example="0.05",
        ),
    ] = 0.0
    ripple_per_rev: Annotated[
        int, Count("ripples of the speed in a revolution of the propeller", most=24, example=2)
    ] = 1
    ripple_peak_rad: Annotated[
        float,
        Given(
            "rad",
            "propeller angle at which a ripple is fastest, 0 with blade 1 on the bore line",
            least=-math.tau,
            most=math.tau,
            example="45 °",
        ),
    ] = 0.0
    guns: Annotated[int, Count("number of synchronized guns", most=2, example=1)] = 1
    rounds_per_burst: Annotated[int, Count("rounds in a burst", least=2, most=1000, example=20)] = 20
    rounds_per_sortie: Annotated[int, Count("rounds of one gun in a sortie", most=10000, example=500)] = 500


class WarmthTable(ScenarioTable):
    """A gun's receiver in the cold airstream, as one or two lumped masses."""

    mass_kg: Annotated[
        float, Given("kg", "mass of the outer part, in the airstream", above=0.0, most=100.0, example="12 lb")
    ]
    width_m: Annotated[
        float, Given("m", "width of the receiver across the airstream", above=0.0, most=1.0, example="4 in")
    ]
    length_m: Annotated[float, Given("m", "length of the receiver", above=0.0, most=5.0, example="18 in")]
    inner_mass_kg: Annotated[
        float,
        Given(
            "kg",
            "mass of the inner part, in contact with the outer one only; 0 for none",
            least=0.0,
            most=100.0,
            example="3 lb",
        ),
    ] = 0.0
    contact_conductance: Annotated[
        float,
        Given("1", "thermal conductance between the two parts, in watts per kelvin", above=0.0, most=1e4, example="6"),
    ] = 6.0
    start_k: Annotated[float, Given("K", "temperature at take-off", **CELSIUS, example="15 °C")]
    oil_stiff_k: Annotated[
        float, Given("K", "temperature at which the oil no longer flows", **CELSIUS, example="-18 °C")
    ]
    altitude_m: Annotated[float, Given("m", "height above sea level", least=-1000.0, most=11000.0, example="15000 ft")]
    speed_m_s: Annotated[float, Given("m/s", "true airspeed", above=0.0, most=340.0, example="95 mph")]
    cowl_speed_share: Annotated[
        float, Given("1", "air speed under a cowling over airspeed", above=0.0, most=1.0, example="0.15")
    ] = 0.15
    cowl_rise_k: Annotated[
        float, Given("K", "temperature rise of the air under the cowling", least=0.0, most=200.0, example="25 K")
    ] = 25.0
    heat_per_round_j: Annotated[
        float, Given("J", "heat left in the receiver by each round", least=0.0, most=1e5, example="150 J")
    ] = 0.0
    fire_rate_per_s: Annotated[
        float, Given("1/s", "mean rate of fire over the flight", least=0.0, most=100.0, example="40 rounds/min")
    ] = 0.0
    fit_width_m: Annotated[
        float,
        Given(
            "m",
            "diameter of a fit of steel in brass, to show the change of its clearance",
            least=0.0,
            most=0.5,
            example="1 in",
        ),
    ] = 0.0
