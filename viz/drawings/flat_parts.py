"""The parts of an assembly that are cut from plate, board or sheet, each once, with how many there are."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from shapely import Point, Polygon

from sim.display.assembly.stock import stock
from sim.display.shapes import FlatPart
from sim.errors import NoAnswerError
from sim.units.convert import mm
from viz.drawings.drawing import drawn

if TYPE_CHECKING:
    from sim.display.assembly.data import Part
    from sim.display.display import Hardware
    from sim.studies.exhibit import Exhibit
    from viz.drawings.drawing import Drawing


@dataclass(frozen=True, slots=True, eq=False)
class CutPart:
    """A flat part and how many of it the display has.

    Attributes
    ----------
    file : str
        Name of its files, without an ending.
    part : Part
        The part in its place.
    flat : FlatPart
        Its flat shape, with what its holes are for.
    drawing : Drawing
        Its flat shape, in millimetres.
    thickness_mm : float
        Of its plate, board or sheet. [mm]
    quantity : int
        How many there are, at least 1.
    """

    file: str
    part: Part
    flat: FlatPart
    drawing: Drawing
    thickness_mm: float
    quantity: int


def cut_parts(exhibit: Exhibit) -> tuple[CutPart, ...]:
    """Return every flat part, in the order of assembly; parts of one name that differ get numbered files.

    Raises
    ------
    NoAnswerError
        When a check fails, or a hole runs out of the edge of its part: nothing is cut for such a display.
    """
    path = exhibit.flat_parts()[0].cutter_path_m
    found: list[CutPart] = []
    for part in exhibit.parts:
        if part.outline_m is None:
            continue
        flat = _drilled(_flat(part), exhibit.display.hardware)
        flat = flat if part.name != "cam" else replace(flat, cutter_path_m=path)
        drawing = _with_cutouts(drawn(flat), part)
        _refuse_open_holes(flat, drawing)
        thickness_mm = round(mm(flat.thickness_m), 6)
        alike = next((one for one in found if _alike(one, drawing, thickness_mm)), None)
        if alike is not None:
            found[found.index(alike)] = replace(alike, quantity=alike.quantity + 1)
            continue
        others = sum(one.part.name == part.name for one in found)
        file = part.name.replace(" ", "-") + (f"-{others + 1}" if others else "")
        found.append(CutPart(file, part, flat, drawing, thickness_mm, 1))
    return tuple(found)


def _drilled(flat: FlatPart, hardware: Hardware) -> FlatPart:
    """Return a part whose tapped holes are as wide as their drill, which is what is cut before the thread."""
    drills = {f"tapped {thread.name}": thread.drill_m for thread in stock(hardware).threads.values()}
    holes = tuple(replace(hole, diameter_m=drills.get(hole.fit, hole.diameter_m)) for hole in flat.holes)
    return replace(flat, holes=holes)


def _refuse_open_holes(flat: FlatPart, drawing: Drawing) -> None:
    rim = Polygon(drawing.outline)
    cut = [
        *(
            (hole.use, Point(at).buffer(wide / 2.0))
            for hole, (at, wide) in zip(flat.holes, drawing.circles, strict=True)
        ),
        *((slot.use, Polygon(mm(1.0) * slot.outline_m)) for slot in flat.cut_slots),
    ]
    for use, shape in cut:
        if not rim.contains_properly(shape):
            message = (
                f"nothing is written to cut from while a hole of the {flat.name} ({use}) runs out of its edge; "
                "a thinner shaft, a smaller roller or a larger base circle leaves room for it"
            )
            raise NoAnswerError(message)


def _with_cutouts(drawing: Drawing, part: Part) -> Drawing:
    cutouts = [[(mm(x), mm(y)) for x, y in corners.tolist()] for corners in part.cutouts_m]
    return replace(drawing, openings=[*drawing.openings, *cutouts])


def _alike(one: CutPart, drawing: Drawing, thickness_mm: float) -> bool:
    def rounded(each: Drawing) -> object:
        return [[(round(x, 4), round(y, 4)) for x, y in chain] for chain in (each.outline, *each.openings)], [
            (round(x, 4), round(y, 4), round(wide, 4)) for (x, y), wide in each.circles
        ]

    same_size = one.drawing.name == drawing.name and one.thickness_mm == thickness_mm
    return same_size and rounded(one.drawing) == rounded(drawing)


BELOW = "Drawn from below: upper edge in front, lower edge at the rear, right end at the visitor's right."


def seen(part: Part) -> str:
    """Return from where a part is seen, and which edges are which where that is not from the front.

    A board along x has z, toward the visitor, up on its drawing, so that it is seen against y; one along y against x.
    """
    assert part.outline_m is not None
    wide = np.ptp(part.outline_m, axis=0)
    if min(wide) >= part.thickness_m:
        return "Drawn from the front, as visitors see it."
    if int(np.argmax(wide)) == 0:
        return BELOW
    return "Drawn from the visitor's right: upper edge in front, lower edge at the rear, right end on top."


LYING, STANDING = ("in the lower face", "in the upper face"), ("in front", "behind")
"""Face that is drawn and face behind it: of a board drawn from below, whose front and rear are edges; of others."""


def faces(part: Part) -> tuple[str, str]:
    """Return in which face the countersinks of a part are: the one that is drawn, and the one behind it."""
    return LYING if seen(part) == BELOW else STANDING


def _flat(part: Part) -> FlatPart:
    """Return the shape to cut; a board that stands on edge in the display is laid flat, its lower left corner at 0."""
    assert part.outline_m is not None
    low, high = part.outline_m.min(axis=0), part.outline_m.max(axis=0)
    wide = high - low
    if min(wide) >= part.thickness_m:
        cut = part.outline_m, (*part.slots,), (*part.scribes,)
        return FlatPart(part.name, part.thickness_m, cut[0], tuple(part.holes), cut[1], cut[2])
    long = int(np.argmax(wide))
    corners = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]]) * [wide[long], part.thickness_m]
    holes = tuple(
        replace(hole, x_m=hole.x_m - float(low[long]), y_m=hole.y_m - part.z_from_m) for hole in part.upright_holes
    )
    return FlatPart(part.name, float(min(wide)), corners, holes)
