"""One frame: the scene that is on, the front with its buttons, the caption, and a page laid over them."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage import readings, widgets
from viz.stage.actions import Action
from viz.stage.controls import column, words_rect
from viz.stage.controls import widgets as front_widgets
from viz.stage.scenes import blades, engine, pages, turning
from viz.stage.scenes.fire import fire_button
from viz.stage.shapes import Block, Clip, Layer, Rect, Shape, Text
from viz.stage.snapshot import BladesView, EngineView, TurningView
from viz.stage.words import say

if TYPE_CHECKING:
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
        page = _page(snapshot, layout, size)
        return [page, *_front(touched, snapshot, layout)]
    return [
        Block(Rect(0, 0, *size) if fresh else column(snapshot, layout).inset(-2 * layout.unit), "panel"),
        *_scene(snapshot, layout, figure),
        *_front(touched, snapshot, layout),
        *_caption(snapshot, layout),
    ]


def kind(snapshot: Snapshot, size: tuple[int, int]) -> tuple[object, ...]:
    """Return what must be as it was for a frame to be drawn over the one before without a fresh ground."""
    return snapshot.scene, snapshot.overlay, snapshot.looks, snapshot.focus, size


def _page(snapshot: Snapshot, layout: Layout, size: tuple[int, int]) -> Clip:
    language = snapshot.looks.language
    if snapshot.overlay == "help":
        return pages.keys_page(language, size, layout.font, snapshot.scenes)
    return pages.caution(language, snapshot.kiosk, size, layout.font)


def _scene(snapshot: Snapshot, layout: Layout, figure: Figure) -> list[Shape]:
    view = snapshot.view
    if isinstance(view, TurningView):
        return turning.draw(snapshot, view, layout, figure)
    if isinstance(view, EngineView):
        return engine.draw(snapshot, view, layout, figure)
    return blades.draw(snapshot, view, layout, figure)


def _front(touched: tuple[Widget, ...], snapshot: Snapshot, layout: Layout) -> list[Shape]:
    shapes: list[Shape] = []
    for place, widget in enumerate(touched):
        focused = place == snapshot.focus
        if (
            isinstance(widget, widgets.Button)
            and widget.action is Action.FIRE
            and isinstance(snapshot.view, BladesView)
        ):
            told = blades.told_cam(snapshot, snapshot.view)
            shapes.append(fire_button(widget, told, layout.unit, focused))
        elif isinstance(widget, widgets.Button):
            shapes.append(_button(widget, layout.unit, focused))
        else:
            shapes += widgets.still(widget, layout.unit, focused)
            shapes += widgets.moving(widget, layout.unit)
    return shapes


@lru_cache(maxsize=128)
def _button(button: widgets.Button, unit: float, focused: bool) -> Layer:
    return Layer(button.rect, widgets.still(button, unit, focused))


def _caption(snapshot: Snapshot, layout: Layout) -> list[Shape]:
    """Return what is happening in words, with the pace beside it."""
    unit, language = layout.unit, snapshot.looks.language
    wide = 190 * unit * (0.5 + 0.5 * layout.font)
    whole = words_rect(snapshot, layout)
    words = whole._replace(w=whole.w - wide).inset(6 * unit)
    side = Rect(words.right + 6 * unit, words.y, wide - 6 * unit, words.h)
    said = snapshot.caption
    filled = said.values | {name: say(language, key) for name, key in said.words.items()}
    text = say(language, "overlay.attract") if snapshot.attract else say(language, said.key, **filled)
    pace = say(language, "overlay.paused") if snapshot.paused else readings.pace(snapshot.pace, language)
    return [
        Block(whole, "tag"),
        Text(words, text, "ink", 20 * unit),
        Text(side, pace, "caution", 16 * unit, "right", bold=True),
    ]
