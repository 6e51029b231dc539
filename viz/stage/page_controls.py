"""What can be touched on a page laid over the scene: one button that closes it, and on the menu what it sets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.actions import Action
from viz.stage.widgets import Button
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Rect
    from viz.stage.snapshot import Snapshot

MENU_ROW = 56.0
"""Height of a button of the menu, in units; grows with the letters."""
MENU_WIDE = 420.0
CLOSES = {"devices": Action.DEVICES, "help": Action.HELP, "caution": Action.CAUTIONS, "menu": Action.MENU}


def page_widgets(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    """Return the buttons of the page that is open; the last one closes it."""
    language = snapshot.looks.language
    back = Button(_back(layout), CLOSES[snapshot.overlay], say(language, "button.back"), on=True)
    if snapshot.overlay == "devices":
        whole = layout.strip._replace(y=back.rect.y, h=back.rect.h)
        keys, right = layout.row(whole, (1.0, 1.0))
        return (Button(keys, Action.HELP, say(language, "button.help")), back._replace(rect=right))
    return (*_menu(snapshot, layout), back) if snapshot.overlay == "menu" else (back,)


def page_room(layout: Layout) -> Rect:
    """Return what the window holds over the button that closes a page."""
    top = layout.strip._replace(y=layout.unit * 6.0)
    return top._replace(h=_back(layout).y - 2.0 * top.y)


def _back(layout: Layout) -> Rect:
    wide = min(260 * layout.unit * (0.5 + 0.5 * layout.font), layout.strip.w)
    tall = layout.bottom.h
    return layout.strip._replace(x=layout.strip.center[0] - 0.5 * wide, y=layout.strip.bottom - tall, w=wide, h=tall)


def menu_rows(layout: Layout, count: int) -> tuple[Rect, ...]:
    """Return places under one another in the middle of the window, over the button that closes a page."""
    tall = MENU_ROW * (0.5 + 0.5 * layout.font)
    wide = min(MENU_WIDE * layout.unit * (0.5 + 0.5 * layout.font), layout.strip.w)
    high = (count * tall + (count - 1) * 6.0) * layout.unit
    within = page_room(layout)
    low = 0.94 if layout.upright else 0.6
    first = within._replace(x=within.center[0] - 0.5 * wide, w=wide, y=within.y + low * (within.h - high), h=high)
    return layout.column(first, (-1.0,) * count)


def _menu(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    looks = snapshot.looks
    named = [
        (Action.FONT, f"font_{looks.font + 1}"),
        (Action.CONTRAST, f"contrast_{looks.contrast}"),
        (Action.MOTION, "motion_little" if looks.steady else "motion_full"),
        (Action.UNITS, f"units_{looks.units}"),
        (Action.SOUND, "sound_on" if snapshot.sound else "sound_off"),
        (Action.DEVICES, "devices"),
    ]
    if not snapshot.kiosk:
        named.append((Action.FULLSCREEN, "fullscreen"))
    return tuple(
        Button(rect, action, say(looks.language, f"button.{key}"))
        for rect, (action, key) in zip(menu_rows(layout, len(named)), named, strict=True)
    )
