"""A flat part in millimetres, with its centre marks and words: what the DXF, the SVG and the sheet all draw."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, hypot
from typing import TYPE_CHECKING

from sim.units.convert import degrees, mm
from viz.drawings.marks import LETTER_ADVANCE, Note

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray
    from sim.display.shapes import FlatPart, Scribe
    from sim.studies.exhibit import Exhibit
    from viz.drawings.marks import Chain, Point


@dataclass(frozen=True, slots=True)
class Drawing:
    """A part in millimetres.

    Attributes
    ----------
    name : str
        Of the part.
    outline, openings : list of points, list of such
        Closed, cut through.
    circles : list of (centre, diameter)
        Round holes.
    centres, scribes : list of lists of points
        Centre marks of the holes, and lines to engrave.
    labels : list of Note
        Words beside the scribed lines.
    cutter_path : list of points
        Closed, where the centre of a milling cutter runs; empty where the part is not milled.
    """

    name: str
    outline: Chain
    openings: list[Chain]
    circles: list[tuple[Point, float]]
    centres: list[Chain]
    scribes: list[Chain]
    labels: list[Note]
    cutter_path: Chain

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the outline. [mm]."""
        across, up = zip(*self.outline, strict=True)
        return min(across), min(up), max(across), max(up)


@dataclass(frozen=True, slots=True)
class DrawnExhibit:
    """A display with some of its flat parts and their drawings, in one order."""

    exhibit: Exhibit
    parts: tuple[FlatPart, ...]
    drawings: tuple[Drawing, ...]


def drawn(part: FlatPart) -> Drawing:
    """Return the part in millimetres."""
    circles = [((mm(hole.x_m), mm(hole.y_m)), mm(hole.diameter_m)) for hole in part.holes]
    return Drawing(
        name=part.name,
        outline=_chain(part.outline_m),
        openings=[_chain(opening) for opening in part.openings_m],
        circles=circles,
        centres=[line for centre, diameter in circles for line in _cross(centre, diameter / 2.0 + 1.5)],
        scribes=[_chain(scribe.corners_m) for scribe in part.scribes],
        labels=[_label(scribe) for scribe in part.scribes],
        cutter_path=[] if part.cutter_path_m is None else _chain(part.cutter_path_m),
    )


def _chain(corners_m: FloatArray) -> Chain:
    return [(mm(x), mm(y)) for x, y in corners_m.tolist()]


def _cross(centre: Point, reach: float) -> tuple[Chain, Chain]:
    x, y = centre
    return [(x - reach, y), (x + reach, y)], [(x, y - reach), (x, y + reach)]


def _label(scribe: Scribe) -> Note:
    """Return the label of a scribed line: along it, beside its middle, or past its end."""
    line, text, high = _chain(scribe.corners_m), scribe.label, mm(scribe.letter_m)
    (x0, y0), (x1, y1) = line[0], line[-1]
    length = hypot(x1 - x0, y1 - y0)
    way = ((x1 - x0) / length, (y1 - y0) / length)
    if not scribe.along:
        past = high * (1.7 * abs(way[1]) + (LETTER_ADVANCE * len(text) / 2.0 + 0.5) * abs(way[0]))
        return Note(text, (x1 + past * way[0], y1 + past * way[1]), "mark", high)
    letter = min(high, length / (LETTER_ADVANCE * max(len(text), 4)))
    heading = degrees(atan2(way[1], way[0]))
    upright = heading - 180.0 if heading > 90.5 else heading + 180.0 if heading < -89.5 else heading
    aside = 0.9 * letter
    middle = ((x0 + x1) / 2.0 - aside * way[1], (y0 + y1) / 2.0 + aside * way[0])
    return Note(text, middle, "mark", letter, turned_deg=upright)
