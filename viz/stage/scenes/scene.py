"""One frame: the scene that is on, the front with its buttons, the caption, and a page laid over them."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage import readings, widgets
from viz.stage.actions import Action
from viz.stage.controls import widgets as front_widgets
from viz.stage.controls import words_rect
from viz.stage.gun_states import trigger_state
from viz.stage.layout import SENTENCE
from viz.stage.scenes import bench, blades, engine, pages, rings, turning
from viz.stage.scenes.attract import attract
from viz.stage.scenes.fire import fire_button
from viz.stage.shapes import Block, Clip, Layer, Rect, Shape, Text
from viz.stage.snapshot import BenchView, BladesView, EngineView, RingsView, TurningView
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.snapshot import Snapshot
    from viz.stage.widgets import Widget


def draw(
    snapshot: Snapshot, layout: Layout, figure: Figure, size: tuple[int, int], *, fresh: bool = True
) -> list[Shape]:
    """Return every shape of a frame, the hindmost first.

    Parameters
    ----------
    snapshot : Snapshot
        What there is to see.
    layout : Layout
        Where it stands.
    figure : Figure
        Shape of the airplanes.
    size : tuple of int
        Window. [px]
    fresh : bool
        Whether nothing of an earlier frame of the same kind is there to be drawn over: see `kind`.
    """
    touched = front_widgets(snapshot, layout)
    if snapshot.overlay:
        return [pages.page(snapshot, layout, size)._replace(still=True), *_front(touched, snapshot, layout)]
    return [
        *([Block(Rect(0, 0, *size), "panel")] if fresh else []),
        *_scene(snapshot, layout, figure),
        *_front(touched, snapshot, layout),
        _caption(snapshot, layout),
        *(attract(snapshot, layout) if layout.front == "attract" else ()),
        _strip(snapshot.looks.language, layout),
    ]


def kind(snapshot: Snapshot, size: tuple[int, int]) -> tuple[object, ...]:
    """Return what must be as it was for a frame to be drawn over the one before without a fresh ground."""
    over = len(snapshot.view.runs) if isinstance(snapshot.view, RingsView) else 0
    return (
        snapshot.scene,
        type(snapshot.view),
        over,
        snapshot.overlay,
        snapshot.front,
        snapshot.looks,
        snapshot.focus,
        size,
    )


@lru_cache(maxsize=8)
def _strip(language: str, layout: Layout) -> Clip:
    """Return the cautions in a line."""
    words = Text(layout.strip, say(language, "overlay.strip"), "ink_quiet", 15 * layout.unit, "center")
    return Clip(layout.strip, (Block(layout.strip, "panel"), words), still=True)


def _scene(snapshot: Snapshot, layout: Layout, figure: Figure) -> list[Shape]:
    view = snapshot.view
    if isinstance(view, TurningView):
        return turning.draw(snapshot, view, layout, figure)
    if isinstance(view, RingsView):
        return rings.draw(snapshot, view, layout, figure)
    if isinstance(view, BenchView):
        return bench.draw(snapshot, view, layout, figure)
    if isinstance(view, EngineView):
        return engine.draw(snapshot, view, layout, figure)
    return blades.draw(snapshot, view, layout, figure)


def _front(touched: tuple[Widget, ...], snapshot: Snapshot, layout: Layout) -> list[Shape]:
    shapes: list[Shape] = []
    unit = layout.unit
    for place, widget in enumerate(touched):
        focused = place == snapshot.focus
        if (
            isinstance(widget, widgets.Button)
            and widget.action is Action.FIRE
            and isinstance(snapshot.view, BladesView)
        ):
            shown = trigger_state(snapshot.view, snapshot.gear)
            shapes.append(_alone(fire_button(widget, shown, unit, focused)))
        elif isinstance(widget, widgets.Button):
            shapes.append(_alone(_button(widget, unit, focused)))
        else:
            room = widget.rect.inset(-2 * unit)
            ground = _ground(room, widgets.still(widget, unit, focused))
            shapes.append(Clip(room, (ground, *widgets.moving(widget, unit))))
    return shapes


@lru_cache(maxsize=64)
def _ground(room: Rect, shapes: tuple[Shape, ...]) -> Layer:
    """Return what of a widget stays, as a picture."""
    return Layer(room, (Block(room, "panel"), *shapes))


def _alone(layer: Layer) -> Clip:
    return Clip(layer.rect, (layer,), still=True)


@lru_cache(maxsize=128)
def _button(button: widgets.Button, unit: float, focused: bool) -> Layer:
    return Layer(button.rect, widgets.still(button, unit, focused))


def _caption(snapshot: Snapshot, layout: Layout) -> Clip:
    """Return what is happening in words, with the pace beside it, or over it in an upright window."""
    unit, language = layout.unit, snapshot.looks.language
    whole = words_rect(snapshot, layout)
    words, side = _pace_apart(whole, layout)
    said = snapshot.caption
    filled = said.values | {name: say(language, key) for name, key in said.words.items()}
    sentence = Text(words, say(language, said.key, **filled), "ink", SENTENCE * unit)
    told = (Text(side, pace, "caution", 16 * unit, "right", bold=True) for pace in _pace(snapshot))
    return Clip(whole, (Block(whole, "tag"), sentence, *told), still=True)


def _pace(snapshot: Snapshot) -> Iterator[str]:
    """Yield the pace in words; on the bench, whose shaft is drawn slower, real time would not be true of all."""
    if snapshot.paused:
        yield say(snapshot.looks.language, "overlay.paused")
    elif not isinstance(snapshot.view, BenchView) or snapshot.pace != 1.0:
        yield readings.pace(snapshot.pace, snapshot.looks.language)


def _pace_apart(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    inner = whole.inset(4 * layout.unit)
    if layout.upright:
        tall = 24 * layout.unit * layout.font
        return inner._replace(y=inner.y + tall, h=inner.h - tall), inner._replace(h=tall)
    wide = 120 * layout.unit * (0.4 + 0.6 * layout.font)
    return inner._replace(w=inner.w - wide - 6 * layout.unit), inner._replace(x=inner.right - wide, w=wide)
