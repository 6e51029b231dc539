"""The wiring diagram of the lamp: supply, fuse, sensor, timer and lamp, with polarity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.marks import Note, Ring, Stroke
from viz.drawings.timer import MOST_FLASHES, PAUSE
from viz.drawings.view import View
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from viz.drawings.marks import Mark, Point
    from viz.sheets.blocks import Table

LETTER_MM = 2.0
PLUS_MM, MINUS_MM = 60.0, 0.0
"""Heights of the positive and of the negative rail on paper. [mm]"""
FUSE_A, SUPPLY_A = 0.315, 1.0
"""Rating of the fuse, and the most that the supply gives: below a fuse at 2.1 times its rating blows within half an
hour, IEC 60127-2. [A]"""
TAKEN_A = {"sensor": 0.03, "timer": 0.1, "lamp": 0.02}
"""The most that each may take; what takes more is not bought. [A]"""
POLES = 4
"""Poles of the terminal block on each rail: three plus and four minus wires."""
JOINED = (
    ("X1.1 to X1.4, joined by a bridge: plus", "red", "fuse F1, sensor +, timer terminal 1"),
    ("X1.5 to X1.8, joined by a bridge: minus", "black", "supply −, sensor −, timer terminal 2, lamp −"),
    ("timer terminal 3", "yellow", "signal of the sensor"),
    ("timer terminal 4", "white", "lamp +"),
)
"""Terminal, colour of its wires, and what they lead to."""


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
        "Wire 0.5 mm² (AWG 20), flexible: red positive, black negative, yellow from sensor to timer, white from "
        "timer to lamp. Clamp the cable where it enters. The leads of the sensor hang in a loop from a clip on the "
        "lead plate, beside the sensor, to one beside the hole for the wires, clear of cam and roller at both ends "
        "of the lead; their joints to the wires lie behind the base."
    ),
    (
        "Timer K1: its sheet tells which of its terminals are 1 plus, 2 minus, 3 input and 4 output, which switches "
        "the positive (pnp): one that switches the negative (npn) leaves the lamp dark. By its program, below, the "
        f"lamp follows the sensor, but cannot come on again before the pause is over: at most {MOST_FLASHES} flashes "
        f"a second, however fast the shaft is turned. The pause is set to {PAUSE}."
    ),
    (
        "Terminals X1 as in the table below. Fuse, timer and terminals stand on the mounting rail in the wiring box, "
        "which the two screws of the wiring box hold; supply, sensor and lamp each enter by a gland, their wires in "
        "a piece of heat-shrink sleeve there. "
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


INSIDE = (
    "Inside of the wiring box, lid off, from behind, and from its right: on the mounting rail between two end stops "
    "timer K1, terminals X1 and the holder of fuse F1. Dashed: wires, above and below the timer, and before the "
    "terminals, where the lid leaves room."
)


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
