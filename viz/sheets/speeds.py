"""The sheet of `whirlgate speeds`: a column for each powerplant that can hold level flight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, remarks, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.speeds import SpeedsAnswer
    from viz.sheets.blocks import Block, Cell

CONDITIONS = (
    "True airspeeds, wings level, ball centred, still air. Stall: without the lift of the thrust. Lift-off: 1.1 times "
    "the stalling speed. Cruise and top speed: level flight at full throttle, throttled back where the engine "
    "would exceed its cruise speed or its full speed."
)
ROWS = (
    ("stall", "stall_m_s"),
    ("lift-off", "liftoff_m_s"),
    ("speed of best climb", "best_climb_m_s"),
    ("rate of climb", "climb_rate_m_s"),
    ("cruise", "cruise_m_s"),
    ("top speed", "top_m_s"),
)
"""Label of a row -> field of the speeds."""


def sheet(answer: SpeedsAnswer) -> Iterator[Block]:
    """Yield the speeds, and why a powerplant has none."""
    title = say(
        "{title} at {mass} and {altitude}",
        title=answer.title,
        mass=Value("mass_kg", answer.mass_kg, digits=4),
        altitude=Value("altitude_m", answer.altitude_m),
    )
    if answer.masses:
        title = say("{title} at {altitude}", title=title.slots["title"], altitude=title.slots["altitude"])
    weak = (say("No column: {why}.", why=why) for why in answer.too_weak.values())
    yield rows(title, ["", *answer.powerplants], _rows(answer), *weak, CONDITIONS)
    level = "top_m_s" if answer.cruise_m_s is None else "cruise_m_s"
    speed = say("--speed '{speed}'", speed=Value(level, getattr(answer, level), decimals=0))
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("control positions and modes at one of these speeds, with {run}", run=Run("handling", speed)))


def _rows(answer: SpeedsAnswer) -> Iterator[list[Cell]]:
    found = answer.powerplants.values()
    for label, name in ROWS:
        yield [label, *(Value(name, getattr(own, name), absent="does not hold") for own in found)]
    for label, quantity, decimals in (("weight", "mass_kg", 0), ("CG, % of the mean chord", "cg_percent_mac", 1)):
        if answer.masses:
            own_masses = (answer.masses[name] for name in answer.powerplants)
            yield [label, *(Value(quantity, getattr(own, quantity), decimals=decimals) for own in own_masses)]
    yield ["maximum lift-to-drag ratio", *(Value("lift_drag_max", own.lift_drag_max, decimals=1) for own in found)]
