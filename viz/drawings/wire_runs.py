"""The rear of the guard: where the wires of lamp and sensor run, with their duct, their hole and their clips."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from sim.display.assembly.centre import WIRES
from sim.units.convert import mm
from viz.drawings.marks import Note, Ring, Stroke
from viz.drawings.view import View

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part
    from viz.drawings.marks import Chain, Mark, Point

RUNS_MM = 178.0, 190.0
"""What the rear view may take. [mm]"""
CLIPS = 6
"""Adhesive clips that hold the wires of the sensor."""
DUCT_MM, CLIP_MM = 15.0, 12.0
"""Width of the duct, and of a clip as it is drawn. [mm]"""
DOWN_MM = 30.0
"""Below the box, where the duct ends and cables bend to its glands. [mm]"""
SAID = (
    "From behind, backboard on, seen through it what is dashed: the wires of the sensor, on the back of the front "
    "panel under {clips} clips, and the blades' circle. Duct of the lamp's wires down the rear of the backboard."
)


def said() -> str:
    """Return how the view is read."""
    return SAID.format(clips=CLIPS)


def lamp_run(assembly: Assembly) -> Chain:
    """Return the middle of the duct: from the lamp down beside the box, and below it to the glands. [mm]."""
    lamp, box = assembly.part("lamp"), assembly.part("wiring box")
    low = mm(box.y_m + float(box.slabs[0].outline_m[:, 1].min())) - DOWN_MM
    x, y = mm(lamp.x_m), mm(lamp.y_m)
    return [(x, y), (x, low), (mm(box.x_m) + mm(float(box.slabs[0].outline_m[:, 0].max())), low)]


def sensor_run(assembly: Assembly) -> Chain:
    """Return the way of the sensor's wires: from their hole behind the base aside and down, to that of the backboard.

    [mm].
    """
    panel, board, mast = (assembly.part(name) for name in ("front panel", "backboard", "mast"))
    top, low = (_hole(part) for part in (panel, board))
    side = mm(float(mast.slabs[0].outline_m[:, 0].max())) + CLIP_MM
    return [top, (side, top[1]), (side, low[1]), low]


def _hole(part: Part) -> Point:
    hole = next(each for each in part.holes if each.use == WIRES)
    return mm(hole.x_m), mm(hole.y_m)


def clips(assembly: Assembly) -> list[Point]:
    """Return where the clips stand: evenly along the upright part of the way. [mm]."""
    _, (x, high), (_, low), _ = sensor_run(assembly)
    return [(x, high + (low - high) * (number + 0.5) / CLIPS) for number in range(CLIPS)]


def rear_view(assembly: Assembly, scale: float) -> View:
    """Return the rear of the guard, x mirrored as one sees it from behind."""
    marks = [*_boards(assembly, scale), *_wires(assembly, scale), *_words(assembly, scale)]
    return View(tuple(marks), scale, "The rear of the guard, with the duct, the wires of the sensor and their clips.")


def _drawn(chain: Chain, scale: float) -> Chain:
    return [(-x * scale, y * scale) for x, y in chain]


def _rim(part: Part) -> Chain:
    return [(mm(part.x_m + x), mm(part.y_m + y)) for x, y in part.slabs[0].outline_m.tolist()]


def _boards(assembly: Assembly, scale: float) -> Iterator[Mark]:
    for name, pen in (("backboard", "cut"), ("footboard", "cut"), ("wiring box", "cut"), ("mast", "hidden")):
        yield Stroke(_drawn(_rim(assembly.part(name)), scale), pen, closed=True)  # type: ignore[arg-type]
    shaft, propeller = assembly.part("propeller hub"), assembly.part("propeller")
    reach = 2.0 * max(
        float((slab.outline_m[:, 0] ** 2 + slab.outline_m[:, 1] ** 2).max()) ** 0.5 for slab in propeller.slabs
    )
    yield Ring((-mm(shaft.x_m) * scale, mm(shaft.y_m) * scale), mm(reach) * scale, "centre")


def _wires(assembly: Assembly, scale: float) -> Iterator[Mark]:
    run, half = lamp_run(assembly), DUCT_MM / 2.0
    for (ax, ay), (bx, by) in pairwise(run):
        left, right = sorted((ax, bx))
        low, high = sorted((ay, by))
        corners = [
            (left - half, low - half),
            (right + half, low - half),
            (right + half, high + half),
            (left - half, high + half),
        ]
        yield Stroke(_drawn(corners, scale), "edge", closed=True)
    yield Stroke(_drawn(sensor_run(assembly), scale), "hidden")
    for x, y in clips(assembly):
        far, up = CLIP_MM / 2.0, CLIP_MM / 4.0
        corners = [(x - far, y - up), (x + far, y - up), (x + far, y + up), (x - far, y + up)]
        yield Stroke(_drawn(corners, scale), "edge", closed=True)
    for part in (assembly.part("front panel"), assembly.part("backboard")):
        yield Ring(_drawn([_hole(part)], scale)[0], 8.0 * scale, "cut")


def _words(assembly: Assembly, scale: float) -> Iterator[Mark]:
    (x, y), (_, low), _ = lamp_run(assembly)
    box = assembly.part("wiring box")
    yield Note("lamp", (-x * scale, (y + DUCT_MM) * scale + 2.0), "thin")
    yield Note("duct", (-(x + DUCT_MM) * scale - 1.0, (y + low) / 2.0 * scale), "thin", anchor="end")
    yield Note("box", (-mm(box.x_m) * scale, mm(box.y_m) * scale), "thin")
    place = clips(assembly)[1]
    yield Note("clips", (-(place[0] + CLIP_MM) * scale - 1.0, place[1] * scale), "thin", anchor="end")
