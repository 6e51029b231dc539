"""The tables of the timed gun besides its own: the cam, the link, what scatters in a burst, and the cold."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from sim.scenario.fields import Count, Given, ScenarioTable, ShortText

SCATTER = {"least": 0.0, "most": 0.1}
DELAY = {"least": 0.0, "most": 1.0}
CELSIUS = {"least": 150.0, "most": 600.0}


class CamTable(ScenarioTable):
    """A cam that is cut once, so that its windows stay at the same propeller angles whatever the speed."""

    dwell_rad: Annotated[
        float, Given("rad", "turn of the propeller for which it lets go", above=0.0, most=math.tau, example="60 °")
    ]
    opens_rad: Annotated[
        float | None,
        Given(
            "rad",
            "propeller angle at which it opens, 0 with blade 1 on the bore line; left out, the best one is taken",
            least=-math.tau,
            most=math.tau,
            example="-10 °",
        ),
    ] = None


class LinkTable(ScenarioTable):
    """What the link from cam to gun is made of; the rest of the gun table's link_delay is its trigger motor's."""

    kind: Annotated[
        Literal["rod", "shaft", "oil"],
        ShortText("rod pushed, shaft twisted, or column of oil pressed", ("rod", "shaft", "oil")),
    ]
    length_m: Annotated[float, Given("m", "from cam to gun", least=0.0, most=20.0, example="5 ft")]
    wave_speed_m_s: Annotated[
        float | None,
        Given(
            "m/s", "of a push through it where it is not the kind's own", above=0.0, most=20000.0, example="1300 m/s"
        ),
    ] = None
    follower_rise_s: Annotated[
        float, Given("s", "until the cam has lifted its follower", **DELAY, example="0.2 ms")
    ] = 0.0
    windup_s: Annotated[float, Given("s", "until play and yielding are taken up", **DELAY, example="0.3 ms")] = 0.0


class BurstTable(ScenarioTable):
    """What scatters from round to round, each as one standard deviation, and how bursts are fired."""

    cycle_scatter_s: Annotated[float, Given("s", "of the gun's own cycle", **SCATTER, example="3 ms")]
    link_scatter_s: Annotated[float, Given("s", "of the link", **SCATTER, example="0.2 ms")] = 0.0
    lock_scatter_s: Annotated[float, Given("s", "of the lock and primer", **SCATTER, example="0.3 ms")] = 0.0
    barrel_scatter_s: Annotated[float, Given("s", "of the time in the barrel", **SCATTER, example="0.1 ms")] = 0.0
    flight_scatter_s: Annotated[float, Given("s", "of the flight to the disc", **SCATTER, example="0.05 ms")] = 0.0
    hang_share: Annotated[
        float, Given("1", "share of rounds whose primer hangs", least=0.0, most=0.5, example="0.0001")
    ] = 0.0
    hang_time_s: Annotated[float, Given("s", "by how long it does on the average", **DELAY, example="20 ms")] = 0.0
    speed_scatter: Annotated[
        float, Given("1", "of the propeller speed from burst to burst, as a share", least=0.0, most=0.2, example="0.01")
    ] = 0.0
    speed_drift_per_s: Annotated[
        float,
        Given("1/s", "change of speed in a burst, as a share in a second", least=-1.0, most=1.0, example="-0.02 1/s"),
    ] = 0.0
    guns: Annotated[int, Count("guns that fire through the disc, each timed alike", most=2, example=1)] = 1
    rounds_per_burst: Annotated[int, Count("rounds in a burst", least=2, most=1000, example=20)] = 20


class WarmthTable(ScenarioTable):
    """A gun's receiver in the cold airstream, as one or two lumps of metal."""

    mass_kg: Annotated[float, Given("kg", "of the part in the airstream", above=0.0, most=100.0, example="12 lb")]
    width_m: Annotated[float, Given("m", "across, against the wind", above=0.0, most=1.0, example="4 in")]
    length_m: Annotated[float, Given("m", "along its axis", above=0.0, most=5.0, example="18 in")]
    inner_mass_kg: Annotated[
        float,
        Given(
            "kg",
            "of the part inside, which only the outer one touches; 0 for none",
            least=0.0,
            most=100.0,
            example="3 lb",
        ),
    ] = 0.0
    contact_conductance: Annotated[
        float, Given("1", "heat that passes between the two, watts per kelvin", above=0.0, most=1e4, example="6")
    ] = 6.0
    start_k: Annotated[float, Given("K", "temperature when it leaves the shed", **CELSIUS, example="15 °C")]
    oil_stiff_k: Annotated[
        float, Given("K", "temperature at which the oil no longer flows", **CELSIUS, example="-18 °C")
    ]
    altitude_m: Annotated[float, Given("m", "height above sea level", least=-1000.0, most=11000.0, example="15000 ft")]
    speed_m_s: Annotated[float, Given("m/s", "true airspeed", above=0.0, most=340.0, example="95 mph")]
    cowl_speed_share: Annotated[
        float, Given("1", "air speed under a cowling over airspeed", above=0.0, most=1.0, example="0.15")
    ] = 0.15
    cowl_rise_k: Annotated[
        float, Given("K", "by how much the engine warms the air there", least=0.0, most=200.0, example="25 K")
    ] = 25.0
    heat_per_round_j: Annotated[
        float, Given("J", "left in the receiver by a round", least=0.0, most=1e5, example="150 J")
    ] = 0.0
    fire_rate_per_s: Annotated[
        float, Given("1/s", "mean rate of fire over the whole time", least=0.0, most=100.0, example="40 rounds/min")
    ] = 0.0
    fit_width_m: Annotated[
        float,
        Given("m", "across a fit of two metals, to show how clearance changes", least=0.0, most=0.5, example="1 in"),
    ] = 0.0
