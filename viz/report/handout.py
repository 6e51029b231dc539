"""Two pages for visitors: why a spinning engine pulled the nose about, and how guns fired between the blades."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.commands.gun_options import HISTORY
from viz.report import answers
from viz.report.blocks import Picture, Section, Text
from viz.report.build import told
from viz.report.page import numbered, template

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.blocks import Block
    from viz.report.findings import Findings

TRY = (
    "Try it: hold a spinning bicycle wheel by both ends of its axle, and turn on the spot. The wheel does not simply "
    "come along, it tilts. What spins answers a push at right angles to it. A rotary engine is such a wheel: cylinders "
    "and propeller turn together in the nose of the airplane."
)
LEAD = (
    "The round needs time, and the propeller turns on meanwhile. So the gun is let go early, by the lead: when the "
    "round arrives, the blade has gone by."
)
LAMP = (
    "A display shows it with a lamp instead of a gun: turn the crank, and the lamp lights while a round could pass. "
    "Nothing in the display can fire."
)


def handout(found: Findings) -> str:
    """Return the two pages as one HTML file."""
    pages = (
        Section("nose", "Why did a spinning engine pull the nose about?", tuple(told(_nose, found))),
        Section("blades", "How could guns fire between turning blades?", tuple(told(_blades, found))),
    )
    return template("handout.html.jinja").render(title=found.scenario.title, pages=pages, shown=numbered(pages))


def _nose(found: Findings) -> Iterator[Block]:
    from viz.figures.visitors import draw

    yield Text(TRY)
    for sentence in (answers.momentum, answers.turning):
        yield Text(sentence(found))
    alt = "Bars for a turn to the left and to the right, one for each engine: " + answers.turning(found)
    yield Picture(draw(found.comparison, found.units), "What the pilot has to hold in a 45° turn", alt)
    yield Text(answers.pulling(found))
    yield Text(answers.taken(found))


def _blades(found: Findings) -> Iterator[Block]:
    from viz.figures.windows import draw

    yield Text(answers.between_blades(found))
    yield Text(LEAD)
    alt = "Clocks of one turn of the propeller: hatched where a blade is in the way, blue where a round may be let go."
    yield Picture(draw(found.windows), "One turn of the propeller as a clock, one ring a speed", alt)
    yield Text(answers.firing_rate(found))
    yield Text(LAMP)
    yield Text(HISTORY, caution=True)
