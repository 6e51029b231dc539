"""The table of a scenario for the flight condition of the studies."""

from typing import Annotated, Literal

from sim.scenario.fields import Given, ScenarioTable, ShortText


class FlightTable(ScenarioTable):
    """The flight condition of the studies, and what the air does in flights that are followed in time."""

    speed_m_s: Annotated[float, Given("m/s", "true airspeed", above=0.0, most=340.0)]
    altitude_m: Annotated[
        float, Given("m", "height above sea level, standard atmosphere", least=-1000.0, most=20000.0, example="1000 ft")
    ]
    air: Annotated[
        Literal["strips", "linear"],
        ShortText("air loads past the stall: strips that stall one by one, or linear, bounded", ("strips", "linear")),
    ] = "strips"
