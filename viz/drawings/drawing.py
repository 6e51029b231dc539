"""A flat part in millimetres, with its centre marks and words: what the DXF, the SVG and the sheet all draw."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sim.studies.exhibit import Part

Point = tuple[float, float]
Chain = list[Point]

MM = 1000.0
LAYERS = ("OUTLINE", "HOLES", "OPENINGS", "CENTRES", "SCRIBE", "TEXT", "CUTTER PATH")
"""Layers by plain names: the first three are cut through, CUTTER PATH is for a milling cutter's centre instead of the
outline, the others are marked or left out."""
LETTER_MM = 2.2
WIDTH_OF_A_LETTER = 0.85
"""Width of a letter over its height, on the safe side."""


@dataclass(frozen=True, slots=True)
class Label:
    """Words on a part: where their middle is, how high a letter, which way they run. [mm], [°]."""

    text: str
    at: Point
    letter_mm: float
    turned_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class Drawing:
    """A part in millimetres; chains are closed unless they are marks."""

    name: str
    outline: Chain
    openings: list[Chain]
    circles: list[tuple[Point, float]]
    marks: list[Chain]
    scribes: list[Chain]
    labels: list[Label]
    cutter_path: Chain

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the outline. [mm]."""
        across, up = zip(*self.outline, strict=True)
        return min(across), min(up), max(across), max(up)


def drawn(part: Part) -> Drawing:
    """Return the part in millimetres."""
    circles = [((hole.x_m * MM, hole.y_m * MM), hole.diameter_m * MM) for hole in part.holes]
    return Drawing(
        name=part.name,
        outline=_chain(part.outline_m),
        openings=[_chain(opening) for opening in part.openings_m],
        circles=circles,
        marks=[mark for centre, diameter in circles for mark in _cross(centre, diameter / 2.0 + 1.5)],
        scribes=[_chain(scribe.corners_m) for scribe in part.scribes],
        labels=[_label(_chain(scribe.corners_m), scribe.label, along=scribe.along) for scribe in part.scribes],
        cutter_path=[] if part.cutter_path_m is None else _chain(part.cutter_path_m),
    )


def _chain(corners_m: Any) -> Chain:  # noqa: ANN401
    return [(x * MM, y * MM) for x, y in corners_m.tolist()]


def _cross(centre: Point, reach: float) -> tuple[Chain, Chain]:
    x, y = centre
    return [(x - reach, y), (x + reach, y)], [(x, y - reach), (x, y + reach)]


def _label(line: Chain, text: str, *, along: bool) -> Label:
    """Return the label of a scribed line: along it, beside its middle, or past its end."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    length = math.hypot(x1 - x0, y1 - y0)
    way = ((x1 - x0) / length, (y1 - y0) / length)
    if not along:
        past = LETTER_MM * (1.7 * abs(way[1]) + (0.55 * len(text) + 0.5) * abs(way[0]))
        return Label(text, (x1 + past * way[0], y1 + past * way[1]), LETTER_MM)
    letter = min(LETTER_MM, length / (WIDTH_OF_A_LETTER * max(len(text), 4)))
    turned = math.degrees(math.atan2(way[1], way[0]))
    upright = turned - 180.0 if turned > 90.5 else turned + 180.0 if turned < -89.5 else turned
    aside = 0.9 * letter
    middle = ((x0 + x1) / 2.0 - aside * way[1], (y0 + y1) / 2.0 + aside * way[0])
    return Label(text, middle, letter, upright)
