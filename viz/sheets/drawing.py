"""The drawing on paper: its dimensions, stations and buttlines, and the clearance of the propeller."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Points, Run, Value, next_steps, remarks, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.drawing_answer import DrawingAnswer, MarkedPlace
    from viz.sheets.blocks import Block, Cell

FOLLOWS = "–"
"""In the place of a key where a number follows from several."""


def sheet(answer: DrawingAnswer) -> Iterator[Block]:
    """Yield dimensions, places and what is not drawn."""
    sizes = [
        (one.name, one.view, Value("drawn_m", one.drawn_m, decimals=1, tape=True), one.key or FOLLOWS)
        for one in answer.dimensions
    ]
    title = say("{title} with {powerplant}: dimensions", title=answer.title, powerplant=answer.powerplant)
    yield rows(title, ["Dimension", "View", "Length", "Key"], sizes)
    for view, quantity in (("side", "station_m"), ("front", "buttline_m")):
        found = [_place(one, quantity) for one in answer.places if one.view == view]
        head = quantity.removesuffix("_m")
        if found:
            yield rows(f"{head.capitalize()}s, {view} view", ["Place", head.capitalize(), "Key"], found)
    yield Points(answer.notes)
    yield remarks(answer.remarks)
    yield next_steps(
        say("{run}, struts and wires from pin to pin", run=Run("layout")),
        say("{run}, loads of the engine mount", run=Run("mount")),
    )


def _place(one: MarkedPlace, quantity: str) -> tuple[str, Cell, str]:
    return one.name, Value(quantity, getattr(one, quantity), decimals=2), one.key or FOLLOWS
