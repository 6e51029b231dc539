"""The visitor's own rounds: the timing disc with their marks, how many met a blade, and how many would."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.scenes.timing import timing_disc
from viz.stage.shapes import Block, Rect, Shape, Text
from viz.stage.words import THIN, say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import BladesView, Snapshot

UPRIGHT = 1.6
"""Width over height from which the numbers stand beside the disc."""
LEAST_SHARE = 1e-9
"""Below this share no round meets a blade."""


def tally(snapshot: Snapshot, view: BladesView, side: Rect, layout: Layout) -> list[Shape]:
    """Return the timing disc under its title, with the counters and the chances below or beside it."""
    upright = side.w > UPRIGHT * side.h
    unit, font = layout.unit * (1.4 if upright else 1.0), layout.font
    if upright:
        disc = side._replace(w=side.h)
        words = side._replace(x=disc.right, w=side.right - disc.right)
    else:
        low = 118 * unit * font
        disc = side._replace(h=side.h - low)
        words = side._replace(y=disc.bottom, h=low)
    title = 40 * unit * font
    heading = Rect(disc.x, disc.y, disc.w, title).inset(3 * unit)
    language = snapshot.looks.language
    return [
        Block(disc, "back"),
        Text(heading, say(language, "blades.timing"), "ink", 17 * unit, "center", bold=True),
        *timing_disc(snapshot, view, disc._replace(y=disc.y + title, h=disc.h - title), layout),
        *_numbers(snapshot, view, words, unit=unit, font=font),
    ]


def _numbers(snapshot: Snapshot, view: BladesView, words: Rect, *, unit: float, font: float) -> list[Shape]:
    language = snapshot.looks.language
    row = words._replace(h=min(0.34 * words.h, 40 * unit * font))
    left, right = row._replace(w=0.5 * row.w), row._replace(x=row.x + 0.5 * row.w, w=0.5 * row.w)
    below = words._replace(y=row.bottom, h=words.h - row.h)
    return [
        Block(words, "tag"),
        Text(left.inset(4 * unit), say(language, "blades.rounds", count=view.rounds), "ink", 20 * unit, bold=True),
        Text(
            right.inset(4 * unit),
            say(language, "blades.strikes", count=view.strikes),
            "strike" if view.strikes else "ink",
            20 * unit,
            "right",
            bold=True,
        ),
        Text(below.inset(4 * unit), chances(view, language), "ink_quiet", 17 * unit),
    ]


def chances(view: BladesView, language: str) -> str:
    """Return in words one round out of how many meets a blade, with the gear and without it, at cruise speed."""
    untimed = _out_of(view.untimed_share)
    if math.isnan(view.strike_share):
        return say(language, "blades.chances_free", untimed=untimed)
    if view.strike_share < LEAST_SHARE:
        return say(language, "blades.chances_none", untimed=untimed)
    return say(language, "blades.chances", untimed=untimed, timed=_out_of(view.strike_share))


def _out_of(share: float) -> str:
    """Return one over a share, to one digit where it is large, with thin spaces between thousands."""
    count = 1.0 / share
    return f"{float(f'{count:.1g}') if count >= 20.0 else round(count):,.0f}".replace(",", THIN)
