"""The placard beside the display, for visitors."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Sentence, Value, say

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit

TITLE = "How could a gun fire between turning blades?"
PARAGRAPHS = (
    "{start} The lamp stands where the gun would have been.",
    (
        "While a blade stands in the line of fire, the cam lets the roller down and the lamp is dark. When the way is "
        "clear, the cam lifts the roller and the lamp lights: now a round could pass."
    ),
    (
        "A round needs time: from the moment of release to the moment it passes the blades, the propeller turns on. "
        "At full speed of the engine that was {lead}."
    ),
    (
        "Loosen the wing nut and swing the plate to {lead}. Now the lamp lights early, while the blade is still on its "
        "way through. That is where the cam had to stand for the round to meet the gap."
    ),
    "Nothing in this display can fire. There is no gun in it, only a lamp.",
)


def placard(exhibit: Exhibit) -> tuple[Sentence, ...]:
    """Return the paragraphs."""
    crank = exhibit.display.handle.kind == "crank"
    start = "Turn the crank." if crank else "Watch the propeller turn."
    lead = Value("lead_rad", exhibit.display.window.lead_rad, decimals=0)
    return tuple(say(text, start=start, lead=lead) for text in PARAGRAPHS)
