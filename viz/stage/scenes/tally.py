"""The visitor's own rounds: the timing disc with their marks, what those mean, how many there are, and the chances."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.gun_states import guns
from viz.stage.scenes.timing import mark, square, timing_disc
from viz.stage.shapes import Block, Rect, Shape, Text
from viz.words.say import THIN, say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import BladesView, Snapshot

UPRIGHT = 1.6
"""Width over height from which the numbers stand beside the disc."""
ROW = 0.185
"""Height of a line of what the marks mean, over that of all words."""
LEAST_SHARE = 1e-9
"""Below this share no round meets a blade."""


def tally(snapshot: Snapshot, view: BladesView, side: Rect, layout: Layout) -> list[Shape]:
    """Return the timing disc with its title, the counters and the chances below or beside it."""
    unit, font = layout.unit, layout.font
    upright = side.w > UPRIGHT * side.h
    title = (64 if upright else 44) * unit * font
    if upright:
        disc = side._replace(w=side.h)
        words = side._replace(x=disc.right, w=side.right - disc.right)
        heading, words = words._replace(h=title), words._replace(y=words.y + title, h=words.h - title)
    else:
        low = 172 * unit * font
        heading, words = side._replace(h=title), side._replace(y=side.bottom - low, h=low)
        disc = side._replace(y=heading.bottom, h=side.h - low - title)
    language = snapshot.looks.language
    return [
        *timing_disc(snapshot, view, disc, layout),
        Block(heading, "back"),
        Text(heading.inset(3 * unit), say(language, "blades.timing"), "ink", 17 * unit, "center", bold=True),
        *_numbers(snapshot, view, words, layout),
    ]


def _numbers(snapshot: Snapshot, view: BladesView, words: Rect, layout: Layout) -> list[Shape]:
    language, unit = snapshot.looks.language, layout.unit
    tall, size = ROW * words.h, 15 * unit * layout.font
    shapes: list[Shape] = [Block(words, "tag")]
    for place, (role, text) in enumerate(_counted(view, language)):
        row = words._replace(y=words.y + place * tall, h=tall)
        at = row.x + size, row.center[1]
        shapes += [Block(square(*at, size), "blade")] if place == 0 else mark(at, size, struck=place == 2)
        beside = row._replace(x=row.x + 2 * size, w=row.w - 2 * size)
        shapes.append(Text(beside.inset(3 * unit), text, role, 20 * unit, bold=True))
    below = words._replace(y=words.y + 3 * tall, h=(1.0 - 3 * ROW) * words.h)
    return [*shapes, Text(below.inset(3 * unit), chances(view, language), "ink_quiet", 17 * unit)]


def _counted(view: BladesView, language: str) -> tuple[tuple[str, str], ...]:
    """Return roles and words beside a blade's colour, the mark of a round that passed, and that of one that did not."""
    through, strikes = (sum(getattr(each, what) for each in guns(view)) for what in ("through", "strikes"))
    return (
        ("ink", say(language, "blades.blade")),
        ("ink", say(language, "blades.passed", count=through)),
        ("strike" if strikes else "ink", say(language, "blades.strikes", count=strikes)),
    )


def chances(view: BladesView, language: str) -> str:
    """Return in words one round out of how many meets a blade, with the gear and without it, at cruise speed."""
    key, values = chances_told(view)
    return say(language, key, **values)


def chances_told(view: BladesView) -> tuple[str, dict[str, str]]:
    """Return the key of those words, and what is filled in."""
    untimed = _out_of(view.untimed_share)
    if math.isnan(view.strike_share):
        return "blades.chances_free", {"untimed": untimed}
    if view.strike_share < LEAST_SHARE:
        return "blades.chances_none", {"untimed": untimed}
    return "blades.chances", {"untimed": untimed, "timed": _out_of(view.strike_share)}


def _out_of(share: float) -> str:
    """Return one over a share, to one digit where it is large, with thin spaces between thousands."""
    count = 1.0 / share
    return f"{float(f'{count:.1g}') if count >= 20.0 else round(count):,.0f}".replace(",", THIN)
