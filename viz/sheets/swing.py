"""The sheet of `whirlgate swing`: the inertia with its error, and what to know before using it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Run, Value, next_steps, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.swing import SwingAnswer
    from viz.sheets.blocks import Block, Cell

WRITE = next_steps(
    "the same test with --write SCENARIO.toml --key powerplant.rotary.propeller.polar_inertia, your file for "
    "SCENARIO.toml and the key of what was swung, to set the value in a scenario"
)
COMPARE = next_steps(say("{run}, its gyroscopic moments in flight", run=Run("compare")))


def sheet(answer: SwingAnswer, *, written: bool = False) -> Iterator[Block]:
    """Yield the inertia and its error; `written` where a scenario has it by now."""
    low, high = (
        Value(name, getattr(answer, name), digits=4, bare=name == "low_kg_m2") for name in ("low_kg_m2", "high_kg_m2")
    )
    inertia = say(
        "{value} ± {error}",
        value=Value("polar_inertia_kg_m2", answer.polar_inertia_kg_m2, digits=4, bare=True),
        error=Value("standard_error_kg_m2", answer.standard_error_kg_m2, digits=2),
    )
    lines: list[tuple[str, Cell]] = [
        ("Moment of inertia ± standard error", inertia),
        ("95 % confidence interval", say("{low} to {high}", low=low, high=high)),
        ("Radius of gyration", Value("gyration_radius_m", answer.gyration_radius_m)),
        ("Period", Value("period_s", answer.period_s, digits=4)),
        ("Largest contribution to the error", answer.largest_error),
    ]
    title = say("Swinging test, {tested}", tested=answer.tested)
    about = say("Moment of inertia about the {about} axis, through the mass centre.", about=answer.about)
    yield rows(title, ("Quantity", "Value"), lines, about, *answer.notes)
    yield COMPARE if written else WRITE
