"""Pages laid over a scene: the cautions, the keys, made from the one table of them, and the menu's heading."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage.actions import KEYS, OF_A_GUN, PAD_BUTTONS, Key
from viz.stage.page_controls import page_room
from viz.stage.scenes.devices import devices
from viz.stage.shapes import Block, Clip, Rect, Shape, Text
from viz.stage.snapshot import SCENES, SceneName
from viz.words.catalogue import SOURCE, words
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import Snapshot

CAUTIONS = ("estimates", "history", "guard")


def page(snapshot: Snapshot, layout: Layout, size: tuple[int, int]) -> Clip:
    """Return the page that is open, without its buttons."""
    language = snapshot.looks.language
    if snapshot.overlay == "help":
        return keys_page(language, layout, size, snapshot.scenes)
    if snapshot.overlay == "devices":
        items, room = _titled(say(language, "button.devices"), layout, size)
        return Clip(Rect(0, 0, *size), (*items, *devices(language, room, layout)))
    if snapshot.overlay == "caution":
        return cautions(language, layout, size)
    return menu(language, layout, size)


def _titled(words: str, layout: Layout, size: tuple[int, int]) -> tuple[list[Shape], Rect]:
    """Return the ground with a title, and the room below it."""
    within = page_room(layout)
    title, room = layout.column(within, (44 * layout.font, -1.0))
    ground = Block(Rect(0, 0, *size), "back")
    return [ground, Text(title, words, "caution", 28 * layout.unit, "center", bold=True)], room


@lru_cache(maxsize=1)
def cautions(language: str, layout: Layout, size: tuple[int, int]) -> Clip:
    """Return the page of what whoever builds, shows or flies something has to know."""
    items, room = _titled(say(language, "overlay.caution_title"), layout, size)
    unit = layout.unit
    most = room._replace(x=room.x + 0.06 * room.w, w=0.88 * room.w)
    for row, key in zip(layout.column(most, (-1.0,) * len(CAUTIONS)), CAUTIONS, strict=True):
        items += [
            Block(row, "panel"),
            Block(row, "panel_edge", rim=unit),
            Text(row.inset(12 * unit), say(language, f"overlay.{key}"), "ink", 23 * unit),
        ]
    return Clip(Rect(0, 0, *size), tuple(items))


@lru_cache(maxsize=1)
def menu(language: str, layout: Layout, size: tuple[int, int]) -> Clip:
    """Return the ground of the menu."""
    items, _ = _titled(say(language, "button.menu"), layout, size)
    return Clip(Rect(0, 0, *size), tuple(items))


@lru_cache(maxsize=1)
def keys_page(language: str, layout: Layout, size: tuple[int, int], scenes: tuple[SceneName, ...] = SCENES) -> Clip:
    """Return the page of keys: a row for every key that these scenes use, with the pad's button where there is one."""
    keys = tuple(key for key in KEYS if "blades" in scenes or key.action not in OF_A_GUN)
    items, room = _titled(say(language, "overlay.help"), layout, size)
    columns = 2 if layout.upright else 3
    each = -(-len(keys) // columns)
    for column, area in enumerate(layout.row(room, (1.0,) * columns)):
        for row, rect in enumerate(layout.column(area, (-1.0,) * each)):
            place = column * each + row
            if place < len(keys):
                items += _key_row(language, keys[place], rect, layout.unit)
    return Clip(Rect(0, 0, *size), tuple(items))


def _key_row(language: str, key: Key, rect: Rect, unit: float) -> list[Shape]:
    pad = next(
        (say(language, "overlay.pad", button=button) for button, act in PAD_BUTTONS.items() if act is key.action), ""
    )
    cap = Rect(rect.x, rect.y, 0.27 * rect.w, rect.h)
    words = Rect(cap.right, rect.y, 0.73 * rect.w, rect.h)
    said = say(language, f"action.{key.action.value}") + (f" ({pad})" if pad else "")
    return [
        Block(cap.inset(2 * unit), "button"),
        Text(cap.inset(3 * unit), key_name(language, key.name), "ink", 15 * unit, "center", bold=True),
        Text(words.inset(4 * unit), said, "ink", 15 * unit),
    ]


def key_name(language: str, name: str) -> str:
    """Return what stands on a key in a language; letters and signs stand for themselves."""
    return say(language, f"key.{name}") if f"key.{name}" in words(SOURCE) else name.upper()
