"""The gear behind the gun, drawn as a cam that holds a follower up, and the gun line from the side."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from sim.live.gun import wait_rad
from viz.stage.scenes.arcs import polar, way
from viz.stage.scenes.timing import cross
from viz.stage.shapes import Block, Disc, Line, Polygon, Rect, Shape, Text
from viz.stage.words import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import BladesView, Snapshot

MARKS = 96
BASE, LIFT = 0.30, 0.09
"""Base radius and lift of the cam, as shares of the picture."""
RAMP_RAD = math.radians(9.0)
IMPULSE_RAD = math.radians(8.0)


@lru_cache(maxsize=16)
def profile(windows_rad: tuple[tuple[float, float], ...], action: str, turns: int = 1) -> tuple[float, ...]:
    """Return the lift 0..1 at even angles of a cam that turns once in so many turns of the propeller.

    High where an interrupter holds or an impulse is given.
    """
    return tuple(lift(windows_rad, math.tau * mark / MARKS, action, turns) for mark in range(MARKS * turns))


def lift(windows_rad: tuple[tuple[float, float], ...], angle_rad: float, action: str, turns: int = 1) -> float:
    """Return the lift 0..1 of the follower at a propeller angle, for a cam that opens in these windows [rad].

    They come again after so many turns of the propeller.
    """
    period_rad = turns * math.tau
    if action == "impulse":
        middles = (0.5 * (opens + closes) for opens, closes in windows_rad)
        away = min(
            (abs(math.remainder(angle_rad - middle, period_rad)) for middle in middles), default=0.5 * period_rad
        )
        return _ramp((IMPULSE_RAD - away) / RAMP_RAD + 1.0)
    inside = 0.0
    for opens, closes in windows_rad:
        half = 0.5 * (closes - opens)
        away = abs(math.remainder(angle_rad - opens - half, period_rad))
        inside = max(inside, (half - away) / RAMP_RAD)
    return 1.0 - _ramp(inside)


def _ramp(share: float) -> float:
    share = min(max(share, 0.0), 1.0)
    return share * share * (3.0 - 2.0 * share)


def cam_and_follower(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout) -> list[Shape]:
    """Return the cam, which turns once while its windows pass once, and the follower on top of it."""
    unit, side = layout.unit, min(rect.w, rect.h)
    words_high = 24 * unit * layout.font
    size = min(side, rect.h - words_high) * 0.98
    centre = (rect.center[0], rect.bottom - words_high - 0.42 * size)
    windows_rad, action, turn = view.gun.windows_rad, view.gun.line.action, way(view.gun.line.rotation)
    turns = view.gun.cam.period_turns
    outline = tuple(
        polar(centre, size * (BASE + LIFT * high), turn * (view.angle_rad - math.tau * mark / MARKS) / turns)
        for mark, high in enumerate(profile(windows_rad, action, turns))
    )
    top = centre[1] - size * (BASE + LIFT * lift(windows_rad, view.angle_rad, action, turns))
    roller = 0.035 * size
    held = view.holding or (action == "interrupter" and wait_rad(view.gun, view.angle_rad) > 0.0)
    key = "blades.held" if held else "blades.free"
    words = Rect(rect.x, rect.bottom - words_high, rect.w, words_high)
    if snapshot.gear == "none":
        return [Text(words, say(snapshot.looks.language, "blades.none"), "caution", 15 * unit, "center", bold=True)]
    return [
        Polygon(outline, "cam", 1.0, max(0.35, view.blur)),
        Disc(*centre, 0.05 * size, "back"),
        Line(((centre[0], top - 2 * roller), (centre[0], top - 0.16 * size)), "follower", 6 * unit, fade=view.blur),
        Disc(centre[0], top - roller, roller, "follower", fade=view.blur),
        Text(
            words,
            say(snapshot.looks.language, key),
            "caution" if held else "clear",
            15 * unit,
            "center",
            bold=True,
        ),
    ]


def gun_line(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout) -> list[Shape]:
    """Return the line of fire from the side: the gun as a plain box, the disc on edge, and rounds on their way."""
    unit, language = layout.unit, snapshot.looks.language
    words = 24 * unit * layout.font
    field = rect._replace(y=rect.y, h=rect.h - words)
    y = field.y + 0.45 * field.h
    start, disc = field.x + 0.24 * field.w, field.x + 0.84 * field.w
    # the shaft axis lies below the line; half a disc would not fit to scale, so the height is drawn to fill
    axis = field.bottom - 4 * unit
    tall = (axis - y) * view.disc_radius_m / view.bore_radius_m
    shapes: list[Shape] = [
        Block(Rect(field.x + 0.03 * field.w, y - 12 * unit, start - field.x - 0.03 * field.w, 24 * unit), "steel_dark"),
        Line(((start, y), (field.right - 4 * unit, y)), "gun_line", max(1.0, unit), smooth=False),
        Line(((disc, field.y), (disc, axis)), "groove", 2 * unit, smooth=False),
    ]
    for blade in range(view.gun.line.blades):
        height = math.cos(view.angle_rad + math.tau * blade / view.gun.line.blades)
        if height > 0.0:
            top = max(field.y, axis - tall * height)
            shapes.append(Line(((disc, axis), (disc, top)), "blade", 8 * unit, smooth=False, fade=view.blur))
    shapes += _rounds(view, (start, disc, field.right), y, unit)
    foot = rect._replace(y=field.bottom, h=words)
    lamp = Rect(foot.x + 4 * unit, foot.y + 0.2 * foot.h, 0.6 * foot.h, 0.6 * foot.h)
    return [
        *shapes,
        Disc(*lamp.center, 0.5 * lamp.w, "round", fade=0.0 if view.lamp else 0.8),
        Text(
            foot._replace(x=lamp.right + 4 * unit, w=0.45 * foot.w),
            say(language, "blades.lamp"),
            "ink_quiet",
            15 * unit,
        ),
    ]


def _rounds(view: BladesView, ends: tuple[float, float, float], y: float, unit: float) -> list[Shape]:
    """Return a mark for each round: inside the gun until the muzzle, then along the line at its own speed."""
    start, disc, _ = ends
    shapes: list[Shape] = []
    for fired in view.flying:
        if view.time_s < fired.muzzle_s:
            inside = (view.time_s - fired.release_s) / max(fired.muzzle_s - fired.release_s, 1e-6)
            shapes.append(
                Block(
                    Rect(start - 0.9 * (disc - start) * 0.33, y - 5 * unit, 0.3 * (disc - start) * inside, 10 * unit),
                    "round",
                )
            )
        else:
            gone = (view.time_s - fired.muzzle_s) / max(view.gun.line.flight_s, 1e-6)
            shapes.append(Disc(start + gone * (disc - start), y, 6 * unit, "round"))
    return shapes + _gone(view, ends, y, unit)


def _gone(view: BladesView, ends: tuple[float, float, float], y: float, unit: float) -> list[Shape]:
    """Return the last round past the disc while it is in sight, or the mark of its strike."""
    start, disc, edge = ends
    fired = view.last
    if fired is None:
        return []
    if fired.struck:
        return cross((disc, y), 11 * unit, 4 * unit)
    x = disc + (view.time_s - fired.pass_s) / max(view.gun.line.flight_s, 1e-6) * (disc - start)
    return [Disc(x, y, 6 * unit, "round")] if x < edge - 8 * unit else []
