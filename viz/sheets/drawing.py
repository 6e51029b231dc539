"""The drawing on paper: its dimensions, stations and buttlines, and the clearance of the propeller."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Points, Run, Value, next_steps, rows, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.drawing_answer import DrawingAnswer, MarkedPlace
    from viz.sheets.blocks import Block, Cell

READ = ["Key", "Scenario", "Readings", "Difference", "± of readings", "Standard errors", ""]
READ_NOTE = (
    "Readings less scenario, over the standard errors of both together; beyond 3.29 of them, 1 in 1000 by chance, they "
    "differ."
)
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
    if answer.readings:
        yield rows(say("Caliper readings of {title}", title=answer.readings_title), READ, _read(answer), READ_NOTE)
    yield Points(answer.notes)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        say("{run}, struts and wires from pin to pin", run=Run("layout")),
        say("{run}, loads of the engine mount", run=Run("mount")),
    )


def _read(answer: DrawingAnswer) -> Iterator[tuple[Cell, ...]]:
    """Yield every reading beside the scenario, the worst first."""
    for one in sorted(answer.readings, key=lambda one: -abs(one.normalised_residual or 0.0)):
        lengths = (Value("drawn_m", size_m, decimals=1, tape=True) for size_m in (one.drawn_m, one.read_m))
        off = Value("read_less_drawn_m", one.read_less_drawn_m, decimals=2, change=True)
        apart = Value("normalised_residual", one.normalised_residual, decimals=1)
        verdict = "differs" if one.differs else "agrees"
        yield one.name, *lengths, off, Value("error_m", one.error_m, decimals=2), apart, verdict


def _place(one: MarkedPlace, quantity: str) -> tuple[str, Cell, str]:
    return one.name, Value(quantity, getattr(one, quantity), decimals=2), one.key or FOLLOWS
