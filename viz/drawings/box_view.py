"""The wiring box with its lid off, as one sees it from behind: what stands on its rail, and where wires run in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.wiring_box import (
    BOX_M,
    BOX_WALL_M,
    GLAND_M,
    GLAND_NUT_M,
    GLANDS,
    GLANDS_APART_M,
    RAIL_M,
    SCREWS_APART_M,
    on_rail,
)
from sim.units.convert import mm
from viz.drawings.marks import Note, Ring, Stroke
from viz.drawings.view import View

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from viz.drawings.marks import Box, Chain, Mark, Pen

BOX_ROOM_MM = 178.0, 100.0
"""What the inside of the box may take. [mm]"""
ENTERS = ("lamp", "sensor", "supply")
"""What comes through each gland, from the left as seen from behind."""
RUNS: dict[str, Chain] = {
    "lamp to timer K1 and terminals X1": [(-30.0, -65.0), (-30.0, -55.0), (14.0, -55.0), (14.0, -27.5)],
    "lamp to timer K1": [(-30.0, -55.0), (-30.0, -45.0)],
    "sensor to terminals X1 and on, before them, to timer K1": [
        (0.0, -65.0),
        (0.0, -51.0),
        (40.0, -51.0),
        (40.0, 56.0),
        (-10.0, 56.0),
        (-10.0, 45.0),
    ],
    "terminals X1 to timer K1": [(22.0, 27.5), (22.0, 52.0), (-20.0, 52.0), (-20.0, 45.0)],
    "supply to fuse F1": [(30.0, -65.0), (30.0, -58.0), (58.0, -58.0), (58.0, -30.0)],
    "fuse F1 to terminals X1": [(58.0, 30.0), (58.0, 42.0), (46.0, 42.0), (46.0, 27.5)],
}
"""Where wires run, from the middle of the box, x to the right as seen from behind. [mm]"""
BEFORE = "terminals X1"
"""What wires may cross: they run before it, where the lid leaves room."""
SHORT = {"end stop": "", "timer K1": "timer K1", "terminals X1": "X1", "fuse F1": "F1"}
"""What stands on a thing, where it is wide enough for words."""
NARROW_MM = 30.0
"""On what is narrower, words stand upright. [mm]"""
BESIDE_MM = 16.0
"""Between the two views on paper. [mm]"""


def box_view(assembly: Assembly, scale: float) -> View:
    """Return the box from behind, and beside it from its right, both without the near wall."""
    inside = [*_walls(scale), *_rail(scale), *_standing(scale), *_screws(assembly, scale), *_runs(scale)]
    marks = (*inside, *_depth(assembly, scale))
    return View(marks, scale, "The inside of the wiring box, from behind and from its right, with where wires run.")


def _box(sides: Box, scale: float, pen: Pen = "cut") -> Stroke:
    left, low, right, high = sides
    corners = [(left, low), (right, low), (right, high), (left, high)]
    return Stroke([(x * scale, y * scale) for x, y in corners], pen, closed=True)


def _walls(scale: float) -> Iterator[Mark]:
    wide, high, _ = map(mm, BOX_M)
    for less in (0.0, mm(BOX_WALL_M)):
        yield _box((less - wide / 2.0, less - high / 2.0, wide / 2.0 - less, high / 2.0 - less), scale)
    low, nut, half = mm(BOX_WALL_M) - high / 2.0, mm(GLAND_NUT_M), 0.7 * mm(GLAND_M)
    for number, name in enumerate(ENTERS):
        x = mm(GLANDS_APART_M) * (number - (GLANDS - 1) / 2.0)
        yield _box((x - half, low, x + half, low + nut), scale)
        yield _box((x - half, low - 2.0 * nut, x + half, -high / 2.0), scale)
        yield Note(name, (x * scale, (low - 2.0 * nut) * scale - 3.0), "thin")


def _rail(scale: float) -> Iterator[Mark]:
    long, wide, _ = map(mm, RAIL_M)
    yield _box((-long / 2.0, -wide / 2.0, long / 2.0, wide / 2.0), scale, "edge")


def _standing(scale: float) -> Iterator[Mark]:
    for each in on_rail():
        left, (wide, high, _) = mm(each.left_m), map(mm, each.size_m)
        yield _box((left, -high / 2.0, left + wide, high / 2.0), scale)
        if SHORT[each.name]:
            turned = 90.0 if wide < NARROW_MM else 0.0
            yield Note(SHORT[each.name], ((left + wide / 2.0) * scale, 0.0), "thin", turned_deg=turned)


def _screws(assembly: Assembly, scale: float) -> Iterator[Mark]:
    held = next(one for one in assembly.fasteners if one.name == "wiring box screw")
    widths = sorted({round(mm(float(slab.outline_m[:, 0].max())) * 2.0, 3) for slab in held.slabs[-2:]})
    for side in (-1.0, 1.0):
        for wide in widths:
            yield Ring((side * mm(SCREWS_APART_M) / 2.0 * scale, 0.0), wide * scale, "edge")


def _runs(scale: float) -> Iterator[Mark]:
    for run in RUNS.values():
        yield Stroke([(x * scale, y * scale) for x, y in run], "hidden")


def _depth(assembly: Assembly, scale: float) -> Iterator[Mark]:
    """Yield the same from its right: the rear wall at the left, the lid at the right."""
    wide, high, deep = map(mm, BOX_M)
    at = wide / 2.0 + BESIDE_MM / scale
    wall, up = mm(BOX_WALL_M), high / 2.0
    yield _box((at, -up, at + deep, up), scale)
    yield _box((at + wall, wall - up, at + deep - wall, up - wall), scale)
    rail = at + wall + mm(RAIL_M[2])
    yield _box((at + wall, -mm(RAIL_M[1]) / 2.0, rail, mm(RAIL_M[1]) / 2.0), scale, "edge")
    for each in on_rail():
        _, tall, far = map(mm, each.size_m)
        yield _box((rail, -tall / 2.0, rail + far, tall / 2.0), scale, "cut" if each.name == "timer K1" else "edge")
    yield Note("rear wall", (at * scale, up * scale + 3.0), "thin", anchor="start")
    yield Note("lid", ((at + deep) * scale, up * scale + 3.0), "thin", anchor="end")
    box, held = assembly.part("wiring box"), next(one for one in assembly.fasteners if one.name == "wiring box screw")
    end = mm(box.z_to_m - held.z_from_m)
    yield _box((at + wall, -2.0, at + end, 2.0), scale, "hidden")
