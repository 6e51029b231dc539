"""The files that a check found without faults; faults are told by themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.scenario.check import Checks
    from viz.sheets.blocks import Sentence


def sheet(answer: Checks) -> Iterator[Sentence]:
    """Yield a line for each file without a fault."""
    for checked in answer.files:
        if checked.fine:
            text = (
                "{file}: no faults; a drawing, for whirlgate scale"
                if checked.kind == "drawing"
                else "{file}: no faults"
            )
            yield say(text, file=checked.file)
