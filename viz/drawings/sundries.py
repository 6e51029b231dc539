"""What is bought besides the parts of the display: for its wiring, its shims, paint, glue and spare parts."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from shapely import LineString, Polygon

from sim.display.assembly.plan import SEAT_BUSH_M
from sim.display.assembly.stock import stock
from sim.display.assembly.wiring_box import HOLDER_M, STOP_M, TERMINALS_M
from sim.units.convert import mm
from sim.units.text import in_both
from viz.drawings.flat_parts import cut_parts
from viz.drawings.lengths import shop_length, units_of
from viz.drawings.sensor_view import sensor_of
from viz.drawings.timer import timer
from viz.drawings.wire_runs import CLIPS, lamp_run
from viz.drawings.wiring import FUSE_A, POLES, SUPPLY_A, TAKEN_A
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly, Part
    from sim.studies.exhibit import Exhibit

COATS, COVERS_M2 = 2, 10.0
"""Coats of paint, and what a litre covers once: common practice, no source. [m²]"""
TIN = 0.25
"""Paint is bought in steps of this. [l]"""
BOX_WIRE_M, ASIDE_M = 0.4, 0.5
"""Wire of one colour inside the wiring box, and what each way is longer by, to lay the backboard aside. [m]"""
SUNDRIES = (
    ("sleeve, flexible PVC, 8 mm outside, 6 mm inside, 0.2 m (8 in), for the holes of the wires", 1),
    ("retaining compound for bearings, ISO 10964, medium strength, 10 ml", 1),
    ("thread-locking compound for clutch, grip and knob, ISO 10964, medium strength, 10 ml", 1),
    ("two-part epoxy adhesive for magnets and lamp, 25 ml; alcohol to clean what is glued", 1),
    ("wood glue, 0.25 l", 1),
    ("masking tape; white card, 160 g/m² or heavier, and a clear sleeve for the placard", 1),
    ("spare parts: a belt of each kind, spring, roller, friction discs", 1),
)
"""Bought for every display, and how many."""


def bought(exhibit: Exhibit, assembly: Assembly) -> tuple[tuple[str, int], ...]:
    """Return what is bought besides the parts of the display, by standard, and how many."""
    lamp = exhibit.display.lamp
    supply = f"{text_of(Value('lamp_v', lamp.lamp_v, nominal=True), 'si')} {lamp.supply}"
    wire, long = (in_both("length_m", each, 2) for each in (wire_m(assembly), ceil(2.0 * duct(assembly)) / 2.0))
    holder = f"with a holder for the rail, {_at_most(HOLDER_M)}"
    terminals, stops = _at_most(TERMINALS_M), _at_most(STOP_M)
    return (
        (f"fuse IEC 60127-2, 5 × 20 mm, quick-acting, {1e3 * FUSE_A:.0f} mA, {holder}; 5 spare fuses", 1),
        (timer(supply, TAKEN_A["timer"]), 1),
        (f"supply, plug-in, safety extra-low voltage, IEC 62368-1 ES1 and PS1, {supply}, at most {SUPPLY_A:g} A", 1),
        (f"wire 0.5 mm² (AWG 20), flexible, {wire} each of red, black, yellow and white, with 24 ferrules 0.5 mm²", 4),
        (
            (
                f"terminals X1, {2 * POLES} poles, with 2 bridges of {POLES} poles, for the rail, {terminals}; "
                f"2 end stops for the rail, {stops}; {CLIPS} adhesive cable clips; "
                "heat-shrink sleeve 3.2 mm (1/8 in) for joints and 6.4 mm (1/4 in) for wires where they pass a "
                "gland, 0.3 m (1 ft) of each"
            ),
            1,
        ),
        (f"cable duct with lid, adhesive, about 15 × 10 mm (5/8 × 3/8 in), {long}", 1),
        (shims(assembly), 1),
        (f"black or grey matt paint for plywood and outline (not on fits or threads), {paint(exhibit):g} l", 1),
        *SUNDRIES,
    )


def _at_most(size_m: tuple[float, float, float]) -> str:
    """Return how large what stands on the rail may be."""
    wide, high, deep = (in_both("plate_thickness_m", side, 2) for side in size_m)
    return f"at most {wide} wide, {high} high and {deep} deep in front of it"


def duct(assembly: Assembly) -> float:
    """Return the way of the lamp's wires behind the backboard. [m]."""
    return float(LineString(lamp_run(assembly)).length) / mm(1.0)


def wire_m(assembly: Assembly) -> float:
    """Return the wire of one colour, in whole metres: black leads to sensor and lamp, and from pole to pole. [m]."""
    sensor, box = sensor_of(assembly), assembly.part("wiring box")
    ways = _way(assembly, sensor) + sensor.z_to_m - box.z_from_m, duct(assembly)
    return ceil(sum(ways) + BOX_WIRE_M + ASIDE_M * len(ways))


def _way(assembly: Assembly, part: Part) -> float:
    box = assembly.part("wiring box")
    return abs(part.x_m - box.x_m) + abs(part.y_m - box.y_m)


def paint(exhibit: Exhibit) -> float:
    """Return the paint of all coats on faces and edges of the wooden parts, in whole tins. [l]."""
    wooden = [one for one in cut_parts(exhibit) if one.part.material == "birch plywood"]
    shapes = [(Polygon(one.drawing.outline), one) for one in wooden]
    area = sum((2.0 * face.area + face.length * one.thickness_mm) * one.quantity for face, one in shapes)
    return TIN * ceil(COATS * area / mm(1.0) ** 2 / COVERS_M2 / TIN)


def shims(assembly: Assembly) -> str:
    """Return the shim rings that are bought.

    On the shafts, below the friction spring round its stop bush, at brake spacers, below the lead cap at its screws.
    """
    sold = stock(assembly.hardware)
    shaft_m = 2.0 * float(assembly.part("crank shaft").slabs[0].outline_m[:, 0].max())
    standard = "DIN 988" if assembly.hardware == "metric" else "steel"
    sizes_m = shaft_m, SEAT_BUSH_M, *(sold.threads[size].diameter_m for size in ("large", "small"))
    *sizes, last = (shop_length(each, units_of(assembly.hardware)) for each in sizes_m)
    told = f"{', '.join(sizes)} and {last}"
    return f"shim rings {standard}, for {told}, 0.1, 0.2, 0.3 and 0.5 mm (0.004, 0.008, 0.012 and 0.02 in), 4 of each"
