"""Title and key of a three-view: what it is, its scale, how to read it, and its cautions."""

from __future__ import annotations

from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING

from viz.drawings.marks import LETTER_ADVANCE, Note, Stroke
from viz.drawings.overlay import notes
from viz.drawings.view import CHECK, CHECK_MM, ratio

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.drawing_answer import DrawingAnswer
    from viz.drawings.marks import Mark, Pen
    from viz.sheets.format import Units

TITLE = "title"
LETTER_MM, TITLE_MM = 1.9, 4.0
LINE = 1.9
"""Of a line of words over the height of a capital letter."""
LEAST_MM = 120.0
"""Least width of the block. [mm]"""
KEY: dict[Pen, str] = {
    "edge": "edge in view",
    "hidden": "hidden, or the box that stands for an item",
    "centre": "datum, axes, ground with the airplane on all wheels",
}
BRACKET = "Bracket: CG limits; bar in it: CG of all loadings; circle with a cross: loaded CG, CG of the engine."


def title_block(
    answer: DrawingAnswer, units: Units, size: tuple[float, float], beside: tuple[float, str]
) -> list[Mark]:
    """Return title, scale and key, its upper left corner at the origin.

    Parameters
    ----------
    answer : DrawingAnswer
        What is drawn.
    units : {"us", "si"}
        Those of the dimensions.
    size : (float, float)
        Scale, paper over full size, and by how much everything in the block will be made smaller.
    beside : (float, str)
        Width of the block, where it is not less than words need [mm], and what the other airplane in it is called.
    """
    width, down, before = max(beside[0], LEAST_MM), 0.0, 0.0
    made: list[Mark] = []
    for text, letter, ink in _lines(answer, units, size[0], beside[1]):
        for row in wrap(text, int(width / (LETTER_ADVANCE * letter))) or [""]:
            down, before = down - 0.5 * LINE * (before + letter), letter
            made.append(Note(row, (0.0, down), ink, letter, "start"))
    for pen, text in KEY.items():
        down -= LINE * LETTER_MM
        made += [Stroke([(0.0, down), (14.0, down)], pen), Note(text, (17.0, down), "thin", LETTER_MM, "start")]
    made += _check(down - 3.0 * LINE * LETTER_MM, CHECK_MM / size[1])
    return [replace(mark, layer=TITLE) for mark in made]


def _lines(answer: DrawingAnswer, units: Units, scale: float, other: str) -> Iterator[tuple[str, float, Pen]]:
    """Yield each paragraph with the height and the pen of its letters."""
    measured = "feet and inches, stations and buttlines in inches" if units == "us" else "millimetres"
    yield answer.title, TITLE_MM, "thin"
    yield f"with {answer.powerplant.replace('_', ' ')}, scale {ratio(scale)}", 0.65 * TITLE_MM, "thin"
    yield f"Dimensions in {measured}. Plan with the nose down, side view from the left.", LETTER_MM, "thin"
    for text, pen in notes(answer, other):
        yield text, LETTER_MM, pen
    for text in (*answer.notes, BRACKET, *answer.cautions):
        yield text, LETTER_MM, "thin"


def _check(level: float, long: float) -> Iterator[Mark]:
    """Yield a line to check the scale by."""
    yield Stroke([(0.0, level), (long, level)], "thin")
    for end in (0.0, long):
        yield Stroke([(end, level - 1.0), (end, level + 1.0)], "thin")
    yield Note(CHECK, (0.0, level - LINE * LETTER_MM), "thin", LETTER_MM, "start")
