"""Two pages for visitors: why a spinning engine pulled the nose about, and how guns fired between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report import answers
from viz.report.blocks import Section
from viz.report.build import told
from viz.report.page import handout_page
from viz.sheets.blocks import Picture, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block

TRY = (
    "Try it: hold a spinning bicycle wheel by both ends of its axle, and turn on the spot. The wheel does not simply "
    "turn with you: it tilts. A spinning body reacts at right angles to the way it is turned. A rotary engine is such "
    "a wheel: cylinders and propeller spin together in the nose of the airplane."
)
LEAD = (
    "The round needs time to reach the propeller, which goes on turning. So the gun is released early, by an angle "
    "called the lead: when the round arrives, the blade has passed."
)
LAMP = (
    "A display shows it with a lamp instead of a gun: turn the crank, and the lamp lights while a round could pass. "
    "Nothing in the display can fire."
)


def handout(found: Findings) -> str:
    """Return the two pages as one HTML file."""
    pages = (
        Section("nose", "Why did a rotary engine turn the nose?", tuple(told(_nose, found))),
        Section("blades", "How could guns fire between turning blades?", tuple(told(_blades, found))),
    )
    return handout_page(found.scenario.title, pages, found.units)


def _nose(found: Findings) -> Iterator[Block]:

    yield say(TRY)
    yield answers.resistance(found)
    yield answers.turning(found)
    alt = say(
        "Bars for a turn to the left and to the right, one for each engine: {turning}", turning=answers.turning(found)
    )
    yield Picture(
        found.drawings.begin("visitors", found.comparison),
        "Gyroscopic moment that the pilot must balance in a 45° turn",
        alt,
    )
    yield answers.pulling(found)
    yield answers.taken(found)


def _blades(found: Findings) -> Iterator[Block]:

    yield answers.between_blades(found)
    yield say(LEAD)
    alt = say(
        "Clocks of one turn of the propeller: hatched where a blade blocks the line of fire, blue where a round may be "
        "released."
    )
    yield Picture(
        found.drawings.begin("windows", found.windows),
        "One turn of the propeller as a clock face, one ring for each speed",
        alt,
    )
    yield answers.firing_rate(found)
    yield say(LAMP)
