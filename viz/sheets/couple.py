"""The sheet of `whirlgate couple`: the couple of one rotor, with the words for each sign."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.rotor.couple import Couple
    from viz.sheets.blocks import Block

NEXT = next_steps(
    say(
        "the control positions that balance such a couple in steady turns of the bundled airplane, with {run}",
        run=Run("handling"),
    )
)

CLOCKWISE = "Clockwise as seen from the cockpit, looking forward."
STEADY = "No couple: the shaft axis does not change direction."


def sheet(answer: Couple) -> Iterator[Block]:
    """Yield the couple as a small table."""
    lines = [
        ("Angular momentum", _signed(answer, "angular_momentum_kg_m2_s")),
        ("Angular rate of the shaft axis", Value("precession_rad_s", answer.precession_rad_s)),
        ("Couple, mean", Value("couple_n_m", answer.couple_n_m)),
        ("Couple, peak within a revolution", Value("peak_couple_n_m", answer.peak_couple_n_m)),
        ("Pitching moment, mean", _signed(answer, "pitch_n_m")),
        ("Yawing moment, mean", _signed(answer, "yaw_n_m")),
    ]
    notes = (CLOCKWISE, *([STEADY] if answer.effect == "none" else []))
    yield rows("Gyroscopic couple on the airframe", ("Quantity", "Value"), lines, *notes)
    yield NEXT


def _signed(answer: Couple, name: str) -> Value:
    return Value(name, getattr(answer, name), signed=True)
