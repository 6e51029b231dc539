"""What is seen of prisms that stand one before another: the lines of each that nothing nearer covers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shapely import Polygon, line_merge, union_all
from shapely.geometry import LineString, box

from sim.display.assembly.interference import shape_of
from sim.units.convert import mm
from viz.drawings.marks import Stroke

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Fastener, Part
    from viz.drawings.marks import Pen

CLEAR = ("polycarbonate",)
"""Materials that are seen through."""
CHORD_MM = 0.02
"""By which a line may miss the curve that it stands for. [mm]"""


@dataclass(frozen=True, slots=True)
class Seen:
    """A prism as a view shows it.

    Attributes
    ----------
    shape : geometry
        What it covers. [mm]
    near : float
        How near it stands to who looks. [mm]
    clear : bool
        Whether it is seen through.
    edges : geometry or None
        Lines on it besides its own rim. [mm]
    """

    shape: BaseGeometry
    near: float
    clear: bool = False
    edges: BaseGeometry | None = None


def front(parts: Iterable[Part | Fastener]) -> Iterator[Seen]:
    """Yield every prism as visitors see it: x right, y up."""
    for each, shape, _, end in prisms(parts):
        yield Seen(shape, end, is_clear(each))


def side(parts: Iterable[Part | Fastener], *, from_left: bool) -> Iterator[Seen]:
    """Yield every prism from its left, z to the right, or from its right, z to the left; y up."""
    for each, shape, start, end in prisms(parts):
        left, low, right, high = shape.bounds
        wide = (start, end) if from_left else (-end, -start)
        yield Seen(box(wide[0], low, wide[1], high), -left if from_left else right, is_clear(each))


def above(parts: Iterable[Part | Fastener]) -> Iterator[Seen]:
    """Yield every prism from above: x right, z down."""
    for each, shape, start, end in prisms(parts):
        left, _, right, high = shape.bounds
        yield Seen(box(left, -end, right, -start), high, is_clear(each))


def prisms(
    parts: Iterable[Part | Fastener],
) -> Iterator[tuple[Part | Fastener, BaseGeometry, float, float]]:
    """Yield part, shape in its place, and ends along the shaft of every prism [mm].

    Of one that stands along y the shape is what visitors see of it.
    """
    from shapely.affinity import scale

    for each in parts:
        for slab in each.slabs:
            shape = scale(shape_of(slab, each), mm(1.0), mm(1.0), origin=(0.0, 0.0)).simplify(CHORD_MM)
            yield each, shape, mm(slab.z_from_m), mm(slab.z_to_m)


def is_clear(each: Part | Fastener) -> bool:
    """Return whether a part is seen through."""
    return getattr(each, "material", "") in CLEAR


def visible(seen: Iterable[Seen], scale: float, pen: Pen = "cut") -> list[Stroke]:
    """Return what is seen, on paper at a scale."""
    covered: BaseGeometry = Polygon()
    lines: list[Stroke] = []
    for each in sorted(seen, key=lambda one: -one.near):
        edges = each.shape.boundary if each.edges is None else union_all([each.shape.boundary, each.edges])
        lines += strokes(edges.difference(covered), scale, "thin" if each.clear else pen)
        if not each.clear:
            covered = covered.union(each.shape)
    return lines


def strokes(lines: BaseGeometry, scale: float, pen: Pen) -> Iterator[Stroke]:
    """Yield lines as strokes on paper at a scale."""
    merged = line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    for line in getattr(merged, "geoms", (merged,)):
        if isinstance(line, LineString) and line.length > CHORD_MM:
            yield Stroke([(x * scale, y * scale) for x, y in line.coords], pen)
