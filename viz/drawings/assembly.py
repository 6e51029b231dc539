"""The order of assembly of the display, step by step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Sentence, Value, say

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit
    from viz.sheets.blocks import Cell

STEPS = (
    "Cut base, lead plate, follower and cam; deburr; drill to the tables of holes. Engrave the blue lines and figures.",
    "Press the bearing into the base so that its outer ring stands {projection} proud on the visitors' side.",
    "Mount the lead plate on that ring; put the clamp screw through the slot and the base, wing nut in front.",
    "Fit the roller to the follower with its pin. {mounting}",
    "Fit the spring between follower and lead plate: when down it presses the roller on the cam with {preload}.",
    (
        "Slide the cam on to the shaft, the face that is drawn towards the visitor. It turns anticlockwise as drawn; "
        "for a propeller that turns the other way, mount every part reversed."
    ),
    (
        "Turn blade 1 on to the painted bore line, turn the cam until its line 0 points to where the roller stands "
        "when it is down, and clamp the cam."
    ),
    "Set the lamp switch to change over at half lift, {half}, with a feeler gauge; it must be an enclosed one.",
    (
        "Check with the lead plate at 0°: the lamp comes on {on} of propeller after the middle of blade 1 has passed "
        "the bore line, and goes out after {lit} more."
    ),
    "Close the guard with screws that need a tool, measure its openings and distances, and sign the checklist.",
)
BEARING_PROJECTION_M = 0.003
SLIDE = "Screw it to the lead plate through its two slots, free to slide."
ARM = "Mount it on the pivot pin of the lead plate."


def assembly(exhibit: Exhibit) -> tuple[Sentence, ...]:
    """Return the steps in order."""
    display = exhibit.display
    window = display.window
    slots: dict[str, Cell] = {
        "projection": Value("bearing_projection_m", BEARING_PROJECTION_M, nominal=True),
        "mounting": SLIDE if display.follower.kind == "translating" else ARM,
        "preload": Value("follower_force_n", exhibit.spring.preload_n, decimals=1),
        "half": Value("lift_m", display.cam.lift_m / 2.0, decimals=1),
        "on": Value("propeller_rad", window.from_rad, decimals=1),
        "lit": Value("propeller_rad", window.to_rad - window.from_rad, decimals=1),
    }
    return tuple(say(step, **slots) for step in STEPS)
