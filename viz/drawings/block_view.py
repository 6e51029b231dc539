"""A block of boxes and holes as a shop reads it: from the front, and on the face that a bore goes into."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from shapely import Polygon, box, union_all

from sim.display.assembly.stock import stock
from sim.units.convert import mm
from viz.drawings.bores import Bore, bores
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import Note, Ring, Stroke, box_of, scaled, shifted
from viz.drawings.placing import Said, in_rows
from viz.drawings.turned_view import LINE_MM
from viz.drawings.view import View, fitted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Part
    from sim.display.shapes import Hole
    from viz.drawings.marks import Mark, Point

    Told = Callable[[float], str]

APART_MM = 9.0
"""Between the two views. [mm]"""
SAME_MM = 1e-4
WITHIN_MM = {"metric": 0.1, "inch": 0.127}
"""How true a bore along y is: ISO 2768-m from 3 to 6 mm; 0.005 in, common practice, no source. [mm]"""


@dataclass(frozen=True, slots=True)
class _Block:
    """What is drawn, in millimetres from the left, lower and rear faces.

    Attributes
    ----------
    faces : tuple of geometry
        Outline from the front, and on the face that bores along y are drilled into, z up.
    along : tuple of Bore
        Holes along the shaft.
    across : tuple of Hole
        Holes along y, as the part has them. [m]
    corner : tuple of float
        Left, lower and rear face from the origin of the part. [mm]
    """

    faces: tuple[BaseGeometry, BaseGeometry]
    along: tuple[Bore, ...]
    across: tuple[Hole, ...]
    corner: tuple[float, float, float]

    @property
    def size(self) -> tuple[float, float, float]:
        """Width, height and depth. [mm]."""
        (_, _, wide, high), (*_, deep) = (each.bounds for each in self.faces)
        return wide, high, deep


def block_view(part: Part, assembly: Assembly, room: Point) -> View:
    """Return both views at the largest usual scale for a room [mm], the second as the method of projection puts it."""
    return fitted(partial(_view, _block(part, assembly), part, assembly), room)


def _block(part: Part, assembly: Assembly) -> _Block:
    outlines = [mm(slab.outline_m) for slab in part.slabs]
    left, low = (min(float(each[:, axis].min()) for each in outlines) for axis in (0, 1))
    rear = mm(part.z_from_m)
    front = union_all([Polygon(each - [left, low]) for each in outlines])
    seen = union_all(
        [
            box(each[:, 0].min() - left, mm(slab.z_from_m) - rear, each[:, 0].max() - left, mm(slab.z_to_m) - rear)
            for each, slab in zip(outlines, part.slabs, strict=True)
        ]
    )
    return _Block((front, seen), tuple(bores(part, assembly)), part.upright_holes, (left, low, rear))


def _view(block: _Block, part: Part, assembly: Assembly, scale: float) -> View:
    told = partial(_told, assembly)
    front, second = _front(block, scale, told), _face(block, scale, told)
    over = assembly.hardware == "metric"  # first angle: what is seen from below stands above
    above = any(hole.sunk_behind for hole in block.across) != over
    low, high = (second, front) if not above else (front, second)
    rise = box_of(low)[3] - box_of(high)[1] + APART_MM
    shapes = [*low, *(shifted(each, (0.0, rise)) for each in high)]
    left, bottom, *_ = box_of(shapes)
    lines = list(_lines(block, assembly, told))
    shapes += [
        Note(line, (left, bottom - LINE_MM * row), "thin", anchor="start") for row, line in enumerate(lines, start=1)
    ]
    return View(tuple(shapes), scale, f"The {part.name} from the front and on its bored face, with its dimensions.")


def _told(assembly: Assembly, length_mm: float) -> str:
    return dimension_text(length_mm, units_of(assembly.hardware))


def _front(block: _Block, scale: float, told: Told) -> list[Mark]:
    """Return the view from the front: holes along the shaft as circles, those along y dashed."""
    wide, high, _ = block.size
    (left, low, _), shapes = block.corner, list(_rims(block.faces[0], scale))
    spots = [(one.at[0] - left, one.at[1] - low) for one in block.along]
    for (x, y), one in zip(spots, block.along, strict=True):
        shapes += _round((x * scale, y * scale), one.wide * scale)
    for hole in block.across:
        x, half, deep = mm(hole.x_m) - left, mm(hole.diameter_m) / 2.0, mm(hole.deep_m)
        start, end = (high - deep, high) if hole.sunk_behind else (0.0, deep)
        rim = [(x - half, start), (x + half, start), (x + half, end), (x - half, end)]
        shapes.append(Stroke(scaled(rim, scale), "hidden", closed=True))
    across = [((0.0, y), (x, y)) for x, y in spots]
    up = [((x, 0.0), (x, y)) for x, y in spots[:1]]
    return _dimensioned(shapes, ((wide, high), across, up), scale, told)


def _face(block: _Block, scale: float, told: Told) -> list[Mark]:
    """Return the face that bores along y are drilled into, z up: those as circles, holes along the shaft dashed."""
    wide, _, deep = block.size
    (left, _, rear), shapes = block.corner, list(_rims(block.faces[1], scale))
    for one in block.along:
        x, half, (start, end) = one.at[0] - left, one.wide / 2.0, one.ends
        rim = [(x - half, start), (x + half, start), (x + half, end), (x - half, end)]
        shapes.append(Stroke(scaled(rim, scale), "hidden", closed=True))
    spots = [(mm(hole.x_m) - left, mm(hole.y_m) - rear) for hole in block.across]
    for (x, z), hole in zip(spots, block.across, strict=True):
        shapes += _round((x * scale, z * scale), mm(hole.diameter_m) * scale)
    openings = [rim.bounds for face in _polygons(block.faces[1]) for rim in map(Polygon, face.interiors)]
    across = [((0.0, z), (x, z)) for x, z in spots]
    across += [((0.0, low), (x, low)) for first, low, last, _ in openings for x in (first, last)]
    up = [((x, 0.0), (x, z)) for x, z in spots]
    up += [((first, 0.0), (first, z)) for first, low, _, high in openings for z in (low, high)]
    up += [((one.at[0] - left, 0.0), (one.at[0] - left, one.ends[1])) for one in block.along[:1]]
    return _dimensioned(shapes, ((wide, deep), across, up), scale, told)


def _rims(shape: BaseGeometry, scale: float) -> Iterator[Mark]:
    for face in _polygons(shape):
        for rim in (face.exterior, *face.interiors):
            yield Stroke(scaled(list(rim.simplify(SAME_MM).coords)[:-1], scale), "cut", closed=True)


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [each for each in getattr(shape, "geoms", [shape]) if isinstance(each, Polygon)]


def _round(at: Point, wide: float) -> Iterator[Mark]:
    reach = wide / 2.0 + 1.5
    yield Ring(at, wide, "cut")
    yield Stroke([(at[0] - reach, at[1]), (at[0] + reach, at[1])], "centre")
    yield Stroke([(at[0], at[1] - reach), (at[0], at[1] + reach)], "centre")


def _dimensioned(
    shapes: list[Mark],
    asked: tuple[Point, Sequence[tuple[Point, Point]], Sequence[tuple[Point, Point]]],
    scale: float,
    told: Told,
) -> list[Mark]:
    """Return a view with rows of dimensions below and left of it, the sizes over everything the last."""
    (wide, high), across, up = asked
    made = list(shapes)
    for axis, where, ends in (
        (0, "below", [*across, ((0.0, 0.0), (wide, 0.0))]),
        (1, "left", [*up, ((0.0, 0.0), (0.0, high))]),
    ):
        said = {}
        for start, end in ends:
            length = end[axis] - start[axis]
            if length > SAME_MM:
                first, last = scaled([start, end], scale)
                said[told(length)] = Said(first, last, told(length))
        made += in_rows(list(said.values()), list(made), where)  # type: ignore[arg-type]
    return made


def _lines(block: _Block, assembly: Assembly, told: Told) -> Iterator[str]:
    """Yield what is said of the holes below the drawing: how wide, how deep, and from which face."""
    drills = {each.name: mm(each.drill_m) for each in stock(assembly.hardware).threads.values()}
    _, _, deep = block.size
    for thread, ends in dict.fromkeys((one.thread, one.ends) for one in block.along):
        count = sum((one.thread, one.ends) == (thread, ends) for one in block.along)
        how = f"{told(ends[1])} deep from the rear face" if ends[1] < deep - SAME_MM else "through"
        yield f"{count} × {thread}, drilled ⌀{told(drills[thread])}, {how}"
    for hole in block.across:
        face = "upper" if hole.sunk_behind else "lower"
        within = told(WITHIN_MM[assembly.hardware])
        yield f"bore for the {hole.use}: ⌀{told(mm(hole.diameter_m))} ± {within}, flat, {told(mm(hole.deep_m))} deep,"
        yield f"from the {face} face, which is the one drawn"
