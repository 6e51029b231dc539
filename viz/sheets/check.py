"""The files that a check found without faults, with their remarks; faults are told by themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.check import Checks
    from viz.sheets.blocks import Block


def sheet(answer: Checks) -> Iterator[Block]:
    """Yield a line for each file without a fault, and a table of its remarks where there are any."""
    for checked in answer.files:
        if checked.fine:
            text = (
                "{file}: no faults; a drawing, for whirlgate scale"
                if checked.kind == "drawing"
                else "{file}: no faults"
            )
            yield say(text, file=checked.file)
        if checked.remarks:
            yield remarks(tuple(remark.text for remark in checked.remarks))
