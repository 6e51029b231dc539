"""The sheet of an exercise of `whirlgate disc`: the marks to be read, what is known beforehand, and what to find."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Points, Run, Value, next_steps, rows, say
from viz.sheets.disc import DIRECTION

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.disc_exercise import DiscExercise
    from viz.sheets.blocks import Block


def sheet(answer: DiscExercise) -> Iterator[Block]:
    """Yield the marks, a row a speed, and the questions."""
    groups: dict[float, list[float]] = {}
    for mark in answer.marks:
        groups.setdefault(mark.rpm, []).append(mark.angle_deg)
    count = max(map(len, groups.values()))
    yield rows(
        say("Test disc, exercise {seed}", seed=str(answer.seed)),
        ("Propeller speed", *(f"Round {place + 1}" for place in range(count))),
        [
            (
                Value("rpm", speed, plain=True),
                *(Value("angle_deg", angle, decimals=1) for angle in angles),
            )
            for speed, angles in groups.items()
        ],
        say(
            "The cam is meant to open at {opens}; the delay measured on the bench is {delay}.",
            opens=Value("stated_opens_deg", answer.stated_opens_deg, decimals=0),
            delay=Value("stated_delay_ms", answer.stated_delay_ms, decimals=1),
        ),
        DIRECTION,
    )
    yield Points(
        (
            "Draw angle against speed. The slope is the delay, the angle at standstill is where the cam lets go.",
            "Do marks scatter alike at every speed, or more at higher ones? Are some late? Are all of a speed off?",
            say(
                "Rounds of a sound gun scatter too, here by {scatter} from round to round (one standard deviation), "
                "which is no fault. Beyond that one thing is wrong. Which?",
                scatter=Value("sound_scatter_ms", answer.sound_scatter_ms, decimals=1),
            ),
        )
    )
    yield next_steps(
        say(
            "{run}, what was hidden",
            run=Run("disc", f"--exercise {answer.seed} --solution", scenario=None),
        )
    )
