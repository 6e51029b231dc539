"""The placard beside the display in every language, for visitors: what they see, what to do, and that it is inert."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.catalogue import languages, locale
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.exhibit import Exhibit, ShownTiming


class Placard(NamedTuple):
    """A placard in the language of that ISO 639-1 code."""

    code: str
    title: str
    paragraphs: tuple[str, ...]


def placards(exhibit: Exhibit) -> tuple[Placard, ...]:
    """Return the placard of a display in each language."""
    return tuple(_placard(exhibit, language) for language in languages())


def _placard(exhibit: Exhibit, language: str) -> Placard:
    lead = text_of(Value("lead_rad", exhibit.display.window.lead_rad, decimals=0), "si")
    said = (say(language, f"placard.{key}", lead=lead) for key in _keys(exhibit))
    return Placard(str(locale(language)), say(language, "placard.title"), tuple(said))


def _keys(exhibit: Exhibit) -> Iterator[str]:
    yield "crank" if exhibit.display.handle.kind == "crank" else "motor"
    yield lamp_key(exhibit.shown)
    yield "lead"
    yield "inert"


def lamp_key(timing: ShownTiming) -> str:
    """Return what the lamp shows: whether rounds may meet a blade counts before how the cam opens.

    ``lamp`` is lit for the whole clear arc, ``part`` for a part of it, ``impulse`` as long as an impulse may come early
    or late, ``meets`` where rounds may meet a blade.
    """
    if timing.clearance_deg < 0.0:
        return "meets"
    if timing.impulses:
        return "impulse"
    return "lamp" if timing.cam.ideal else "part"
