"""What can be touched among the rings: the pad that sets the bank, and three buttons; after the flights two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.actions import Action
from viz.stage.attitude import bank
from viz.stage.bank_pad import BankPad
from viz.stage.widgets import Button
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Rect
    from viz.stage.snapshot import RingsView, Snapshot
    from viz.stage.widgets import Widget


def ring_widgets(snapshot: Snapshot, view: RingsView, layout: Layout, room: Rect) -> tuple[Widget, ...]:
    """Return the buttons, and while somebody flies the pad, in its room."""
    language = snapshot.looks.language
    named = [(Action.RESTART, "restart"), (Action.TURNING, "to_bench")]
    if len(view.runs) > 1:
        return _buttons(named, layout, language)
    named.insert(0, (Action.PAUSE, "go_on" if snapshot.paused else "pause"))
    tall = min(room.h, room.w)
    rect = room._replace(y=room.center[1] - tall / 2, h=tall)
    words = say(language, "turning.bank_pad")
    pad = BankPad(rect, words, view.roll, view.told_rad, ((view.who, bank(view.plane.attitude)),))
    return (*_buttons(named, layout, language, snapshot.paused), pad)


def _buttons(
    named: list[tuple[Action, str]], layout: Layout, language: str, paused: bool = False
) -> tuple[Button, ...]:
    rects = layout.row(layout.bottom, (1.0,) * len(named))
    return tuple(
        Button(rect, action, say(language, f"button.{key}"), on=paused and action is Action.PAUSE)
        for rect, (action, key) in zip(rects, named, strict=True)
    )
