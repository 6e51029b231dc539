"""The front of the stage: every button, slider and stick of a scene, where it stands and what it says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage import readings
from viz.stage.actions import Action
from viz.stage.layout import FINGER
from viz.stage.shapes import Rect
from viz.stage.snapshot import BladesView, TurningView
from viz.stage.widgets import Button, Slider, Stick, Widget
from viz.stage.words import say

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
    if snapshot.overlay == "caution":
        return (_begin(snapshot, layout),)
    if snapshot.overlay == "help":
        return (_back(snapshot, layout),)
    if isinstance(snapshot.view, BladesView):
        return (*_tabs(snapshot, layout), *_at_the_gun(snapshot, snapshot.view, layout))
    return (*_tabs(snapshot, layout), *_bottom(snapshot, layout), *_column(snapshot, layout))


def overlay_button(layout: Layout) -> Rect:
    """Return where the one button of the caution and help pages stands."""
    rect = layout.bottom
    width = 260 * layout.unit
    return rect._replace(x=rect.center[0] - width / 2, w=width)


def _begin(snapshot: Snapshot, layout: Layout) -> Button:
    return Button(overlay_button(layout), Action.LEAVE, say(snapshot.looks.language, "button.begin"), on=True)


def _back(snapshot: Snapshot, layout: Layout) -> Button:
    return Button(overlay_button(layout), Action.HELP, say(snapshot.looks.language, "button.back"), on=True)


def _tabs(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    looks = snapshot.looks
    language = looks.language
    named = [(Action(name), say(language, f"scene.{name}"), name == snapshot.scene) for name in snapshot.scenes]
    named += [
        (Action.LANGUAGE, say(language, "language.name"), False),
        (Action.FONT, say(language, "button.font", step=looks.font + 1), False),
        (Action.CONTRAST, say(language, f"button.contrast_{looks.contrast}"), False),
        (Action.UNITS, say(language, f"button.units_{looks.units}"), False),
        (Action.HELP, say(language, "button.help"), False),
    ]
    widths = (2.0,) * len(snapshot.scenes) + (1.0, 1.0, 1.2, 1.2, 0.8)
    rects = layout.row(layout.top, widths)
    return tuple(Button(rect, action, label, on) for rect, (action, label, on) in zip(rects, named, strict=True))


def _bottom(snapshot: Snapshot, layout: Layout) -> tuple[Button, ...]:
    language = snapshot.looks.language
    keys = ["go_on" if snapshot.paused else "pause", "step", "slower", "faster", "restart"]
    actions = [Action.PAUSE, Action.STEP, Action.SLOWER, Action.FASTER, Action.RESTART]
    if snapshot.scene == "turning":
        keys, actions = [*keys, "maneuver"], [*actions, Action.MANEUVER]
    rects = layout.row(layout.bottom, (1.0,) * 5 + (1.5,) * (len(keys) - 5))
    return tuple(
        Button(rect, action, say(language, f"button.{key}"), on=action is Action.PAUSE and snapshot.paused)
        for rect, key, action in zip(rects, keys, actions, strict=True)
    )


def words_rect(snapshot: Snapshot, layout: Layout) -> Rect:
    """Return where the caption stands: beside the trigger, where there is one."""
    if isinstance(snapshot.view, BladesView) and not snapshot.view.settings:
        return layout.caption._replace(w=trigger(layout).x - 6 * layout.unit - layout.caption.x)
    return layout.caption


def trigger(layout: Layout) -> Rect:
    """Return where the trigger stands, as high as caption and buttons together."""
    wide = TRIGGER * layout.unit * (0.6 + 0.4 * layout.font)
    top = layout.caption.y
    return Rect(layout.caption.right - wide, top, wide, layout.bottom.bottom - top)


def _at_the_gun(snapshot: Snapshot, view: BladesView, layout: Layout) -> tuple[Widget, ...]:
    """Return five things to touch: the trigger and what changes its rounds, or the dials of the gun."""
    language = snapshot.looks.language
    shown = {each.name: each for each in snapshot.sliders}
    if view.settings:
        *dials, back = layout.row(layout.bottom, (1.2,) * len(GUN_DIALS) + (1.0,))
        sliders = (_slider(rect, shown[name], snapshot) for rect, name in zip(dials, GUN_DIALS, strict=True))
        return (*sliders, Button(back, Action.SETTINGS, say(language, "button.settings_back"), on=True))
    fire = trigger(layout)
    row = layout.bottom._replace(w=fire.x - 6 * layout.unit - layout.bottom.x)
    gear, again, speed, change = layout.row(row, (1.5, 1.1, 1.6, 1.1))
    timed = snapshot.gear != "none"
    return (
        Button(fire, Action.FIRE, say(language, "button.fire"), on=view.trigger),
        Button(gear, Action.GEAR, say(language, "button.gear_on" if timed else "button.gear_off"), on=timed),
        Button(again, Action.REPLAY, say(language, "button.replay"), on=view.replay),
        _slider(speed, shown["spin_rad_s"], snapshot),
        Button(change, Action.SETTINGS, say(language, "button.settings")),
    )


def column(snapshot: Snapshot, layout: Layout) -> Rect:
    """Return the column that holds the sliders of the scene."""
    if snapshot.scene == "blades":
        return layout.bottom
    return layout.beside(MIDDLE)[1]


def _column(snapshot: Snapshot, layout: Layout) -> tuple[Widget, ...]:
    tall = max(FINGER, SLIDER * (0.6 + 0.4 * layout.font))
    within = column(snapshot, layout)
    sliders = [view for view in snapshot.sliders if not (snapshot.scene == "turning" and view.name == "pace")]
    stick: tuple[Widget, ...] = ()
    if isinstance(snapshot.view, TurningView):
        _, room, *rects = layout.column(within, (30.0 * layout.font, -1.0, *(tall,) * len(sliders)))
        stick = (_stick(room, snapshot, snapshot.view),)
    else:
        rects = list(layout.column(within, (*(tall,) * len(sliders), -1.0)))
    return (*stick, *(_slider(rect, view, snapshot) for rect, view in zip(rects, sliders, strict=False)))


def _slider(rect: Rect, view: SliderView, snapshot: Snapshot) -> Slider:
    label = say(snapshot.looks.language, f"slider.{view.name}")
    return Slider(rect, view.name, label, readings.slider(view, snapshot.looks), view.share)


def _stick(room: Rect, snapshot: Snapshot, view: TurningView) -> Stick:
    side = min(room.w, room.h)
    square = room._replace(x=room.center[0] - side / 2, y=room.center[1] - side / 2, w=side, h=side)
    push, pull = (say(snapshot.looks.language, f"turning.{way}") for way in ("push", "pull"))
    planes = (("rotary", view.rotary), ("fixed", view.fixed))
    marks = tuple((role, plane.aileron_share, plane.elevator_share) for role, plane in planes)
    return Stick(square, push, pull, view.roll, view.pitch, marks)
