"""The sheet of bought parts that the drawings rely on: the sensor and how the flag comes to it, and the wiring box."""

from __future__ import annotations

from functools import partial
from math import cos, sin
from typing import TYPE_CHECKING

from sim.display.assembly.stock import stock
from sim.display.assembly.wiring_box import BOX_M, GLAND_M, GLANDS, GLANDS_APART_M
from sim.units.convert import mm
from viz.drawings.bores import circle_of
from viz.drawings.items import key, numbers
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import Note, Ring, Stroke, box_of, shifted
from viz.drawings.placing import Said, in_rows
from viz.drawings.sensor_view import flag_edge, sensor_of, sensor_view
from viz.drawings.sheet_markup import placed, scale_of
from viz.drawings.view import View, fitted, ratio
from viz.files.typst import text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.drawings.marks import Mark, Point
    from viz.sheets.typst import Pages

SENSOR_MM, BOX_ROOM_MM = (178.0, 130.0), (178.0, 80.0)
"""What the sensor and the walls of the wiring box may take. [mm]"""
APART_MM = 16.0
"""Between the two walls. [mm]"""
TOLD = {
    "light barrier": (
        "The blue ring is the beam, which runs along the shaft, in the middle of gap and body. The gap is open on the "
        "left, where the flag comes in; the leads leave at the right, in a loop to the hole for the wires. Follower "
        "down, the edge of the flag is {short} short of the beam; at the end of its lift, dashed, {beyond} beyond: the "
        "beam is broken from half lift on. One with other holes serves where its beam stands so: block and plate "
        "are drilled to its holes. Countersink the holes of its flange by 90° to ⌀{sunk} from the front, so that the "
        "heads of the light barrier screws lie flush: the flag passes {clear} before them."
    ),
    "lamp switch": (
        "Its roller lever points to the flag, which comes from below; bend the lever until the contact closes with the "
        "flag at half lift. Follower down, the edge of the flag is {short} from the middle of the body. The leads "
        "leave away from the flag, in a loop to the hole for the wires."
    ),
}


def bought_parts(exhibit: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the sheet of the sensor and of the wiring box."""
    sensor, units, lift_m = sensor_of(assembly), pages.units, _lift(exhibit, assembly)
    number = numbers(assembly)
    yield "= Bought parts: what is set and drilled"
    view = sensor_view(assembly, lift_m, SENSOR_MM)
    yield scale_of("as stated")
    yield f"== Item {number[key(sensor)]}: {text(sensor.name)}, on its block"
    short = dimension_text(mm(flag_edge(assembly)), units)
    beyond = dimension_text(mm(lift_m - flag_edge(assembly)), units)
    said = TOLD[sensor.name].format(short=short, beyond=beyond, **_flange(assembly))
    yield text(f"{said} Above or below it, the same seen along the motion. Scale {ratio(view.scale)}.")
    yield placed(pages, "sensor", view)
    box = assembly.part("wiring box")
    walls = fitted(partial(_walls, assembly), BOX_ROOM_MM)
    yield f"== Item {number[key(box)]}: {text(box.name)}"
    yield text(
        "Its rear wall, which lies on the backboard, and its lower wall with the holes of the glands, from either "
        f"side. Scale {ratio(walls.scale)}. The mounting rail is drilled as the rear wall, about its middle, and lies "
        "in the wiring box under the nuts."
    )
    yield placed(pages, "wiring-box", walls)


def _flange(assembly: Assembly) -> dict[str, str]:
    """Return diameter of the countersinks in the flange of the sensor, and how far the flag passes before it."""
    units, flange = units_of(assembly.hardware), sensor_of(assembly).slabs[0]
    clear = assembly.part("flag").z_from_m - flange.z_to_m
    wide = stock(assembly.hardware).threads["small"].heads_m["sunk"][0]
    return {"sunk": dimension_text(mm(wide), units), "clear": dimension_text(mm(clear), units)}


def _lift(exhibit: Exhibit, assembly: Assembly) -> float:
    """Return the travel of the flag where it is sensed, on an arm by the distance from its pivot. [m]."""
    follower, lift_m = exhibit.display.follower, exhibit.display.cam.lift_m
    if follower.kind == "translating":
        return lift_m
    arm, sensor = assembly.part("arm"), sensor_of(assembly)
    c, s = cos(sensor.placed_rad), sin(sensor.placed_rad)
    far = c * (sensor.x_m - arm.x_m) + s * (sensor.y_m - arm.y_m)
    return lift_m * far / float(follower.arm_m)


def _walls(assembly: Assembly, scale: float) -> View:
    """Return rear and lower wall beside one another."""
    wide, high, deep = map(mm, BOX_M)
    base = assembly.part("wiring box").slabs[0]
    holes = [((mm(x), mm(y)), 2.0 * mm(radius)) for (x, y), radius in map(circle_of, base.openings_m)]
    step = mm(GLANDS_APART_M)
    glands = [((step * (each - (GLANDS - 1) / 2.0), 0.0), mm(GLAND_M)) for each in range(GLANDS)]
    rear = _wall(assembly, "rear wall", (wide, high), holes, scale=scale)
    lower = _wall(assembly, "lower wall", (wide, deep), glands, scale=scale)
    aside = box_of(rear)[2] - box_of(lower)[0] + APART_MM
    shapes = [*rear, *(shifted(each, (aside, 0.0)) for each in lower)]
    return View(tuple(shapes), scale, "The holes of the rear and of the lower wall of the wiring box.")


def _wall(
    assembly: Assembly, name: str, size: Point, holes: Sequence[tuple[Point, float]], *, scale: float
) -> list[Mark]:
    """Return a wall about its middle, its holes from its left and its lower edge."""
    units, (half, up) = units_of(assembly.hardware), (size[0] / 2.0, size[1] / 2.0)
    rim = [(-half, -up), (half, -up), (half, up), (-half, up)]
    shapes: list[Mark] = [Stroke([(x * scale, y * scale) for x, y in rim], "cut", closed=True)]
    for (x, y), wide in holes:
        reach = wide / 2.0 + 3.0
        shapes.append(Ring((x * scale, y * scale), wide * scale, "cut"))
        shapes.append(Stroke([((x - reach) * scale, y * scale), ((x + reach) * scale, y * scale)], "centre"))
        shapes.append(Stroke([(x * scale, (y - reach) * scale), (x * scale, (y + reach) * scale)], "centre"))
    below = [((-half, -up), (x, y)) for (x, y), _ in holes] + [((-half, -up), (half, -up))]
    left = [((-half, -up), (holes[0][0][0], holes[0][0][1])), ((-half, -up), (-half, up))]
    made = list(shapes)
    for axis, where, ends in ((0, "below", below), (1, "left", left)):
        said = [
            Said(
                (start[0] * scale, start[1] * scale),
                (end[0] * scale, end[1] * scale),
                dimension_text(end[axis] - start[axis], units),
            )
            for start, end in ends
        ]
        made += in_rows(said, shapes, where)  # type: ignore[arg-type]
    words = f"{name}, {len(holes)} × ⌀{dimension_text(holes[0][1], units)}"
    return [*made, Note(words, (0.0, box_of(made)[3] + 3.0), "thin")]
