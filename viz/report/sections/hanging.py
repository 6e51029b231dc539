"""What the answers hang on: each ± of the scenario, and how far it moves the designer's numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Picture, rows, say
from viz.sheets.sensitivity import moved_by, part, said, spread_of, strongest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def levers(found: Findings) -> Iterator[Block]:
    """Yield how each answer spreads, and what moves it most."""
    from viz.figures.sensitivity import draw

    answers = found.leverage
    told = "; ".join(
        f"{name}: {strongest(one)[0].column.key if one.levers else 'none of the ±'}" for name, one in answers.items()
    )
    yield say(
        "Each value that the scenario gives with a ± is moved by its one standard deviation, alone; together they make "
        "the spread, as the root of the sum of their squares. Measure the first of each list better, and the answer "
        "is known better."
    )
    yield Picture(
        draw(answers, found.units),
        "Sensitivity of the answers to the tolerances",
        say("Ranked bars for each answer; at the top of each: {told}.", told=told),
    )
    for name, one in answers.items():
        lines = [
            (
                moved_by(lever, found.units),
                said(one.column, lever.moves, found.units),
                f"{100.0 * part(one, lever):.0f} %",
            )
            for lever in strongest(one)
        ]
        title = f"{name}: {spread_of(one, found.units)}"
        yield rows(title, ("Input", "changes it by", "part of the variance"), lines)
    keys = " ".join(f"--collect {one.column.key}" for one in answers.values())
    yield say(
        "All of them drawn together, with bands: {command}",
        command=f"whirlgate sweep {found.called} --spread 128 {keys}",
    )
