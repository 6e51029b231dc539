"""What is done in each step in which the whole display is put together, how hard it is screwed, and what is tried."""

from __future__ import annotations

from math import floor, log10
from typing import TYPE_CHECKING

from sim.display.assembly.clutch import crank_slip
from sim.display.assembly.preload import tightenings
from sim.display.hand_speed import CLUTCH_SCATTER
from viz.drawings.items import key, numbers
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.sheets.blocks import Table
    from viz.sheets.format import Units

TEXTS = {
    "Plates and bearings": (
        "Deburr every plate. Ream or bore holes with a class; tap threads in holes drilled to the tables. Set the "
        "bearings into base and rear plate "
        "with retaining compound, flush with the front face, shafts through them until it is hard. Bolt base, "
        "mast, front panel and rear plate together."
    ),
    "Foot and walls": (
        "Screw the foot to the mast and the walls to foot, front panel and each other. The backboard stays off."
    ),
    "Shafts and drive": (
        "Slide the shafts in from the rear with sleeves, pulleys and belts; drill shafts through the bosses of their "
        "pulleys and drive the cross pins until both ends are below the boss. Shafts must turn freely with no play "
        "to be felt along them."
    ),
    "Brake": (
        "On the bench screw the disc to its hub, and glue the magnets to the keepers, opposite poles facing; "
        "keep the keepers far apart: they snap together and pinch. Slide disc and hub on the shaft and drive "
        "the cross pin, then screw keepers and spacers to the rear plate; the disc must not touch a magnet."
    ),
    "Lead plate": (
        "On the bench screw lever post and spring block to the lead plate, from behind. Screw the caps to the "
        "base, and in front of its cap pin the collar of a separate propeller shaft. Lay the thrust washer "
        "and the lead plate on its cap, then the keeper. Set stop bush, friction spring and screw so that the "
        "plate stays where it is put and moves by hand."
    ),
    "Follower, spring and sensor": (
        "Mount the follower on its bushes, free to move with no play to be felt across. Put the spring "
        "between block and seat. Screw on flag, roller and sensor. Set the sensor so that the lamp changes at "
        "half lift, with a feeler gauge below the roller."
    ),
    "Cam": (
        "Pin the hub to the shaft. Turn blade 1 to the bore line (next step), turn the cam until its line 0 "
        "points to where the roller stands when it is down, and screw it to the hub."
    ),
    "Propeller": (
        "Pin its hub to the shaft; screw the propeller between hub and clamp. Balance it until it stays at any angle."
    ),
    "Drive by hand or motor, with slip clutch": (
        "With a crank, screw the grip to its arm first. Pin the flange; put friction discs, driving part, pressure "
        "disc, spring and washer on the shaft in the order of the picture, with thread-locking compound on the "
        "screw. Tighten it until the clutch slips as the test sheet says, measured with a spring balance square to "
        "the arm, and let the compound harden. The washer stays clear of the end of the shaft."
    ),
    "Target, lamp and rear of the guard": (
        "Screw the solid outline of the gun to the backboard and set the lamp into it. Wire as in the "
        "diagram. Screw the backboard to the walls. Clamp the foot to the table, or screw it down."
    ),
    "Cover": (
        "Screw frame and cover to the base with screws that need a tool, the lever post through its slot; "
        "then screw the knob on the post, outside. Measure openings and gaps by the test sheet and sign the "
        "checklist before anyone turns the display."
    ),
}
"""Title of a step -> what is done in it; common practice, no source."""
TESTS = (
    "Turn the shafts by hand through a whole turn at lead 0 and at full lead: nothing touches.",
    "Measure each opening and each gap of the guard: none beyond the limits of the checks.",
    "Turn as fast as can be for one minute: speed below its limit, at most three flashes in 1 s.",
    "Push with 100 N at the top in the worst direction: no leg lifts; clamps tight.",
    "At lead 0 and at full lead the lamp comes on and goes out where the page of the cam says.",
    "Turn the propeller by hand with the lamp's plug out: the roller never leaves the cam.",
)
"""What is tried on the finished display; common practice, no source."""
TIGHTENED = (
    "Threads dry and clean; a screw that has been out is tightened the same again.",
    "The screw of the clutch is set by what it slips at (see the test sheet), not by a torque.",
    (
        "Wood screws: drill the second board through the hole of the first, 2.5 mm (7/64 in) in diameter and as deep "
        "as the screw goes, and turn them in by hand until their heads are flush."
    ),
    "A self-locking nut first takes its own friction: count the torque beyond that.",
)
"""Below the table of torques; common practice, no source."""


def tightening_table(assembly: Assembly) -> Table:
    """Return torque and preload of each kind of screw, and what limits them."""
    found = numbers(assembly)
    kinds = {(screw.name, screw.standard): found[key(screw)] for screw in reversed(assembly.fasteners)}
    lines = (
        (
            ", ".join(str(kinds[kind]) for kind in kinds if kind[0] == one.name and kind[1] == one.standard),
            one.name,
            one.thread,
            Value("tightening_n_m", _rounded(one.tightening_n_m)),
            Value("bolt_preload_n", _rounded(one.bolt_preload_n)),
            one.bears,
        )
        for one in tightenings(assembly)
    )
    heads = ["item", "screw", "thread", "torque", "preload", "limited by"]
    return rows("Most torque of the key, and the preload that it makes, within a third", heads, lines)


def _rounded(number: float) -> float:
    """Return a number rounded down to two digits."""
    step = 10.0 ** (floor(log10(number)) - 1)
    return step * floor(number / step + 1e-9)


def slip(exhibit: Exhibit, units: Units) -> str:
    """Return at which force, or with a motor torque, the clutch is set to slip, and within which band."""
    shown, handle = exhibit.display, exhibit.display.handle
    torque = crank_slip(shown, exhibit.found, exhibit.spring)
    ends = [torque * (1.0 + side * CLUTCH_SCATTER) for side in (-1.0, 0.0, 1.0)]
    if handle.kind == "crank":
        low, middle, high = (text_of(Value("slip_force_n", each / handle.crank_radius_m), units) for each in ends)
        return f"Pull the grip square to its arm with a spring balance: the clutch slips at {middle}, {low} to {high}."
    low, middle, high = (text_of(Value("clutch_n_m", each), units) for each in ends)
    return f"Turn the clutch against its held shaft: it slips at {middle}, {low} to {high}."
