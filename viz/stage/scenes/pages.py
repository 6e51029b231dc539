"""The caution page, which comes first, and the help page, made from the one table of keys."""

from __future__ import annotations

from functools import lru_cache

from viz.stage.actions import KEYS, OF_A_GUN, PAD_BUTTONS, Key
from viz.stage.layout import Layout, layout
from viz.stage.shapes import Block, Clip, Rect, Shape, Text
from viz.stage.snapshot import SCENES, SceneName
from viz.stage.words import FALLBACK, captions, say

CAUTIONS = ("estimates", "history", "guard")
NARROW = 3
"""Columns of the help page."""


@lru_cache(maxsize=1)
def caution(language: str, kiosk: bool, size: tuple[float, float], font: float) -> Clip:
    """Return the page that is seen before anything else."""
    window, at = Rect(0, 0, *size), _layout(size, font)
    unit = at.unit
    page = Rect(0.1 * window.w, 0.04 * window.h, 0.8 * window.w, at.bottom.y - 0.05 * window.h)
    keys = CAUTIONS + (("chord",) if kiosk else ())
    title, *rows = at.column(page, (44 * font, *(-1.0 if key != "chord" else -0.5 for key in keys)))
    items: list[Shape] = [
        Block(window, "back"),
        Text(title, say(language, "overlay.caution_title"), "caution", 28 * unit, "center", bold=True),
    ]
    for row, key in zip(rows, keys, strict=True):
        items += [
            Block(row, "panel"),
            Block(row, "panel_edge", rim=unit),
            Text(row.inset(12 * unit), say(language, f"overlay.{key}"), "ink", 23 * unit),
        ]
    return Clip(window, tuple(items))


def _layout(size: tuple[float, float], font: float) -> Layout:
    return layout(int(size[0]), int(size[1]), font)


@lru_cache(maxsize=1)
def keys_page(language: str, size: tuple[float, float], font: float, scenes: tuple[SceneName, ...] = SCENES) -> Clip:
    """Return the page of keys: a row for every key that these scenes use, with the pad's button where there is one."""
    keys = tuple(key for key in KEYS if "blades" in scenes or key.action not in OF_A_GUN)
    window, at = Rect(0, 0, *size), _layout(size, font)
    unit = at.unit
    page = Rect(2 * at.top.x, at.top.y, window.w - 4 * at.top.x, at.bottom.y - 2 * at.top.y)
    title, room = at.column(page, (34 * font, -1.0))
    items: list[Shape] = [
        Block(window, "back"),
        Text(title, say(language, "overlay.help"), "caution", 24 * unit, "center", bold=True),
    ]
    each = -(-len(keys) // NARROW)
    for column, area in enumerate(at.row(room, (1.0,) * NARROW)):
        for row, rect in enumerate(at.column(area, (-1.0,) * each)):
            place = column * each + row
            if place < len(keys):
                items += _key_row(language, keys[place], rect, unit)
    return Clip(window, tuple(items))


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
    return say(language, f"key.{name}") if f"key.{name}" in captions(FALLBACK) else name.upper()
