"""The sheet of `whirlgate field`: a column for each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, listed, next_steps, remarks, rows, say
from viz.sheets.masses import flown_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.field import FieldAnswer
    from sim.studies.field_of import FieldOf
    from viz.sheets.blocks import Block, Cell, Sentence

ROWS = (
    ("lift-off at", "lift_off_m_s"),
    ("take-off run to lift-off", "ground_run_m"),
    ("from standstill over 50 ft", "to_50_ft_m"),
    ("tail raised at", "tail_up_m_s"),
    ("flattest glide, engine cut", "glide_ratio"),
    ("its airspeed", "glide_m_s"),
    ("touchdown at", "touchdown_m_s"),
    ("from 50 ft to standstill", "from_50_ft_m"),
    ("landing run", "landing_run_m"),
)
STANCE = (
    ("attitude on all wheels", "tail_down_deg"),
    ("angle of attack of the stall", "stall_alpha_deg"),
    ("nose over: CG behind the wheels, level", "nose_over_deg"),
    ("tip over: slope up to the CG", "overturn_deg"),
    ("propeller above the ground, level", "propeller_clearance_m"),
    ("propeller above the ground, tail down", "propeller_clearance_tail_down_m"),
)
"""Label of a row -> field of the answer."""
ABSENT = {"to_50_ft_m": "does not climb", "tail_up_m_s": "not before lift-off"}
CONDITIONS = (
    "Full throttle, tail up from half the speed of lift-off or where full down elevator lifts it, lift-off at 1.1 "
    "times the stall or more, over the obstacle at 1.2 times. Landing: engine cut, approach at 1.3 times the stall, on "
    "all wheels, no brakes. Estimates: ground runs are good to a fifth; grass differs more than that."
)
STANDS = (
    "Nose over: the steeper, the harder it is to stand it on its nose. Tip over: above 63° it tips over in a fast turn "
    "(common practice, no source). With an attitude on all wheels below the angle of the stall it lifts off and "
    "touches down faster, for on them the wing lifts no more; above it the wing stalls before it touches down."
)


def sheet(answer: FieldAnswer) -> Iterator[Block]:
    """Yield runs, swing and stance, and why a powerplant has none."""
    title = say(
        "{title} on {surface} at {altitude}{wind}",
        title=answer.title,
        surface=answer.surface,
        altitude=Value("altitude_m", answer.altitude_m),
        wind=_wind(answer),
    )
    weak = (say("No column: {name}, {why}.", name=name, why=why) for name, why in answer.too_weak.items())
    heads = ["", *answer.powerplants]
    yield rows(title, heads, _rows(answer, ROWS), *weak, CONDITIONS)
    yield rows("On its wheels", heads, _rows(answer, STANCE), STANDS)
    told = [_swing(name, own) for name, own in answer.powerplants.items() if own.raising_share is not None]
    if told:
        yield say(
            "Tail coming up in {time}, rudder of its travel that keeps the run straight (in brackets: at that speed, "
            "the tail not moving): {each}.",
            time=Value("raising_s", answer.raising_s),
            each=listed(told),
        )
    short = [name for name, own in answer.powerplants.items() if abs(own.raising_share or 0.0) > 1.0]
    if short:
        yield say("Full rudder does not keep it straight with {names}: raise the tail slower.", names=", ".join(short))
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("stall, climb and top speed, with {run}", run=Run("speeds")))


def _wind(answer: FieldAnswer) -> Sentence | str:
    wind = answer.headwind_m_s
    return say(", headwind {wind}", wind=Value("headwind_m_s", wind)) if wind else ""


def _rows(answer: FieldAnswer, wanted: tuple[tuple[str, str], ...]) -> Iterator[list[Cell]]:
    for label, name in wanted:
        cells = [
            Value(name, getattr(own, name), absent=ABSENT.get(name, "not placed"))
            for own in answer.powerplants.values()
        ]
        yield [label, *cells]


def _swing(name: str, own: FieldOf) -> Sentence:
    """Return the rudder of one powerplant as the tail comes up."""
    return say(
        "{name} {rising} ({steady})",
        name=name,
        rising=Value("raising_share", own.raising_share, percent=True, signed=True, decimals=0),
        steady=Value("rudder_share", own.rudder_share, percent=True, signed=True, decimals=0),
    )
