"""A turned part as a lathe hand reads it: seen from the side, its rear end at the left, every size with its class."""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
from shapely import box, union_all

from sim.display.assembly.stock import stock
from sim.units.convert import mm
from viz.drawings.bores import ALIKE_MM, Bore, bores, circle_of, is_round
from viz.drawings.cross_pins import pin_lines, pins_through
from viz.drawings.hidden_lines import strokes
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import DIMENSION_LETTER_MM, Note, Ring, Stroke, box_of, scaled
from viz.drawings.placing import Said, in_rows
from viz.drawings.turned_words import hole_lines, instead, pulley_lines, sized, stud_lines, tapped_lines
from viz.drawings.view import View, fitted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.display.assembly.data import Assembly, Part, Slab
    from sim.display.rise_laws import FloatArray
    from viz.drawings.marks import Mark, Point

APART_MM = 8.0
"""Between side view and end view. [mm]"""
LINE_MM = 1.9 * DIMENSION_LETTER_MM
SHORTER_MM = 0.2
"""By which a sleeve may be shorter, never longer, than drawn: shim rings fill, and take nothing away. Common practice,
no source. [mm]"""


def turned_view(part: Part, assembly: Assembly, room: Point) -> View:
    """Return side view and, where holes stand off the axis, end view, at the largest usual scale for a room [mm]."""
    return fitted(partial(_view, part, assembly), room)


def widest_mm(part: Part) -> float:
    """Return the diameter over everything of a part. [mm]."""
    return 2.0 * max(mm(float(np.hypot(*slab.outline_m.T).max())) for slab in part.slabs)


def toleranced(part: Part, assembly: Assembly) -> tuple[tuple[str, float], ...]:
    """Return class and size of every diameter of a part that has a class. [mm]."""
    outside, inside = classes(part)
    wide = 2.0 * max(_sides(each)[3] for each in part.slabs)
    rims = [(outside, wide), *((inside, one.wide) for one in bores(part, assembly) if one.off < ALIKE_MM)]
    sides = {2.0 * _sides(each)[3] for each in part.slabs} if "follower" in part.fit else set()
    rims += [(outside, each) for each in sides]
    pins = [(stock(assembly.hardware).pins.hole, each) for _, each in cross_holes(part, assembly)]
    return tuple((name, round(size, 3)) for name, size in (*rims, *pins) if name)


def cross_holes(part: Part, assembly: Assembly) -> tuple[tuple[float, float], ...]:
    """Return place from the rear end and diameter of every hole for a cross pin, the rearmost first. [mm]."""
    return tuple(sorted({(place, wide) for place, wide, _ in pins_through(part, assembly)}))


def classes(part: Part) -> tuple[str, str]:
    """Return the ISO 286 class of the outside, and that of the bore; empty where none matters."""
    first = part.fit.split(maxsplit=1)[0].rstrip(",") if part.fit else ""
    inside = "on the shaft" in part.fit or "on the motor shaft" in part.fit
    return ("", first.split("/")[0]) if inside else (first, "")


def _view(part: Part, assembly: Assembly, scale: float) -> View:
    holes, pins = bores(part, assembly), cross_holes(part, assembly)
    shapes: list[Mark] = [*_side(part, assembly, holes, scale)]
    right = mm(part.thickness_m) * scale
    reach = max(high for _, _, _, high in map(_sides, part.slabs)) * scale
    shapes.append(Stroke([(-2.0, 0.0), (right + 2.0, 0.0)], "centre"))
    for place, wide in pins:
        shapes += [Ring((place * scale, 0.0), wide * scale, "cut")]
        shapes += [Stroke([(place * scale, -reach - 1.0), (place * scale, reach + 1.0)], "centre")]
    shapes += _dimensions(part, assembly, (holes, pins), shapes, scale=scale)
    off = [one for one in holes if one.off > ALIKE_MM]
    if off or not all(map(_is_round, part.slabs)):
        shapes += _end(part, holes, scale, box_of(shapes)[2] + APART_MM)
    lines = [*pulley_lines(part, assembly), *pin_lines(part, assembly), *hole_lines(off, assembly)]
    lines += tapped_lines([one for one in holes if one not in off], part, assembly)
    lines += stud_lines(part, assembly)
    low, left = box_of(shapes)[1], box_of(shapes)[0]
    for row, line in enumerate(lines, start=1):
        shapes.append(Note(line, (left, low - LINE_MM * row), "thin", anchor="start"))
    return View(tuple(shapes), scale, f"Side view of the {part.name} with its dimensions.")


def _side(part: Part, assembly: Assembly, holes: Sequence[Bore], scale: float) -> Iterator[Mark]:
    """Yield the silhouette, the edges of its shoulders, the end of an outer thread, and its bores dashed."""
    slabs = sorted(part.slabs, key=lambda each: each.z_from_m)
    sides = [_sides(each, part) for each in slabs]
    yield from strokes(union_all([box(*each) for each in sides]).boundary, scale, "cut")
    words = [instead(part, assembly, each.z_to_m) for each in slabs]
    for (one, word), (other, next_word) in pairwise(zip(sides, words, strict=True)):
        half = min(one[3], other[3])
        if abs(one[3] - other[3]) > ALIKE_MM or word != next_word:
            yield Stroke(scaled([(one[2], -half), (one[2], half)], scale), "edge")
    for hole in holes:
        if hole.off < ALIKE_MM:
            (start, end), half = hole.ends, hole.wide / 2.0
            yield Stroke(
                scaled([(start, -half), (end, -half), (end, half), (start, half)], scale), "hidden", closed=True
            )


def _sides(slab: Slab, part: Part | None = None) -> tuple[float, float, float, float]:
    start = part.z_from_m if part else 0.0
    low, high = (mm(float(end)) for end in (slab.outline_m[:, 1].min(), slab.outline_m[:, 1].max()))
    if _is_round(slab):
        low, high = -mm(_reach(slab.outline_m)), mm(_reach(slab.outline_m))
    return mm(slab.z_from_m - start), low, mm(slab.z_to_m - start), high


def _dimensions(
    part: Part, assembly: Assembly, made: tuple[Sequence[Bore], Sequence[Point]], drawn: Sequence[Mark], *, scale: float
) -> list[Mark]:
    """Return lengths from the rear end below, places of cross holes above, diameters at the ends."""
    units, long = units_of(assembly.hardware), mm(part.thickness_m)
    sides = [_sides(each, part) for each in part.slabs]
    low, high = min(each[1] for each in sides), max(each[3] for each in sides)
    steps = sorted(
        {round(each[2], 4) for each in sides} | {round(one.ends[1], 4) for one in made[0]} | {round(long, 4)}
    )
    within = f" 0/−{dimension_text(SHORTER_MM, units)}" if part.name.endswith(" sleeve") else ""
    below = [((0.0, low), (end, low), dimension_text(end, units) + within) for end in steps if end > ALIKE_MM]
    above = [((0.0, high), (place, high), dimension_text(place, units)) for place, _ in made[1]]
    at_end = {"left": [], "right": []}  # type: dict[str, list[tuple[Point, Point, str]]]
    for bottom, top, where, text in _diameters(part, assembly, made[0]):
        x = long if where == "right" else 0.0
        at_end[where].append(((x, bottom), (x, top), text))
    shapes: list[Mark] = list(drawn)
    for where, asked in (("below", below), ("above", above), ("left", at_end["left"]), ("right", at_end["right"])):
        said = [Said(_at(start, scale), _at(end, scale), text) for start, end, text in asked]
        shapes += in_rows(said, drawn, where)  # type: ignore[arg-type]
    return shapes[len(drawn) :]


def _at(point: Point, scale: float) -> Point:
    return point[0] * scale, point[1] * scale


def _diameters(part: Part, assembly: Assembly, holes: Sequence[Bore]) -> Iterator[tuple[float, float, str, str]]:
    """Yield the ends of each diameter across the axis, the end of the part where it stands, and its words. [mm]."""
    outside, inside = classes(part)
    largest = max(_sides(each)[3] for each in part.slabs)
    seen: set[float] = set()
    for slab in sorted(part.slabs, key=lambda each: -each.z_to_m):
        _, low, _, high = _sides(slab)
        if round(high, 3) in seen:
            continue
        seen.add(round(high, 3))
        where = "right" if slab.z_to_m > part.z_to_m - 1e-6 else "left"
        fit = outside if "follower" in part.fit or high > largest - ALIKE_MM else ""
        word = instead(part, assembly, slab.z_to_m) if high < largest - ALIKE_MM else ""
        yield low, high, where, word or sized(high - low, fit, assembly, across=not _is_round(slab))
    for hole in holes:
        if hole.off < ALIKE_MM:
            where = "left" if hole.ends[0] < ALIKE_MM else "right"
            word = hole.thread or sized(hole.wide, inside, assembly)
            yield -hole.wide / 2.0, hole.wide / 2.0, where, word


def _is_round(slab: Slab) -> bool:
    return is_round(slab.outline_m)


def _reach(corners_m: FloatArray) -> float:
    """Return the radius of a round outline, whose corners stand on the circle. [m]."""
    return circle_of(corners_m)[1]


def _end(part: Part, holes: Sequence[Bore], scale: float, left: float) -> Iterator[Mark]:
    """Yield the view of the front end, its left edge at a place on paper."""
    reach = max(abs(float(slab.outline_m[:, 0].min())) for slab in part.slabs)
    middle = left + mm(reach) * scale
    for slab in part.slabs:
        rim = [(mm(x) * scale + middle, mm(y) * scale) for x, y in slab.outline_m.tolist()]
        yield Stroke(rim, "cut", closed=True)
    for hole in holes:
        yield Ring((hole.at[0] * scale + middle, hole.at[1] * scale), hole.wide * scale, "cut")
    far = mm(reach) * scale + 2.0
    yield Stroke([(middle - far, 0.0), (middle + far, 0.0)], "centre")
    yield Stroke([(middle, -far), (middle, far)], "centre")
