"""The wiring diagram of the lamp: supply, fuse, sensor, timer and lamp, with polarity."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from sim.display.assembly.stock import stock
from sim.display.hand_speed import FLASH_PAUSE_S
from sim.units.text import in_both
from viz.drawings.lengths import shop_length, units_of
from viz.drawings.marks import Note, Ring, Stroke
from viz.drawings.view import View
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.drawings.marks import Mark, Point
    from viz.sheets.blocks import Table

LETTER_MM = 2.0
PLUS_MM, MINUS_MM = 60.0, 0.0
"""Heights of the positive and of the negative rail on paper. [mm]"""
FUSE_A, SUPPLY_A = 0.25, 1.0
"""Rating of the fuse, and the most that the supply gives: below a fuse at 2.1 times its rating blows within half an
hour, IEC 60127-2. [A]"""
TAKEN_A = {"sensor": 0.03, "timer": 0.07, "lamp": 0.02}
"""The most that each may take; what takes more is not bought. [A]"""
PAUSE = text_of(Value("time_s", FLASH_PAUSE_S, plain=True), "si")
MOST_FLASHES = f"{1.0 / FLASH_PAUSE_S:.2f}"
POLES = 4
"""Poles of the terminal block on each rail: three plus and four minus wires."""
STATES = (
    ("comes on", f"{PAUSE} or more", "comes on"),
    ("comes on", f"less than {PAUSE}", "stays off, until the input has gone off and comes on again"),
    ("goes off", "any", "goes off"),
    ("stays as it is", "any", "stays as it is"),
)
"""Program of the timer: input, time since the output last came on, output."""
JOINED = (
    ("X1.1 to X1.4, joined by a bridge: plus", "red", "fuse F1, sensor +, timer terminal 1"),
    ("X1.5 to X1.8, joined by a bridge: minus", "black", "supply −, sensor −, timer terminal 2, lamp −"),
    ("timer terminal 3", "yellow", "signal of the sensor"),
    ("timer terminal 4", "white", "lamp +"),
)
"""Terminal, colour of its wires, and what they lead to."""


SUNDRIES = (
    ("sleeve, flexible PVC, 8 mm outside, 6 mm inside, 0.2 m (8 in), for the holes of the wires", 1),
    ("retaining compound for bearings, ISO 10964, medium strength, 10 ml", 1),
    ("thread-locking compound for clutch and grip, ISO 10964, medium strength, 10 ml", 1),
    ("two-part epoxy adhesive for magnets and lamp, 25 ml; alcohol to clean what is glued", 1),
    ("black or grey matt paint for plywood and outline (not on fits or threads), and wood glue, 0.25 l of each", 1),
    ("masking tape; white card, 160 g/m² or heavier, and a clear sleeve for the placard", 1),
    ("spare parts: a belt of each kind, spring, roller, friction discs", 1),
)
"""Bought for every display, and how many."""


def bought(exhibit: Exhibit, assembly: Assembly) -> tuple[tuple[str, int], ...]:
    """Return what is bought besides the parts of the display, by standard, and how many."""
    lamp = exhibit.display.lamp
    supply = f"{text_of(Value('lamp_v', lamp.lamp_v, nominal=True), 'si')} {lamp.supply}"
    duct_m = duct(assembly)
    wire, long = (in_both("length_m", each, 2) for each in (max(2.0, ceil(3.5 * duct_m)), ceil(2.0 * duct_m) / 2.0))
    return (
        (f"fuse IEC 60127-2, 5 × 20 mm, quick-acting, {1e3 * FUSE_A:.0f} mA, with in-line holder; 5 spare fuses", 1),
        (
            (
                "timer K1: programmable timer module with transistor output and one pnp input, "
                f"{supply}, at most {1e3 * TAKEN_A['timer']:.0f} mA, for the program of the wiring page with {PAUSE}"
            ),
            1,
        ),
        (
            f"supply, plug-in, safety extra-low voltage, IEC 62368-1 ES1 and PS1, {supply}, at most {SUPPLY_A:g} A",
            1,
        ),
        (
            (f"wire 0.5 mm² (AWG 20), flexible, {wire} each of red, black, yellow and white, with 24 ferrules 0.5 mm²"),
            4,
        ),
        (
            (
                f"terminal block X1, {2 * POLES} poles, with 2 bridges of {POLES} poles; 6 adhesive cable clips; "
                "heat-shrink sleeve 6.4 mm (1/4 in), 0.3 m (1 ft), for joints and for wires where they pass a gland"
            ),
            1,
        ),
        (
            f"cable duct with lid, adhesive, about 15 × 10 mm (5/8 × 3/8 in), {long}",
            1,
        ),
        (shims(assembly), 1),
        *SUNDRIES,
    )


def duct(assembly: Assembly) -> float:
    """Return the way of the lamp's wires behind the backboard, along its edges. [m]."""
    lamp, box = assembly.part("lamp"), assembly.part("wiring box")
    return abs(lamp.x_m - box.x_m) + abs(lamp.y_m - box.y_m)


def shims(assembly: Assembly) -> str:
    """Return the shim rings that are bought: on the shafts, and below the friction spring."""
    sold = stock(assembly.hardware)
    shaft_m = 2.0 * float(assembly.part("crank shaft").slabs[0].outline_m[:, 0].max())
    standard = "DIN 988" if assembly.hardware == "metric" else "steel"
    screw_m = sold.threads["large"].diameter_m
    sizes = " and ".join(shop_length(each, units_of(assembly.hardware)) for each in (shaft_m, screw_m))
    return f"shim rings {standard}, for {sizes}, 0.1, 0.2, 0.3 and 0.5 mm (0.004, 0.008, 0.012 and 0.02 in), 4 of each"


def program() -> Table:
    """Return what the timer does, a line a change of its input."""
    heads = ["input (sensor)", "since the output last came on", "output (lamp)"]
    return rows("Program of timer K1: all that may happen", heads, STATES)


def joined() -> Table:
    """Return what each terminal is joined to."""
    return rows("Connections", ["terminal", "wire", "leads to"], JOINED)


NOTES = (
    (
        f"Supply G1: plug-in unit with safety extra-low voltage and limited power (IEC 62368-1 ES1 and PS1, or class "
        f"2), at most {SUPPLY_A:g} A. No mains wire enters the display."
    ),
    (
        "Fuse F1 in the positive wire, within 100 mm (4 in) of where it enters. Sensor, timer and lamp take at most "
        f"{1e3 * TAKEN_A['sensor']:.0f}, {1e3 * TAKEN_A['timer']:.0f} and {1e3 * TAKEN_A['lamp']:.0f} mA, together "
        f"{1e3 * sum(TAKEN_A.values()):.0f} mA: the fuse of {1e3 * FUSE_A:.0f} mA holds that for ever, and a short "
        "circuit blows it."
    ),
    (
        "Wire 0.5 mm² (AWG 20), flexible: red positive, black negative, yellow from sensor to timer, white from timer "
        "to lamp. Clamp the cable where it "
        "enters; leave a loop beside the lead plate, which moves."
    ),
    (
        f"Timer K1: terminals 1 plus, 2 minus, 3 input, 4 output. Its program: when the input comes on and {PAUSE} "
        f"have "
        "passed since the output last came on, the output comes on; when the input goes off, the output goes off; "
        "otherwise nothing. So the lamp follows the sensor, but cannot come on again before the pause is over: at most "
        f"{MOST_FLASHES} flashes a second, however fast the shaft is turned. The pause is set to {PAUSE}."
    ),
    (
        "Terminals X1 as in the table below. Fuse, timer and terminals lie in the wiring box behind the backboard; "
        "supply, sensor and lamp each enter by a gland, their wires in a piece of heat-shrink sleeve there. "
        "Polarity: the longer lead of lamp H1 is plus. A light-emitting lamp for the voltage of the supply has its "
        "series resistor built in."
    ),
    (
        "Lead of the supply: cut off its small plug with the supply out of the socket, bare 6 mm (1/4 in) of each "
        "core, put the supply in and find by a multimeter, set to dc volts, which core is plus: a reading without a "
        "minus sign has the red probe on it. Pull the supply out again, mark the core red, and wire it to fuse F1."
    ),
    (
        "Sensor: a light barrier has three leads, positive, negative and signal (an output that switches the positive, "
        "pnp, on while the beam is broken); a lamp switch has two, positive and signal, at its normally open contact."
    ),
    (
        "Try it before the cover is on: no connection between either rail and metal parts; lamp dark while the "
        "roller is down, lit when it is lifted by hand past half lift."
    ),
)
"""Limits: three flashes a second, WCAG 2.2 success criterion 2.3.1; the rest common practice, no source."""


def wiring(assembly: Assembly, lamp_v: float, supply: str) -> View:
    """Return the diagram, about 170 mm wide.

    Parameters
    ----------
    assembly : Assembly
        The display: a light barrier or a lamp switch senses its follower.
    lamp_v : float
        Voltage of the lamp. [V]
    supply : str
        ``dc`` or ``ac``.
    """
    volts = text_of(Value("lamp_v", lamp_v, nominal=True), "si")
    beam = any(part.name == "light barrier" for part in assembly.parts)
    marks = [*_rails(), *_supply(f"{volts} {supply}"), *_fuse(), *_boxes(beam=beam), *_lamp()]
    sensor = "light barrier" if beam else "enclosed change-over switch"
    words = f"Supply of {volts}, fuse in the positive wire, {sensor}, timer, lamp; polarity marked."
    return View(tuple(marks), 1.0, words)


def _line(*points: Point) -> Stroke:
    return Stroke(list(points), "edge")


def _word(text: str, x: float, y: float, anchor: str = "middle") -> Note:
    return Note(text, (x, y), "thin", LETTER_MM, "start" if anchor == "start" else "middle")


def _rails() -> Iterator[Mark]:
    yield _line((18.0, PLUS_MM), (30.0, PLUS_MM))
    yield _line((46.0, PLUS_MM), (158.0, PLUS_MM))
    yield _line((18.0, MINUS_MM), (158.0, MINUS_MM))
    yield _word("+ red", 24.5, PLUS_MM + 3.5)
    yield _word("− black", 27.0, MINUS_MM - 3.5)


def _supply(says: str) -> Iterator[Mark]:
    yield Stroke([(2.0, -6.0), (18.0, -6.0), (18.0, 66.0), (2.0, 66.0)], "cut", closed=True)
    yield Note(f"supply G1, {says}, SELV", (10.0, 30.0), "thin", LETTER_MM, turned_deg=90.0)


def _fuse() -> Iterator[Mark]:
    yield Stroke([(30.0, 57.5), (46.0, 57.5), (46.0, 62.5), (30.0, 62.5)], "cut", closed=True)
    yield _line((30.0, PLUS_MM), (46.0, PLUS_MM))
    yield _word("F1", 38.0, 66.5)


def _boxes(*, beam: bool) -> Iterator[Mark]:
    for left, name, what in (
        (58.0, "B1" if beam else "S1", "light barrier" if beam else "lamp switch"),
        (100.0, "K1", "timer"),
    ):
        yield Stroke([(left, 18.0), (left + 26.0, 18.0), (left + 26.0, 44.0), (left, 44.0)], "cut", closed=True)
        yield _word(name, left + 13.0, 35.0)
        yield _word(what, left + 13.0, 29.0)
        if left > 60.0 or beam:
            yield from (_line((left + 13.0, 44.0), (left + 13.0, PLUS_MM)), *_dot(left + 13.0, PLUS_MM))
            yield from (_line((left + 13.0, 18.0), (left + 13.0, MINUS_MM)), *_dot(left + 13.0, MINUS_MM))
        else:
            yield from (_line((left + 13.0, 44.0), (left + 13.0, PLUS_MM)), *_dot(left + 13.0, PLUS_MM))
    yield _line((84.0, 24.0), (100.0, 24.0))
    yield _word("yellow", 92.0, 27.5)
    yield _line((126.0, 31.0), (146.0, 31.0))
    yield _word("white +", 136.5, 34.5)
    yield from (
        _word(name, x, y)
        for name, x, y in (("1", 116.0, 47.0), ("2", 116.0, 15.0), ("3", 103.0, 21.0), ("4", 123.0, 34.5))
    )
    yield _word("X1.1 to X1.4", 146.0, PLUS_MM + 3.5)
    yield _word("X1.5 to X1.8", 140.0, MINUS_MM - 3.5)


def _dot(x: float, y: float) -> Iterator[Mark]:
    yield Ring((x, y), 1.2, "cut")


def _lamp() -> Iterator[Mark]:
    yield Ring((152.0, 31.0), 12.0, "cut")
    yield _line((147.8, 26.8), (156.2, 35.2))
    yield _line((147.8, 35.2), (156.2, 26.8))
    yield _line((158.0, 31.0), (164.0, 31.0), (164.0, MINUS_MM), (158.0, MINUS_MM))
    yield _word("−", 161.0, 34.5)
    yield _word("lamp H1", 152.0, 41.0)
