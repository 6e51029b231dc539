"""Two pages for visitors: why a spinning engine pulled the nose about, and how guns fired between the blades."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.report import answers
from viz.report.blocks import Section
from viz.report.build import told
from viz.report.page import handout_page
from viz.sheets.blocks import Picture, Sentence, Value, say

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block, Cell

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
    """Return the two pages as one HTML file; the first alone for an airplane without a gun."""
    pages = [Section("nose", "Why did a rotary engine turn the nose?", _in_words(told(_nose, found), found))]
    if found.written.has_gun:
        blades = _in_words(told(_blades, found), found)
        pages.append(Section("blades", "How could guns fire between turning blades?", blades))
    return handout_page(found.scenario.title, tuple(pages), found.units)


def _in_words(blocks: Iterable[Block], found: Findings) -> tuple[Block, ...]:
    """Return blocks for people who do not write scenarios: an engine by its words, ``flat_four`` as flat four."""
    keys = found.comparison.powerplants
    return tuple(
        _plain(block, keys)
        if isinstance(block, Sentence)
        else replace(block, alt=_plain(block.alt, keys))
        if isinstance(block, Picture)
        else block
        for block in blocks
    )


def _plain(sentence: Sentence, keys: Collection[str]) -> Sentence:
    def cell(one: Cell) -> Cell:
        if isinstance(one, Sentence):
            return _plain(one, keys)
        return _words(one) if isinstance(one, str) and one in keys else one

    return replace(sentence, slots={slot: cell(one) for slot, one in sentence.slots.items()})


def _words(key: str) -> str:
    return key.replace("_", " ")


def _nose(found: Findings) -> Iterator[Block]:
    named = {_words(key): own for key, own in found.comparison.powerplants.items()}
    yield from told(_airplane, found)
    yield say(TRY)
    yield answers.resistance(found)
    yield answers.turning(found)
    alt = say(
        "Bars for a turn to the left and to the right, one for each engine: {turning}", turning=answers.turning(found)
    )
    yield Picture(
        found.drawings.begin("visitors", replace(found.comparison, powerplants=named)),
        "Gyroscopic moment that the pilot must balance in a 45° turn",
        alt,
    )
    yield answers.pulling(found)
    yield answers.taken(found)


def _airplane(found: Findings) -> Iterator[Block]:
    """Yield the airplane from the side, drawn to scale."""
    answer = found.drawing_most_spin
    alt = say(
        "The airplane from the side, {length} long, with its {engine} engine ahead of the pilot.",
        length=Value("drawn_m", next(one.drawn_m for one in answer.dimensions if one.name == "overall length")),
        engine=answer.powerplant,
    )
    yield Picture(found.drawings.begin("side_view", answer), "The airplane from the side, drawn to scale", alt)


def _blades(found: Findings) -> Iterator[Block]:
    fired = found.burst
    rows = tuple(row for row in found.windows.rows if row.powerplant == fired.powerplant)
    named = tuple(replace(row, powerplant=_words(row.powerplant)) for row in rows)
    yield answers.between_blades(found)
    yield say(LEAD)
    alt = say(
        "Clock faces of the propeller. Inner ring, blue: where blade 1 stands while a round may be released. Outer "
        "ring: where it stands as that round passes, hatched where a blade is in the line of fire. An arrow, the lead, "
        "joins the two."
    )
    yield Picture(
        found.drawings.begin("windows", replace(found.windows, rows=named)),
        "The propeller as a clock face, one for each speed",
        alt,
    )
    yield answers.without_gear(found)
    alt = say("Two propellers and where rounds went through them: {told}", told=answers.without_gear(found))
    yield Picture(
        found.drawings.begin("burst", replace(fired, powerplant=_words(fired.powerplant))),
        "Where rounds go through the propeller, with the gear and without it",
        alt,
    )
    yield answers.firing_rate(found)
    yield say(LAMP)
