"""The sheet of `whirlgate speeds`: a column for each powerplant that can hold level flight."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.quantities import error_of
from viz.sheets.bands import NEARLY_ALL, SPEEDS_DRAWN, band, has_band, known
from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks
from viz.sheets.validity import outside, starred

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.speeds import SpeedsAnswer
    from viz.sheets.blocks import Block, Cell, Sentence

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
KNOWN = (
    "After ±: one standard deviation by the lift and drag of the airplane alone; --bands counts mass and propeller too."
)
SURE = (
    (
        (
            "{engine}: full power sustains level flight in {share} of the airplanes drawn; the bands of what it needs "
            "are of these."
        ),
        "level_flight_probability",
    ),
    (
        (
            "{engine}: cruise power sustains level flight in {share} of the airplanes drawn; the bands of what it "
            "needs are of these."
        ),
        "cruise_probability",
    ),
)
"""Sentence -> the share of the airplanes drawn that it tells."""
RATIO = "maximum lift-to-drag ratio"


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
    beyond = outside(passed for own in answer.beyond.values() for passed in own.values())
    yield rows(title, ["", *answer.powerplants], _rows(answer), *weak, CONDITIONS, *_known(answer), *beyond)
    yield from _sure(answer)
    level = "top_m_s" if answer.cruise_m_s is None else "cruise_m_s"
    speed = say("--speed '{speed}'", speed=Value(level, getattr(answer, level), decimals=0))
    if answer.remarks:
        yield remarks(answer.remarks)
    handling = say("control positions and modes at one of these speeds, with {run}", run=Run("handling", speed))
    built = [say("where the ± comes from, with {run}", run=Run("drag"))] if _known(answer) else []
    yield next_steps(handling, *built)


def _known(answer: SpeedsAnswer) -> tuple[str, ...]:
    if any(own.level_flight_probability is not None for own in answer.powerplants.values()):
        return (SPEEDS_DRAWN,)
    return (KNOWN,) if any(own.stall_band_m_s or own.top_band_m_s for own in answer.bands.values()) else ()


def _sure(answer: SpeedsAnswer) -> Iterator[Sentence]:
    """Yield in what share of the airplanes drawn full power, or cruise power, does not sustain level flight."""
    for engine, own in answer.powerplants.items():
        for told, name in SURE:
            share = getattr(own, name)
            if share is not None and share < NEARLY_ALL:
                yield say(told, engine=engine, share=Value(name, share, decimals=0, percent=True))


def _speed(answer: SpeedsAnswer, engine: str, name: str) -> Cell:
    own, beyond = answer.powerplants[engine], answer.beyond[engine].get(name, ())
    look: dict[str, Any] = {"decimals": 1} if name == "lift_drag_max" else {}
    if has_band(own, name):
        return _with_ends(own, name, starred(known(own, name, absent="does not hold", **look), beyond), **look)
    error = getattr(answer.bands[engine], error_of(name))
    speed = Value(name, getattr(own, name), absent="does not hold", error=error or None, **look)
    return starred(speed, beyond)


def _with_ends(row: object, name: str, told: Cell, **look: Any) -> Cell:  # noqa: ANN401
    """Return a number as told, and below it the ends of its band, where it has one."""
    if not has_band(row, name):
        return told
    return say("{told}\n{band}", told=told, band=band(row, name, " to ", bare=True, **look))


def _rows(answer: SpeedsAnswer) -> Iterator[list[Cell]]:
    for label, name in ROWS:
        yield [label, *(_speed(answer, engine, name) for engine in answer.powerplants)]
    for label, quantity, decimals in (("weight", "mass_kg", 0), ("CG, % of the mean chord", "cg_percent_mac", 1)):
        if answer.masses:
            own_masses = [answer.masses[name] for name in answer.powerplants]
            yield [label, *(_with_ends(own, quantity, known(own, quantity, decimals=decimals)) for own in own_masses)]
    yield [RATIO, *(_speed(answer, engine, "lift_drag_max") for engine in answer.powerplants)]
