"""A file that holds a display alone: a gun line in words of timing, and what its builder fixes; no airplane."""

from __future__ import annotations

import math
from collections.abc import Collection  # noqa: TC003 - pydantic reads it
from typing import Annotated, Literal

from pydantic import ValidationInfo, field_validator

from sim.scenario.exhibit import ExhibitTable
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, told

TURN = 2.0 * math.pi
SHELF = "displays"


class TimingTable(ScenarioTable):
    """The timing that the display shows, at one speed of the propeller: no part of a gun is described."""

    speed_rad_s: Annotated[
        float, Given("rad/s", "speed of the real propeller", above=0.0, most=1000.0, example="1250 rpm")
    ]
    blades: Annotated[int, Count("blades of the propeller", most=6)]
    blocked_rad: Annotated[
        float, Given("rad", "turn in which a blade is in the line of fire", above=0.0, below=TURN, example="18 °")
    ]
    margin_rad: Annotated[
        float, Given("rad", "turn kept clear on each side of a blade", least=0.0, below=math.pi, example="3 °")
    ] = 0.0
    delay_s: Annotated[
        float, Given("s", "time from the move of the cam until a round passes", least=0.0, most=1.0, example="8.5 ms")
    ]
    action: Annotated[
        Literal["interrupter", "impulse"],
        ShortText(
            "interrupter: the cam holds back while a blade is in line; impulse: it lets each round go",
            ("interrupter", "impulse"),
        ),
    ] = "interrupter"
    windows: Annotated[
        int | None, Count("windows, or impulses, in a turn of the propeller; without it as many as blades", most=12)
    ] = None
    dwell_rad: Annotated[
        float | None,
        Given(
            "rad",
            "turn for which a window is open; without it the whole clear arc between two blades",
            least=0.0,
            most=TURN,
            example="60 °",
        ),
    ] = None
    opens_rad: Annotated[
        float | None,
        Given(
            "rad",
            "propeller angle at which a window opens, 0 with blade 1 in the line of fire; without it the best",
            least=-TURN,
            most=TURN,
            example="-10 °",
        ),
    ] = None

    @field_validator("opens_rad")
    @classmethod
    def _with_a_dwell(cls, opens_rad: float | None, info: ValidationInfo) -> float | None:
        if opens_rad is not None and info.data.get("dwell_rad") is None and info.data.get("action") != "impulse":
            told(("", "belongs to dwell, which is missing; give it, or leave this out"))
        return opens_rad


class DisplayFile(ScenarioTable):
    """A display that stands alone."""

    title: Annotated[str, ShortText("name of the display, for headings", example="Hand-turned display", most=80)]
    note: Annotated[str, ShortText("remark", example="for the entrance hall", most=1000)] = ""
    timing: TimingTable
    exhibit: ExhibitTable

    @field_validator("exhibit")
    @classmethod
    def _of_no_powerplant(cls, exhibit: ExhibitTable) -> ExhibitTable:
        if exhibit.powerplant is not None:
            told(("powerplant", "is one of an airplane, and this display stands alone; leave it out"))
        return exhibit

    @classmethod
    def foreign(cls, keys: Collection[str]) -> str | None:
        """Return that a file is an airplane's, by its tables."""
        return None if is_display(keys) else "is a scenario of an airplane, not of a display alone"


def is_display(keys: Collection[str]) -> bool:
    """Return whether a file with these keys holds a display alone: its timing, or no table of an airplane."""
    airplane = {"airplane", "powerplant", "wing", "gun", "known", "reading"}
    return bool({"timing", "exhibit"} & set(keys)) and not airplane & set(keys)
