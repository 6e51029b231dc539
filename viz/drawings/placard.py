"""The placard beside the display, for visitors."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Sentence, Value, say

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit, ShownTiming

TITLE = "How could a gun fire between turning blades?"
PARAGRAPHS = (
    "{start} The lamp stands where the gun would have been.",
    "{lamp}",
    (
        "A round needs time: from the moment of release to the moment it passes the blades, the propeller turns on. "
        "At full speed of the engine that was {lead}."
    ),
    (
        "Loosen the wing nut and swing the plate to {lead}. Now the lamp lights early, when the round is released. "
        "{stood}"
    ),
    "Nothing in this display can fire. There is no gun in it, only a lamp.",
)
WHOLE = (
    "While a blade stands in the line of fire, the cam lets the roller down and the lamp is dark. When the way is "
    "clear, the cam lifts the roller and the lamp lights: now a round could pass."
)
PART = (
    "While a blade stands in the line of fire, the cam lets the roller down and the lamp is dark. When the way has "
    "become clear, the cam lifts the roller and the lamp lights: now a round could pass. Some of the way is kept in "
    "reserve, for one cam has to serve at every speed."
)
IMPULSE = (
    "While a blade stands in the line of fire, the cam lets the roller down and the lamp is dark. When the way is "
    "clear, the lamp lights. In the middle of that time a round could pass, released by one push of the cam."
)
MEETS = (
    "The cam lifts the roller and the lamp lights when rounds pass that this cam lets go. Watch the blades: at full "
    "speed of this engine a round could meet one, for this cam was made for other speeds."
)
STOOD = "That is where the cam had to stand for the round to meet the gap."
STRUCK = "To meet the gap, the cam would have had to stand elsewhere."


def placard(exhibit: Exhibit) -> tuple[Sentence, ...]:
    """Return the paragraphs."""
    crank = exhibit.display.handle.kind == "crank"
    start = "Turn the crank." if crank else "Watch the propeller turn."
    lead = Value("lead_rad", exhibit.display.window.lead_rad, decimals=0)
    stood = STRUCK if exhibit.shown.clearance_deg < 0.0 else STOOD
    return tuple(say(text, start=start, lead=lead, lamp=_lamp(exhibit.shown), stood=stood) for text in PARAGRAPHS)


def _lamp(timing: ShownTiming) -> str:
    """Return when the lamp is lit, in a visitor's words."""
    if timing.clearance_deg < 0.0:
        return MEETS
    return IMPULSE if timing.impulses else WHOLE if timing.cam.ideal else PART
