"""The table of the line of fire: the gun, its delays, and the blades at the bore line."""

import math
from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, field_validator

from sim.scenario.fields import Given, ScenarioTable, ShortText, told
from sim.scenario.powerplant import RADIUS

DELAY = {"least": 0.0, "most": 1.0}


class BladeStationTable(ScenarioTable):
    """The blade at one radius."""

    radius_m: Annotated[float, Given("m", "distance from the shaft axis", **RADIUS, example="20 in")]
    chord_m: Annotated[float, Given("m", "chord of the blade at that radius", **RADIUS, example="7 in")]
    thickness_m: Annotated[
        float, Given("m", "thickness of the blade at that radius", least=0.0, most=1.0, example="1 in")
    ]


class GunTable(ScenarioTable):
    """One fixed line of fire through the propeller disc, and how its release is timed."""

    bore_radius_m: Annotated[
        float, Given("m", "height of the bore line above the shaft axis, at the disc", **RADIUS, example="16 in")
    ]
    blade_chord_m: Annotated[
        float,
        Given(
            "m",
            "chord at that radius of every propeller that gives none, whose thrust and power in flight follow it",
            **RADIUS,
            example="7 in",
        ),
    ]
    blade_thickness_m: Annotated[
        float, Given("m", "thickness of the blade at that radius", least=0.0, most=1.0, example="1 1/8 in")
    ] = 0.0
    blade_pitch_m: Annotated[
        float | None,
        Given(
            "m",
            "geometric pitch of the blade at that radius, in place of that of the propeller",
            **RADIUS,
            example="8 ft",
        ),
    ] = None
    bullet_diameter_m: Annotated[float, Given("m", "diameter of the round", least=0.0, most=0.1, example="0.31 in")]
    offset_m: Annotated[
        float, Given("m", "muzzle to the right of the shaft axis", least=-5.0, most=5.0, example="0 in")
    ] = 0.0
    converge_m: Annotated[
        float | None,
        Given(
            "m",
            "distance ahead of the muzzle at which an offset bore line crosses the plane of symmetry",
            above=0.0,
            most=5000.0,
            example="200 yd",
        ),
    ] = None
    blade_flex_m: Annotated[
        float, Given("m", "deflection of a blade in the plane of the disc", least=0.0, most=0.5, example="1/4 in")
    ] = 0.0
    planform: Annotated[
        list[BladeStationTable],
        Field(default_factory=list, description="The blade along its radius, in place of chord and thickness."),
    ]
    margin_rad: Annotated[
        float, Given("rad", "angle kept clear on each side of a blade", least=0.0, below=math.pi, example="3 °")
    ]
    lock_time_s: Annotated[float, Given("s", "time from release to ignition", **DELAY)]
    barrel_time_s: Annotated[float, Given("s", "time from ignition to muzzle", **DELAY, example="1.5 ms")]
    muzzle_speed_m_s: Annotated[float, Given("m/s", "speed of the round", above=0.0, most=5000.0, example="2440 ft/s")]
    muzzle_to_disc_m: Annotated[
        float, Given("m", "from muzzle to disc along the bore line", least=0.0, most=20.0, example="4 ft")
    ]
    link_delay_s: Annotated[
        float | None,
        Given("s", "measured time from cam to lock; a table link goes before it", **DELAY, example="1 ms"),
    ] = None
    natural_rate_per_s: Annotated[float, Given("1/s", "rate of fire of the unsynchronized gun", above=0.0, most=1000.0)]
    action: Annotated[
        Literal["interrupter", "impulse"],
        ShortText(
            "interrupter: the cam prevents release while a blade is in line; impulse: the cam releases each round",
            ("interrupter", "impulse"),
        ),
    ]
    impulses_per_rev: Annotated[
        float | None,
        Given(
            "1",
            "impulses, or windows of an interrupter, per revolution of the propeller: a whole number, or a ratio such "
            "as 1/2 for one in two revolutions; without it as many as blades",
            above=0.0,
            most=12.0,
            example="2",
        ),
    ] = None

    @field_validator("impulses_per_rev")
    @classmethod
    def _a_ratio(cls, impulses: float | None) -> float | None:
        if impulses is not None and abs(float(Fraction(impulses).limit_denominator(12)) - impulses) > 1e-6 * impulses:
            told(("", f'must be a whole number, or a ratio of whole numbers as in "1/2", got "{impulses:g}"'))
        return impulses


class SecondGunTable(ScenarioTable):
    """A second gun, fired with the first through a line of its own; what it leaves out it has in common with it."""

    bore_radius_m: Annotated[
        float | None,
        Given("m", "height of its bore line above the shaft axis, at the disc", **RADIUS, example="16 in"),
    ] = None
    offset_m: Annotated[
        float | None,
        Given("m", "its muzzle to the right of the shaft axis", least=-5.0, most=5.0, example="6 in"),
    ] = None
    converge_m: Annotated[
        float | None,
        Given(
            "m",
            "distance ahead of the muzzle at which its bore line crosses the plane of symmetry",
            above=0.0,
            most=5000.0,
            example="200 yd",
        ),
    ] = None
    opens_rad: Annotated[
        float | None,
        Given(
            "rad",
            "propeller angle at which its cam opens, counted as that of the first",
            least=-math.tau,
            most=math.tau,
            example="-10 °",
        ),
    ] = None
    link_delay_s: Annotated[
        float | None, Given("s", "time from cam to lock of its own link", **DELAY, example="1.5 ms")
    ] = None
