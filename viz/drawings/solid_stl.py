"""A part made of prisms as STL for a printer, its openings and holes left out; and a bar to check a print by."""

from __future__ import annotations

import struct
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from shapely import MultiPolygon, Polygon, get_coordinates, union_all
from shapely.geometry.polygon import orient

from sim.units.convert import mm

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Part
    from sim.display.rise_laws import FloatArray

    Corner2 = tuple[float, float]
    Corner = tuple[float, float, float]
    Facet = tuple[Corner, Corner, Corner]
    Layer = tuple[BaseGeometry, float, float]

HEADER = "INERT DISPLAY, mm. Estimates: a licensed engineer or mechanic decides. Guard it."
"""The caution that the 80 bytes before the facets hold."""
SAME_MM = 0.02
"""By which a hole that is as wide as a thread may differ from it. [mm]"""
NEAR_MM = 1e-5
"""Corners nearer than this are one. [mm]"""
AT_ONCE = 256
"""Pieces of a rim that are held against all corners at a time."""
BAR_MM = (50.0, 10.0, 3.0)
"""Length, width and thickness of the bar. [mm]"""


def part_stl(part: Part, drills_mm: Mapping[float, float] | None = None) -> bytes:
    """Return a part as binary STL in millimetres, standing on its rear face, the visitors' side up.

    Parameters
    ----------
    part : Part
        The part.
    drills_mm : mapping or None
        Diameter of a thread -> that of its drill: holes of the former are made as wide as the latter. [mm]
    """
    drilled = partial(_drilled, drills_mm=drills_mm or {})
    layers = [
        (Polygon(mm(slab.outline_m), [drilled(mm(rim)) for rim in slab.openings_m]), slab.z_from_m, slab.z_to_m)
        for slab in part.slabs
    ]
    low = min(z for _, z, _ in layers)
    return stl([(shape, mm(start - low), mm(end - low)) for shape, start, end in layers])


def _drilled(rim: FloatArray, drills_mm: Mapping[float, float]) -> FloatArray:
    """Return the corners of an opening, shrunk to its drill where it is as wide as a thread. [mm]."""
    middle = (rim.min(axis=0) + rim.max(axis=0)) / 2.0
    wide, high = np.ptp(rim, axis=0)
    for thread, drill in drills_mm.items():
        if len(rim) > 8 and abs(wide - thread) < SAME_MM and abs(high - thread) < SAME_MM:
            shrunk: FloatArray = middle + (rim - middle) * (drill / thread)
            return shrunk
    return rim


def check_bar() -> bytes:
    """Return the bar that is printed first and measured: 50 mm long."""
    long, wide, thick = BAR_MM
    return stl([(Polygon([(0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)]), 0.0, thick)])


def stl(layers: Sequence[Layer]) -> bytes:
    """Return prisms, which may stand on one another, as the surface of one body in binary STL.

    Parameters
    ----------
    layers : sequence of (polygon, float, float)
        Shape, lower and upper end of each. [mm]
    """
    facets = np.array(triangles_of(layers))
    records = np.zeros(len(facets), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    records["normal"], records["corners"] = _normals(facets)[0], facets
    return HEADER.encode("ascii").ljust(80)[:80] + struct.pack("<I", len(facets)) + records.tobytes()


def triangles_of(layers: Sequence[Layer]) -> list[Facet]:
    """Return the surface of prisms as triangles, anticlockwise from outside. [mm]."""
    facets = list(_facets(layers))
    _, flat = _normals(np.array(facets))
    return [facet for facet, none in zip(facets, flat, strict=True) if not none]


def _facets(layers: Sequence[Layer]) -> Iterator[Facet]:
    levels = sorted({round(z, 6) for _, *ends in layers for z in ends})
    whole: list[BaseGeometry] = [
        union_all([shape for shape, start, end in layers if start - 1e-6 <= low and high <= end + 1e-6])
        for low, high in pairwise(levels)
    ]
    corners = _corners(whole) if len(whole) > 1 else np.empty((0, 2))
    stack = [_noded(shape, corners) for shape in whole]
    for shape, (low, high) in zip(stack, pairwise(levels), strict=True):
        yield from _walls(shape, low, high)
    for below, above, level in zip([Polygon(), *stack], [*stack, Polygon()], levels, strict=True):
        for bare, up in ((below.difference(above), True), (above.difference(below), False)):
            for a, b, c in _triangles(_noded(bare, corners)):
                facet = ((*a, level), (*b, level), (*c, level))
                yield facet if up else facet[::-1]


def _corners(shapes: Iterable[BaseGeometry]) -> FloatArray:
    """Return every corner of prisms, and where their rims cross. [mm]."""
    lines = union_all([shape.boundary for shape in shapes])
    corners: FloatArray = np.unique(get_coordinates(lines), axis=0)
    return corners


def _noded(shape: BaseGeometry, corners: FloatArray) -> MultiPolygon:
    """Return a shape whose rims have a corner wherever another prism has one on them, so that facets share edges."""
    return MultiPolygon(
        [
            Polygon(_ring(each.exterior.coords, corners), [_ring(rim.coords, corners) for rim in each.interiors])
            for each in polygons(shape)
        ]
    )


def _ring(coords: Iterable[tuple[float, ...]], corners: FloatArray) -> list[Corner2]:
    rim = np.array(list(coords))
    return [point for at in range(0, len(rim) - 1, AT_ONCE) for point in _divided(rim[at : at + AT_ONCE + 1], corners)]


def _divided(rim: FloatArray, corners: FloatArray) -> Iterator[Corner2]:
    """Yield the first end of each piece of a rim, and the corners that stand on the piece, in their order."""
    way = np.diff(rim, axis=0)
    long = np.hypot(*way.T)
    from_start = corners - rim[:-1, None]
    along = (from_start * way[:, None]).sum(axis=2) / long[:, None] ** 2
    off = np.linalg.norm(from_start - along[..., None] * way[:, None], axis=2)
    gap = NEAR_MM / long[:, None]
    on = (off < NEAR_MM) & (gap < along) & (along < 1.0 - gap)
    for at, start in enumerate(rim[:-1].tolist()):
        yield start[0], start[1]
        for share in np.sort(along[at, on[at]]):
            yield tuple((rim[at] + way[at] * share).tolist())


def polygons(shape: BaseGeometry) -> Iterator[Polygon]:
    """Yield the polygons that a shape is made of, their outer rims anticlockwise."""
    parts = shape.geoms if hasattr(shape, "geoms") else (shape,)
    for each in parts:
        if isinstance(each, MultiPolygon):
            yield from polygons(each)
        elif isinstance(each, Polygon) and each.area > 1e-6:
            yield orient(each)


def _walls(shape: BaseGeometry, low: float, high: float) -> Iterator[Facet]:
    for polygon in polygons(shape):
        for ring in (polygon.exterior, *polygon.interiors):
            corners = list(ring.coords)
            for a, b in pairwise(corners):
                yield (*a, low), (*b, low), (*b, high)
                yield (*a, low), (*b, high), (*a, high)


def _triangles(shape: BaseGeometry) -> Iterator[tuple[tuple[float, float], ...]]:
    """Yield the triangles of a shape, each anticlockwise."""
    from ezdxf.math import Vec2
    from ezdxf.math.triangulation import mapbox_earcut_2d

    for polygon in polygons(shape):
        rims = [[Vec2(*point) for point in ring.coords[:-1]] for ring in (polygon.exterior, *polygon.interiors)]
        for triangle in mapbox_earcut_2d(rims[0], rims[1:]):
            a, b, c = ((float(point.x), float(point.y)) for point in triangle)
            turn = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
            yield (a, b, c) if turn > 0.0 else (a, c, b)


def _normals(facets: FloatArray) -> tuple[FloatArray, NDArray[np.bool_]]:
    """Return the unit normal of each facet, and which have no area."""
    across = np.cross(facets[:, 1] - facets[:, 0], facets[:, 2] - facets[:, 0])
    long = np.linalg.norm(across, axis=1)
    flat = long < 1e-12
    return across / np.where(flat, 1.0, long)[:, None], flat
