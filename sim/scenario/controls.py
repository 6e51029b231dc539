"""The table of the controls in the cockpit: how far grip and pedals go from stop to stop, and their friction."""

from typing import Annotated

from sim.scenario.fields import Given, ScenarioTable

REACH = {"above": 0.0, "most": 2.0}
HELD = {"least": 0.0, "most": 500.0}


class ControlsTable(ScenarioTable):
    """Travel and friction of stick and pedals; without a key its estimate serves."""

    stick_travel_m: Annotated[
        float | None,
        Given("m", "travel of the grip from full forward to full back", **REACH, example="16 in"),
    ] = None
    stick_side_travel_m: Annotated[
        float | None, Given("m", "travel of the grip from full left to full right", **REACH, example="16 in")
    ] = None
    pedal_travel_m: Annotated[
        float | None, Given("m", "travel of a pedal from full forward to full back", **REACH, example="8 in")
    ] = None
    stick_friction_n: Annotated[
        float | None, Given("N", "force at the grip within which nothing moves", **HELD, example="2 lbf")
    ] = None
    pedal_friction_n: Annotated[
        float | None, Given("N", "force at a pedal within which nothing moves", **HELD, example="4 lbf")
    ] = None
