"""The front of the stage: every button, slider and stick of a scene, where it stands and what it says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage import readings
from viz.stage.actions import Action
from viz.stage.attitude import bank
from viz.stage.bank_pad import BankPad
from viz.stage.layout import FINGER
from viz.stage.page_controls import page_widgets
from viz.stage.ring_controls import ring_widgets
from viz.stage.shapes import Rect
from viz.stage.snapshot import BenchView, BladesView, RingsView, TurningView
from viz.stage.widgets import Button, Slider, Stick, Widget
from viz.words.catalogue import languages, own_name
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import SliderView, Snapshot

SLIDER = 56.0
"""Height of a slider with its words, in units; grows with the letters."""
MIDDLE = 236.0
"""Width of the column of stick and sliders, in units."""
TRIGGER = 190.0
"""Width of the trigger, in units."""
GUN_DIALS = ("blades", "gun_rounds_per_min", "delay_s", "delay_sd_s")
"""Dials that stand in the place of the trigger while the gun is changed."""


def widgets(snapshot: Snapshot, layout: Layout) -> tuple[Widget, ...]:
    """Return everything that can be touched just now, in the order in which the keyboard goes round."""
    if layout.front == "bare":
        return ()
    if layout.front == "attract":
        return _languages(snapshot, layout.row(layout.tools, (1.0,) * len(languages())))
    if snapshot.overlay:
        return page_widgets(snapshot, layout)
    front = (*_tabs(snapshot, layout), *_tools(snapshot, layout))
    if isinstance(snapshot.view, BladesView):
        return (*front, *_at_the_gun(snapshot, snapshot.view, layout))
    if isinstance(snapshot.view, BenchView):
        return (*front, *_at_the_bench(snapshot, snapshot.view, layout))
    if isinstance(snapshot.view, RingsView):
        room = layout.column(column(snapshot, layout), (38.0 * layout.font, -1.0))[1]
        return (*front, *ring_widgets(snapshot, snapshot.view, layout, room))
    return (*front, *_bottom(snapshot, layout), *_column(snapshot, layout))


def _tabs(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    language = snapshot.looks.language
    return tuple(
        Button(rect, Action(name), say(language, f"scene.{name}"), name == snapshot.scene)
        for rect, name in zip(layout.row(layout.top, (1.0,) * len(snapshot.scenes)), snapshot.scenes, strict=True)
    )


def _tools(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    """Return the languages, each by its own name, the page of cautions and that of everything else."""
    language = snapshot.looks.language
    *words, cautions, menu = layout.row(layout.tools, (1.0,) * len(languages()) + (1.1, 0.8))
    return (
        *_languages(snapshot, tuple(words)),
        Button(cautions, Action.CAUTIONS, say(language, "button.cautions")),
        Button(menu, Action.MENU, say(language, "button.menu")),
    )


def _languages(snapshot: Snapshot, rects: tuple[Rect, ...]) -> tuple[Button, ...]:
    return tuple(
        Button(rect, Action.LANGUAGE, own_name(name), name == snapshot.looks.language, name)
        for rect, name in zip(rects, languages(), strict=True)
    )


def _bottom(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    language = snapshot.looks.language
    keys = ["go_on" if snapshot.paused else "pause", "restart"]
    actions = [Action.PAUSE, Action.RESTART]
    pressed = {Action.PAUSE} if snapshot.paused else set()
    if isinstance(snapshot.view, TurningView) and snapshot.view.full:
        keys, actions = ["restart", "to_pilots"], [Action.RESTART, Action.FULL_CONTROL]
    elif isinstance(snapshot.view, TurningView):
        keys = [keys[0], "let_go", "maneuver", "full_control"]
        actions = [Action.PAUSE, Action.LET_GO, Action.MANEUVER, Action.FULL_CONTROL]
        pressed |= {Action.LET_GO} if snapshot.view.hand == "nobody" else set()
    rects = layout.row(layout.bottom, (1.0,) * len(keys))
    return tuple(
        Button(rect, action, say(language, f"button.{key}"), on=action in pressed)
        for rect, key, action in zip(rects, keys, actions, strict=True)
    )


def _at_the_bench(snapshot: Snapshot, view: BenchView, layout: Layout) -> tuple[Widget, ...]:
    """Return the ways to the flight and to the rings, and the pad on which a finger pushes both noses."""
    language = snapshot.looks.language
    left, right = layout.row(layout.bottom, (1.0, 1.0))
    ways = (
        Button(left, Action.TURNING, say(language, "button.fly")),
        Button(right, Action.RINGS, say(language, "button.rings")),
    )
    room = layout.column(column(snapshot, layout), (38.0 * layout.font, -1.0))[1]
    words = _four(language, "bench.up", "bench.down", "bench.left", "bench.right")
    return *ways, Stick(_square(room), words, view.asked_right, -view.asked_up)


def _four(language: str, *keys: str) -> tuple[str, str, str, str]:
    above, below, left, right = (say(language, key) for key in keys)
    return above, below, left, right


def _square(room: Rect) -> Rect:
    side = min(room.w, room.h)
    return room._replace(x=room.center[0] - side / 2, y=room.center[1] - side / 2, w=side, h=side)


def words_rect(snapshot: Snapshot, layout: Layout) -> Rect:
    """Return where the caption stands: beside the trigger, where there is one on its side."""
    beside = isinstance(snapshot.view, BladesView) and not snapshot.view.settings and layout.front == "full"
    if beside and not layout.upright:
        return layout.caption._replace(w=trigger(layout).x - 6 * layout.unit - layout.caption.x)
    return layout.caption


def trigger(layout: Layout) -> Rect:
    """Return where the trigger stands: beside caption and buttons, or over the buttons of an upright window."""
    if layout.upright:
        return layout.panel._replace(h=layout.panel.h - layout.bottom.h - 6 * layout.unit)
    wide = TRIGGER * layout.unit * (0.6 + 0.4 * layout.font)
    top = layout.caption.y
    return Rect(layout.caption.right - wide, top, wide, layout.bottom.bottom - top)


def _at_the_gun(snapshot: Snapshot, view: BladesView, layout: Layout) -> tuple[Widget, ...]:
    """Return five things to touch: the trigger and what changes its rounds, or the dials of the gun."""
    language = snapshot.looks.language
    shown = {each.name: each for each in snapshot.sliders}
    if view.settings:
        *dials, back = _dial_places(layout)
        sliders = (_slider(rect, shown[name], snapshot) for rect, name in zip(dials, GUN_DIALS, strict=True))
        return (*sliders, Button(back, Action.SETTINGS, say(language, "button.settings_back"), on=True))
    fire = trigger(layout)
    gear, again, speed, change = _gun_places(fire, layout)
    timed = snapshot.gear != "none"
    return (
        Button(fire, Action.FIRE, say(language, "button.fire"), on=view.trigger),
        Button(gear, Action.GEAR, say(language, "button.gear_on" if timed else "button.gear_off"), on=timed),
        Button(again, Action.REPLAY, say(language, "button.replay"), on=view.replay),
        _slider(speed, shown["spin_rad_s"], snapshot),
        Button(change, Action.SETTINGS, say(language, "button.settings")),
    )


def _dial_places(layout: Layout) -> tuple[Rect, ...]:
    if layout.upright:
        rows = layout.column(layout.panel, (-1.0, -1.0))
        dials, back = [rect for row in rows for rect in layout.row(row, (1.0, 1.0))], layout.bottom
    else:
        *dials, back = layout.row(layout.bottom, (1.2,) * len(GUN_DIALS) + (1.0,))
    return (*(rect._replace(w=rect.w - 14 * layout.unit) for rect in dials), back)


def _gun_places(fire: Rect, layout: Layout) -> tuple[Rect, ...]:
    if not layout.upright:
        row = layout.bottom._replace(w=fire.x - 6 * layout.unit - layout.bottom.x)
        return layout.row(row, (1.5, 1.1, 1.6, 1.1))
    upper = layout.bottom._replace(y=layout.panel.bottom - layout.bottom.h)
    return (*layout.row(upper, (1.5, 1.1)), *layout.row(layout.bottom, (1.5, 1.1)))


def column(snapshot: Snapshot, layout: Layout) -> Rect:
    """Return where the sliders of the scene stand."""
    if snapshot.scene == "blades":
        return layout.bottom
    return layout.beside(MIDDLE)[1]


def _column(snapshot: Snapshot, layout: Layout) -> tuple[Widget, ...]:
    tall = max(FINGER, SLIDER * (0.6 + 0.4 * layout.font))
    within = column(snapshot, layout)
    sliders = [view for view in snapshot.sliders if not (snapshot.scene == "turning" and view.name == "pace")]
    stick: tuple[Widget, ...] = ()
    if isinstance(snapshot.view, TurningView) and not snapshot.view.full:
        return (_bank_pad(layout.column(within, (38.0 * layout.font, -1.0))[1], snapshot, snapshot.view),)
    if isinstance(snapshot.view, TurningView) and layout.upright:
        low = layout.column(within, (38.0 * layout.font, -1.0))[1]
        room, beside = layout.row(low, (1.0, 2.0))
        rects = list(layout.column(beside, (-1.0,) * len(sliders)))
        stick = (_stick(room, snapshot, snapshot.view),)
    elif isinstance(snapshot.view, TurningView):
        _, room, *rects = layout.column(within, (38.0 * layout.font, -1.0, *(tall,) * len(sliders)))
        stick = (_stick(room, snapshot, snapshot.view),)
    else:
        rects = list(layout.column(within, (*(-1.0 if layout.upright else tall,) * len(sliders), -1.0)))
    return (*stick, *(_slider(rect, view, snapshot) for rect, view in zip(rects, sliders, strict=False)))


def _slider(rect: Rect, view: SliderView, snapshot: Snapshot) -> Slider:
    label = say(snapshot.looks.language, f"slider.{view.name}")
    return Slider(rect, view.name, label, readings.slider(view, snapshot.looks), view.share)


def _bank_pad(room: Rect, snapshot: Snapshot, view: TurningView) -> BankPad:
    tall = min(room.h, room.w)
    rect = room._replace(y=room.center[1] - tall / 2, h=tall)
    words = say(snapshot.looks.language, "turning.bank_pad")
    flown = tuple((role, bank(plane.attitude)) for role, plane in (("rotary", view.rotary), ("fixed", view.fixed)))
    told = view.told_rad if view.hand == "pilot" else bank(view.rotary.attitude)
    return BankPad(rect, words, view.roll, told, flown)


def _stick(room: Rect, snapshot: Snapshot, view: TurningView) -> Stick:
    words = _four(snapshot.looks.language, "turning.push", "turning.pull", "bench.left", "bench.right")
    planes = (("rotary", view.rotary), ("fixed", view.fixed))
    marks = tuple((role, plane.aileron_share, plane.elevator_share) for role, plane in planes)
    return Stick(_square(room), words, view.roll, view.pitch, marks)
