"""Through the disc: the propeller from the cockpit, with what it blocks, and the round that goes between."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from sim.live.gun import trips_no_cam
from sim.units.text import fixed
from viz.stage.controls import column
from viz.stage.scenes.arcs import polar, sector, way
from viz.stage.scenes.gear import cam_and_follower, gun_line
from viz.stage.scenes.timing import timing_disc
from viz.stage.shapes import Block, Disc, Line, Polygon, Rect, Shape, Text
from viz.stage.words import say

if TYPE_CHECKING:
    from collections.abc import Callable

    from viz.stage.layout import Layout
    from viz.stage.shapes import Point
    from viz.stage.snapshot import BladesView, Snapshot

    Part = Callable[[Snapshot, BladesView, Rect, Layout], list[Shape]]

RING = (0.82, 1.18)
"""Inner and outer edge of the ring of blocked and clear arcs, as shares of the radius of the bore line."""


def draw(snapshot: Snapshot, view: BladesView, layout: Layout) -> list[Shape]:
    """Return the disc, the gun line, the cam, the timing disc and the counters."""
    sliders = column(snapshot, layout)
    gap = 6 * layout.unit
    room = layout.stage._replace(w=sliders.x - gap - layout.stage.x)
    foot = 34 * layout.unit * layout.font
    counters = room._replace(y=room.bottom - foot, h=foot)
    upper = room._replace(h=room.h - foot - gap)
    side = min(upper.h, 0.5 * upper.w)
    front = upper._replace(w=side)
    right = upper._replace(x=front.right + gap, w=upper.w - side - gap)
    line = right._replace(h=0.42 * right.h)
    low = right._replace(y=line.bottom + gap, h=right.h - line.h - gap)
    half = low._replace(w=0.5 * (low.w - gap))
    return [
        *_titled(snapshot, view, front, layout, key="disc", part=disc),
        *_titled(snapshot, view, line, layout, key="line", part=gun_line),
        *_titled(snapshot, view, half, layout, key="cam", part=cam_and_follower),
        *_titled(snapshot, view, half._replace(x=half.right + gap), layout, key="timing", part=timing_disc),
        *_counters(snapshot, view, counters, layout),
    ]


def _titled(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout, *, key: str, part: Part) -> list[Shape]:
    """Return a part of the scene under its title."""
    tall = 42 * layout.unit * layout.font if key in {"timing", "cam"} else 24 * layout.unit * layout.font
    title = rect._replace(h=tall)
    below = rect._replace(y=title.bottom, h=rect.h - tall)
    words = say(snapshot.looks.language, f"blades.{key}")
    return [
        Block(rect, "back"),
        Text(title.inset(2 * layout.unit), words, "ink_quiet", 15 * layout.unit, "center"),
        *part(snapshot, view, below, layout),
    ]


def _counters(snapshot: Snapshot, view: BladesView, foot: Rect, layout: Layout) -> list[Shape]:
    language, unit = snapshot.looks.language, layout.unit
    shown = (
        ("rounds", str(view.rounds), "ink"),
        ("holds", str(view.holds), "ink"),
        ("strikes", str(view.strikes), "strike" if view.strikes else "ink"),
        ("rate", say(language, "value.per_min", number=f"{view.reached_rounds_per_min:.0f}"), "ink"),
    )
    shapes: list[Shape] = []
    for rect, (key, text, role) in zip(layout.row(foot, (1.0, 1.2, 1.0, 1.7)), shown, strict=True):
        inner = rect.inset(4 * unit)
        label = inner._replace(w=0.6 * inner.w)
        shapes += [
            Block(rect, "panel"),
            Text(label, say(language, f"blades.{key}"), "ink_quiet", 15 * unit),
            Text(
                Rect(label.right, inner.y, inner.right - label.right, inner.h),
                text,
                role,
                16 * unit,
                "right",
                bold=True,
            ),
        ]
    return shapes


def disc(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout) -> list[Shape]:
    """Return the propeller from the cockpit: what each blade blocks, the gun line above the shaft, the lead swept."""
    line, unit = view.gun.line, layout.unit
    turn = way(line.rotation)
    centre = rect.center
    scale = 0.46 * min(rect.w, rect.h) / view.disc_radius_m
    bore = view.bore_radius_m * scale
    tip = view.disc_radius_m * scale
    radii = (RING[0] * bore, RING[1] * bore)
    shapes: list[Shape] = [Disc(*centre, tip, "groove", rim=unit)]
    for blade in range(line.blades):
        middle = view.angle_rad + math.tau * blade / line.blades
        half, spacing = 0.5 * line.closed_rad, math.tau / line.blades
        if 2 * half < spacing:
            clear = sector(centre, radii, turn * (middle + half), turn * (middle + spacing - half))
            shapes.append(Polygon(clear, "window", 1.0, view.blur))
        shapes.append(
            Polygon(sector(centre, radii, turn * (middle - half), turn * (middle + half)), "blocked", 1.0, view.blur)
        )
    for blade in range(line.blades):
        outline = _blade(tip, 0.5 * line.blocked_rad * bore)
        turned = _turned(outline, centre, turn * (view.angle_rad + math.tau * blade / line.blades))
        shapes.append(Polygon(turned, "blade", 1.0, view.blur))
    return [
        *shapes,
        Disc(*centre, 0.09 * tip, "steel_dark"),
        *_line_of_fire(view, rect, layout, scale),
        *_sense(centre, tip, turn, unit),
        _lead(snapshot, view, rect, layout),
    ]


def _sense(centre: Point, tip: float, turn: float, unit: float) -> list[Shape]:
    """Return an arrow in the sense in which the propeller turns."""
    start, end = 0.35, 0.85
    angles = [turn * (start + (end - start) * step / 12) for step in range(13)]
    arc = tuple(polar(centre, 0.93 * tip, angle) for angle in angles)
    head = (
        polar(centre, 0.93 * tip, turn * (end + 0.07)),
        polar(centre, 0.96 * tip, turn * (end - 0.02)),
        polar(centre, 0.90 * tip, turn * (end - 0.02)),
    )
    return [Line(arc, "ink_quiet", 3 * unit), Polygon(head, "ink_quiet")]


def _lead(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout) -> Text:
    """Return how far the propeller turns from cam to passage, in words."""
    gun = view.gun
    lead = "—" if trips_no_cam(gun) else fixed("lead_rad", gun.line.lead_rad(gun.spin_rad_s), "si", 0)
    foot = 22 * layout.unit * layout.font
    place = rect._replace(y=rect.bottom - foot, h=foot).inset(2 * layout.unit)
    return Text(place, say(snapshot.looks.language, "blades.lead", lead=lead), "lead", 15 * layout.unit)


@lru_cache(maxsize=8)
def _blade(tip: float, half: float) -> tuple[Point, ...]:
    """Return a blade that points straight up, as points right and up of the shaft axis."""
    shape = ((0.06, 0.4), (0.2, 0.75), (0.45, 1.0), (0.8, 0.85), (0.97, 0.5), (1.0, 0.2))
    right = [(half * width, tip * along) for along, width in shape]
    return (*right, *((-x, y) for x, y in reversed(right)))


def _turned(points: tuple[Point, ...], centre: Point, angle_rad: float) -> tuple[Point, ...]:
    sine, cosine = math.sin(angle_rad), math.cos(angle_rad)
    return tuple((centre[0] + x * cosine + y * sine, centre[1] + x * sine - y * cosine) for x, y in points)


def _line_of_fire(view: BladesView, rect: Rect, layout: Layout, scale: float) -> list[Shape]:
    unit, centre = layout.unit, rect.center
    bore = view.bore_radius_m * scale
    point = polar(centre, bore, 0.0)
    struck = view.last is not None and view.last.struck
    shapes: list[Shape] = [
        Disc(*point, max(0.16 * bore, 5 * unit), "gun_line", rim=3 * unit),
        Disc(*point, 3 * unit, "strike" if struck else "gun_line"),
    ]
    if view.flying and view.blur < 0.5:
        start = view.flying[-1].release_rad
        swept = (view.angle_rad - start) % math.tau
        steps = max(2, math.ceil(swept / 0.08))
        turn = way(view.gun.line.rotation)
        arc = tuple(polar(centre, 1.32 * bore, turn * (start + swept * step / steps)) for step in range(steps + 1))
        shapes.append(Line(arc, "lead", 4 * unit, fade=view.blur))
    return shapes
