"""The timer of the lamp: what it does, and the program of standard function blocks that makes it do so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.wiring_box import TIMER_M
from sim.display.hand_speed import FLASH_PAUSE_S
from sim.units.text import in_both
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from viz.sheets.blocks import Table

PAUSE = text_of(Value("time_s", FLASH_PAUSE_S, plain=True), "si")
MOST_FLASHES = f"{1.0 / FLASH_PAUSE_S:.2f}"
STATES = (
    ("comes on", f"{PAUSE} or more", "comes on"),
    ("comes on", f"less than {PAUSE}", "stays off, until the input has gone off and comes on again"),
    ("goes off", "any", "goes off"),
    ("stays as it is", "any", "stays as it is"),
)
"""Program of the timer: input, time since the output last came on, output."""
BLOCKS = (
    ("R_TRIG", "CLK", "input"),
    ("RS", "S", "Q of R_TRIG, and not Q of TP"),
    ("RS", "R1", "not input"),
    ("TP", "IN", "Q1 of RS"),
    ("TP", "PT", PAUSE),
)
"""Function block of IEC 61131-3, its input, and what is joined to that; they run in this order."""
OUTPUT_A = 0.02
"""What the output has to give at least: the lamp. [A]"""


def timer(supply: str, most_a: float) -> str:
    """Return what is bought as timer K1.

    Parameters
    ----------
    supply : str
        Voltage and kind, as it is printed.
    most_a : float
        The most that it may take. [A]
    """
    wide, high, deep = (in_both("plate_thickness_m", side, 2) for side in TIMER_M)
    return (
        "timer K1: small programmable controller (logic relay) with the function blocks R_TRIG, RS and TP of "
        "IEC 61131-3, one input for a pnp sensor, one transistor output that switches the positive (pnp, sourcing), at "
        f"least {1e3 * OUTPUT_A:.0f} mA, {supply}, at most {1e3 * most_a:.0f} mA, for a rail TH 35-7.5 of EN 60715, at "
        f"most {wide} wide, {high} high and {deep} deep in front of it; with what loads the program of "
        "the wiring page into it"
    )


def program() -> Table:
    """Return what the timer does, a line a change of its input."""
    heads = ["input (sensor)", "since the output last came on", "output (lamp)"]
    return rows("Program of timer K1: all that may happen", heads, STATES)


def blocks() -> Table:
    """Return the program as function blocks, a line an input."""
    title = "The same as function blocks of IEC 61131-3, run in this order; the output is Q1 of RS"
    return rows(title, ["block", "its input", "is joined to"], BLOCKS)
