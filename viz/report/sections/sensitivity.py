"""Sensitivity of the designer's numbers to each ± of the scenario."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

from viz.sheets.blocks import Picture, Run, listed, say
from viz.sheets.sensitivity import first, table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def sensitivities(found: Findings) -> Iterator[Block]:
    """Yield how far each answer is known, and what changes it most."""
    answers = found.sensitivity
    told = listed(say("{name}: {key}", name=name, key=first(one)) for name, one in answers.items())
    yield say(
        "Each value that the scenario gives with a ± is varied by one standard deviation, one at a time; the standard "
        "deviation of the answer is the root of the sum of squares of the changes. The first input of a list is the "
        "one to measure more accurately. The engine displacement has the ± of the balance, which holds errors assumed "
        "of items and scales without ± as well; it is an input, powerplant.NAME.move, of mount and flights."
    )
    yield Picture(
        found.drawings.begin("sensitivity", answers),
        "Sensitivity of the answers to the tolerances",
        say("Ranked bars for each answer; at the top of each: {told}.", told=told),
    )
    for name, one in answers.items():
        yield table(name, one)
    keys = " ".join(f"--collect {one.column.key}" for one in answers.values())
    yield say(
        "All inputs sampled together, with percentiles: {command}",
        command=Run("sweep", f"--spread 128 {keys}", shlex.quote(str(found.called))),
    )
